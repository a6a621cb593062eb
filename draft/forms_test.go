package draft_test

import (
	"bytes"
	"cmp"
	"fmt"
	"image/png"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/chalk"
	"chalkfold/draft/lay"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/strip"
	"chalkfold/draft/unit"
)

// said is every text of the pages, a space after each.
func said(pages ...sheet.Drawing) string {
	var b strings.Builder
	for _, d := range pages {
		for _, it := range d.Items {
			if x, ok := it.(sheet.Text); ok {
				b.WriteString(x.S + " ")
			}
		}
	}
	return b.String()
}

func TestMiniature(t *testing.T) {
	for _, name := range []string{"alto-3.json", "lab-coat-7.json", "alto-3-spoken.json"} {
		r := example(t, name)
		for _, paper := range sheet.Papers() {
			d, err := draft.Miniature(r, paper)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			readable(t, "miniature of "+name, []sheet.Drawing{d})
			text := said(d)
			for _, s := range draft.Chalk(r)[:2] {
				for _, m := range s.Marks {
					if (m.Kind == chalk.Point || m.Kind == chalk.Move) && strings.Count(" "+text, " "+strconv.Itoa(m.No)+" ") < 2 {
						t.Errorf("%s: number %d, %s, does not stand on the drawing and in the list", name, m.No, m.Name)
					}
				}
			}
		}
	}
}

func TestMiniatureOfExtremeBodies(t *testing.T) {
	natively(t)
	plain := prove.Styles()[0]
	for _, b := range extremes(provetest.Bodies(t, 1)) {
		r, err := draft.Make(plain.Job(b))
		if err != nil {
			continue // that it cannot be drafted is told elsewhere
		}
		for _, paper := range sheet.Papers() {
			if _, err := draft.Miniature(r, paper); err != nil {
				t.Errorf("%s: %v", b.ID, err)
			}
		}
	}
}

func TestLesson(t *testing.T) {
	const most = 4 // pages
	for _, name := range []string{"alto-3.json", "lab-coat-7.json", "alto-3-spoken.json"} {
		r := example(t, name)
		pages := draft.Lesson(r, sheet.A4())
		if len(pages) > most {
			t.Errorf("%s: %d pages, want at most %d", name, len(pages), most)
		}
		readable(t, "lesson of "+name, pages)
		text := said(pages...)
		for _, s := range draft.Chalk(r)[:2] {
			for _, m := range s.Marks {
				taught := m.Kind != chalk.Notch && m.Kind != chalk.Allow
				if taught && !strings.Contains(text, strings.Join(strings.Fields(m.Because), " ")) {
					t.Errorf("%s: why %d, %s, is not told", name, m.No, m.Name)
				}
			}
		}
	}
}

func TestHandover(t *testing.T) {
	for _, name := range []string{"alto-3.json", "lab-coat-7.json", "alto-3-spoken.json"} {
		r := example(t, name)
		laid, err := draft.Lay(r, 0, lay.Options{Work: laidWork})
		if err != nil {
			t.Fatal(err)
		}
		for _, paper := range sheet.Papers() {
			d, err := draft.Handover(r, paper, draft.HandoverOptions{Laid: laid})
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			readable(t, "handover of "+name, []sheet.Drawing{d})
			text := said(d)
			for _, want := range []string{"hip girth: ", "2 × front", "zip, ", "interfacing, ", " wide: ", "sewing thread: ", "Notes"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s: %q is missing", name, want)
				}
			}
			if strings.Contains(text, "For: ") {
				t.Errorf("%s: a client is named", name)
			}
		}
	}
	d, err := draft.Handover(example(t, "alto-3.json"), sheet.A4(), draft.HandoverOptions{Client: "Adé"})
	if err != nil || !strings.Contains(said(d), "For: Adé") {
		t.Errorf("the client is not named: %v", err)
	}
}

// A roll has no height: the forms are set on pages cut off it.
func TestFormsOnARoll(t *testing.T) {
	r := example(t, "alto-3.json")
	roll := sheet.Paper{Name: "roll", Width: 610}
	c, err := draft.CardSheets(r, roll)
	if err != nil || len(c.Sheets) != 1 {
		t.Errorf("cards: %d pages, %v", len(c.Sheets), err)
	}
	if _, err := draft.Miniature(r, roll); err != nil {
		t.Error(err)
	}
	if _, err := draft.Handover(r, roll, draft.HandoverOptions{}); err != nil {
		t.Error(err)
	}
	readable(t, "lesson", draft.Lesson(r, roll))
}

