package draft_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/body"
	"chalkfold/draft/chalk"
	"chalkfold/draft/job"
	"chalkfold/draft/sketch"
)

// products are what is made of a job, each as text to be compared.
func products(t *testing.T, r *draft.Result) map[string]string {
	t.Helper()
	out := map[string]string{}
	put := func(product, format string, args ...any) { out[product] += fmt.Sprintf(format, args...) + "\n" }
	for _, p := range r.Panels {
		put("geometry", "%s %.2f", p.Name, p.Ring())
	}
	for _, p := range r.Pieces {
		put("pieces", "%s %d %s %.2f %v", p.ID, p.Count, p.Note, p.Cut, p.Lines)
		for _, n := range p.Notches {
			put("pieces", "%s %.2f", n.Name, n.At)
		}
	}
	for _, f := range r.Report.Findings {
		put("proof", "%s %d %.2f", f.Check, f.Level, f.Figure.V)
	}
	for _, s := range chalk.Of(r.Record, r.Panels, r.Pieces, r.Format) {
		put("chalk", "%s %s", s.Title, s.Note)
		for _, m := range s.Marks {
			put("chalk", "%s %s %s %.2f %s", m.Name, m.From, m.To, m.Measure.MM(), m.Way)
		}
	}
	tasks, err := draft.Order(r, bench.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range tasks {
		put("order", "%+v", x)
	}
	f, ok := sketch.Of(r.Panels, r.Darts, r.Worn)
	if !ok {
		t.Fatal("no sketch")
	}
	put("sketch", "%v", f)
	return out
}

// unchanged are the answers by which a product stays as it is with the first one,
// and why.
func unchanged() map[string]map[string]string {
	const (
		along  = "it opens in an edge, or is cut out of it last: the panel is whole"
		alike  = "it is sewn in the same way"
		mirror = "the other hand: the same lines, and the same figures"
	)
	return map[string]map[string]string{
		"trousers closure fly_right":     {"geometry": mirror, "proof": mirror},
		"trousers closure side_zip":      {"geometry": along},
		"trousers closure back_zip":      {"geometry": along},
		"trousers pocket none":           {"geometry": along},
		"trousers pocket straight_slant": {"geometry": along, "order": alike, "proof": "its mouth has the same ends"},
		"trousers pocket seam":           {"geometry": along},
		"trousers back_pocket one":       {"geometry": along},
		"trousers back_pocket two":       {"geometry": along},
		"trousers length ankle":          {"order": alike},
		"trousers length calf":           {"order": alike},
		"trousers hem turn_up":           {"geometry": "its cloth is added below the hem"},
		"trousers crease pressed":        {"geometry": "it is only pressed", "chalk": "the crease is the grain line, which is always chalked", "proof": "it is only pressed"},
		"trousers band shaped":           {"geometry": "the band is a piece of its own"},
		"trousers lining knee":           {"geometry": "the lining is cut by the panel"},
		"skirt length calf":              {"proof": "straight, it is as wide at any length, and its vent is as high above the hem"},
		"skirt length ankle":             {"proof": "straight, it is as wide at any length, and its vent is as high above the hem"},
		"skirt closure zip_side":         {"geometry": along, "proof": "the zip is as long"},
		"skirt opening slit":             {"geometry": along},
		"skirt opening side_slits":       {"geometry": along},
		"skirt opening none":             {"geometry": along},
		"skirt lining full":              {"geometry": "the lining is cut by the panel", "sketch": "it is not seen"},
		"bodice closure zip_side":        {"geometry": along},
		"bodice neck round":              {"order": alike, "proof": "a zip opens it, so that the head goes through any neck"},
		"bodice neck low":                {"order": alike, "proof": "a zip opens it, so that the head goes through any neck"},
		"bodice finish lined":            {"geometry": "the lining is cut by the panel", "sketch": "it is not seen"},
	}
}

// Each answer to each question of style, against the first of the answers, changes
// what is drawn, cut, proved, chalked, sewn and seen, but where it is told why not.
func TestEveryAnswerShows(t *testing.T) {
	var m draft.Maker
	for _, g := range draft.Garments() {
		made := func(s map[string]string) map[string]string {
			j := job.New(g.ID)
			j.Figure, j.Measurements = body.Women, body.Middle(body.Women)
			j.Style = s
			r, err := m.Make(j)
			if err != nil {
				t.Fatalf("%s %v: %v", g.ID, s, err)
			}
			return products(t, r)
		}
		for _, o := range g.Options {
			for _, c := range o.Choices[1:] {
				with := g.Together(full(t, g, map[string]string{o.ID: c.ID}), o.ID)
				without := maps.Clone(with)
				without[o.ID] = o.Choices[0].ID
				if g.Check(without) != nil {
					without = g.Together(without, o.ID)
				}
				a, b := made(with), made(without)
				var same []string
				for _, p := range slices.Sorted(maps.Keys(a)) {
					if a[p] == b[p] {
						same = append(same, p)
					}
				}
				id := strings.Join([]string{g.ID, o.ID, c.ID}, " ")
				if want := slices.Sorted(maps.Keys(unchanged()[id])); !slices.Equal(same, want) {
					t.Errorf("%s changes nothing in: %q; it was told of %q", id, same, want)
				}
			}
		}
	}
}
