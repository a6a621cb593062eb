package draft_test

import (
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
)

// adviseTogether is advice on garments that are laid together.
func adviseTogether(t *testing.T, on job.Job, parts []draft.Part, opt draft.Advising) *draft.Advice {
	t.Helper()
	a, err := new(draft.Maker).Advise(draft.Join(on, parts, nil), 0, opt)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Short cloth of garments that are laid together is advised on as that of one is: what
// is told of each gift, and of them together, is so when every changed job is drafted
// and laid afresh.
func TestAdviceOnSeveralGarments(t *testing.T) {
	natively(t)
	parts, on := altos(t, 2), choirCloth(t)
	on.Cloth = on.Cloth[:1]
	on.Cloth[0].Length = length(t, "3 1/8 yd")
	opt := draft.Advising{Seed: 1, Work: 20, Longer: 120}
	a := adviseTogether(t, on, parts, opt)
	afresh := togetherAfresh(t, on, parts, opt.Seed)
	savesWhatItSays(t, a, opt, afresh)
	sparesNothing(t, a, opt, afresh)
	if !a.Base.Longer || !slices.ContainsFunc(a.Each, func(t draft.Try) bool { return t.Longer }) {
		t.Error("nothing was looked for longer")
	}
	for i, j := range a.Together.Of {
		if changed := a.Together.Changes(i); changed == (len(j.Rules.Job) == len(parts[i].Job.Rules.Job) && len(j.Style) == len(parts[i].Job.Style)) {
			t.Errorf("garment %d: changed %t, to %v and %v", i, changed, j.Rules.Job, j.Style)
		}
	}
}

// Where the best lay of the jobs as they stand is known, it is gone by: that is how
// much is wanting.
func TestAdviceGoesByTheLayFound(t *testing.T) {
	parts, on := altos(t, 2), choirCloth(t)
	on.Cloth = on.Cloth[2:]
	on.Cloth[0].Length = length(t, "1/8 yd")
	found := laidAfresh(t, draft.Join(on, parts, nil), 3, 2000)
	n := 0
	a := adviseTogether(t, on, parts, draft.Advising{Work: 1, Longer: 2, Found: &found.Result, Tried: func(draft.Try) { n++ }, Stop: func() bool { return n > 0 }})
	if a.Base.Takes != found.Length || a.Base.ShortBy() != found.ShortBy {
		t.Errorf("takes %v, short by %v; the lay found takes %v and is short by %v", a.Base.Takes, a.Base.ShortBy(), found.Length, found.ShortBy)
	}
	if !a.Stopped || n != 1 {
		t.Errorf("stopped %t after %d gifts", a.Stopped, n)
	}
}

// A gift is made of every garment that has it to give, and its harm is that of all; of
// a garment that is cut in part nothing is asked. What it costs all alike is told once.
func TestSeveralGiveWhatTheyHave(t *testing.T) {
	parts, on := altos(t, 4), choirCloth(t)
	tapered := parts[2].Job.Clone()
	tapered.Style = map[string]string{"leg": "tapered"}
	parts[2].Result = madeOf(t, tapered)
	parts[3].Cut = []string{"front"}
	// The lining is quickly laid, and every gift is worked out on it.
	on.Cloth = on.Cloth[2:]
	on.Cloth[0].Length = length(t, "1/4 yd")
	a := adviseTogether(t, on, parts, draft.Advising{Work: 1})
	find := func(path string) (found []draft.Try) {
		for _, try := range a.Each {
			if g := try.Gifts[0]; g.Path == path {
				found = append(found, try)
			}
		}
		return found
	}
	for _, try := range a.Each {
		if g := try.Gifts[0]; slices.Contains(g.Of, 3) || len(g.Of) > 3 {
			t.Errorf("%q is asked of %v, the last of which is cut", g.Say, g.Of)
		}
	}
	all := find("rules.band_join")
	if len(all) != 1 || !slices.Equal(all[0].Gifts[0].Of, []int{0, 1, 2}) || all[0].Harm() != 9 || all[0].Gifts[0].Say != "Join the band at the centre back" {
		t.Errorf("a joined band: %+v", all)
	}
	two := find("style.leg")
	if len(two) != 1 || !slices.Equal(two[0].Gifts[0].Of, []int{0, 1}) || two[0].Gifts[0].Say != "Alto 1, Alto 2: Taper the leg" {
		t.Fatalf("a tapered leg: %+v", two)
	}
	if two[0].Changes(2) || !two[0].Changes(1) || two[0].Of[1].Style["leg"] != "tapered" || two[0].Job.Cloth[0].Fold != on.Cloth[0].Fold {
		t.Errorf("it changes %+v", two[0].Of)
	}
	narrow := find("rules.waistband_width")
	if len(narrow) == 0 || !slices.ContainsFunc(narrow[0].Costs, func(c string) bool { return c == "stepping in: 1 in less than before" }) {
		t.Errorf("a narrower band costs %q", narrow[0].Costs)
	}
	for _, try := range a.Each {
		for i, c := range try.Costs {
			if slices.Contains(try.Costs[:i], c) {
				t.Errorf("%q is told twice of %q", c, try.Gifts[0].Say)
			}
		}
	}
}

// Of garments that differ, each gives its own, and says whose it is.
func TestDifferentGarmentsGiveTheirOwn(t *testing.T) {
	coat := example(t, "lab-coat-7.json")
	parts := append(altos(t, 1), draft.Part{Key: "coat", Result: coat})
	on := choirCloth(t)
	on.Cloth = []job.Cloth{{Kind: piece.Lining, Width: length(t, "45 in"), Length: length(t, "1/8 yd")}}
	a := adviseTogether(t, on, parts, draft.Advising{Work: 1})
	for _, try := range a.Each {
		g := try.Gifts[0]
		if len(g.Of) == 1 && !strings.HasPrefix(g.Say, parts[g.Of[0]].Job.Name+": ") {
			t.Errorf("%q does not say that it is of %s", g.Say, parts[g.Of[0]].Job.Name)
		}
	}
	if len(a.Each) == 0 {
		t.Error("neither can give anything")
	}
}
