package garment

import (
	"slices"

	"chalkfold/draft/bench"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// Banded is how a band is put on.
type Banded struct {
	Width   unit.Length
	Over    []string // what must be done before the waist is measured
	Elastic bool
	Shaped  bool
	Halved  bool // joined at the edge of the name Join
	Join    string
	Loops   bool // pieces called loop-strip are sewn in
	Places  []bench.Line
}

// Band measures the waist that was made, and puts the band on it.
func (w *Work) Band(b Banded) {
	bands := w.All("waistband")
	read := w.T("Lay the tape along the waist seam line, from one end of the opening to the other, without pulling. Type what you read: the band is marked anew for it.")
	if b.Elastic {
		read = w.T("Lay the tape along the waist seam line, all round, without pulling. Type what you read: the band is marked anew for it.")
	}
	w.Add(bench.Task{
		ID: "measure", Part: bench.Band, Name: w.T("Measure the made-up waist"), After: b.Over, Pieces: []string{"front", "back"},
		Along: Whole("waist", "front", "back"), Minutes: 5, MadeUp: true,
		Do: read,
	})
	w.Add(bench.Task{
		ID: "cut-band", Part: bench.Band, Name: w.T("Cut the band"), After: []string{"measure"}, Pieces: bands, Minutes: 10,
		Do: w.T("Cut the band to its new length and mark on it where each seam comes to lie. Count the marks before you go on."),
	})
	if fuse := w.All("band-interfacing"); len(fuse) > 0 {
		w.Add(bench.Task{
			ID: "fuse-band", Part: bench.Band, Name: w.T("Stiffen the band"), After: []string{"cut-band"}, Pieces: slices.Concat(bands, fuse), Minutes: 8,
			Do:    w.T("Cut the interfacing to the same length. Iron it, or stitch it, to the inside of the half that will lie outside."),
			Press: w.T("Press down without sliding, ten seconds at each place, and let it cool flat."),
		})
	}
	ready := []string{"cut-band", "fuse-band", "band-join", "loops-on"}
	if b.Halved {
		w.Join("band-join", bench.Band, w.T("Join the band"), w.T("Sew both halves of the band together at the centre back. Match the fold."), 5, []string{"cut-band", "fuse-band"}, Whole(b.Join, bands...)...)
	}
	if b.Loops {
		w.Add(bench.Task{
			ID: "loops", Part: bench.Band, Name: w.T("Belt loops"), After: []string{"mark"}, Pieces: []string{"loop-strip"},
			Stitch: bench.Top, Minutes: 15, Press: w.T("Press the strip flat before you cut it."),
			Do: w.T("Fold the strip in three, lengthwise, and stitch along both edges. Cut it into its loops."),
		})
		w.Add(bench.Task{
			ID: "loops-on", Part: bench.Band, Name: w.T("Loops on the waist"), After: append([]string{"loops", "measure"}, b.Over...), Pieces: []string{"loop-strip", "front", "back"}, Lines: b.Places,
			Stitch: bench.Baste, Minutes: 8,
			Do: w.T("Lay each loop at its mark on the waist, upside down, edge on edge. Baste it, so that the waist seam catches it."),
		})
	}
	put := bench.Task{
		ID: "band", Part: bench.Band, Name: w.T("Band to the waist"), After: append(ready, b.Over...), Sews: Whole("waist", w.With("waist")...), Stitch: bench.Seam,
		Allow: w.In.Rules.Length("waist_allowance"), Minutes: 20, Press: w.T("Press the allowances up into the band."),
		Do: w.T("Pin the band to the waist, right sides together, seam mark on seam. Sew along the waist seam; what was basted there is caught in it."),
	}
	end := bench.Task{
		ID: "band-close", Part: bench.Band, Name: w.T("Close the band"), After: []string{"band"}, Stitch: bench.Seam, Allow: w.Seam(), Minutes: 25, Press: w.PressEdge(),
		Do: w.T("Fold the band inside out and sew its ends. Turn it, and fell the inner edge to the waist seam or stitch in its groove from outside."),
	}
	for _, id := range bands {
		p, _ := w.Find(id)
		for _, e := range p.Edges {
			if e.Name != "waist" && (!b.Halved || e.Name != b.Join) {
				end.Sews = append(end.Sews, bench.Run{Piece: id, Edge: e.Name})
			}
		}
	}
	if b.Shaped {
		end.Do = w.T("Lay the inner layer on the outer one and sew ends and upper edge together. Turn it, and fell the inner edge to the waist seam.")
	}
	if b.Elastic {
		w.ring(&put, &end)
		return
	}
	w.Add(put)
	w.Add(end)
	if b.Loops {
		w.Add(bench.Task{
			ID: "loops-up", Part: bench.Band, Name: w.T("Loops up"), After: []string{"band-close"}, Pieces: slices.Concat([]string{"loop-strip"}, bands), Stitch: bench.Top, Minutes: 10,
			Do: w.T("Turn each loop up over the band, its end folded under. Stitch it to the upper edge, back and forth."),
		})
	}
	w.Add(bench.Task{
		ID: "fasten", Part: bench.Finish, Name: w.T("Button or hook"), After: []string{"band-close"}, Pieces: bands, Stitch: bench.ByHand, Minutes: 15,
		Do: w.T("Close the opening and mark where the ends of the band meet. Sew the hook and its bar there, or the buttonhole and its button."),
	})
}

// ring makes an elastic band of what would open.
func (w *Work) ring(put, end *bench.Task) {
	ends := end.Sews[:0:0]
	var inner []bench.Run
	for _, r := range end.Sews {
		if r.Edge == "inner edge" {
			inner = append(inner, r)
		} else {
			ends = append(ends, r)
		}
	}
	w.Join("band-ring", bench.Band, w.T("Band to a ring"), w.T("Sew the ends of the band together. Leave the inner half of that seam open for the elastic."), 5, []string{"cut-band"}, ends...)
	put.After = append(put.After, "band-ring")
	end.Sews, end.Allow, end.Single = inner, 0, true
	end.Do = w.T("Fold the band over to the inside and stitch its inner edge down on the waist seam. The elastic goes in at the gap.")
	w.Add(*put)
	w.Add(*end)
	w.Add(bench.Task{
		ID: "elastic", Part: bench.Finish, Name: w.T("Elastic"), After: []string{"band-close"}, Pieces: w.All("waistband"), Stitch: bench.Seam, Minutes: 10,
		Do: w.F("Draw the elastic in without twisting it, lap its ends by %s and stitch them. Spread the gathers evenly, and close the gap by hand.", w.In.Format.Text(unit.Inch)),
	})
}

// LiningIn puts a lining in, once the garment and the lining are sewn.
func (w *Work) LiningIn(after []string, felled ...bench.Run) {
	w.Add(bench.Task{
		ID: "lining-in", Part: bench.Inside, Name: w.T("Lining in"), After: after, Pieces: []string{"front-lining", "back-lining", "front", "back"}, Sews: felled,
		Along: Whole("waist", "front-lining", "back-lining"), Stitch: bench.Baste, Minutes: 25,
		Do: w.T("Hang the lining in, wrong side to wrong side, its darts folded the other way. Baste it along the waist, and fell it beside the opening."),
	})
}

// TurnHem turns up what is told, so deep, once the rest is sewn.
func (w *Work) TurnHem(do string, deep unit.Length, minutes int, after []string, runs ...bench.Run) {
	t := bench.Task{
		ID: "hem", Single: true, Part: bench.Hem, Name: w.T("Hem"), Do: do, After: after, Sews: runs, Stitch: bench.ByHand, Allow: deep, Minutes: minutes,
		Press: w.T("Press the fold alone, from the inside."),
	}
	if w.Heavy() {
		t.Press = w.T("Press the fold alone, from the inside, with steam and a block of wood: the upper edge must not print through.")
	}
	w.Add(t)
}

// Press is the last task.
func (w *Work) Press(minutes int, after ...string) {
	t := bench.Task{
		ID: "press", Part: bench.Finish, Name: w.T("Last pressing"), After: after, Minutes: minutes, Pieces: []string{"front", "back"},
		Do:    w.T("Take out basting and chalk, and trim the threads. Press all of it under a cloth, and let it hang until it is cool."),
		Press: w.T("From the inside where you can."),
	}
	w.Add(t)
}

// Panels are the darts of one panel.
func Panels(darts []piece.Dart, panel string) []piece.Dart {
	return slices.DeleteFunc(slices.Clone(darts), func(d piece.Dart) bool { return d.Panel != panel })
}
