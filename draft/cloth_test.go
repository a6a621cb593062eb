package draft_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// example drafts a job of the workshop.
func example(t testing.TB, name string) *draft.Result {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "testdata", "jobs", name))
	if err != nil {
		t.Fatal(err)
	}
	r, err := draft.Make(read(t, string(data)))
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The example jobs are kept as Encode writes them.
func TestExampleJobsAreCanonical(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "testdata", "jobs", "*.json"))
	if err != nil || len(files) < 3 {
		t.Fatalf("%d example jobs, %v", len(files), err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		if err := read(t, string(data)).Encode(&b); err != nil {
			t.Fatal(err)
		}
		if b.String() != string(data) {
			t.Errorf("%s is not as it would be written:\n%s", f, b.String())
		}
	}
}

// Every piece of a cloth's kind is laid as often as it is cut, soundly.
func TestLayHoldsEveryPiece(t *testing.T) {
	for _, name := range []string{"alto-3.json", "lab-coat-7.json"} {
		if testing.Short() && name != "lab-coat-7.json" {
			continue
		}
		r := example(t, name)
		for i, c := range r.Job.Cloth {
			l, err := draft.Lay(r, i, lay.Options{})
			if err != nil {
				t.Errorf("%s on %s: %v", name, c.Name, err)
				continue
			}
			if err := lay.Verify(l.Cloth, l.Items, l.Result); err != nil {
				t.Errorf("%s on %s: %v", name, c.Name, err)
			}
			if !l.Fits {
				t.Errorf("%s on %s: short by %.0f mm", name, c.Name, l.ShortBy.MM())
			}
			cut := map[string]int{}
			for _, p := range l.Placements {
				it := l.Items[p.Item]
				n := 1
				if it.Double {
					n = 2
				}
				cut[it.Piece] += n
			}
			for _, p := range r.Pieces {
				want := 0
				if p.Cloth == c.Kind {
					want = p.Count
				}
				if cut[p.ID] != want {
					t.Errorf("%s on %s: %s is laid %d times, want %d", name, c.Name, p.ID, cut[p.ID], want)
				}
			}
		}
	}
}

// The lay's drawing names the pieces and shows each where it was laid.
func TestLayIsDrawn(t *testing.T) {
	r := example(t, "alto-3.json")
	l, err := draft.Lay(r, 0, lay.Options{})
	if err != nil {
		t.Fatal(err)
	}
	d := l.Drawing(r.Format, sheet.Options{})
	if len(d.Outlines) != len(l.Placements) {
		t.Errorf("%d outlines drawn, %d pieces laid", len(d.Outlines), len(l.Placements))
	}
	var said strings.Builder
	for _, it := range d.Items {
		if text, ok := it.(sheet.Text); ok {
			said.WriteString(text.S + "\n")
		}
	}
	for _, want := range []string{"Front", "Back", "30 in, folded", r.Format.Text(l.Length) + " used"} {
		if !strings.Contains(said.String(), want) {
			t.Errorf("%q is not written on the lay:\n%s", want, said.String())
		}
	}
}

func TestClothThatNothingCanBeLaidOn(t *testing.T) {
	in := func(text string) unit.Quantity { return length(t, text) }
	for _, tt := range []struct {
		name  string
		cloth []job.Cloth
		which int
		path  string
	}{
		{"none", nil, 0, "cloth"},
		{"not that many", []job.Cloth{{Width: in("60")}}, 1, "cloth"},
		{"before the first", []job.Cloth{{Width: in("60")}}, -1, "cloth"},
		{"no width", []job.Cloth{{}}, 0, "cloth[0].width"},
		{"no length left", []job.Cloth{{Width: in("60"), Length: in("0")}}, 0, "cloth[0].length"},
		{"all margin", []job.Cloth{{Width: in("60"), Margin: in("30")}}, 0, "cloth[0].margin"},
		{"nothing of that kind", []job.Cloth{{Width: in("60")}, {Width: in("60"), Kind: piece.Lining}}, 1, "cloth[1].kind"},
	} {
		j := read(t, hip42)
		j.Style = map[string]string{"pocket": "none"}
		j.Cloth = tt.cloth
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		_, err = draft.Lay(r, tt.which, lay.Options{})
		var bad *job.Bad
		if !errors.As(err, &bad) || bad.Problems[0].Path != tt.path || bad.Problems[0].Why.None() {
			t.Errorf("%s: %v, want it refused at %s", tt.name, err, tt.path)
		}
	}
}

func TestNarrowClothIsTold(t *testing.T) {
	j := read(t, hip42)
	j.Cloth = []job.Cloth{{Width: length(t, "24"), Fold: job.Lengthwise}}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	_, err = draft.Lay(r, 0, lay.Options{})
	var wide *lay.TooWideError
	if !errors.As(err, &wide) || wide.ShortBy() <= 0 {
		t.Errorf("%v, want a *lay.TooWideError", err)
	}
}

// Every piece is on the sheets, at its true size.
func TestSheetsHoldEveryPiece(t *testing.T) {
	r := example(t, "alto-3.json")
	tiled, err := draft.Sheets(r, draft.Paper{Paper: sheet.A4(), Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	if tiled.Sheets != len(tiled.Pages) || tiled.Sheets < tiled.Bound.Sheets() || tiled.Bound.Sheets() < 1 {
		t.Errorf("%d sheets, %d pages, bound %d", tiled.Sheets, len(tiled.Pages), tiled.Bound.Sheets())
	}
	named := map[string]bool{}
	for _, p := range tiled.Pages {
		if b := p.Sheet.Bounds; b.W() != 210 || b.H() != 297 {
			t.Errorf("a sheet of %.1f × %.1f mm, want A4 (ISO 216)", b.W(), b.H())
		}
		for _, it := range p.Sheet.Items {
			if g, ok := it.(sheet.Group); ok {
				named[g.ID] = true
			}
		}
	}
	for _, p := range r.Pieces {
		if !named[p.ID] {
			t.Errorf("%s is on no sheet", p.ID)
		}
	}
}

// The guide has a section for every piece, numbered through.
func TestChalkGuidesEveryPiece(t *testing.T) {
	r := example(t, "alto-3.json")
	sections := draft.Chalk(r)
	has := map[string]bool{}
	no := 0
	for _, s := range sections {
		has[s.Piece] = len(s.Marks) > 0
		for _, m := range s.Marks {
			no++
			if m.No != no {
				t.Fatalf("%s: mark %d is numbered %d", s.Title, no, m.No)
			}
		}
	}
	for _, p := range r.Pieces {
		if !has[p.ID] {
			t.Errorf("no mark guides the hand to %s", p.ID)
		}
	}
}
