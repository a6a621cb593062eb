package trouser

import (
	"slices"

	"chalkfold/draft/bench"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// work tells the tasks of a pair of trousers. Their order is common practice:
// what is easier flat is done flat, so pockets and darts before the side seam,
// the fly before the legs are closed, the seat last.
type work struct {
	*garment.Work
	s *shape
}

// Work tells the tasks by which trousers are sewn.
func Work(in garment.Input, rec *construct.Record, pieces []piece.Piece, by bench.Setting) []bench.Task {
	w := work{garment.NewWork(in, pieces, by), newShape(rec, in)}
	w.prepare()
	w.shaping()
	w.sidePockets()
	w.backPockets()
	w.fly()
	w.legs()
	w.seat()
	w.zip()
	w.lining()
	w.Band(garment.Banded{
		Over:    []string{"darts-front", "darts-back", "folds", "tuck", "mouth", "bag", "seat", "fly", "zip", "lining-in", "welt-bag"},
		Elastic: w.Has("closure", "elastic"), Shaped: w.Has("band", "shaped"), Halved: w.s.bandHalved(), Join: bandJoin,
		Loops: in.Rules.Number("belt_loops") > 0, Places: w.loopPlaces(),
	})
	w.finish()
	return w.Tasks
}

func (w work) prepare() {
	w.Mark()
	if w.s.rec.Has("back.join") {
		w.Join("piece-fork", bench.Prepare, w.T("Let in the fork piece"), w.T("Sew the piece of the back fork to the back, notch on notch. From here on the two are one."), 8, nil, garment.Whole(joined, "back", "back-fork")...)
	}
	var open []bench.Run
	for _, e := range []string{"side", "inseam", "fork", "centre"} {
		open = append(open, garment.Whole(e, w.With(e, "-lining", "-facing", "-bag-front", "-bag-back")...)...)
	}
	w.Neaten([]string{"piece-fork"}, open)
}

// shaping is what is taken in at the waist, and the tuck in the crease.
func (w work) shaping() {
	darts := w.s.darts()
	front := garment.Panels(darts, "front")
	if w.Has("front_dart", "sewn") {
		w.Darts("darts-front", w.T("Front darts"), w.T("Press them towards the centre front, over a rounded ham."), front)
	} else if len(front) > 0 {
		w.folds(front)
	}
	w.Darts("darts-back", w.T("Back darts"), w.T("Press them towards the centre back, over a rounded ham."), garment.Panels(darts, "back"), w.forkPiece()...)
	if w.Has("crease", "tuck") {
		deep := w.In.Format.Text(w.s.rule("crease_tuck"))
		w.Add(bench.Task{
			ID: "tuck", Part: bench.Shaping, Name: w.T("Stitched crease"), After: []string{"mark", "darts-front", "darts-back", "folds"}, Pieces: []string{"front", "back"},
			Lines: []bench.Line{{Piece: "front", Path: w.s.crease("front")}, {Piece: "back", Path: w.s.crease("back")}}, Stitch: bench.Fine, Minutes: 30,
			Do:    w.F("Fold each leg piece at its crease, wrong side inside, and press the fold sharp. Stitch %s from the fold, all along: now, while it lies flat.", deep),
			Press: w.T("Press it once more as it was stitched, then open the piece."),
		})
	}
}

// folds are pleats and pressed darts, which are not sewn.
func (w work) folds(front []piece.Dart) {
	t := bench.Task{
		ID: "folds", Part: bench.Shaping, Name: w.T("Pleats"), After: []string{"mark"}, Pieces: []string{"front"}, Lines: garment.DartLines(front),
		Stitch: bench.Baste, Minutes: 6 * len(front), Do: w.T("Fold each pleat on its line to the centre front. Baste it across the waist, so that the waist seam catches it."),
		Press: w.T("Press only as far down as it is marked."),
	}
	if w.Has("front_dart", "pressed") {
		t.Name, t.Do = w.T("Pressed darts"), w.T("Fold each dart on its middle to the centre front, and do not sew it. Baste it across the waist, so that the waist seam catches it.")
		t.Press = w.T("Press it from the waist to its point, where it runs out in the crease.")
	}
	w.Add(t)
}

func (w work) forkPiece() []string { return w.All("back-fork") }

// sidePockets are done before the side seam, which catches them.
func (w work) sidePockets() {
	switch {
	case w.s.slanted():
		w.slantPockets()
	case w.Has("pocket", "seam"):
		w.seamPockets()
	}
}

func (w work) bagFacings(ids ...string) {
	w.Add(bench.Task{
		ID: "facings", Part: bench.Pockets, Name: w.T("Facings onto the bags"), After: []string{"mark"}, Pieces: append(ids, "pocket-bag-front", "pocket-bag-back"), Stitch: bench.Seam, Minutes: 12,
		Do: w.T("Lay each facing on its bag, right side up, edge on edge at waist and side. Stitch it down along its inner edge."),
	})
}

// bagFoot closes the bags below and within.
func (w work) bagFoot(part bench.Part, after ...string) {
	bags := []string{"pocket-bag-front", "pocket-bag-back"}
	w.Add(bench.Task{
		ID: "bag", Part: part, Name: w.T("Close the pocket bags"), After: after, Pieces: []string{"front"}, Sews: append(garment.Whole("foot", bags...), garment.Whole("inner edge", bags...)...),
		Stitch: bench.Seam, Allow: w.Seam(), Minutes: 12,
		Do: w.T("Sew the two bags together along inner edge and foot, twice. Keep the front out of the way; then baste the bag to the waist."),
	})
}

func (w work) slantPockets() {
	w.bagFacings("pocket-mouth-facing", "side-facing")
	w.Add(bench.Task{
		ID: "mouth", Part: bench.Pockets, Name: w.T("Pocket mouths"), After: []string{"mark", "facings", "darts-front", "folds", "tuck"},
		Sews: garment.Whole("pocket mouth", "front", "pocket-mouth-facing", "pocket-bag-front"), Stitch: bench.Seam, Allow: w.Seam(), Minutes: 15,
		Do:    w.T("Lay the faced bag on the front, right sides together, and sew the mouth with a tape in the seam. Clip the curve, turn the bag in and stitch beside the edge."),
		Press: w.PressEdge(),
	})
	w.bagFoot(bench.Pockets, "mouth")
}

func (w work) seamPockets() {
	w.bagFacings("pocket-facing")
	t := bench.Task{
		ID: "mouth", Part: bench.Pockets, Name: w.T("Bags to the side edges"), After: []string{"mark", "facings", "neaten", "darts-front", "darts-back", "folds", "tuck", "piece-fork"},
		Stitch: bench.Seam, Allow: w.Seam(), Minutes: 15,
		Do:    w.T("Sew one bag to the front and one to the back between the notches of the mouth. Turn them out, and stitch beside the seam on the bag."),
		Press: w.T("Press the seam towards the bag."),
	}
	for _, id := range w.With("side", "-lining") {
		top, low := w.mouth(id)
		t.Sews = append(t.Sews, bench.Run{Piece: id, Edge: "side", From: top, To: low})
	}
	w.Add(t)
	w.bagFoot(bench.Seams, "side", "mouth")
}

// mouth is where a mouth in the side seam begins and ends along the side of a
// piece.
func (w work) mouth(id string) (top, low unit.Length) {
	p, _ := w.Find(id)
	for _, e := range p.Edges {
		for _, n := range p.Notches {
			if s, off := e.Sew.Nearest(n.At); e.Name == "side" && off < 1 {
				switch n.Number {
				case notchPocketTop:
					top = unit.Length(s)
				case notchPocketLow:
					low = unit.Length(s)
				}
			}
		}
	}
	return top, low
}

func (w work) backPockets() {
	if w.s.welts() == 0 {
		return
	}
	mouth := []bench.Line{{Piece: "back", Path: w.s.rec.Path("back.welt")}}
	one := w.s.welts() == 1
	set := w.T("Mark the mouths on both sewn backs, equally far below the waist, and sew welt and facing along them. Slit between, into the corners, and turn them in.")
	if one {
		set = w.T("Mark the mouth on the sewn right back and sew welt and facing along it. Slit between, into the corners, and turn them in.")
	}
	w.Add(bench.Task{
		ID: "welt", Part: bench.Pockets, Name: w.T("Back pocket"), After: []string{"mark", "darts-back", "piece-fork", "tuck"}, Pieces: []string{"back", "welt-facing"}, Lines: mouth,
		Sews: []bench.Run{{Piece: "welt"}}, Stitch: bench.Fine, Minutes: 30 * w.s.welts(), Do: set, Press: w.T("Press the mouth shut, from the inside, before it is turned and after."),
	})
	w.Add(bench.Task{
		ID: "welt-bag", Part: bench.Pockets, Name: w.T("Back pocket bag"), After: []string{"welt"}, Pieces: []string{"back"}, Lines: mouth,
		Sews: []bench.Run{{Piece: "welt-facing"}, {Piece: "welt-bag"}}, Stitch: bench.Seam, Allow: w.Seam(), Minutes: 12 * w.s.welts(),
		Do: w.T("Stitch the facing to the bag and the bag to the allowances of the mouth. Fold the bag up and close its sides, the small corners caught in."),
	})
}

// hands are the side of the fly that lies on top, and the other.
func (w work) hands() (over, under piece.Hand) {
	if w.s.lapHand() == piece.RightHand {
		return piece.RightHand, piece.LeftHand
	}
	return piece.LeftHand, piece.RightHand
}

// sewnBelow is how much of the front fork is sewn below the fly before the legs
// are closed (common practice).
const sewnBelow = 2 * unit.Inch

// opened is where an opening that hangs from the waist ends along a centre edge,
// which runs up to the waist.
func (w work) opened(id string, long unit.Length) unit.Length { return w.Long(id, "centre") - long }

// frontStart is where the front is already sewn: from here up the centre edge,
// and from here up the fork edge.
func (w work) frontStart() (centre, fork unit.Length) {
	centre = w.opened("front", w.s.mm("fly.length")) - sewnBelow
	fork = w.Long("front", "fork")
	if centre < 0 {
		fork, centre = max(0, fork+centre), 0
	}
	return centre, fork
}

func (w work) fly() {
	if !w.s.fly() {
		return
	}
	over, under := w.hands()
	lap := w.T(w.s.lap())
	end := w.opened("front", w.s.mm("fly.length"))
	both := func(id string) []bench.Run {
		return append(garment.Whole("centre front", id), append(garment.Whole("centre front, inner layer", id), garment.Whole("foot", id)...)...)
	}
	w.Add(bench.Task{
		ID: "fuse-fly", Part: bench.Opening, Name: w.T("Stiffen the fly facing"), After: []string{"mark"}, Pieces: []string{"fly-facing", "fly-interfacing"}, Minutes: 5,
		Do:    w.T("Iron or baste the interfacing to the inside of the fly facing. Fold facing and shield double, right side out."),
		Press: w.T("Press down without sliding, ten seconds at each place, and let it cool flat."),
	})
	after := []string{"mark", "neaten", "fuse-fly", "darts-front", "folds", "tuck"}
	w.Add(bench.Task{
		ID: "fly-facing", Part: bench.Opening, Name: w.T("Fly facing"), After: after, Sews: append(both("fly-facing"), bench.Run{Piece: "front", Edge: "centre", On: over, From: end}), Stitch: bench.Seam, Allow: w.Seam(), Minutes: 12,
		Do:    w.F("Round its lower corner and sew the facing to the %s front, as worn, down to the end of the fly. Turn it in and stitch beside the edge, on the facing.", lap),
		Press: w.PressEdge(),
	})
	w.Add(bench.Task{
		ID: "fly-shield", Part: bench.Opening, Name: w.T("Shield and zip"), After: after, Sews: append(both("fly-shield"), bench.Run{Piece: "front", Edge: "centre", On: under, From: end}), Stitch: bench.Seam, Allow: w.Seam(), Minutes: 15,
		Do: w.F("Stitch the zip on the shield, face up, along its raw edges. Sew both to the other front, under the %s one, and stitch beside the edge.", lap),
	})
	centre, fork := w.frontStart()
	w.Add(bench.Task{
		ID: "front-fork", Part: bench.Opening, Name: w.T("Front fork below the fly"), After: []string{"fly-facing", "fly-shield"}, Stitch: bench.Seam, Allow: w.Seam(), Minutes: 5,
		Sews: append(garment.Between("front", "centre", centre, end), garment.Between("front", "fork", fork, w.Long("front", "fork"))...),
		Do:   w.F("Sew the fronts together from the end of the fly down, for %s, and no further. The rest is closed with the seat seam.", w.In.Format.Text(sewnBelow)),
	})
	w.Add(bench.Task{
		ID: "fly", Part: bench.Opening, Name: w.T("Close and stitch the fly"), After: []string{"front-fork"}, Pieces: []string{"front", "fly-facing", "fly-shield"},
		Lines: []bench.Line{{Piece: "front", Path: w.s.rec.Path(flyStitching)}}, Stitch: bench.Top, Minutes: 25,
		Do:    w.F("Lay the %s front over by %s and stitch the free half of the zip to its facing, twice. Fold the shield away and stitch the curve of the fly from outside; bar its end through all.", lap, w.In.Format.Text(unit.Inch/8)),
		Press: w.T("Press under a cloth and keep off the teeth: nylon melts."),
	})
}

// legs closes side and inseam.
func (w work) legs() {
	after := []string{"neaten", "piece-fork", "darts-front", "darts-back", "folds", "tuck", "mouth", "welt-bag", "fly", "facings"}
	do := w.T("Sew front and back together at the side, from the waist down, notch on notch. Take the pocket bags along where they lie in the seam.")
	if w.s.in.Style["pocket"] == "none" {
		do = w.T("Sew front and back together at the side, from the waist down, notch on notch. Hold both layers evenly, so that none creeps.")
	}
	var runs []bench.Run
	for _, id := range w.With("side", "-lining") {
		switch {
		case w.Has("pocket", "seam"):
			top, low := w.mouth(id)
			runs = append(runs, bench.Run{Piece: id, Edge: "side", To: top}, bench.Run{Piece: id, Edge: "side", From: low})
			do = w.T("Sew front and back together at the side, above and below the pocket mouth, notch on notch. Take the bags along, and bar both ends of the mouth.")
		case w.Has("closure", "side_zip"):
			runs = append(runs, bench.Run{Piece: id, Edge: "side", On: piece.RightHand}, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, From: w.Notched(id, "side", zipEnd)})
			do = w.T("Sew front and back together at the side, notch on notch. On the left begin at the end of the zip, and baste the rest above it shut.")
		default:
			runs = append(runs, bench.Run{Piece: id, Edge: "side"})
		}
	}
	if w.s.slanted() {
		after = append(after, "bag")
	}
	w.Join("side", bench.Seams, w.T("Side seams"), do, 20, after, append(runs, garment.Whole("turn-up, side", w.With("turn-up, side")...)...)...)
	w.Join("inseam", bench.Seams, w.T("Inseams"), w.T("Sew the inside of each leg from the fork to the hem, notch on notch. Where the back is shorter, stretch it with the iron first."), 15,
		[]string{"neaten", "piece-fork", "tuck", "side"}, append(garment.Whole("inseam", w.With("inseam", "-lining")...), garment.Whole("turn-up, inside", w.With("turn-up, inside")...)...)...)
}

