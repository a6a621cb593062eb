package lesson

import (
	"math"

	"chalkfold/draft/construct"
	"chalkfold/draft/unit"
)

// Lesson is a construction that can be asked about.
type Lesson struct {
	r    *construct.Record
	f    unit.Format
	asks map[int]bool
}

// Of makes a lesson of a record, its lengths on a tape of f.
func Of(r *construct.Record, f unit.Format) *Lesson {
	l := &Lesson{r, f, map[int]bool{}}
	seen := map[string]bool{} // the same sum is asked for once
	for i, s := range r.Steps() {
		if src := s.Formula.String(); !seen[src] && l.fair(s) {
			seen[src], l.asks[i] = true, true
		}
	}
	return l
}

// fair reports whether a step's figure can be asked for: a sum that comes to
// the same with the figures shown, as near as the tape has it.
func (l *Lesson) fair(s construct.Step) bool {
	const same = 0.01 // mm
	if !s.Length || !s.Formula.Arithmetic() || l.f.Round(s.Mm()) <= 0 {
		return false
	}
	exact, ok := l.r.Work(s, s.Formula)
	shown, _ := l.r.WorkShown(s, s.Formula, l.f)
	return ok && math.Abs(exact-s.Value) < same && l.near(shown, exact)
}

// near reports whether a figure is one of the two marks of the tape that another
// lies between, or the one that it lies on.
func (l *Lesson) near(a, b float64) bool {
	const chalk = 0.001 // of a step
	return math.Abs(a-b) < l.f.Finest().MM()*(1-chalk)
}

// Steps is how many steps there are, from nought.
func (l *Lesson) Steps() int { return len(l.r.Steps()) }

// Asks reports whether the figure of a step is asked for.
func (l *Lesson) Asks(i int) bool { return l.asks[i] }

// Questions is how many steps before one are asked for; of all, with Steps.
func (l *Lesson) Questions(before int) int {
	n := 0
	for i := range l.asks {
		if i < before {
			n++
		}
	}
	return n
}

// Next is the first step from i on that is asked for; Steps when none is.
func (l *Lesson) Next(i int) int {
	for i < l.Steps() && !l.asks[i] {
		i++
	}
	return i
}

// Figure is something that a sum is done with.
type Figure struct {
	Label, Figure string
	Source        string // of a measurement or a rule; empty for a sum done before
}

// Question is what is asked.
type Question struct {
	Step  construct.Step
	Given []Figure // what the sum is done with, in the order of the formula
}

// Question is that of a step.
func (l *Lesson) Question(i int) Question {
	q := Question{Step: l.r.Steps()[i]}
	for _, name := range q.Step.Formula.Names() {
		label, figure, source := l.r.Named(q.Step, name, l.f)
		q.Given = append(q.Given, Figure{label, figure, source})
	}
	return q
}

// Right is the answer to a question, as the tape shows it, without its unit.
func (l *Lesson) Right(i int) string { return l.f.Bare(l.r.Steps()[i].Mm()) }
