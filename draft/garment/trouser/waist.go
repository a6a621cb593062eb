package trouser

import (
	"math"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// dartShape is a dart before its waist line is drawn: its point, the way its
// middle runs up, and half its angle.
type dartShape struct {
	none  bool
	point geom.Pt
	up    geom.Vec
	half  float64 // radians
}

// newDart sets a dart of the given width and length, its middle from along the
// straight line centre→side.
func newDart(centre, side geom.Pt, from, width, length float64) dartShape {
	along := side.Sub(centre).Unit()
	foot := centre.Add(along.Scale(from))
	return dartShape{point: foot.Add(along.Right().Scale(length)), up: along.Left(), half: math.Atan2(width/2, length)}
}

// waistShape is a waist line, split at its dart.
type waistShape struct {
	left, cap, right geom.Path // cap: over the dart's own cloth
	legs             [2]geom.Pt
	closed           float64 // its length with the dart closed, mm
	broken           bool    // the dart's legs do not cut the waist
}

func (w waistShape) path() geom.Path { return w.left.Join(w.cap, w.right) }

// straightWaist is the waist as it is spoken: one straight line, the dart
// measured on it.
func straightWaist(centre, side geom.Pt, dart dartShape) waistShape {
	if dart.none {
		return waistShape{left: geom.Polyline(centre, side), closed: centre.Dist(side)}
	}
	l, lok := geom.CrossLines(centre, side.Sub(centre), dart.point, dart.up.Rotate(-dart.half))
	r, rok := geom.CrossLines(centre, side.Sub(centre), dart.point, dart.up.Rotate(dart.half))
	if along := side.Sub(centre); !lok || !rok || l.Sub(centre).Dot(along) <= 0 || r.Sub(side).Dot(along) >= 0 {
		return waistShape{broken: true, closed: centre.Dist(side)}
	}
	return waistShape{
		left: geom.Polyline(centre, l), cap: geom.Polyline(l, r), right: geom.Polyline(r, side),
		legs: [2]geom.Pt{l, r}, closed: centre.Dist(l) + r.Dist(side),
	}
}

// squaredWaist draws the waist in one smooth line with the dart folded shut,
// square to the centre line (dir0) and to the side (dir1), and opens it again.
func squaredWaist(centre geom.Pt, dir0 geom.Vec, side geom.Pt, dir1 geom.Vec, dart dartShape) waistShape {
	shut, open := geom.Identity(), geom.Identity()
	if !dart.none {
		shut, open = geom.RotateAbout(dart.point, -2*dart.half), geom.RotateAbout(dart.point, 2*dart.half)
	}
	end, endDir := shut.Pt(side), shut.Vec(dir1)
	h := centre.Dist(end) / 3
	c := geom.Path{{A: centre, B: centre.Add(dir0.Scale(h)), C: end.Add(endDir.Scale(-h)), D: end}}
	if dart.none {
		return waistShape{left: c, closed: c.Len()}
	}
	leg := dart.up.Rotate(-dart.half)
	at := c.CrossLine(dart.point, leg)
	if len(at) == 0 {
		return waistShape{broken: true, closed: c.Len()}
	}
	left, right := c.Split(at[0])
	if left == nil || right == nil {
		return waistShape{broken: true, closed: c.Len()}
	}
	a := left.End()
	b := open.Pt(a)
	w := waistShape{left: left, right: right.Map(open), legs: [2]geom.Pt{a, b}, closed: c.Len()}
	w.cap = w.capFor(dart)
	return w
}

// capFor shapes the cloth between the legs so that, with the dart folded
// towards the centre, its edge lies along the waist line.
func (w waistShape) capFor(dart dartShape) geom.Path {
	across := dart.up.Rotate(-2 * dart.half)
	r := dart.point.Dist(w.legs[0])
	if at := w.left.CrossLine(dart.point, across); len(at) > 0 {
		p, _ := w.left.At(at[len(at)-1])
		r = dart.point.Dist(p)
	}
	return geom.Polyline(w.legs[0], dart.point.Add(dart.up.Scale(r)), w.legs[1])
}

func (d *drafter) frontDart() dartShape {
	if !d.frontDarted {
		return dartShape{none: true}
	}
	return newDart(d.Point("front.waist_centre"), d.Point("front.waist_side"),
		d.Get("front.dart_from"), d.Get("front.dart"), d.Get("front_dart_length"))
}

// backDartTo sets the back dart on the straight line to a side mark.
func (d *drafter) backDartTo(side geom.Pt) dartShape {
	if !d.backDarted {
		return dartShape{none: true}
	}
	return newDart(d.Point("back.waist_centre"), side,
		d.Get("back.dart_from"), d.Get("back.dart"), d.Get("back_dart_length"))
}

// sideSquare is the way along the waist that is square to a side seam.
func sideSquare(side geom.Path) geom.Vec { return side.StartDir().Left() }

// mostRise is the most that a front side is raised, mm.
const mostRise = 25.4

// squareFront raises the front side and shifts it until the waist, dart
// closed, measures what it must.
func (d *drafter) squareFront(dart dartShape) {
	m := d.sideMarks("front")
	lean := 0.0
	if h := m.hip.Y - m.waist.Y; h > 0 {
		lean = (m.hip.X - m.waist.X) / h
	}
	// On the body the waist turns by the lean of the side and by what the closed
	// dart takes in; a fair arc rises half of that, less what opening the dart
	// lets the side drop.
	rise := lean * d.Get("front.waist_width") / 2
	if !dart.none {
		turn := 2 * dart.half
		rise = (lean+turn)*d.Get("waist_part")/2 - turn*(d.Get("front.waist_width")-d.Get("front.dart_from"))
	}
	d.Solved("front.side_rise", d.T("front side raised"), math.Max(0, math.Min(rise, mostRise)),
		d.T("found so that the waist, darts closed, runs fair and meets the leaning side squarely"))
	d.Shift("front.waist_side_raised", d.T("front side at the waist, raised"), "front.waist_side", up(d.T("straight up")), "front.side_rise",
		d.T("the waist must meet the side squarely"))
	centre, want := d.Point("front.waist_centre"), d.Get("waist_part")+d.frontWaistTuck()
	at := d.Point("front.waist_side")
	x, ok := solve(at.X, func(x float64) float64 {
		m.waist = geom.Pt{X: x, Y: at.Y}
		return squaredWaist(centre, geom.Vec{X: 1}, m.waist, sideSquare(m.path()), dart).closed - want
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
		What: d.F("between hip and waist the %s would have to be taken in by %s at the side, more than so short a seam can", d.T(part), d.in.Format.Text(unit.Length(in))),
		Mend: d.F("sew a %s dart or a wider one, or take a narrower waistband", d.T(part)),
	}
	if in < 0 {
		no.What = d.F("between hip and waist the %s would have to go out by %s at the side, more than so short a seam can", d.T(part), d.in.Format.Text(unit.Length(-in)))
		no.Mend = d.T("measure the waist and the hip again, or take the dart away")
	}
	if !d.in.Trues(trueWaist) {
		no.Mend = d.F("%s, or take %q out of what is left untrued", no.Mend, trueWaist)
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
		dir0, want := d.seatDir().Left(), d.Get("waist_part")
		var x float64
		x, settled = solve(start.X, func(x float64) float64 {
			m.waist = level(x)
			return squaredWaist(centre, dir0, m.waist, sideSquare(m.path()), d.backDartTo(m.waist)).closed - want
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

// solve finds x near x0 with f(x) = 0 by the secant rule; false when it does
// not settle within solveTol.
func solve(x0 float64, f func(float64) float64) (float64, bool) {
	const solveTol = 1e-4 // mm
	x1 := x0 + 1
	f0, f1 := f(x0), 0.0
	for range 40 {
		if math.Abs(f0) < solveTol {
			return x0, true
		}
		f1 = f(x1)
		if f1 == f0 {
			return x0, false
		}
		step := f1 * (x1 - x0) / (f1 - f0)
		step = math.Max(-60, math.Min(60, step))
		x0, f0, x1 = x1, f1, x1-step
	}
	return x0, math.Abs(f0) < solveTol
}
