package trouser

import (
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// balanceTol is how near a fork seam must come to what it was balanced for:
// less than a tape shows between two takings.
const balanceTol = unit.Length(3)

// balancedBounds claim that the fork seam and its parts came out as they were
// wished, or say whose range stopped them.
func (s *shape) balancedBounds() []piece.Bound {
	if s.by == nil {
		return nil
	}
	tip := s.rec.Point("back.fork_tip")
	var out []piece.Bound
	for _, w := range s.by.wishes {
		lo, hi := w.want+w.more-balanceTol, w.want+w.more+balanceTol
		of := piece.Measured{}
		for _, part := range w.parts() {
			of.Edges = append(of.Edges, ref(part, "centre"), ref(part, "fork"))
			of.Plus += s.rule("waistband_width")
		}
		b := piece.Bound{Say: s.T("fork seam, band to band, against what it was balanced for"), Of: of, Least: &lo, Most: &hi, At: &tip, Panel: "back", Mend: s.mendBalance(w)}
		switch w.id {
		case body.FrontCrotchLength:
			b.Check, b.Say = say.Word("balance, front"), s.T("front fork seam with its band, against what it was balanced for")
		case body.BackCrotchLength:
			b.Check, b.Say = say.Word("balance, back"), s.T("back fork seam with its band, against what it was balanced for")
		default:
			b.Check = say.Word("balance")
			if s.in.Body[w.id].Estimated {
				b.Say = s.F("%s; the crotch length is an estimate", b.Say)
			}
		}
		if w.more != 0 {
			b.Say = s.F("%s, and altered after the fitting", b.Say)
		}
		out = append(out, b)
	}
	return out
}

// mendBalance says by how much a wish was missed and which rules stopped it.
func (s *shape) mendBalance(w wish) string {
	off := w.want - unit.Length(w.measured(s.rec, s.in.Rules))
	by := s.in.Format.Text(max(off, -off))
	var names []string
	for _, f := range s.by.stopped {
		names = append(names, s.T(s.in.Rules.Def(f.rule).Name))
	}
	rules := strings.Join(names, ", ")
	switch {
	case rules == "":
		return s.F("missed by %s, and no change was found that comes nearer: measure the rise and the crotch length again", by)
	case off > 0:
		return s.F("%s too short, and at the end of their range: %s; measure the crotch length and the rise again, or draft with less fork ease", by, rules)
	default:
		return s.F("%s too long, and at the end of their range: %s; measure the crotch length and the rise again, or draft with more fork ease", by, rules)
	}
}