// seat closes what of fork and centre is still open.
func (w work) seat() {
	runs := garment.Whole("fork", w.With("fork", "-lining", "front")...)
	centre, fork, back := w.Long("front", "centre"), w.Long("front", "fork"), w.Long("back", "centre")
	do := w.T("Put one leg into the other, right sides together, and sew from the front waist through the fork to the back waist. Sew the curve twice, slightly stretched.")
	switch {
	case w.s.fly():
		do = w.T("Put one leg into the other, right sides together, and sew from where the front was left off through the fork to the back waist. Sew the curve twice, slightly stretched.")
		centre, fork = w.frontStart()
	case w.Has("closure", "back_zip"):
		do = w.T("Put one leg into the other, right sides together, and sew from the front waist through the fork to the end of the zip. Sew the curve twice, and baste the rest shut.")
		back = w.opened("back", w.s.mm("zip.length"))
	}
	runs = append(append(runs, garment.Between("front", "fork", 0, fork)...), garment.Between("front", "centre", 0, centre)...)
	w.Join("seat", bench.Seams, w.T("Seat seam"), do, 15, []string{"inseam", "fly", "front-fork", "darts-back"}, append(runs, garment.Between("back", "centre", 0, back)...)...)
	w.Tasks[len(w.Tasks)-1].Press = w.T("Press it open from the back waist to where the curve begins, over a roll. The curve stays as it is sewn: pressed open, it would pull.")
}

