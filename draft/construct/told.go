package construct

import (
	"slices"

	"chalkfold/draft/unit"
)

// Told is what one truing step did to the draft as it is spoken, in words.
type Told struct {
	Truing string
	Step   string
	What   string // "back fork tip: ⅜ in down"
	Why    string
}

// Tell puts the changes of the truings in words, in order. A move that a tape
// in f's units cannot show is left out, and so is a sum that only says how far
// a mark told beside it moved.
func (r *Record) Tell(f unit.Format) []Told {
	var out []Told
	for _, c := range r.Changes() {
		s, ok := r.Find(c.Step)
		if !ok || r.untold(s, f) {
			continue
		}
		t := Told{Truing: c.Truing, Step: c.Step, Why: c.Why}
		switch {
		case c.Mark != "":
			t.What = f.Words.F("%s: %s", r.Label(c.Mark), moved(c, f))
		case s.Kind == KindValue && s.Moves != "" && s.Length:
			t.What = f.Words.F("%s: %s instead of %s", c.Label, f.Text(s.Mm()), f.Text(unit.Length(c.Before)))
		case s.Kind == KindCurve:
			t.What = f.Words.F("%s: drawn anew, %s long", c.Label, f.Text(c.By))
		case s.Length:
			t.What = f.Words.F("%s: %s", c.Label, f.Text(s.Mm()))
		default:
			t.What = f.Words.F("%s: %s", c.Label, number(s.Value, f))
		}
		out = append(out, t)
	}
	return out
}

// untold reports whether a truing step has nothing to show on the tape, or is
// told by the move that uses it.
func (r *Record) untold(s Step, f unit.Format) bool {
	switch s.Kind {
	case KindMove:
		return f.Round(s.Mm()) == 0
	case KindValue:
		if !s.Length {
			return true // a slope or a share: shown by the lines it shapes
		}
		for _, n := range r.trues {
			if m, _ := r.Find(n); m.Kind == KindMove && m.Truing == s.Truing && slices.Contains(m.Formula.Names(), s.Name) {
				return true
			}
		}
		return s.Formula.root == nil || s.Moves != "" && f.Text(s.Mm()) == f.Text(unit.Length(s.Before))
	case KindPoint, KindCurve:
	}
	return false
}

// moved says how far a mark moved and which way, by the sides of the piece.
func moved(c Change, f unit.Format) string {
	const level = 0.02 // of the way: not worth saying
	dx, dy, far, by := c.Is.X-c.Was.X, c.Is.Y-c.Was.Y, c.By.MM(), f.Text(c.By)
	up, down, in, out := dy < -level*far, dy > level*far, dx < -level*far, dx > level*far
	switch {
	case up && in:
		return f.Words.F("%s up and to the centre", by)
	case up && out:
		return f.Words.F("%s up and to the side", by)
	case down && in:
		return f.Words.F("%s down and to the centre", by)
	case down && out:
		return f.Words.F("%s down and to the side", by)
	case up:
		return f.Words.F("%s up", by)
	case down:
		return f.Words.F("%s down", by)
	case in:
		return f.Words.F("%s to the centre", by)
	case out:
		return f.Words.F("%s to the side", by)
	}
	return by
}
