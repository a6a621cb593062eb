package construct

import (
	"maps"
	"math"
	"slices"
	"strings"
)

// Beside is the record with those steps of another laid after it in which the
// two differ, each in the part that its own stands for and under a name of its
// own: a draft whose other half is not alike. It is for records of one
// construction. What differs has a label of its own in each half: here makes it
// of that in the record, there of that in the other.
func (r *Record) Beside(o *Record, before string, parts map[string]string, here, there func(label string) string) *Record {
	b := &beside{r: r, o: o, before: before, own: map[string]Step{}, renamed: map[string]string{}}
	for _, s := range r.steps {
		b.own[s.Name] = s
	}
	out := &Record{
		steps: slices.Clone(r.steps), index: maps.Clone(r.index), points: maps.Clone(r.points),
		quants: maps.Clone(r.quants), trues: slices.Clone(r.trues),
	}
	maps.Copy(out.quants, o.quants)
	for _, s := range o.steps {
		if b.alike(s) {
			continue
		}
		s = b.other(s)
		s.Label = there(s.Label)
		if p := parts[s.Part]; p != "" {
			s.Part = p
		}
		out.index[s.Name] = len(out.steps)
		out.steps = append(out.steps, s)
		if s.Truing != "" {
			out.trues = append(out.trues, s.Name)
		}
	}
	for was, is := range b.renamed {
		if p, ok := o.points[was]; ok {
			out.points[is] = p
		}
		if i, ok := r.index[was]; ok {
			out.steps[i].Label = here(out.steps[i].Label)
		}
	}
	return out
}

type beside struct {
	r, o    *Record
	before  string            // stands before the names of what differs
	own     map[string]Step   // of the record, by name
	renamed map[string]string // what differs so far
}

// alike reports whether a step of the other record is as it is in the record,
// and hangs on nothing that is not.
func (b *beside) alike(s Step) bool {
	const same = 0.02 // mm: what is solved for comes so near
	t, ok := b.own[s.Name]
	if !ok || s.Kind != t.Kind || math.Abs(s.Value-t.Value) > same || s.At.Dist(t.At) > same || s.Formula.src != t.Formula.src || len(s.Path) != len(t.Path) {
		return false
	}
	for i, c := range s.Path {
		if d := t.Path[i]; math.Max(math.Max(c.A.Dist(d.A), c.B.Dist(d.B)), math.Max(c.C.Dist(d.C), c.D.Dist(d.D))) > same {
			return false
		}
	}
	if p, ok := b.o.points[s.Name]; ok && p.Dist(b.r.points[s.Name]) > same {
		return false // it is moved otherwise later on
	}
	for _, n := range append(append(s.Formula.Names(), s.Uses...), s.From, s.To, s.Moves, s.Corner) {
		if b.renamed[n] != "" {
			return false
		}
	}
	return true
}

// other is a step under a name of its own, with what it hangs on.
func (b *beside) other(s Step) Step {
	name := b.before + s.Name
	b.renamed[s.Name] = name
	is := func(n string) string {
		if other := b.renamed[n]; other != "" {
			return other
		}
		return n
	}
	s.Name = name
	s.From, s.To, s.Moves, s.Corner = is(s.From), is(s.To), is(s.Moves), is(s.Corner)
	s.Uses = slices.Clone(s.Uses)
	for i, n := range s.Uses {
		s.Uses[i] = is(n)
	}
	s.Formula = s.Formula.with(is)
	return s
}

// with is the formula with its names changed.
func (f Formula) with(is func(name string) string) Formula {
	if f.root == nil {
		return f
	}
	for _, n := range f.Names() {
		if is(n) != n {
			f.src = strings.ReplaceAll(f.src, n, is(n))
		}
	}
	var walk func(*node) *node
	walk = func(n *node) *node {
		if n == nil {
			return nil
		}
		c := *n
		if c.op == 'v' {
			c.name = is(c.name)
		}
		c.l, c.r = walk(n.l), walk(n.r)
		return &c
	}
	f.root = walk(f.root)
	return f
}
