package garmenttest

import (
	"testing"

	"chalkfold/draft/garment"
)

// Told is by how much a figure of the finished draft, in inches, changes for each
// inch of an alteration.
type Told struct {
	What string
	Of   func(t *testing.T, m Made) float64
	Per  float64
}

// EdgesBy tells of edges of a panel, their lengths together.
func EdgesBy(panel string, per float64, names ...string) Told {
	what := panel
	for _, n := range names {
		what += " " + n
	}
	return Told{what, func(t *testing.T, m Made) float64 {
		t.Helper()
		sum := 0.0
		for _, n := range names {
			sum += m.Edge(t, panel, n).Len() / 25.4
		}
		return sum
	}, per}
}

// GirthBy tells of a finished girth.
func GirthBy(name string, per float64) Told {
	return Told{"girth of the " + name, func(t *testing.T, m Made) float64 {
		t.Helper()
		return m.Girth(t, name)
	}, per}
}

// DownBy tells how far down a mark lies.
func DownBy(mark string, per float64) Told {
	return Told{mark + ", down", func(_ *testing.T, m Made) float64 { return m.Record.Point(mark).Y / 25.4 }, per}
}

// AcrossBy tells how far towards the side a mark lies.
func AcrossBy(mark string, per float64) Told {
	return Told{mark + ", across", func(_ *testing.T, m Made) float64 { return m.Record.Point(mark).X / 25.4 }, per}
}

// Alters holds that every alteration changes what it must by its amount, to half a
// millimetre, and leaves alone what it must; so does the one that undoes it, and
// both together change nothing. so tells it of the first of each pair.
func Alters(t *testing.T, o Order, so map[string][]Told) {
	t.Helper()
	was := o.Draft(t)
	for i, a := range o.Garment.Alterations() {
		sign, tells := 1.0, so[a.ID]
		if i%2 == 1 {
			sign, tells = -1, so[a.Against]
		}
		if len(tells) == 0 {
			t.Errorf("it is not said what %s does", a.ID)
		}
		other, ok := o.Garment.Alter(a.Against)
		if !ok || other.Against != a.ID {
			t.Fatalf("%s is not undone by %s", a.ID, a.Against)
		}
		with := o
		with.Altered = []garment.Altered{{Alteration: a, By: a.Usual}}
		is := with.Draft(t)
		for _, f := range tells {
			About(t, o.Method+", "+a.ID+": "+f.What, f.Of(t, is)-f.Of(t, was), sign*f.Per*a.Usual.In(), 0.5/25.4)
		}
		with.Altered = append(with.Altered, garment.Altered{Alteration: other, By: a.Usual})
		is = with.Draft(t)
		for _, p := range was.Panels {
			for _, e := range p.Edges {
				About(t, a.ID+" and back: "+p.Name+" "+e.Name, is.Edge(t, p.Name, e.Name).Len(), e.Sew.Len(), 1e-6)
			}
		}
	}
}
