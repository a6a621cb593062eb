package drafting

import (
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/testdata/jobs"
)

func TestHit(t *testing.T) {
	line := geom.Polyline(geom.Pt{}, geom.Pt{X: 100})
	s := Scene{Things: []Thing{
		{ID: "piece", Ring: []geom.Pt{{Y: -10}, {X: 100, Y: -10}, {X: 100, Y: 90}, {Y: 90}}},
		{ID: "line", Path: line},
		{ID: "start", At: geom.Pt{}},
		{ID: "end", At: geom.Pt{X: 100}},
		{ID: "beside", At: geom.Pt{X: 97, Y: 3}},
	}}
	for _, tt := range []struct {
		name   string
		at     geom.Pt
		chosen string
		want   string
	}{
		{"a mark before the line through it", geom.Pt{X: 1, Y: 1}, "", "start"},
		{"the line under the mark", geom.Pt{X: 1, Y: 1}, "start", "line"},
		{"the piece under the line", geom.Pt{X: 1, Y: 1}, "line", "piece"},
		{"round again", geom.Pt{X: 1, Y: 1}, "piece", "start"},
		{"the line away from marks", geom.Pt{X: 50, Y: 4}, "", "line"},
		{"the nearer of two marks", geom.Pt{X: 98, Y: 3}, "", "beside"},
		{"and then the other", geom.Pt{X: 98, Y: 3}, "beside", "end"},
		{"inside the piece", geom.Pt{X: 50, Y: 50}, "", "piece"},
		{"what was chosen elsewhere does not count", geom.Pt{X: 50, Y: 50}, "start", "piece"},
		{"nothing", geom.Pt{X: 300, Y: 300}, "start", ""},
	} {
		if got := s.Hit(tt.at, 12, tt.chosen); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

// Every mark and line can be reached without a finger: on and back through all
// of them, and each can be tapped where it is drawn.
func TestEverythingCanBeReached(t *testing.T) {
	r := jobs.Made(t, "alto-3.json")
	pieces, _ := Pieces(r, "", Lit{})
	for name, s := range map[string]Scene{
		"pieces": pieces, "front": Lines(r.Record, "front", ""), "back": Lines(r.Record, "back", ""),
	} {
		seen := map[string]bool{}
		id := s.Beside("", 1)
		for !seen[id] {
			seen[id] = true
			next := s.Beside(id, 1)
			if s.Beside(next, -1) != id {
				t.Errorf("%s: before %s comes %s, want %s", name, next, s.Beside(next, -1), id)
			}
			id = next
		}
		for _, th := range s.Things {
			if !seen[th.ID] {
				t.Errorf("%s: %s is never come to", name, th.ID)
			}
			found, chosen := false, ""
			for range s.Things {
				if chosen = s.Hit(th.place(), 5, chosen); chosen == th.ID {
					found = true
					break
				}
			}
			if !found && len(th.Ring) == 0 {
				t.Errorf("%s: %s cannot be tapped", name, th.ID)
			}
		}
	}
	if got := (Scene{}).Beside("x", 1); got != "" {
		t.Errorf("beside nothing is %q", got)
	}
}

func TestCards(t *testing.T) {
	r := jobs.Made(t, "alto-3.json")
	for _, tt := range []struct {
		id, title, sum string
		uses, links    []string
	}{
		{"quarter_hip", "hip quarter", "hip girth ÷ 4 = 42 ÷ 4 = 10½", []string{"hip_girth"}, nil}, // worked by hand
		{"front.fork_tip", "front fork tip", "front fork extension = 2⅝", []string{"hip_girth", "front_fork_part"}, []string{"front.reach", "front.fork_centre"}},
		{"front.crease_fork", "crease at the fork line", "6⅞", []string{"hip_girth", "front_fork_part"}, []string{"front.fork_tip"}},
		{"front.side", "front side seam", "long", nil, []string{"front.hip_side", "front.waist_side"}},
		{"piece/waistband", "Waistband", "cut 1", []string{"waistband_width", "seam_allowance"}, []string{"band.length", "band.cut_width"}},
	} {
		c, ok := CardOf(r, tt.id)
		if !ok || c.Title != tt.title || !strings.Contains(c.Sum, tt.sum) {
			t.Errorf("%s: %+v", tt.id, c)
		}
		for _, u := range tt.uses {
			if !slices.Contains(c.Uses, u) {
				t.Errorf("%s: %s is not among %q", tt.id, u, c.Uses)
			}
		}
		for _, want := range tt.links {
			if !slices.ContainsFunc(c.Links, func(l Link) bool { return l.Step == want }) {
				t.Errorf("%s: no way to %s in %v", tt.id, want, c.Links)
			}
		}
	}
	if _, ok := CardOf(r, "piece/cape"); ok {
		t.Error("a piece that is not there has a card")
	}
	if c, _ := CardOf(r, "back.fork_tip"); len(c.Moved) == 0 || !strings.Contains(c.Moved[0], "down") {
		t.Errorf("the back fork tip was moved by %q", c.Moved)
	}
	for _, s := range r.Record.Steps() {
		c, ok := CardOf(r, s.Name)
		if !ok || c.Title == "" || c.Sum == "" && c.Why == "" {
			t.Errorf("%s: %+v", s.Name, c)
		}
		for _, l := range c.Links {
			if _, ok := CardOf(r, l.Step); !ok {
				t.Errorf("%s leads to %q, which is not there", s.Name, l.Step)
			}
		}
	}
}

// The replay lays every step once, in the order of the record; the drawing
// grows and ends with every line of the draft.
func TestReplayInOrder(t *testing.T) {
	r := jobs.Made(t, "alto-3.json")
	steps := r.Record.Steps()
	drawn := 0
	for n := 1; n <= len(steps); n++ {
		p := ReplayAt(r.Record, n, r.Format)
		if p.At != n || p.Of != len(steps) || p.Title != steps[n-1].Label {
			t.Fatalf("step %d: %d of %d, %q", n, p.At, p.Of, p.Title)
		}
		if p.Placed == (steps[n-1].Kind == construct.KindValue) {
			t.Errorf("%s has a place: %t", steps[n-1].Name, p.Placed)
		}
		if p.Placed && !strings.Contains(p.Scene.SVG, " now") {
			t.Errorf("%s is not bold", steps[n-1].Name)
		}
		if got := strings.Count(p.Scene.SVG, "<path"); got >= drawn {
			drawn = got
		} else if got < drawn-4 { // the last step's own light
			t.Errorf("after %s there is less to see: %d, was %d", steps[n-1].Name, got, drawn)
		}
		if steps[n-1].From != "" && steps[n-1].Way != "" && p.Tape == "" {
			t.Errorf("%s: where is the tape held?", steps[n-1].Name)
		}
	}
	first, last := ReplayAt(r.Record, -3, r.Format), ReplayAt(r.Record, 9999, r.Format)
	if first.At != 1 || last.At != len(steps) {
		t.Errorf("before the first is %d, after the last %d", first.At, last.At)
	}
	for _, part := range first.Parts {
		if steps[part.At-1].Part != part.Part || part.At > 1 && steps[part.At-2].Part == part.Part {
			t.Errorf("%s does not begin at step %d", part.Part, part.At)
		}
	}
}

// What moved can be pointed at on the overlay, and lies as far from where it
// was as is told.
func TestOverlay(t *testing.T) {
	r, spoken := jobs.Made(t, "alto-3.json"), jobs.Made(t, "alto-3-spoken.json")
	s := Overlay(r, spoken, "")
	for _, class := range []string{`class="trued"`, `class="spoken"`} {
		if n := strings.Count(s.SVG, class); n != 12 {
			t.Errorf("%d lines are %s, want the six edges of two panels", n, class)
		}
	}
	moves := 0
	for _, c := range Changes(r) {
		for _, step := range c.Steps {
			st, _ := r.Record.Find(step.Step)
			if st.Kind != construct.KindMove {
				continue
			}
			moves++
			if _, ok := s.Place(step.Step); !ok {
				t.Errorf("%s cannot be pointed at", step.Step)
			}
			if got := Overlay(r, spoken, step.Step); strings.Count(got.SVG, `class="spot"`) != 1 {
				t.Errorf("%s is not lit once", step.Step)
			}
		}
	}
	if moves == 0 {
		t.Error("nothing moved")
	}
}
