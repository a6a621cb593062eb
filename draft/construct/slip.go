package construct

import (
	"math"
	"strings"

	"chalkfold/draft/body"
)

// Slip is a way in which a sum goes wrong in the head.
type Slip uint8

// The slips, the likeliest first.
const (
	LeftOut     Slip = iota // a part was left out
	Divided                 // divided by another number
	Whole                   // not divided, or not taken so many times
	Added                   // a part was added that is taken away
	TakenAway               // a part was taken away that is added
	OtherEnd                // the larger of two for the smaller, or the other way round
	Unbracketed             // what stands outside the brackets was done first
	Instead                 // another measurement was taken
)

// Slipped is a formula as it is worked with one slip.
type Slipped struct {
	Formula
	Slip Slip
	Part Formula // what was left out, divided by, added, taken away or replaced
	Took string  // Instead: the measurement that was taken, by its name
	Had  float64 // Divided: what was divided by, and what it is divided by
	Is   float64
}

// Slips are a step's formula with every slip that can be made in it, one at a
// time, the likeliest first.
func (r *Record) Slips(s Step) []Slipped {
	if s.Formula.root == nil {
		return nil
	}
	sl := &slips{r: r, at: s.at}
	sl.walk(s.Formula.root, func(n *node) *node { return n })
	var out []Slipped
	for kind := range Instead + 1 {
		for _, v := range sl.all {
			if v.Slip == kind {
				out = append(out, v)
			}
		}
	}
	return out
}

type slips struct {
	r   *Record
	at  int
	all []Slipped
}

// walk makes the slips in n, which stands in the place that in puts it in.
func (sl *slips) walk(n *node, in func(*node) *node) {
	if n == nil {
		return
	}
	give := func(slip Slip, as, part *node) {
		sl.all = append(sl.all, Slipped{Formula: Formula{root: in(as)}, Slip: slip, Part: Formula{root: part}})
	}
	both := func(op byte) *node { return &node{op: op, l: n.l, r: n.r} }
	switch n.op {
	case '+':
		give(LeftOut, n.l, n.r)
		give(LeftOut, n.r, n.l)
		give(TakenAway, both('-'), n.r)
	case '-':
		give(LeftOut, n.l, n.r)
		give(Added, both('+'), n.r)
	case '*':
		give(Whole, n.l, n.r)
		give(Whole, n.r, n.l)
	case '/':
		give(Whole, n.l, n.r)
		sl.divisors(n, in)
	case '<':
		give(OtherEnd, both('>'), n)
	case '>':
		give(OtherEnd, both('<'), n)
	case 'v':
		sl.instead(n, in)
	}
	if b := n.l; b != nil && (n.op == '*' || n.op == '/') && (b.op == '+' || b.op == '-') {
		give(Unbracketed, &node{op: b.op, l: b.l, r: &node{op: n.op, l: b.r, r: n.r}}, b)
	}
	sl.walk(n.l, func(as *node) *node { return in(&node{op: n.op, l: as, r: n.r}) })
	sl.walk(n.r, func(as *node) *node { return in(&node{op: n.op, l: n.l, r: as}) })
}

// divisors divides by other numbers: those by which makers divide, and half and
// twice the right one.
func (sl *slips) divisors(n *node, in func(*node) *node) {
	right, err := n.r.eval(func(name string) (Amount, error) {
		v, length, _ := sl.r.valueAsOf(name, sl.at)
		if length {
			return Amount{v, 1}, nil
		}
		return Amount{v, 0}, nil
	})
	if err != nil || right.Dim != 0 {
		return
	}
	for _, d := range []float64{right.V / 2, right.V * 2, 2, 3, 4, 8, 16} {
		if d == right.V || d <= 1 || d != math.Trunc(d) {
			continue
		}
		as := &node{op: '/', l: n.l, r: &node{op: 'n', num: d}}
		sl.all = append(sl.all, Slipped{Formula: Formula{root: in(as)}, Slip: Divided, Part: Formula{root: n.r}, Had: d, Is: right.V})
	}
}

// instead takes another girth for a girth.
func (sl *slips) instead(n *node, in func(*node) *node) {
	const girth = "_girth"
	if _, ok := sl.r.quants[n.name]; !ok || !strings.HasSuffix(n.name, girth) {
		return
	}
	for _, def := range body.Defs() {
		other := string(def.ID)
		if _, taken := sl.r.quants[other]; !taken || other == n.name || !strings.HasSuffix(other, girth) {
			continue
		}
		sl.all = append(sl.all, Slipped{
			Formula: Formula{root: in(&node{op: 'v', name: other})}, Slip: Instead, Part: Formula{root: n}, Took: other,
		})
	}
}

// Arithmetic reports whether a formula has anything to work out that is done in
// the head.
func (f Formula) Arithmetic() bool {
	var rooted func(*node) bool
	rooted = func(n *node) bool { return n != nil && (n.op == 'r' || rooted(n.l) || rooted(n.r)) }
	return f.root != nil && f.root.l != nil && f.root.op != '~' && !rooted(f.root)
}
