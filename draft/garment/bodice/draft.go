package bodice

import (
	"fmt"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// drafter carries one draft through its stages.
type drafter struct {
	*garment.Drafter
	darted map[string]bool     // whether a part has a waist dart
	refuse *garment.Impossible // found while drawing
}

// Draft drafts a bodice, both halves where one side alone is altered. The error is a *garment.Impossible when the
// measurements and rules cannot make one; anything else is a fault of this
// package.
func Draft(in garment.Input) (*garment.Draft, error) { return garment.BothSides(in, draft) }

func draft(in garment.Input) (*garment.Draft, error) {
	d := &drafter{Drafter: garment.NewDrafter(in, []garment.Eased{
		{Rule: "bodice_waist_ease", Of: body.WaistGirth}, {Rule: "bust_ease", Of: body.ChestGirth}, {Rule: "back_width_ease", Of: body.BackWidth},
	}), darted: map[string]bool{}}
	d.levels()
	d.widths()
	if err := d.possible(); err != nil {
		return nil, err
	}
	d.frontMarks()
	d.backMarks()
	d.lines()
	if d.refuse != nil {
		return nil, d.refuse
	}
	rec, err := d.Record()
	if err != nil {
		return nil, fmt.Errorf("bodice cannot be drafted: %w", err)
	}
	s := newShape(rec, in)
	pieces, err := s.pieces()
	if err != nil {
		return nil, err
	}
	return &garment.Draft{
		Record: rec, Panels: []piece.Panel{s.front, s.back}, Pieces: pieces, Claims: s.claims(), Cards: cards(), Notions: s.notions(),
	}, nil
}

func parts() []string { return []string{"front", "back"} }

// levels: how far down each line across lies, in the front from the side of the
// neck, in the back from the nape.
func (d *drafter) levels() {
	d.Part(say.Word("levels"))
	d.Value("back.scye_level", d.T("back scye line"), "scye_depth + scye_ease", d.T("a little below the armpit"))
	d.Alter("back.scye_level")
	d.Value("back.waist_level", d.T("back waist line"), "back_waist_length", d.T("from the nape"))
	d.Alter("back.waist_level")
	d.Value("front.scye_level", d.T("front scye line"), "back.scye_level + nape_rise - front_scye_higher"+d.In.Less("back.scye_level"), d.T("the side of the neck lies above the nape, and the front armhole is less deep"))
	d.Alter("front.scye_level")
	d.Value("front.bust_level", d.T("bust line"), "neck_shoulder_to_breast_point", d.T("from the side of the neck"))
	d.Value("front.waist_level", d.T("front waist line"), "neck_shoulder_to_waist", d.T("from the side of the neck, over the bust"))
	d.Alter("front.waist_level")
	d.Value("bust_dart", d.T("bust dart"), "most(least_bust_dart, least(most_bust_dart, front.waist_level - front.scye_level - (back.waist_level - back.scye_level)))",
		d.T("the front is longer than the back below the arm by what the bust takes"))
	deeper := "neck_deeper"
	switch {
	case d.Has("neck", "round"):
		deeper += " + 2 in"
	case d.Has("neck", "low"):
		deeper += " + 4 in"
	}
	d.Value("neck_width", d.T("half the width of the neck"), "neck_base_girth/neck_part - 0.25 in", d.T("a part of the neck base"))
	d.Value("neck_depth", d.T("depth of the front neck"), "neck_width + "+deeper, d.T("deeper than it is wide"))
	d.Value("shoulder", d.T("shoulder as cut"), "shoulder_length - shoulder_in", d.T("cut in, since there is no sleeve"))
}

// minStep is the least distance between two levels that a bodice can be drawn
// over, mm.
const minStep = unit.Length(25)

// possible refuses what no bodice can be drawn over.
func (d *drafter) possible() error {
	if d.Err() != nil {
		return nil // Record tells
	}
	f := d.In.Format
	lv := d.Length
	switch {
	case lv("back.waist_level") < lv("back.scye_level")+2*minStep:
		return &garment.Impossible{
			What: d.F("the waist falls %s below the scye line behind", f.Text(lv("back.waist_level")-lv("back.scye_level"))), Mend: d.T("measure the back waist length and the scye depth again"),
		}
	case lv("front.waist_level") < lv("front.bust_level")+2*minStep:
		return &garment.Impossible{
			What: d.F("the waist falls %s below the bust point", f.Text(lv("front.waist_level")-lv("front.bust_level"))), Mend: d.T("measure the front waist length and the neck point to bust point again"),
		}
	case lv("front.bust_level") < lv("front.scye_level")-minStep:
		return &garment.Impossible{
			What: d.F("the bust point lies %s above the scye line", f.Text(lv("front.scye_level")-lv("front.bust_level"))), Mend: d.T("measure the neck point to bust point and the scye depth again"),
		}
	case lv("shoulder") < 2*minStep:
		return &garment.Impossible{What: d.F("the shoulder comes out %s long", f.Text(lv("shoulder"))), Mend: d.T("measure the shoulder again, or cut it in less")}
	case lv("neck_depth") > lv("front.bust_level")-minStep:
		return &garment.Impossible{What: d.F("the front neck comes out %s deep", f.Text(lv("neck_depth"))), Mend: d.T("take a higher neck")}
	}
	for _, part := range parts() {
		if lv(part+".scye_width") < lv(part+".across_width")+minStep/5 || lv(part+".waist_made") < 3*minStep {
			return &garment.Impossible{
				What: d.F("the %s comes out %s wide at the scye line, and %s across", d.T(part), f.Text(lv(part+".scye_width")), f.Text(lv(part+".across_width"))),
				Mend: d.T("measure the chest and the back width again"),
			}
		}
	}
	return nil
}

// leastDart is the narrowest dart worth sewing: a narrower one is left out.
const leastDart = 3.0 / 8 * unit.Inch

// widths: the sums over girths, before anything is marked.
func (d *drafter) widths() {
	d.Part(say.Word("widths"))
	bust, waist := "chest_girth/4", "waist_girth/4"
	d.Trued(trueEase, func() {
		d.Value("bust_room", d.T("bust ease, a quarter"), "bust_ease/4", d.T("room over the body, a quarter to each panel"))
		d.Value("waist_room", d.T("waist ease, a quarter"), "bodice_waist_ease/4", d.T("room over the body, a quarter to each panel"))
		bust, waist = bust+" + bust_room", waist+" + waist_room"
	})
	for _, part := range parts() {
		sign, why := " + ", d.T("the front is wider by what the bust takes")
		if part == "back" {
			sign, why = " - ", d.T("the back is narrower by as much as the front is wider")
		}
		d.Value(part+".bust_part", d.F("%s at the bust", d.T(part)), bust+sign+"bust_wider", why)
		d.Alter(part + ".bust_part")
		d.Value(part+".waist_made", d.F("%s waist, darts closed", d.T(part)), waist+sign+"bodice_waist_wider", why)
		d.Alter(part + ".waist_made")
		d.takeIn(part)
	}
	d.Value("back.across_width", d.T("half the back width"), "(back_width + back_width_ease)/2", d.T("half way down the armhole"))
	d.Alter("back.across_width")
	d.Value("front.across_width", d.T("half the chest"), "back_width/2 - chest_narrower", d.T("half way down the armhole"))
	d.Alter("front.across_width")
}

// takeIn settles what the side and the waist dart of a part take in, and how
// wide it is at the scye line.
func (d *drafter) takeIn(part string) {
	sewn := d.Has("waist_darts", "sewn")
	d.Value(part+".differ", d.F("%s, bust less waist", d.T(part)), part+".bust_part - "+part+".waist_made", d.T("what side and dart take in together"))
	dart := "bodice_waist_dart"
	side := part + ".differ - " + dart
	if !sewn {
		side = part + ".differ"
	}
	d.MaybeTrued(trueDart, func() {
		if d.In.Trues(trueDart) && sewn {
			side = "least(" + part + ".differ * bodice_side_part, bodice_most_side)"
			if d.Get(part+".differ") < 0 {
				side = part + ".differ"
			}
			dart = part + ".differ - " + part + ".side_in"
		}
		d.Value(part+".side_in", d.F("%s side, taken in", d.T(part)), side, d.T("between bust and waist"))
		if sewn {
			d.Value(part+".dart", d.F("%s waist dart", d.T(part)), dart, d.T("takes in what the side does not"))
		}
	})
	d.darted[part] = sewn && (!d.In.Trues(trueDart) || d.Length(part+".dart") >= leastDart)
	width := part + ".waist_made"
	if d.darted[part] {
		width += " + " + part + ".dart"
	}
	d.Value(part+".waist_width", d.F("%s waist width", d.T(part)), width, d.T("the made-up waist and the dart"))
	// The side leans in from the scye line to the waist: at the level of the bust
	// it has come so far of the way.
	d.Value(part+".scye_width", d.F("%s at the scye line", d.T(part)), part+".bust_part", d.T("as at the bust"))
	d.Trued(trueBust, func() {
		depth := "(front.waist_level - front.bust_level)/(back.waist_level - back.scye_level)"
		lean, why := "most(1 - "+depth+", 0) * "+part+".side_in", d.T("below the arm the side leans in")
		if part == "back" && d.darted[part] {
			lean += " + most(1 - (front.waist_level - front.bust_level)/(back.waist_level - back.scye_level - back_dart_below), 0) * back.dart"
			why = d.T("below the arm the side leans in, and the dart has begun")
		}
		d.Value(part+".lean", d.F("%s, what is taken in at the level of the bust", d.T(part)), lean, why)
		d.Renew(part+".scye_kept", d.F("%s at the scye line, bust kept", d.T(part)), part+".scye_width", part+".bust_part + "+part+".lean",
			d.T("wider, so that it measures what it must at the level of the bust"))
	})
}
