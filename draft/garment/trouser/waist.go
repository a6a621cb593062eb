package trouser

import (
	"math"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/dart"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// frontDart are the darts or pleats of the front.
func (d *drafter) frontDart() []dart.Shape { return d.dartsTo("front", d.Point("front.waist_side")) }

// backDartTo sets the back darts on the straight line to a side mark.
func (d *drafter) backDartTo(side geom.Pt) []dart.Shape { return d.dartsTo("back", side) }

// sideSquare is the way along the waist that is square to a side seam.
func sideSquare(side geom.Path) geom.Vec { return side.StartDir().Left() }

// mostRise is the most that a front side is raised, mm.
const mostRise = 25.4

// squareFront raises the front side and shifts it until the waist, dart
// closed, measures what it must.
func (d *drafter) squareFront(darts []dart.Shape) {
	m := d.sideMarks("front")
	lean := 0.0
	if h := m.hip.Y; h > 0 { // below the waist line, whatever this side alone is lifted by
		lean = (m.hip.X - m.waist.X) / h
	}
	// On the body the waist turns by the lean of the side and by what the closed
	// dart takes in; a fair arc rises half of that, less what opening the dart
	// lets the side drop.
	rise := lean * d.Get("front.waist_width") / 2
	if len(darts) > 0 {
		turn, drop := 0.0, 0.0
		for i, one := range darts {
			turn += 2 * one.Half
			drop += 2 * one.Half * (d.Get("front.waist_width") - d.Get(d.dartList("front")[i].from))
		}
		rise = (lean+turn)*d.Get(d.waistOf("front"))/2 - drop
	}
	d.Solved("front.side_rise", d.T("front side raised"), math.Max(0, math.Min(rise, mostRise)),
		d.T("found so that the waist, darts closed, runs fair and meets the leaning side squarely"))
	d.Shift("front.waist_side_raised", d.T("front side at the waist, raised"), "front.waist_side", up(d.T("straight up")), "front.side_rise",
		d.T("the waist must meet the side squarely"))
	centre, want := d.Point("front.waist_centre"), d.Get(d.waistOf("front"))+d.frontWaistTuck()
	at := d.Point("front.waist_side")
	x, ok := dart.Solve(at.X, func(x float64) float64 {
		m.waist = geom.Pt{X: x, Y: at.Y}
		return dart.Squared(centre, geom.Vec{X: 1}, m.waist, sideSquare(m.path()), darts).Closed - want
	})
	if !ok {
		d.refuseSide("front", m.hip.X-x)
		return
	}
	d.Move("front.waist_side_kept", d.T("front side at the waist, waist kept"), "front.waist_side", d.T("level"), geom.Pt{X: x, Y: at.Y},
		d.T("until the waist line, dart closed, measures the waist of one panel"))
}

// refuseSide says that no side seam can take up what hip and waist differ by:
// by so much it would come in from hip to waist or, less than none, go out. Where
// the waist is not squared, that would bring the side nearer.
func (d *drafter) refuseSide(part string, in float64) {
	no := &garment.Impossible{
		What:  d.F("between hip and waist the %s would have to be taken in by %s at the side, more than so short a seam can", d.T(part), d.in.Format.Text(unit.Length(in))),
		Mend:  d.F("sew a %s dart or a wider one, or take a narrower waistband", d.T(part)),
		Mends: []piece.Mend{garment.Choose(part+"_dart", "sewn")},
	}
	if part == "back" {
		no.Mends = append(no.Mends, garment.Choose("back_dart", "two"))
	}
	if in < 0 {
		no.What = d.F("between hip and waist the %s would have to go out by %s at the side, more than so short a seam can", d.T(part), d.in.Format.Text(unit.Length(-in)))
		no.Mend = d.T("measure the waist and the hip again, or take the dart away")
		no.Mends = []piece.Mend{garment.Choose(part+"_dart", "none")}
	}
	if !d.in.Trues(trueWaist) {
		no.Mend = d.F("%s, or take %q out of what is left untrued", no.Mend, trueWaist)
		no.Mends = append(no.Mends, garment.SwitchOn(trueWaist))
	}
	d.refuse = no
}

func (d *drafter) frontWaistTuck() float64 {
	if d.has("crease", "tuck") && !d.frontDarted {
		return d.Get("tuck_cloth")
	}
	return 0
}

// squareBack finds the back side mark for which the waist, dart closed, and
// the side seam both measure what they must; either can be left as it is.
func (d *drafter) squareBack() {
	m := d.sideMarks("back")
	start, centre := m.waist, d.Point("back.waist_centre")
	sideLen := d.sideMarks("front").path().Len()
	level := func(x float64) geom.Pt {
		p := geom.Pt{X: x, Y: start.Y}
		if !d.in.Trues(trueSide) {
			return p
		}
		for range 12 {
			m.waist = p
			err := m.path().Len() - sideLen
			p.Y = math.Min(p.Y+err, m.hip.Y-minStep.MM())
			if math.Abs(err) < 1e-4 {
				break
			}
		}
		return p
	}
	to, settled := start, true
	if d.in.Trues(trueWaist) {
		dir0, want := d.seatDir().Left(), d.Get(d.waistOf("back"))
		var x float64
		x, settled = dart.Solve(start.X, func(x float64) float64 {
			m.waist = level(x)
			return dart.Squared(centre, dir0, m.waist, sideSquare(m.path()), d.backDartTo(m.waist)).Closed - want
		})
		to = level(x)
	} else {
		to = level(start.X)
	}
	if !settled || to.Y > m.hip.Y-2*minStep.MM() {
		d.refuseSide("back", m.hip.X-to.X)
		return
	}
	rise := start.Y - to.Y
	d.trued(trueSide, func() {
		d.Solved("back.side_rise", d.T("back side raised"), rise, d.T("found so that the back side is as long as the front side"))
		d.Shift("back.waist_side_level", d.T("back side at the waist, up or down"), "back.waist_side", up(d.T("up")), "back.side_rise",
			d.T("until the back side is as long as the front side"))
	})
	d.trued(trueWaist, func() {
		d.Move("back.waist_side_kept", d.T("back side at the waist, waist kept"), "back.waist_side", d.T("level"), geom.Pt{X: to.X, Y: d.Point("back.waist_side").Y},
			d.T("until the waist line, dart closed, measures the waist of one panel"))
	})
}
