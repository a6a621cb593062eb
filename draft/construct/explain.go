package construct

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Label returns the words for a step, measurement or rule.
func (r *Record) Label(name string) string {
	if s, ok := r.Find(name); ok {
		return s.Label
	}
	if q, ok := r.quants[name]; ok {
		return q.Label
	}
	return name
}

// Sum writes a step's sum in words and in figures: "hip ÷ 4 = 42 ÷ 4 = 10½".
// A step with no formula gives its value alone, a mark found on the drawing
// too; an empty string when there is nothing to tell.
func (r *Record) Sum(name string, f unit.Format) string {
	s, ok := r.Find(name)
	if !ok {
		return ""
	}
	return r.SumOf(s, f)
}

// SumOf is Sum for a step at hand, told with the values as they stood when the
// step was laid.
func (r *Record) SumOf(s Step, f unit.Format) string {
	if s.Kind == KindPoint && !s.Length {
		return ""
	}
	value := number(s.Value, f)
	if s.Length {
		value = f.Bare(unit.Length(s.Value))
	}
	if s.Formula.root == nil {
		return value
	}
	words, figures := r.Written(s, s.Formula, f)
	out := words
	if figures != words && figures != value {
		out += " = " + figures
	}
	if out == value {
		return value
	}
	return out + equals(s, f) + value
}

// equals stands before the value of a sum: it says so when the tape cannot
// show the value as it is.
func equals(s Step, f unit.Format) string {
	const told = 0.1 // of the finest mark of the tape
	if off := math.Abs((f.Round(s.Mm()) - s.Mm()).MM()); s.Length && off > told*f.Finest().MM() {
		return " ≈ "
	}
	return " = "
}

// literal is a number of the formula as the tape shows it: a length in f's
// units, a plain number as it was written.
func (n *node) literal(f unit.Format) string {
	if n.unit == "" {
		return f.Words.Decimal(strconv.FormatFloat(n.num, 'f', -1, 64))
	}
	return f.Bare(unit.Length(n.num * unitMM(n.unit).V))
}

// Because is the sum behind a step, looking through steps that only carry an
// earlier sum on; its reason when there is no sum.
func (r *Record) Because(name string, f unit.Format) string {
	s, ok := r.Find(name)
	for ok && s.Formula.root != nil && s.Formula.root.op == 'v' {
		next, found := r.asOf(s.Formula.root.name, s.at)
		if !found {
			break
		}
		s = next
	}
	if !ok || s.Formula.root == nil {
		return s.Why
	}
	return r.SumOf(s, f)
}

func (r *Record) labelAsOf(name string, at int) string {
	if s, ok := r.asOf(name, at); ok {
		return s.Label
	}
	return r.Label(name)
}

func (r *Record) figure(name string, at int, f unit.Format) string {
	v, isLen, _ := r.valueAsOf(name, at)
	if isLen {
		return fine(f, unit.Length(v)).Bare(unit.Length(v))
	}
	return number(v, f)
}

// fine is f, or finer where that shows l exactly: a rule of 1/16 in must not be
// told as ⅛.
func fine(f unit.Format, l unit.Length) unit.Format {
	const same = 1e-6 // mm
	if f.System.Metric() {
		return f
	}
	for den := max(f.Den, 8); den <= 32; den *= 2 {
		g := f
		g.Den = den
		if d := (g.Round(l) - l).MM(); d < same && d > -same {
			return g
		}
	}
	return f
}

// number prints a plain number to three places, no trailing noughts.
func number(v float64, f unit.Format) string {
	s := strings.TrimRight(strings.TrimRight(fixed3(v), "0"), ".")
	if s == "-0" || s == "" {
		return "0"
	}
	return f.Words.Decimal(s)
}

// Reason is one line of the answer to "why is this so?".
type Reason struct {
	Name   string
	Label  string
	Sum    string // of a step
	Value  float64
	Length bool
	Source string // of a measurement or rule: where its value came from
	Depth  int    // 0 for what was asked about
}

// Why answers for a step: itself, then, inwards, the steps, measurements and
// rules that its sum uses, each once, marks it is measured from included. Each
// sum is told as it stood when it was used, so that the answer for a renewed
// one goes back to what was spoken.
func (r *Record) Why(name string, f unit.Format) []Reason {
	var out []Reason
	seen := map[string]bool{}
	var walk func(name string, before, depth int)
	walk = func(name string, before, depth int) {
		if s, ok := r.asOf(name, before); ok {
			if seen[s.Name] {
				return
			}
			seen[s.Name] = true
			out = append(out, Reason{
				Name: s.Name, Label: s.Label, Sum: r.SumOf(s, f), Value: s.Value, Length: s.Length, Depth: depth,
			})
			for _, u := range s.Formula.Names() {
				walk(u, s.at, depth+1)
			}
			for _, u := range s.Uses {
				walk(u, s.at, depth+1)
			}
			walk(s.From, s.at, depth+1)
			return
		}
		if q, ok := r.quants[name]; ok && !seen[name] {
			seen[name] = true
			out = append(out, Reason{
				Name: name, Label: q.Label, Value: q.Value, Length: q.Length, Source: q.Source, Depth: depth,
			})
		}
	}
	walk(name, len(r.steps), 0)
	return out
}

// Change is what one truing step did to the draft as it is spoken.
type Change struct {
	Truing string
	Step   string
	Label  string
	Why    string
	Mark   string // the mark that moved; "" when the step is a sum or a curve
	Was    geom.Pt
	Is     geom.Pt
	Before float64     // a renewed sum: its value before, mm when it is a length
	By     unit.Length // how far, by how much a sum was renewed, or a sum's value
}

// Changes lists the truing steps of the record in order: the difference
// between the draft as spoken and the draft as trued, step by step.
func (r *Record) Changes() []Change {
	var out []Change
	for _, n := range r.trues {
		s, _ := r.Find(n)
		c := Change{Truing: s.Truing, Step: n, Label: s.Label, Why: s.Why, By: s.Mm()}
		if s.Kind == KindValue && s.Moves != "" {
			c.Before, c.By = s.Before, unit.Length(s.Value-s.Before)
		}
		if s.Kind == KindMove {
			c.Mark, c.Was, c.Is = s.Moves, s.Was, s.At
		}
		out = append(out, c)
	}
	return out
}