func (w work) zip() {
	switch w.In.Style["closure"] {
	case "side_zip":
		w.Zip([]string{"side"},
			bench.Run{Piece: "front", Edge: "side", On: piece.LeftHand, To: w.Notched("front", "side", zipEnd)},
			bench.Run{Piece: "back", Edge: "side", On: piece.LeftHand, To: w.Notched("back", "side", zipEnd)})
	case "back_zip":
		w.Zip([]string{"seat"}, bench.Run{Piece: "back", Edge: "centre", From: w.opened("back", w.s.mm("zip.length"))})
	}
}

func (w work) lining() {
	if w.Has("lining", "none") {
		return
	}
	both := []string{"front-lining", "back-lining"}
	legs, felled := garment.Whole("inseam", both...), []bench.Run(nil)
	seat := garment.Whole("fork", both...)
	for _, id := range both {
		top := w.Long(id, "centre")
		open := top // from here up the centre is felled to the opening
		switch {
		case w.s.fly() && id == both[0]:
			open -= w.s.mm("fly.length")
		case w.Has("closure", "back_zip") && id == both[1]:
			open -= w.s.mm("zip.length")
		}
		seat, felled = append(seat, garment.Between(id, "centre", 0, open)...), append(felled, garment.Between(id, "centre", open, top)...)
		if !w.Has("closure", "side_zip") {
			legs = append(legs, bench.Run{Piece: id, Edge: "side"})
			continue
		}
		zip := w.s.mm("zip.length")
		legs = append(legs, bench.Run{Piece: id, Edge: "side", On: piece.RightHand}, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, From: zip})
		felled = append(felled, bench.Run{Piece: id, Edge: "side", On: piece.LeftHand, To: zip})
	}
	w.Join("lining-legs", bench.Inside, w.T("Lining, legs"), w.T("Sew side and inside of the lining a sliver nearer to the edge than they are marked. It must never be tighter than the trousers."), 15, nil, legs...)
	w.Join("lining-seat", bench.Inside, w.T("Lining, seat"), w.T("Sew the seat seam of the lining, one leg in the other. Leave open what the trousers leave open."), 8, []string{"lining-legs"}, seat...)
	w.Add(bench.Task{
		ID: "lining-hem", Single: true, Part: bench.Inside, Name: w.T("Lining, hem"), After: []string{"lining-legs"}, Sews: garment.Whole("hem", both...), Stitch: bench.Seam, Allow: w.Seam(), Minutes: 8,
		Do: w.T("Turn the foot of the lining under twice and stitch it. It hangs free below the knee."),
	})
	w.LiningIn([]string{"lining-seat", "seat", "fly", "zip", "bag"}, felled...)
}

