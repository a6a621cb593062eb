package flat

import (
	"flag"
	"os"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/sketch"
)

var update = flag.Bool("update", false, "write the golden sketches anew") //nolint:gochecknoglobals // a flag

// flat sketches trousers of a style on the middle of the women surveyed.
func flat(t *testing.T, style map[string]string) sketch.Flat {
	t.Helper()
	j := job.New("trousers")
	j.Figure, j.Measurements, j.Style = body.Women, body.Middle(body.Women), style
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	f, ok := sketch.Of(r.Panels, r.Darts, r.Worn)
	if !ok {
		t.Fatalf("%v: no sketch", style)
	}
	return f
}

// The golden sketches were looked at; -update writes them anew, to be looked at
// again.
func TestGoldenSketches(t *testing.T) {
	for name, style := range map[string]map[string]string{
		"plain":           nil,
		"pressed_tapered": {"front_dart": "pressed", "crease": "pressed", "leg": "tapered"},
		"bare_free":       {"closure": "fly_right", "front_dart": "none", "back_dart": "none", "pocket": "none", "leg": "free", "crease": "tuck"},
	} {
		file := "testdata/" + name + ".svg"
		got := strings.ReplaceAll(Both(flat(t, style), "front", "back"), "/><", "/>\n<") + "\n"
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if got != string(want) {
			t.Errorf("%s has changed; run with -update and look at it", file)
		}
	}
}

// The small drawings of all answers to a question show the same place, and no
// two of them are alike. As on the screen, other answers are given up that
// cannot go with the one shown.
func TestChoicesAreTold(t *testing.T) {
	g := draft.Garments()[0]
	for _, o := range g.Options {
		if o.OfFigure { // not drawn
			continue
		}
		var flats []sketch.Flat
		for _, c := range o.Choices {
			full, err := g.Complete(map[string]string{o.ID: c.ID})
			if err != nil {
				t.Fatal(err)
			}
			flats = append(flats, flat(t, g.Together(full, o.ID)))
		}
		seen := map[string]string{}
		place := ""
		for i, p := range Choices(flats) {
			box, _, _ := strings.Cut(p, `">`)
			if p == "" || seen[p] != "" || i > 0 && box != place {
				t.Errorf("%s: %s is drawn as %q, in %q, want %q", o.ID, o.Choices[i].ID, seen[p], box, place)
			}
			seen[p], place = o.Choices[i].ID, box
		}
	}
	same := flat(t, nil)
	for _, p := range Choices([]sketch.Flat{same, same}) {
		if p != "" {
			t.Error("what does not differ is drawn")
		}
	}
}
