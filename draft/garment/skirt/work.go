package skirt

import (
	"chalkfold/draft/bench"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// work tells the tasks of a skirt. Their order is common practice.
type work struct {
	*garment.Work
	s *shape
}

// Work tells the tasks by which a skirt is sewn.
func Work(in garment.Input, rec *construct.Record, pieces []piece.Piece, by bench.Setting) []bench.Task {
	w := work{garment.NewWork(in, pieces, by), newShape(rec, in)}
	darts := w.s.darts()
	w.Mark()
	open := garment.Whole("side", "front", "back")
	if w.s.backSeam() {
		open = append(open, garment.Whole("centre", "back")...)
	}
	w.Neaten(nil, open)
	w.Darts("darts-front", w.T("Front darts"), w.T("Press them towards the centre front, over a rounded ham."), garment.Panels(darts, "front"))
	w.Darts("darts-back", w.T("Back darts"), w.T("Press them towards the centre back, over a rounded ham."), garment.Panels(darts, "back"))
	w.back()
	w.sides()
	w.lining()
	w.Band(garment.Banded{Over: []string{"darts-front", "darts-back", "side", "zip", "centre", "lining-in"}})
	deep := w.s.hemAllowance()
	runs := garment.Whole("hem", "front", "back")
	do := w.F("Try the length on. Turn up %s and fell it with loose stitches that do not show outside.", in.Format.Text(deep))
	if w.Has("opening", "vent") {
		runs = append(runs, garment.Whole("vent hem", "back")...)
		do = w.F("Try the length on, turn up %s and fell it loosely. Fold the vent in over it and fell its corners.", in.Format.Text(deep))
	}
	w.TurnHem(do, deep, 35, []string{"side", "centre", "vent", "slit", "band-close", "lining-in"}, runs...)
	w.Press(15, "hem", "fasten", "band-close", "lining-hem")
	return w.Tasks
}

// back is the seam at the centre back with what is open in it: done flat, before
// the sides.
func (w work) back() {
	after := []string{"neaten", "darts-back"}
	if w.s.backSeam() {
		r := bench.Run{Piece: "back", Edge: "centre"}
		do := w.T("Sew the centre back from the top of the opening up. Sew back and forth where it begins.")
		if w.Has("closure", "zip_back") {
			r.To = w.Notched("back", "centre", zipEnd())
			do = w.T("Sew the centre back up to the end of the zip, back and forth at both ends. Baste the rest shut.")
		}
		w.Join("centre", bench.Seams, w.T("Centre back"), do, 12, after, r)
		if r.To > 0 {
			w.Zip([]string{"centre", "darts-back"}, bench.Run{Piece: "back", Edge: "centre", From: r.To})
		}
	}
	if w.Has("opening", "vent") {
		w.Add(bench.Task{
			ID: "vent", Single: true, Part: bench.Opening, Name: w.T("Vent"), After: []string{"centre"}, Sews: append(garment.Whole("vent", "back"), garment.Whole("slanted top of the vent", "back")...),
			Stitch: bench.Seam, Allow: w.Seam(), Minutes: 20, Press: w.T("Press the vent to the left back, as worn, under a cloth."),
			Do: w.T("Turn both edges of the vent in and fell them; clip the right allowance at its top. Lay the left over the right and stitch its slanted top through both."),
		})
	}
}

// sides are the side seams, with their slits.
func (w work) sides() {
	after := []string{"neaten", "darts-front", "darts-back", "centre", "vent"}
	if !w.Has("closure", "zip_side") {
		after = append(after, "zip")
	}
	var runs []bench.Run
	do := w.T("Sew front and back together at the sides, from the waist down, notch on notch. Hold both layers evenly, so that none creeps.")
	for _, id := range parts() {
		if w.Has("closure", "zip_side") {
			runs = append(runs, bench.Run{Piece: id, Edge: "side", On: piece.RightHand}, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, From: w.Notched(id, "side", zipEnd())})
			do = w.T("Sew front and back together at the side, notch on notch. On the left begin at the end of the zip, and baste the rest above it shut.")
		} else {
			runs = append(runs, bench.Run{Piece: id, Edge: "side"})
		}
	}
	w.Join("side", bench.Seams, w.T("Side seams"), do, 15, after, runs...)
	if w.Has("closure", "zip_side") {
		w.Zip([]string{"side"},
			bench.Run{Piece: "front", Edge: "side", On: piece.LeftHand, To: w.Notched("front", "side", zipEnd())},
			bench.Run{Piece: "back", Edge: "side", On: piece.LeftHand, To: w.Notched("back", "side", zipEnd())})
	}
	if slits := w.With("slit", "-lining"); len(slits) > 0 {
		w.Add(bench.Task{
			ID: "slit", Single: true, Part: bench.Seams, Name: w.T("Slit"), After: []string{"side", "centre"}, Sews: garment.Whole("slit", slits...), Stitch: bench.ByHand, Allow: w.s.rule("slit_allowance"), Minutes: 12,
			Do: w.T("Turn both edges of the slit in and fell them. Bar its top from outside, back and forth."), Press: w.PressEdge(),
		})
	}
}

func (w work) lining() {
	if w.Has("lining", "none") {
		return
	}
	both := []string{"front-lining", "back-lining"}
	var seams, felled []bench.Run
	zip := w.zip()
	for _, id := range both {
		if !w.Has("closure", "zip_side") {
			seams = append(seams, bench.Run{Piece: id, Edge: "side"})
			continue
		}
		seams = append(seams, bench.Run{Piece: id, Edge: "side", On: piece.RightHand}, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, From: zip})
		felled = append(felled, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, To: zip})
	}
	if w.s.backSeam() {
		r := bench.Run{Piece: both[1], Edge: "centre"}
		if w.Has("closure", "zip_back") {
			r.To = w.Long(both[1], "centre") - zip
			felled = append(felled, bench.Run{Piece: both[1], Edge: "centre", From: r.To})
		}
		seams = append(seams, r)
	}
	w.Join("lining-seams", bench.Inside, w.T("Lining, seams"), w.T("Sew the seams of the lining a sliver nearer to the edge than they are marked, so that it is never tighter than the skirt. Leave open what the skirt leaves open."), 15, nil, seams...)
	w.Add(bench.Task{
		ID: "lining-hem", Single: true, Part: bench.Inside, Name: w.T("Lining, hem"), After: []string{"lining-seams"}, Sews: append(garment.Whole("hem", both...), garment.Whole("slit", w.liningSlit()...)...), Stitch: bench.Seam,
		Allow: w.s.rule("flared_hem_allowance"), Minutes: 10,
		Do: w.T("Turn the foot of the lining under twice and stitch it, and turn in what stays open below. It hangs free inside the skirt."),
	})
	w.LiningIn([]string{"lining-seams", "side", "centre", "zip"}, felled...)
}

func (w work) liningSlit() []string {
	for _, id := range w.With("slit") {
		if id == "back-lining" {
			return []string{id}
		}
	}
	return nil
}

// zip is how long the opening is.
func (w work) zip() unit.Length {
	if w.Has("closure", "zip_side") {
		return w.Notched("front", "side", zipEnd())
	}
	return w.Long("back", "centre") - w.Notched("back", "centre", zipEnd())
}
