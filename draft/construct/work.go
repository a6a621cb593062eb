package construct

import (
	"fmt"
	"math"

	"chalkfold/draft/unit"
)

// Work is what a formula comes to in the place of a step's own, with the values
// as they stood when the step was laid: mm. It is not ok where that is no length.
func (r *Record) Work(s Step, f Formula) (mm float64, ok bool) {
	return r.work(s, f, func(a Amount) Amount { return a })
}

// WorkShown is Work with every figure as it is shown in u: what somebody comes
// to who works with what she reads.
func (r *Record) WorkShown(s Step, f Formula, u unit.Format) (mm float64, ok bool) {
	return r.work(s, Formula{root: f.root.shown(u)}, func(a Amount) Amount {
		if a.Dim == 1 {
			a.V = fine(u, unit.Length(a.V)).Round(unit.Length(a.V)).MM()
		}
		return a
	})
}

// shown is the formula with its own lengths as they are shown.
func (n *node) shown(u unit.Format) *node {
	if n == nil {
		return nil
	}
	c := *n
	c.l, c.r = n.l.shown(u), n.r.shown(u)
	if n.unit != "" {
		c.num, c.unit = u.Round(unit.Length(n.num*unitMM(n.unit).V)).MM(), "mm"
	}
	return &c
}

func (r *Record) work(s Step, f Formula, shown func(Amount) Amount) (float64, bool) {
	if f.root == nil {
		return 0, false
	}
	a, err := f.eval(func(name string) (Amount, error) {
		v, length, ok := r.valueAsOf(name, s.at)
		switch {
		case !ok:
			return Amount{}, fmt.Errorf("nothing is called %q", name)
		case length:
			return shown(Amount{v, 1}), nil
		}
		return Amount{v, 0}, nil
	})
	return a.V, err == nil && a.Dim == 1 && !math.IsNaN(a.V)
}

// Written writes a formula in the place of a step's own: in words, and in
// figures as they stood when the step was laid.
func (r *Record) Written(s Step, f Formula, u unit.Format) (words, figures string) {
	if f.root == nil {
		return "", ""
	}
	words = f.root.text(u.Words, func(n *node) string {
		if n.op == 'v' {
			return r.labelAsOf(n.name, s.at)
		}
		return n.literal(u)
	})
	figures = f.root.text(u.Words, func(n *node) string {
		if n.op == 'v' {
			return r.figure(n.name, s.at, u)
		}
		return n.literal(u)
	})
	return words, figures
}

// Named is a name of a step's formula as it stood when the step was laid: its
// words and its figure, and where that comes from when it is a measurement or a
// rule.
func (r *Record) Named(s Step, name string, u unit.Format) (label, figure, source string) {
	if _, sum := r.asOf(name, s.at); !sum {
		source = r.quants[name].Source
	}
	return r.labelAsOf(name, s.at), r.figure(name, s.at, u), source
}

func (r *Record) valueAsOf(name string, at int) (v float64, length, ok bool) {
	if s, ok := r.asOf(name, at); ok {
		return s.Value, s.Length, true
	}
	q, ok := r.quants[name]
	return q.Value, q.Length, ok
}
