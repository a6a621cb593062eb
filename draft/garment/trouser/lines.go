package trouser

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/dart"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// lines lays the truings that need the whole shape, then every sew line.
func (d *drafter) lines() error {
	if d.Err() != nil {
		return nil
	}
	d.Part("front")
	darts := d.frontDart()
	if !d.forkOnly {
		d.trued(trueWaist, func() { d.squareFront(darts) })
	}
	d.Part("back")
	if !d.forkOnly && (d.in.Trues(trueWaist) || d.in.Trues(trueSide)) {
		d.squareBack()
	}
	if d.refuse != nil {
		return d.refuse
	}
	marks := d.forkMarks()
	fork := d.forkAt(marks, 0)
	d.trued(trueInseam, func() {
		settled, ok := d.settle(marks)
		if !ok && !d.in.Trues(trueLeg) {
			return // what is wrong is that truing's to mend: the proof names it
		}
		if !ok {
			d.refuse = &garment.Impossible{
				What: d.T("no drop of the back fork tip makes the inseams agree"),
				Mend: d.F("the truing found no answer: change %s", d.T("the thigh drop, the fork parts or the leg widths")),
			}
			return
		}
		fork = settled
		d.Solved("back.tip_drop", d.T("back fork tip dropped"), fork.drop, d.T("found so that the back inseam is as long as the front inseam, less what is stretched"), "inseam_stretch")
		d.Shift("back.fork_tip_dropped", d.T("back fork tip, dropped"), "back.fork_tip", down(d.T("straight down")), "back.tip_drop",
			d.T("until the inseams agree"))
	})
	if d.refuse != nil {
		return d.refuse
	}
	if d.Err() != nil {
		return nil
	}
	if tip, thigh := d.Point("back.fork_tip").Y, d.Point("back.thigh_in").Y; tip > thigh-minStep.MM() {
		return &garment.Impossible{
			What: d.F("the back fork tip drops to %s above the thigh line", d.in.Format.Text(unit.Length(thigh-tip))),
			Mend: d.T("take a smaller back fork, or measure thigh and hip again"),
		}
	}
	d.panelLines("front", fork.frontIn, fork.frontDir)
	if !d.forkOnly {
		d.waistLines("front", darts)
	}
	d.panelLines("back", fork.backIn, fork.backDir)
	if !d.forkOnly {
		d.waistLines("back", d.backDartTo(d.Point("back.waist_side")))
	}
	if d.refuse != nil {
		return d.refuse
	}
	return nil
}

// panelLines lays side, hem, inseam, fork and centre line of one panel.
func (d *drafter) panelLines(part string, inseam geom.Path, tipDir geom.Vec) {
	d.Part(part)
	centre := map[string]string{"front": d.T("centre-front line"), "back": d.T("seat line")}[part]
	start := d.forkMarks().start(part == "back")
	d.Place(part+".fork_start", d.F("top of the %s fork curve", d.T(part)), part+".waist_centre", d.F("down the %s", centre), start,
		d.T("the fork curve begins at the hip line, or above it where the rise is short"))
	top, tip := d.Point(part+".waist_centre"), d.Point(part+".fork_tip")
	d.Curve(part+".centre", centre, geom.Polyline(start, top), d.T("straight"))
	curve, full := d.forkCurve(start, start.Sub(top).Unit(), tip, tipDir)
	d.MaybeTrued(trueFork, func() {
		why := d.T("as the rule")
		if full != d.Get("fork_fullness") {
			why = d.T("rounder than the rule, so that the allowance can follow the hollow")
		}
		d.Ratio(part+".fork_fullness", d.F("%s fork fullness, as drawn", d.T(part)), full, why, "fork_fullness")
		corner := map[string]string{"front": "front.fork_centre", "back": "back.fork_corner"}[part]
		d.Into(part+".fork", d.F("%s fork curve", d.T(part)), geom.Path{curve}, corner, d.T("from the centre line to the fork tip, running on smoothly into the other panel's"), part+".fork_fullness")
	})
	d.Curve(part+".side", d.F("%s side seam", d.T(part)), d.sideMarks(part).path(), d.T("through the side marks"))
	d.Straight(part+".hem", d.F("%s hem", d.T(part)), d.T("square to the crease"), part+".hem_out", part+".hem_in")
	d.Curve(part+".inseam", d.F("%s inseam", d.T(part)), inseam, d.T("from the fork tip through the inside marks"))
	d.Straight(part+".crease", d.F("%s crease", d.T(part)), d.T("on the grain"), part+".crease_fork", part+".crease_hem")
}

// waistLines lays the waist and its dart.
func (d *drafter) waistLines(part string, darts []dart.Shape) {
	d.Part(part)
	centre, side := d.Point(part+".waist_centre"), d.Point(part+".waist_side")
	var w dart.Edge
	if d.in.Trues(trueWaist) {
		dir0 := geom.Vec{X: 1}
		if part == "back" {
			dir0 = d.seatDir().Left()
		}
		w = dart.Squared(centre, dir0, side, sideSquare(d.sideMarks(part).path()), darts)
	} else {
		w = dart.Straight(centre, side, darts)
	}
	if w.Broken {
		d.refuse = &garment.Impossible{
			What: d.F("the %s dart does not lie inside the waist", d.T(part)),
			Mend: d.T("set it nearer the centre, make it narrower, or leave it out"),
		}
		return
	}
	for i, one := range w.Darts {
		d.dartMarks(part, d.dartList(part)[i], one)
	}
	d.MaybeTrued(trueWaist, func() {
		d.Curve(part+".waist", d.F("%s waist", d.T(part)), w.Path, d.T("from the centre to the side; over the dart as it lies when folded to the centre"))
	})
}
