package chalk

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/chalk"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
	"chalkfold/static/words/wordstest"
	"chalkfold/testdata/jobs"
)

func TestRead(t *testing.T) {
	for _, name := range []string{"alto-3.json", "lab-coat-7.json"} {
		r := jobs.Made(t, name)
		sections := draft.Chalk(r)
		g := Read(sections, r.Format)
		n, curves := 0, 0
		for i, s := range sections {
			if g.Sections[i].First != n || g.Sections[i].Count != len(s.Marks) {
				t.Errorf("%s: %s begins at %d with %d marks", name, s.Title, g.Sections[i].First, g.Sections[i].Count)
			}
			for j, m := range s.Marks {
				got := g.Marks[n]
				n++
				if got.No != n || got.Section != i || got.Name != m.Name {
					t.Errorf("%s: mark %d of %s reads %+v", name, j+1, s.Title, got)
				}
				if (got.Figure == "") != (m.Measure == 0) || got.Figure != "" && got.Figure+" "+got.Unit != r.Format.Text(m.Measure) {
					t.Errorf("%s: %s measures %q %q, want %s", name, m.Name, got.Figure, got.Unit, r.Format.Text(m.Measure))
				}
				if len(got.Points) != len(m.Ordinates) {
					t.Errorf("%s: %s has %d points, want %d", name, m.Name, len(got.Points), len(m.Ordinates))
				}
				if len(got.Points) > 0 {
					curves++
				}
				if !strings.Contains(got.From, m.From) || !strings.Contains(got.From, m.To) {
					t.Errorf("%s: %s is measured %q", name, m.Name, got.From)
				}
			}
		}
		if n != len(g.Marks) || curves < 4 {
			t.Errorf("%s: %d marks of %d, %d curves", name, len(g.Marks), n, curves)
		}
		for i, m := range g.Marks {
			if g.Find(m.Key) != i {
				t.Errorf("%s: %q is found at %d, not %d", name, m.Key, g.Find(m.Key), i)
			}
		}
		if g.Find("gone") != 0 {
			t.Error("a mark that is gone leads elsewhere than to the first")
		}
	}
}

// Every mark has a picture, with the mark in it; every ordinate lies on its
// curve there.
func TestPicture(t *testing.T) {
	r := jobs.Made(t, "alto-3.json")
	pieces := map[string]piece.Piece{}
	for _, p := range r.Pieces {
		pieces[p.ID] = p
	}
	g := Read(draft.Chalk(r), r.Format)
	near := 0
	for _, s := range g.Sections {
		for i, read := range g.Marks[s.First : s.First+s.Count] {
			before, m := g.Marks[s.First:s.First+i], read.Of
			svg := Picture(pieces[s.Piece], before, read)
			if c := Close(pieces[s.Piece], before, read); c != "" {
				near++
				if !strings.Contains(c, `class="now`) || isAt(m) && read.HasHeld != strings.Contains(c, `class="held"`) {
					t.Errorf("%s, %s is not in its near picture, or its tape: %s", s.Title, m.Name, c)
				}
			}
			if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
				t.Errorf("%s, %s: %s", s.Title, m.Name, svg)
			}
			if !strings.Contains(svg, `class="now`) && (isAt(m) || len(m.Path) > 0) {
				t.Errorf("%s, %s is not in its picture", s.Title, m.Name)
			}
			for _, o := range m.Ordinates {
				if _, off := m.Path.Nearest(onCurve(m, o)); unit.Length(off) > unit.Millimetre {
					t.Errorf("%s, %s: at %s the point lies %.1f mm off the curve", s.Title, m.Name, r.Format.Text(o.Along), off)
				}
			}
		}
	}
	if near < len(g.Marks)/2 {
		t.Errorf("%d of %d marks are seen near", near, len(g.Marks))
	}
}

// The tape in the picture is held where the guide says, and is as long.
func TestHeld(t *testing.T) {
	const tol = 0.5 // mm
	for _, name := range []string{"alto-3.json", "alto-3-spoken.json", "lab-coat-7.json"} {
		r := jobs.Made(t, name)
		held := 0
		for _, m := range Read(draft.Chalk(r), r.Format).Marks {
			if !m.HasHeld || m.Of.Kind != chalk.Point && m.Of.Kind != chalk.Move {
				continue
			}
			held++
			way := m.Of.At.Sub(m.Held).Len()
			want := math.Hypot(m.Of.Measure.MM(), m.Of.Then.MM())
			curved := strings.Contains(m.How, "along the") || strings.Contains(m.How, "straight line")
			if math.Abs(way-want) > tol && !(curved && math.Abs(way-want) < 0.03*want+25.4/16) {
				t.Errorf("%s: %s lies %.1f mm from where the tape is held, which shows %.1f", name, m.Name, way, want)
			}
			if leg := legOf(m).Len(); m.Of.ThenWay != "" && math.Abs(leg-m.Of.Measure.MM()) > tol {
				t.Errorf("%s: %s goes %.1f mm first, want %.1f", name, m.Name, leg, m.Of.Measure.MM())
			}
		}
		if held < 60 {
			t.Errorf("%s: the tape is shown at %d marks", name, held)
		}
	}
}

func TestMarkInWords(t *testing.T) {
	m := chalk.Mark{
		No: 3, Kind: chalk.Curve, Name: "front fork curve", From: "the fork tip", To: "the hip", Measure: 3 * unit.Inch, Way: "along", Corner: unit.Inch, CornerAt: "the centre",
		Ordinates: []chalk.Ordinate{{Along: unit.Inch, Off: unit.Inch / 2, Side: "up"}, {Along: 2 * unit.Inch}},
	}
	got := mark(m, 0, unit.Format{})
	if got.Figure != "3" || got.Unit != "in" || got.From != "from the fork tip to the hip" || got.Corner != "From the corner, the centre, straight to the curve: 1 in" ||
		got.Points[0] != (Point{"1", "½", "up"}) || got.Points[1] != (Point{"2", "0", "on the line"}) {
		t.Errorf("%+v", got)
	}
}

// The place is kept by the mark's key, so the key is the same in every language.
func TestKeyInEveryLanguage(t *testing.T) {
	r := jobs.Made(t, "alto-3.json")
	said, err := (&draft.Maker{Words: wordstest.Marked(t)}).Make(r.Job)
	if err != nil {
		t.Fatal(err)
	}
	english, marked := Read(draft.Chalk(r), r.Format), Read(draft.Chalk(said), said.Format)
	for i, m := range english.Marks {
		if got := marked.Marks[i]; got.Key != m.Key || got.Name == m.Name {
			t.Errorf("mark %d is %q, %q; in another language %q, %q", m.No, m.Key, m.Name, got.Key, got.Name)
		}
	}
}