// The message tells every mark that the compact guide has, with its figure, in
// lines without layout.
func TestMessage(t *testing.T) {
	r := example(t, "alto-3.json")
	sections := draft.ChalkOnCards(r, sheet.A4())
	text := draft.Message(r, sections)
	for _, s := range chalk.Compact(sections, r.Pieces, r.Format) {
		for _, m := range s.Marks {
			want := "\n" + strconv.Itoa(m.No) + ". "
			at := strings.Index(text, want)
			if at < 0 || m.Measure != 0 && !strings.Contains(text[at:], r.Format.Text(m.Measure)) {
				t.Errorf("mark %d, %s, is not told", m.No, m.Name)
			}
		}
	}
	for _, l := range strings.Split(text, "\n") {
		if strings.Contains(l, "  ") || strings.ContainsRune(l, '\t') || l != strings.TrimSpace(l) {
			t.Errorf("%q has a layout", l)
		}
	}
	if !strings.Contains(text, "lay card 2 on marks C and D") {
		t.Error("no card is laid")
	}
}

// A compact guide tells no cut line twice.
func TestCompactGathersCutLines(t *testing.T) {
	r := example(t, "alto-3.json")
	whole, short := 0, 0
	for _, s := range draft.Chalk(r) {
		whole += len(s.Marks)
	}
	for _, s := range chalk.Compact(draft.Chalk(r), r.Pieces, r.Format) {
		short += len(s.Marks)
		cuts := map[string]int{}
		for _, m := range s.Marks {
			if m.Kind == chalk.Allow {
				cuts[r.Format.Text(m.Measure)+m.Way+m.ThenWay]++
			}
		}
		for cut, n := range cuts {
			if n > 1 {
				t.Errorf("%s: %q is told %d times", s.Title, cut, n)
			}
		}
	}
	if short >= whole {
		t.Errorf("%d marks, of %d", short, whole)
	}
}

func TestStrip(t *testing.T) {
	r := example(t, "alto-3.json")
	var b, again bytes.Buffer
	for _, to := range []*bytes.Buffer{&b, &again} {
		if err := draft.Strip(to, noto.Sans(), r, draft.Chalk(r)[:1]); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("the same guide gives other bytes")
	}
	head, err := png.DecodeConfig(&b)
	if err != nil {
		t.Fatal(err)
	}
	const most = 16000 // dots, two metres of paper
	if head.Width != strip.Width || head.Height > most {
		t.Errorf("%d by %d dots", head.Width, head.Height)
	}
}

// testdata/golden/forms.txt counts the sheets of the forms for six sizes of the
// survey, from small hips to large, beside what no placing of the cards can
// beat. -update writes it anew.
func TestFormsTable(t *testing.T) {
	natively(t)
	all := provetest.Bodies(t, 1)
	hip := func(b prove.Body) unit.Length { return b.Taken[body.HipGirth].Value.Length() }
	slices.SortStableFunc(all, func(a, b prove.Body) int { return cmp.Compare(hip(a), hip(b)) })
	letter, _ := sheet.PaperNamed("Letter")
	var out strings.Builder
	out.WriteString("Sheets of the forms for plain trousers; in brackets, fewer cannot be.\n\n")
	out.WriteString("hip, cm   cards A4   cards Letter   miniature A4, Letter   lesson A4, Letter\n")
	plain := prove.Styles()[0]
	for _, share := range []float64{0, 0.2, 0.4, 0.6, 0.8, 1} {
		b := all[int(share*float64(len(all)-1))]
		r, err := draft.Make(plain.Job(b))
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&out, "%7.1f", hip(b).MM()/10)
		for _, paper := range []sheet.Paper{sheet.A4(), letter} {
			c, err := draft.CardSheets(r, paper)
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&out, "   %5d (%d)", len(c.Sheets), c.Bound)
		}
		for _, paper := range []sheet.Paper{sheet.A4(), letter} {
			if _, err := draft.Miniature(r, paper); err != nil {
				t.Fatal(err)
			}
		}
		fmt.Fprintf(&out, "   %13s   %18s\n", "1, 1", fmt.Sprintf("%d, %d", len(draft.Lesson(r, sheet.A4())), len(draft.Lesson(r, letter))))
	}
	const golden = "../testdata/golden/forms.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(out.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if out.String() != string(want) {
		t.Errorf("the forms take other sheets; run with -update and read the difference:\n%s", out.String())
	}
}
