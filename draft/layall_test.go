package draft_test

import (
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// Over several cloths of one kind each copy is laid exactly once, or said to be
// homeless; each lay is sound, and all but the last end on the cloth at hand.
func TestLayAllLaysEachCopyOnce(t *testing.T) {
	in := func(text string) (c job.Cloth) {
		c.Width = length(t, text)
		return c
	}
	cloth := func(wide, long string, fold job.Fold) job.Cloth {
		c := in(wide)
		c.Fold = fold
		if long != "" {
			c.Length = length(t, long)
		}
		return c
	}
	lining, fusing := cloth("45", "", job.Lengthwise), cloth("36", "", job.Open)
	lining.Kind, fusing.Kind = piece.Lining, piece.Interfacing
	for _, tt := range []struct {
		name   string
		cloths []job.Cloth
		second bool // something must be left for the second
		fits   bool
	}{
		{"one bolt", []job.Cloth{cloth("60", "", job.Lengthwise)}, false, true},
		{"a remnant, then the bolt", []job.Cloth{{Outline: square(t, "24", 0, 1, 2, 3)}, cloth("60", "", job.Lengthwise)}, true, true},
		{"short, then the bolt", []job.Cloth{cloth("60", "50", job.Lengthwise), cloth("60", "", job.Open)}, true, true},
		{"short open, then folded", []job.Cloth{cloth("30", "60", job.Open), cloth("60", "", job.Lengthwise)}, true, true},
		{"short crosswise, then open", []job.Cloth{cloth("45", "60", job.Crosswise), cloth("60", "", job.Open)}, true, true},
		{"too little in all", []job.Cloth{cloth("60", "40", job.Open), cloth("60", "10", job.Open)}, true, false},
		{"too narrow for the legs, then nothing", []job.Cloth{cloth("8", "", job.Open)}, false, false},
	} {
		j := example(t, "alto-3.json").Job.Clone()
		j.Cloth = append(tt.cloths, lining, fusing)
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		all, err := draft.LayAll(r, lay.Options{Work: 60})
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		cut := lay.Want{}
		fits := len(all.Homeless) == 0
		for i, l := range all.Cloths {
			if l == nil {
				continue
			}
			if err := lay.Verify(l.Cloth, l.Items, l.Result); err != nil {
				t.Errorf("%s: cloth %d: %v", tt.name, i, err)
			}
			cut.Less(l.Items, l.Result)
			fits = fits && l.ShortBy == 0
			if l.Cloth.LeaveOut && l.ShortBy > 0 {
				t.Errorf("%s: cloth %d: runs over by %.0f mm with another to come", tt.name, i, l.ShortBy.MM())
			}
		}
		homeless := map[string]int{}
		for _, h := range all.Homeless {
			homeless[h.Piece] = h.Copies
		}
		for _, p := range r.Pieces {
			if got := -cut[p.ID].Plain - cut[p.ID].Turned + homeless[p.ID]; got != p.Count {
				t.Errorf("%s: %d of %s laid and %d homeless, want %d in all", tt.name, got-homeless[p.ID], p.ID, homeless[p.ID], p.Count)
			}
		}
		if second := len(tt.cloths) > 1 && all.Cloths[0] != nil && all.Cloths[1] != nil; second != tt.second || fits != tt.fits {
			t.Errorf("%s: on both cloths %t, want %t; fits %t, want %t", tt.name, second, tt.second, fits, tt.fits)
		}
	}
}