// loopPlaces are where the loops stand, as short strokes across the waist.
func (w work) loopPlaces() []bench.Line {
	var out []bench.Line
	for _, l := range w.s.loopPlaces() {
		out = append(out, bench.Line{Piece: l.Panel, Path: geom.Polyline(l.At, l.At.Add(geom.Vec{Y: 40}))})
	}
	return out
}

func (w work) finish() {
	deep := w.s.rule("hem_allowance")
	done := []string{"seat", "band-close", "tuck", "lining-in", "bag"}
	if w.s.turnedUp() {
		up := w.In.Format.Text(w.s.rule("turn_up"))
		w.TurnHem(w.F("Try the length on. Turn the foot in at the hem line, fell its edge, then fold it up outside by %s and tack it at both seams.", up), 0, 30, done, garment.Whole("end of the turn-up", "front", "back")...)
	} else {
		w.TurnHem(w.F("Try the length on. Turn up %s and fell it with loose stitches that do not show outside.", w.In.Format.Text(deep)), deep, 30, done, garment.Whole("hem", "front", "back")...)
	}
	if w.Has("crease", "pressed") {
		t := bench.Task{
			ID: "crease", Part: bench.Finish, Name: w.T("Press the creases"), After: []string{"hem", "band-close"}, Pieces: []string{"front", "back"}, Minutes: 15,
			Lines: []bench.Line{{Piece: "front", Path: w.s.crease("front")}, {Piece: "back", Path: w.s.crease("back")}},
			Do:    w.T("Lay each leg inseam on side seam and smooth it to the crease. Press with steam and a damp cloth, and leave it until it is dry."),
			Press: w.T("Front up to the dart or the fork, back up to the fork and no further."),
		}
		w.Add(t)
	}
	w.Press(20, slices.Concat([]string{"hem", "crease", "fasten", "elastic", "loops-up"}, done)...)
}
