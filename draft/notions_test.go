package draft_test

import (
	"fmt"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/piece"
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
