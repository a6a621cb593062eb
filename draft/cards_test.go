package draft_test

import (
	"maps"
	"slices"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/sheet"
)

// mostSheets is how many sheets of A4 the curve cards of plain trousers may
// take, for whomever.
const mostSheets = 3

func TestCardsOfTheSample(t *testing.T) {
	r := example(t, "alto-3.json")
	for _, paper := range []string{"A4", "Letter"} {
		p, _ := sheet.PaperNamed(paper)
		out, err := draft.CardSheets(r, p)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(out.Sheets); n > mostSheets || n < out.Bound {
			t.Errorf("%s: %d sheets, want at most %d and at least %d", paper, n, mostSheets, out.Bound)
		}
		for i, d := range out.Sheets {
			for _, it := range d.Items {
				x, text := it.(sheet.Text)
				if text && (x.Reads().X < -1e-6 || x.Reads().Y > 1-1e-6) {
					t.Errorf("%s, sheet %d: %q stands on its head, read along %v", paper, i+1, x.S, x.Reads())
				}
			}
		}
	}
}

// The bodies of the survey that are the smallest or the largest in any
// measurement.
func TestCardsOfExtremeBodies(t *testing.T) {
	natively(t)
	plain := prove.Styles()[0]
	for _, b := range extremes(provetest.Bodies(t, 1)) {
		r, err := draft.Make(plain.Job(b))
		if err != nil {
			continue // that it cannot be drafted is told elsewhere
		}
		out, err := draft.CardSheets(r, sheet.A4())
		if err != nil {
			t.Errorf("%s: %v", b.ID, err)
			continue
		}
		if n := len(out.Sheets); n > mostSheets || n < out.Bound {
			t.Errorf("%s, hip %s, waist %s: %d sheets, want at most %d and at least %d", b.ID,
				b.Taken[body.HipGirth].Value, b.Taken[body.WaistGirth].Value, n, mostSheets, out.Bound)
		}
	}
}

func extremes(all []prove.Body) []prove.Body {
	least, most := map[body.ID]prove.Body{}, map[body.ID]prove.Body{}
	ids := slices.Sorted(maps.Keys(all[0].Taken))
	for _, b := range all {
		for _, id := range ids {
			l := b.Taken[id].Value.Length()
			if o, ok := least[id]; !ok || l < o.Taken[id].Value.Length() {
				least[id] = b
			}
			if o, ok := most[id]; !ok || l > o.Taken[id].Value.Length() {
				most[id] = b
			}
		}
	}
	var out []prove.Body
	seen := map[string]bool{}
	for _, id := range ids {
		for _, b := range []prove.Body{least[id], most[id]} {
			if !seen[b.ID] {
				seen[b.ID] = true
				out = append(out, b)
			}
		}
	}
	return out
}

// The guide lays every card once, on marks that it has told with their letters,
// and measures out no curve that a card draws.
func TestGuideLaysEachCard(t *testing.T) {
	for _, name := range []string{"alto-3.json", "lab-coat-7.json", "alto-3-spoken.json"} {
		r := example(t, name)
		told := map[string]bool{}
		laid := map[int]int{}
		for _, s := range draft.ChalkOnCards(r, sheet.A4()) {
			for _, m := range s.Marks {
				if m.Letter != "" {
					told[m.Letter] = true
				}
				if m.Card == 0 {
					continue
				}
				if s.Piece == "front" || s.Piece == "back" {
					laid[m.Card]++
				}
				if len(m.Ordinates) > 0 {
					t.Errorf("%s: card %d is laid and measured out", name, m.Card)
				}
			}
		}
		cards := draft.Cards(r, sheet.A4())
		if len(cards) < 5 {
			t.Errorf("%s: %d cards", name, len(cards))
		}
		for _, c := range cards {
			from, to := c.Ends()
			if laid[c.No] != 1 || !told[from.Letter] || !told[to.Letter] {
				t.Errorf("%s: card %d, %s: laid %d times; mark %s told %v, mark %s told %v", name, c.No, c.Name,
					laid[c.No], from.Letter, told[from.Letter], to.Letter, told[to.Letter])
			}
		}
	}
}

// What stands on paper can be read, lies on the paper, and keeps off the rest.
func TestCardsCanBeRead(t *testing.T) {
	out, err := draft.CardSheets(example(t, "alto-3.json"), sheet.A4())
	if err != nil {
		t.Fatal(err)
	}
	readable(t, "cards", out.Sheets)
}

// readable holds that every text is at least of the smallest size, inside the
// margins, and over no other.
func readable(t *testing.T, name string, pages []sheet.Drawing) {
	t.Helper()
	for i, d := range pages {
		var texts []sheet.Text
		for _, it := range d.Items {
			if x, ok := it.(sheet.Text); ok {
				texts = append(texts, x)
			}
		}
		for k, x := range texts {
			b := x.Box()
			if x.Size < sheet.MinText-1e-9 {
				t.Errorf("%s %d: %q is %.2f mm high", name, i+1, x.S, x.Size.MM())
			}
			if b.Min.X < 9.5 || b.Min.Y < 9.5 || b.Max.X > d.Bounds.Max.X-9.5 || b.Max.Y > d.Bounds.Max.Y-9.5 {
				t.Errorf("%s %d: %q leaves the margins: %v", name, i+1, x.S, b)
			}
			for _, y := range texts[k+1:] {
				if apart := x.Reads() != y.Reads(); !apart && b.Overlaps(y.Box()) && level(x) {
					t.Errorf("%s %d: %q lies over %q", name, i+1, x.S, y.S)
				}
			}
		}
	}
}

// level reports whether a text reads along an edge of the paper, so that its
// box is the text itself.
func level(x sheet.Text) bool { d := x.Reads(); return d.X*d.Y == 0 }
