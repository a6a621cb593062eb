package trouser

import (
	"math"

	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// How a welt pocket is made (common practice): the welt is half an inch high,
// the bag an inch wider than the mouth and twice seven inches long.
const (
	weltHeight = unit.Inch / 2
	weltBag    = 14 * unit.Inch
	weltClear  = 1.25 * 25.4 // from centre and side, mm
	leastWelt  = 5 * unit.Inch
)

func (d *drafter) weltMarks() {
	if d.has("back_pocket", "none") {
		return
	}
	d.Part("back")
	rec, _ := d.Record()
	centre, side := d.Point("back.waist_centre"), d.Point("back.waist_side")
	along := side.Sub(centre).Unit()
	middle := centre.Dist(side) / 2
	if rec.Has("back.dart_point") && !rec.Has("back.dart2_point") {
		middle = d.Get("back.dart_from")
	}
	down := along.Right().Scale(d.Get("back_pocket_down"))
	d.Solved("welt.middle", d.T("middle of the back pocket, from the centre back"), middle, d.T("under the dart, or half way between two"))
	// Half as wide as there is room for on both sides of its middle.
	at := centre.Add(along.Scale(middle)).Add(down)
	room := math.Min(middle, centre.Dist(side)-middle)
	if s := rec.Path("back.side").CrossLine(at, along); len(s) > 0 {
		p, _ := rec.Path("back.side").At(s[0])
		room = math.Min(middle, p.Dist(at))
	}
	d.Solved("welt.room", d.T("room for the back pocket"), 2*math.Max(0, room-weltClear), d.T("clear of the seat seam and of the side"))
	d.Value("welt.width", d.T("back pocket, mouth"), "least(back_pocket_width, welt.room)", d.T("the welt as it is sewn"))
	half := d.Get("welt.width") / 2
	lay := func(name, label string, by float64) {
		d.Offset(name, label, "back.waist_centre", "back.waist_side", at.Add(along.Scale(by)), d.T("mark it on the sewn back, once the dart is pressed"), "welt.middle", "welt.width", "back_pocket_down")
	}
	lay("back.welt_in", d.T("back pocket, end on the centre's side"), -half)
	lay("back.welt_out", d.T("back pocket, end on the side's side"), half)
	d.Straight("back.welt", d.T("back pocket, mouth"), d.T("square under the waist"), "back.welt_in", "back.welt_out")
}

func (s *shape) welts() int {
	switch s.in.Style["back_pocket"] {
	case "one":
		return 1
	case "two":
		return 2
	}
	return 0
}

// weltOn marks the mouth on the back.
func (s *shape) weltOn(p *piece.Piece) {
	if s.welts() == 0 {
		return
	}
	name := say.Word("back pocket")
	if s.welts() == 1 {
		name = say.Word("back pocket, on the right alone")
	}
	p.Lines = append(p.Lines, piece.Line{Name: name, Path: s.rec.Path("back.welt")})
	for _, m := range []string{"back.welt_in", "back.welt_out"} {
		p.Marks = append(p.Marks, piece.Mark{Name: say.Word("end of the back pocket"), At: s.rec.Point(m)})
	}
}

func (s *shape) weltPieces() []piece.Piece {
	n := s.welts()
	if n == 0 {
		return nil
	}
	w, sa := s.mm("welt.width"), s.rule("seam_allowance")
	all := [4]unit.Length{sa, sa, sa, sa}
	names := [4]string{"end", "edge", "end", "edge"}
	welt := block("welt", say.Word("Welt"), piece.Main, 2*weltHeight, w, names, all)
	welt = fold(welt, weltHeight, w)
	facing := block("welt-facing", say.Word("Back pocket facing"), piece.Main, 2.5*unit.Inch, w+unit.Inch, names, all)
	bag := block("welt-bag", say.Word("Back pocket bag"), piece.Lining, w+unit.Inch, weltBag, names, [4]unit.Length{sa, sa, sa, sa})
	bag.AnyGrain = true
	list := []piece.Piece{welt, facing, bag}
	for i := range list {
		list[i].Count = n
	}
	return list
}

// weltSeen is the mouth as it shows.
func (s *shape) weltSeen() []piece.Seen {
	switch s.welts() {
	case 1:
		return []piece.Seen{{Kind: piece.Mouth, Path: s.rec.Path("back.welt"), On: piece.RightHand}}
	case 2:
		return []piece.Seen{{Kind: piece.Mouth, Path: s.rec.Path("back.welt")}}
	}
	return nil
}

func (s *shape) weltBounds() []piece.Bound {
	if s.welts() == 0 {
		return nil
	}
	at := s.rec.Point("back.welt_in")
	return []piece.Bound{{
		Check: say.Word("back pocket"), Say: s.T("mouth of the back pocket, for a hand"), Figure: unit.Length(s.rec.Path("back.welt").Len()), Least: least(leastWelt),
		Mend: s.T("there is no room for a wider one: leave it out, or set the dart nearer the middle"), At: &at, Panel: "back",
	}}
}
