package drafting

import (
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// Truing is what one truing did to the draft as it is spoken.
type Truing struct {
	Name  string
	Steps []string
}

// Changes tells, truing by truing, what is different from the draft as it is
// spoken. A truing that moved nothing that a tape shows is left out.
func Changes(r *draft.Result) []Truing {
	all := r.Record.Changes()
	var out []Truing
	for _, t := range r.Garment.Truings {
		one := Truing{Name: t.Name}
		for _, c := range all {
			if c.Truing == t.ID && shows(r, c, all) {
				one.Steps = append(one.Steps, change(r, c))
			}
		}
		if len(one.Steps) > 0 {
			out = append(out, one)
		}
	}
	return out
}

// shows leaves out moves that the tape does not show, and sums that only serve
// a move of their own truing.
func shows(r *draft.Result, c construct.Change, all []construct.Change) bool {
	s, _ := r.Record.Find(c.Step)
	switch s.Kind {
	case construct.KindMove:
		return r.Format.Round(c.By) != 0
	case construct.KindValue:
		if !s.Length || s.Formula.String() == "" {
			return false
		}
		for _, o := range all {
			if o.Mark != "" && o.Truing == c.Truing && r.Format.Round(o.By) == r.Format.Round(c.By) {
				return false
			}
		}
	case construct.KindPoint, construct.KindCurve:
	}
	return true
}

func change(r *draft.Result, c construct.Change) string {
	s, _ := r.Record.Find(c.Step)
	f := r.Format
	switch {
	case c.Mark != "":
		return r.Record.Label(c.Mark) + ": " + f.Text(c.By) + direction(c) + "; " + c.Why
	case s.Kind == construct.KindCurve:
		return c.Label + ": drawn anew, " + f.Text(c.By) + " long; " + c.Why
	}
	return c.Label + ": " + f.Text(unit.Length(s.Value)) + "; " + c.Why
}

// direction says which way a mark moved.
func direction(c construct.Change) string {
	const level = 0.02 // of the way: not worth saying
	dx, dy, far := c.Is.X-c.Was.X, c.Is.Y-c.Was.Y, c.By.MM()
	var ways []string
	switch {
	case dy < -level*far:
		ways = append(ways, "up")
	case dy > level*far:
		ways = append(ways, "down")
	}
	switch {
	case dx < -level*far:
		ways = append(ways, "to the centre")
	case dx > level*far:
		ways = append(ways, "to the side")
	}
	if len(ways) == 0 {
		return ""
	}
	return " " + strings.Join(ways, " and ")
}

// Stops puts what stops the cut of a draft in words.
func Stops(r *draft.Result) []string {
	var out []string
	for _, f := range r.Report.At(proof.Stops) {
		out = append(out, f.Check+": "+f.Say+", "+figures(f, r.Format))
	}
	return out
}
