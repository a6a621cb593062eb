package draft_test

import (
	"fmt"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/piece"
	"chalkfold/draft/quote"
	"chalkfold/draft/unit"
)

// What is bought agrees with what was drafted: the zip with the opening, the
// tape with the hems; and the thread with what factories cost a pair of trousers
// at, some 60 to 120 m sewn plain and 150 to 350 m with overlocked edges (common
// practice, from memory).
func TestNotions(t *testing.T) {
	r := example(t, "alto-3.json")
	text := func(by bench.Setting, id string) string {
		all, err := draft.Notions(r, by)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range all {
			if n.Name == "" || n.Count <= 0 || n.Per == "" {
				t.Errorf("%+v cannot be charged", n)
			}
			if n.ID == id {
				return n.Text
			}
		}
		t.Fatalf("no %s among %v", id, all)
		return ""
	}
	zip := 0.0
	for _, p := range r.Panels {
		e, _ := p.Edge("centre")
		for _, q := range r.Pieces {
			for _, n := range q.Notches {
				if q.ID == "front" && p.Name == "front" && n.Name == "end of the fly" {
					at, _ := e.Sew.Nearest(n.At)
					zip = e.Sew.Len() - at
				}
			}
		}
	}
	if got := text(bench.Setting{}, "zip"); !strings.Contains(got, fmt.Sprintf("at least %.0f in", zip/25.4)) {
		t.Errorf("the zip is told as %q, the opening is %.1f mm", got, zip)
	}
	hems := 0.0
	for _, p := range r.Panels {
		e, _ := p.At(piece.Foot)
		hems += 2 * (e.Sew.Len() + 25.4)
	}
	if got := text(bench.Setting{}, "hem"); hems/914.4 < 1 || !strings.Contains(got, "yd") {
		t.Errorf("tape for %.0f mm of hems is told as %q", hems, got)
	}
	for machine, most := range map[bench.Machine][2]int{bench.Straight: {60, 120}, bench.Zigzag: {100, 250}, bench.Overlock: {150, 350}} {
		var metres, seams int
		if _, err := fmt.Sscanf(text(bench.Setting{Machine: machine}, "thread"), "sewing thread: about %d m, for %d m", &metres, &seams); err != nil || metres < most[0] || metres > most[1] {
			t.Errorf("%s: %d m of thread for %d m: %v", machine, metres, seams, err)
		}
	}
}

// What several garments take is what each takes by itself, added up: as many zips,
// each as long as the longest opening that it closes; thread and tape as long as that of
// each; of a garment that is cut no interfacing, and nothing of it is laid or found.
func TestNotionsTogether(t *testing.T) {
	notions := func(r *draft.Result) map[string]draft.Notion {
		all, err := draft.Notions(r, bench.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]draft.Notion{}
		for _, n := range all {
			if _, twice := out[n.ID]; twice {
				t.Errorf("%s is told twice", n.ID)
			}
			out[n.ID] = n
		}
		return out
	}
	metres := func(n draft.Notion) (thread, seams int) {
		if _, err := fmt.Sscanf(n.Text, "sewing thread: about %d m, for %d m", &thread, &seams); err != nil {
			t.Errorf("%q: %v", n.Text, err)
		}
		return thread, seams
	}
	parts, on := altos(t, 3), choirCloth(t)
	var zips, buttons quote.Quantity
	var tape, thread, seams int
	longest := unit.Length(0)
	for _, p := range parts {
		one := notions(p.Result)
		zips, buttons = zips+one["zip"].Count, buttons+one["fastening"].Count
		a, b := metres(one["thread"])
		thread, seams, tape = thread+a, seams+b, tape+int(one["tape"].Count)
		for _, n := range p.Notions {
			if n.ID == "zip" {
				longest = max(longest, n.Least)
			}
		}
	}
	r := draft.Join(on, parts, nil)
	all := notions(r)
	got := quote.Quantity(0)
	enough := false
	for id, n := range all {
		var count, inches int
		if !strings.HasPrefix(id, "zip ") {
			continue
		}
		if _, err := fmt.Sscanf(n.Text, "%d × zip, closed at its lower end, at least %d in", &count, &inches); err != nil {
			t.Errorf("%q: %v", n.Text, err)
		}
		got, enough = got+n.Count, enough || unit.Length(inches)*unit.Inch > longest-unit.Millimetre/100
	}
	if got != zips || !enough || all["fastening"].Count != buttons {
		t.Errorf("%v zips and %v buttons, want %v and %v, one of %v: %v", got, all["fastening"].Count, zips, buttons, longest, all)
	}
	a, b := metres(all["thread"]) // rounded up once, not for each garment
	if a > thread || a < thread-3*10 || b > seams || b < seams-3 {
		t.Errorf("%d m of thread for %d m, want %d for %d", a, b, thread, seams)
	}
	if sum := int(all["tape"].Count); sum > tape || sum < tape-3*int(quote.One)/4 {
		t.Errorf("%d of tape, want %d", sum, tape)
	}

	for _, p := range parts[0].Pieces {
		parts[0].Cut = append(parts[0].Cut, p.ID)
	}
	parts[1].Cut = []string{"front"}
	left := draft.Join(on, parts, nil)
	for _, p := range left.Pieces {
		if strings.HasPrefix(p.ID, "1.") || p.ID == "2.front" {
			t.Errorf("%s is laid again", p.ID)
		}
	}
	if want := len(r.Pieces) - len(parts[0].Pieces) - 1; len(left.Pieces) != want {
		t.Errorf("%d pieces are laid, want %d", len(left.Pieces), want)
	}
	for _, f := range left.Report.Findings {
		if strings.HasPrefix(f.Name, "Alto 1: ") {
			t.Errorf("found of a garment that is cut: %s", f.Name)
		}
	}
	fewer := notions(left)
	alone := notions(draft.Join(on, parts[1:], nil))
	for _, id := range []string{"interfacing", "lining"} {
		if fewer[id].Count != alone[id].Count {
			t.Errorf("%v of %s with one garment cut, want %v", fewer[id].Count, id, alone[id].Count)
		}
	}
	if fewer["fastening"].Count != buttons {
		t.Error("a garment that is cut has lost its button")
	}
}
