package skirt_test

import (
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/skirt"
)

// told is by how much a figure of the finished draft, in inches, changes for each
// inch of an alteration.
type told struct {
	what string
	of   func(t *testing.T, m made) float64
	per  float64
}

func edgeBy(panel, name string, per float64) told {
	return told{panel + " " + name, func(t *testing.T, m made) float64 { return m.edge(t, panel, name).Len() / 25.4 }, per}
}

func girthBy(name string, per float64) told {
	return told{"girth of the " + name, func(t *testing.T, m made) float64 { return m.girth(t, name) }, per}
}

func downBy(mark string, per float64) told {
	return told{mark + ", down", func(_ *testing.T, m made) float64 { return m.Record.Point(mark).Y / 25.4 }, per}
}

// TestAlters: every alteration changes what it must by its amount and leaves alone
// what it must, so does the one that undoes it, and both together change nothing
// (common practice: what their names say of the cloth).
func TestAlters(t *testing.T) {
	so := map[string][]told{
		"front_longer":   {edgeBy("front", "centre", 1), edgeBy("back", "centre", 0), girthBy("waist", 0), girthBy("hip", 0)},
		"back_longer":    {edgeBy("back", "centre", 1), edgeBy("front", "centre", 0), edgeBy("front", "side", 0), edgeBy("back", "side", 0), girthBy("waist", 0), girthBy("hip", 0)},
		"waist_out":      {girthBy("waist", 1), girthBy("hip", 0), edgeBy("back", "centre", 0), edgeBy("front", "centre", 0)},
		"back_waist_out": {girthBy("waist", 1), girthBy("hip", 0), edgeBy("front", "waist", 0), edgeBy("front", "side", 0), edgeBy("back", "side", 0)},
		"hip_out":        {girthBy("hip", 1), girthBy("waist", 0)},
		"side_longer":    {downBy("front.waist_side", -1), edgeBy("front", "centre", 0), edgeBy("back", "centre", 0), girthBy("waist", 0), girthBy("hip", 0)},
		"hem_lower":      {edgeBy("front", "centre", 1), edgeBy("back", "centre", 1), edgeBy("front", "side", 1), edgeBy("back", "side", 1), girthBy("hip", 0)},
	}
	o := order{body: measured(t, hip38)}
	was := o.draft(t)
	all := skirt.Alterations()
	for i, a := range all {
		sign, tells := 1.0, so[a.ID]
		if i%2 == 1 {
			sign, tells = -1, so[a.Against]
		}
		if len(tells) == 0 {
			t.Errorf("it is not said what %s does", a.ID)
		}
		with := o
		with.altered = []garment.Altered{{Alteration: a, By: a.Usual}}
		is := with.draft(t)
		for _, f := range tells {
			about(t, a.ID+": "+f.what, f.of(t, is)-f.of(t, was), sign*f.per*a.Usual.In(), 0.5/25.4)
		}
		other, _ := skirt.Garment().Alter(a.Against)
		with.altered = append(with.altered, garment.Altered{Alteration: other, By: a.Usual})
		is = with.draft(t)
		for _, p := range was.Panels {
			for _, e := range p.Edges {
				about(t, a.ID+" and back: "+p.Name+" "+e.Name, is.edge(t, p.Name, e.Name).Len(), e.Sew.Len(), 1e-6)
			}
		}
	}
}
