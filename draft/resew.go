package draft

import (
	"math"
	"slices"
	"strings"

	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// leastChalked is the least that a seam is marked anew for: a sixteenth, mm.
const leastChalked = 25.4 / 16

// moved are the edges whose line is marked anew.
func (p RecutPanel) moved() []RecutEdge {
	return slices.DeleteFunc(slices.Clone(p.Edges), func(e RecutEdge) bool { return math.Abs(e.Most.MM()) < leastChalked })
}

// sewn is the order in which seams are commonly sewn again, the last to be
// unpicked first (common practice): what runs round the body crosses the others.
func sewn(at piece.Place) int {
	return slices.Index([]piece.Place{
		piece.Shoulder, piece.Side, piece.BetweenLegs, piece.Fork, piece.Centre, piece.Elsewhere, piece.Armhole, piece.Neck, piece.Foot, piece.Top,
	}, at)
}

// Resew tells in what order a garment that is cut and sewn is unpicked, marked and
// sewn again.
func Resew(r Recut, f unit.Format) []string {
	w := f.Words
	type seam struct {
		name string
		RecutEdge
	}
	var all []seam
	for _, p := range r.Panels {
		for _, e := range p.moved() {
			all = append(all, seam{garment.EdgeOf(p.Piece, e.Name, w), e})
		}
	}
	if len(all) == 0 {
		return nil
	}
	names := func(which func(seam) bool) string {
		var out []string
		for _, s := range all {
			if which(s) {
				out = append(out, s.name)
			}
		}
		return strings.Join(out, ", ")
	}
	ends := func(s seam) bool { return s.Place == piece.Top || s.Place == piece.Neck || s.Place == piece.Armhole }
	long := func(s seam) bool { return !ends(s) && s.Place != piece.Foot }
	var out []string
	if at := names(func(s seam) bool { return long(s) && math.Abs(s.Upper.MM()) >= leastChalked }); at != "" || names(ends) != "" {
		if names(ends) != "" {
			out = append(out, w.F("Unpick the upper edge: %s.", names(ends)))
		} else {
			out = append(out, w.F("Unpick the upper edge a hand to each side of: %s.", at))
		}
	}
	if foot := names(func(s seam) bool { return s.Place == piece.Foot }); foot != "" {
		out = append(out, w.F("Let down: %s.", foot))
	} else if at := names(func(s seam) bool {
		return long(s) && math.Abs(s.Under.MM()) >= leastChalked && s.Place != piece.Centre && s.Place != piece.Fork
	}); at != "" {
		out = append(out, w.F("Unpick the lower edge a hand to each side of: %s.", at))
	}
	if seams := names(long); seams != "" {
		out = append(out, w.F("Unpick: %s. Press them flat.", seams))
	}
	for _, s := range all {
		if s.Place == piece.Top || s.Place == piece.Foot {
			out = append(out, w.F("Mark %s: at the centre %s, at the side %s.", s.name, way(f, s.Upper), way(f, s.Under)))
		} else {
			out = append(out, w.F("Mark %s: above %s, below %s, at most %s.", s.name, way(f, s.Upper), way(f, s.Under), way(f, s.Most)))
		}
	}
	slices.SortStableFunc(all, func(a, b seam) int { return sewn(a.Place) - sewn(b.Place) })
	out = append(out, w.F("Sew again, in this order: %s.", names(func(seam) bool { return true })))
	return append(out, w.T("Try it on once more before you trim anything."))
}

// way is how far a line goes out or in.
func way(f unit.Format, by unit.Length) string {
	switch text := f.Text(unit.Length(math.Abs(by.MM()))); {
	case math.Abs(by.MM()) < leastChalked:
		return f.Words.T("as it is")
	case by > 0:
		return f.Words.F("%s out", text)
	default:
		return f.Words.F("%s in", text)
	}
}

// LetIn is what can be let in where a cut has not cloth enough (common practice).
func LetIn(r Recut, f unit.Format) []string {
	w := f.Words
	var out []string
	add := func(text string) {
		if !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	for _, p := range r.Panels {
		for _, e := range p.Edges {
			if e.Can() {
				continue
			}
			switch e.Place {
			case piece.Fork, piece.BetweenLegs:
				add(w.T("Let a piece of the same cloth in at the tip of the fork, on the grain."))
			case piece.Side:
				add(w.T("Let a strip in down both sides, of the same cloth or as a stripe."))
			case piece.Centre:
				add(w.T("Let a wedge in at the centre, its point down."))
			case piece.Top:
				add(w.T("Sew a wider band on, or a yoke below it."))
			case piece.Foot:
				add(w.T("Face the hem with a strip of another cloth, and turn all of it down."))
			case piece.Elsewhere, piece.Neck, piece.Shoulder, piece.Armhole:
				add(w.T("Cut this piece anew."))
			}
		}
	}
	return out
}
