package bodice

import (
	"slices"
	"strings"

	"chalkfold/draft/bench"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
)

// work tells the tasks of a bodice without sleeves. Neck and armholes are sewn
// to what faces them while the sides are open, so that it can be turned (common
// practice).
type work struct {
	*garment.Work
	s      *shape
	facing []string // what faces it: facings or linings, front and back
}

// Work tells the tasks by which a bodice is sewn.
func Work(in garment.Input, rec *construct.Record, pieces []piece.Piece, by bench.Setting) []bench.Task {
	w := work{garment.NewWork(in, pieces, by), newShape(rec, in), []string{"front-facing", "back-facing"}}
	lined := w.Has("finish", "lined")
	if lined {
		w.facing = []string{"front-lining", "back-lining"}
	}
	w.Mark()
	w.darts(lined)
	if !lined {
		open := append(garment.Whole("side", parts()...), garment.Whole("inner edge", w.facing...)...)
		if w.Has("closure", "zip_back") {
			open = append(open, garment.Whole("centre", "back")...)
		}
		w.Neaten(nil, open)
		w.Add(bench.Task{
			ID: "fuse", Name: w.T("Stiffen the facings"), After: []string{"mark"}, Pieces: slices.Clone(w.facing), Minutes: 10,
			Do:    w.T("Cut each facing of the interfacing too. Iron or baste it to the inside of the facing."),
			Press: w.T("Press down without sliding, ten seconds at each place, and let it cool flat."),
		})
	}
	w.edges()
	w.sides()
	w.finish(lined)
	return w.Tasks
}

// darts of the cloth, and of the lining with them.
func (w work) darts(lined bool) {
	var bust, waist []piece.Dart
	for _, d := range w.s.darts() {
		if d.Edge == "waist" {
			waist = append(waist, d)
		} else {
			bust = append(bust, d)
		}
	}
	lining := func(panel string) []string {
		if lined {
			return []string{panel + "-lining"}
		}
		return nil
	}
	press := w.T("Press them down, over a rounded ham.")
	if w.Has("bust_dart", "from_shoulder") {
		press = w.T("Press them towards the neck, over a rounded ham.")
	}
	w.Darts("darts-bust", w.T("Bust darts"), press, bust, lining("front")...)
	w.Darts("darts-front", w.T("Front waist darts"), w.T("Press them towards the centre front, over a rounded ham."), garment.Panels(waist, "front"), lining("front")...)
	w.Darts("darts-back", w.T("Back waist darts"), w.T("Press them towards the centre back, over a rounded ham."), garment.Panels(waist, "back"), lining("back")...)
}

// edges sews shoulders, neck and armholes. With an opening behind the shoulders
// come first, and each half is turned through its shoulder; without one they
// come last.
func (w work) edges() {
	darts := []string{"darts-bust", "darts-front", "darts-back", "neaten", "fuse"}
	all := slices.Concat(parts(), w.facing)
	neck, armhole := garment.Whole("neck", all...), garment.Whole("armhole", all...)
	do := w.T("Sew the shoulders of the bodice, and those of what faces it. Match neck and armhole edges first.")
	first := darts
	if w.Has("closure", "zip_side") {
		do, first = w.T("Sew each shoulder of the bodice through the opening that was left, then close that of its facing by hand. Match neck and armhole edges first."), []string{"neck", "armhole"}
	}
	w.Join("shoulder", bench.Seams, w.T("Shoulder seams"), do, 15, first, garment.Whole("shoulder", all...)...)
	after := append(slices.Clone(darts), "shoulder")
	sew := func(id, name, do string, minutes int, after []string, runs []bench.Run) {
		w.Add(bench.Task{
			ID: id, Part: bench.Seams, Name: name, After: append([]string{"mark"}, after...), Sews: runs, Stitch: bench.Fine, Allow: w.s.rule("curve_allowance"), Minutes: minutes,
			Do: do, Press: w.PressEdge(),
		})
	}
	neckDo, armDo := w.T("Sew the neck to its facing, right sides together. Clip the curve to the stitches, and stitch beside the seam on the facing."), w.T("Sew each armhole to its facing, right sides together, and clip the curve. Draw the back through the shoulders to turn it.")
	if w.Has("closure", "zip_side") {
		after = darts
		neckDo, armDo = w.T("Sew the neck to its facing, right sides together, and stop an allowance short of each shoulder. Clip the curve to the stitches."), w.T("Sew each armhole to its facing, and stop an allowance short of the shoulder. Clip the curve, and turn front and back.")
	}
	sew("neck", w.T("Neck"), neckDo, 15, after, neck)
	sew("armhole", w.T("Armholes"), armDo, 20, append(slices.Clone(after), "neck"), armhole)
}

// sides closes the sides, facing and all, in one go; a zip is set before in the
// back, after in the side.
func (w work) sides() {
	var runs, felled []bench.Run
	all := slices.Concat(parts(), w.facing)
	back := w.Has("closure", "zip_back")
	for _, id := range all {
		panel, _, _ := strings.Cut(id, "-")
		zip := w.Notched(panel, "side", "end of the zip")
		if back || zip >= w.Long(id, "side")-1 {
			runs = append(runs, bench.Run{Piece: id, Edge: "side"})
			continue
		}
		runs = append(runs, bench.Run{Piece: id, Edge: "side", On: piece.RightHand}, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, To: zip})
		felled = append(felled, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, From: zip})
	}
	do := w.T("Sew each side in one go through bodice and facing, the armhole seam matched. Begin at the waist.")
	if !back {
		do = w.T("Sew each side in one go through bodice and facing, the armhole seam matched. On the left leave open what the zip takes, and baste it shut.")
	}
	w.Join("side", bench.Seams, w.T("Side seams"), do, 15, []string{"armhole", "neck", "shoulder", "neaten"}, runs...)
	after := []string{"side"}
	if back {
		felled = garment.Whole("centre", w.With("centre")...)
		after = []string{"armhole", "darts-back"} // which are turned while the halves are apart
	}
	w.Zip(after, felled...)
}

// finish turns the foot in.
func (w work) finish(lined bool) {
	foot := w.s.rule("bodice_foot_allowance")
	runs := garment.Whole("waist", w.With("waist")...)
	do := w.T("Neaten the foot, turn it in and fell it, unless a skirt is sewn to it. Fell the free edge of the facing to seams and darts.")
	if lined {
		do = w.T("Turn the foot of the bodice in, and that of the lining a little shorter. Fell the lining to it, unless a skirt is sewn between.")
	}
	w.TurnHem(do, foot, 20, []string{"side", "zip", "darts-front", "darts-back"}, runs...)
	w.Add(bench.Task{
		ID: "fasten", Part: bench.Finish, Name: w.T("Hook over the zip"), After: []string{"zip", "hem"}, Pieces: []string{"back"}, Stitch: bench.ByHand, Minutes: 8,
		Do: w.T("Sew a small hook above the zip and a thread eye opposite. Close both and see that the edges meet level."),
	})
	w.Press(15, "hem", "fasten")
}
