package trouser_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// A woman of the survey's middle, measured at the fork as well; her rise is
// from the waist of her crotch length.
const balancedBody = "waist_girth 34, hip_girth 40, thigh_girth 24, knee_girth 15, calf_girth 14 1/2, heel_girth 12 3/4, outside_leg_length 40, body_rise 10, waist_to_hips 8, total_crotch_length 26 1/2"

// forkSeam is the finished seam from band to band in inches, on the panels.
func forkSeam(t fataler, m made, band float64, panels ...string) float64 {
	t.Helper()
	sum := 0.0
	for _, p := range panels {
		sum += (m.Edge(t, p, "centre").Len()+m.Edge(t, p, "fork").Len())/25.4 + band
	}
	return sum
}

// The fork seam is the crotch length and the ease that was chosen, and so are
// its parts; every girth stays what it was.
func TestBalancedForkSeam(t *testing.T) {
	for _, tt := range []struct {
		name, body         string
		rules              rules.Values
		whole, front, back float64 // in; 0 is not asked for
	}{
		{"the whole", balancedBody, nil, 26.5 + 1, 0, 0},
		{"another ease", balancedBody, rules.Values{"fork_ease": "2 in"}, 26.5 + 2, 0, 0},
		{"no ease, narrow band", balancedBody, rules.Values{"fork_ease": "0 in", "waistband_width": "1 1/4 in"}, 26.5, 0, 0},
		{"both parts", balancedBody + ", front_crotch_length 12, back_crotch_length 14 1/2", nil, 27.5, 12.5, 15},
		{"shorter than by the rules", strings.Replace(balancedBody, "26 1/2", "24", 1), nil, 25, 0, 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			o := order{Body: measured(t, tt.body), Rules: tt.rules, Method: trouser.Balanced}
			m := o.draft(t)
			band := o.input(t).Rules.Length("waistband_width").In()
			const tol = 1.0 / 25.4
			about(t, "fork seam", forkSeam(t, m, band, "front", "back"), tt.whole, tol)
			if tt.front > 0 {
				about(t, "front", forkSeam(t, m, band, "front"), tt.front, tol)
				about(t, "back", forkSeam(t, m, band, "back"), tt.back, tol)
			}
			if l := m.Level(t, "balance"); l != proof.Fine {
				t.Errorf("balance is %s: %+v", l, m.Finding("balance"))
			}
			o.Method = trouser.Quarter
			quarter := o.draft(t)
			for _, g := range []string{"waist", "hip", "thigh", "knee", "calf", "hem"} {
				about(t, g, m.Girth(t, g), quarter.Girth(t, g), 0.06)
			}
			if q := forkSeam(t, quarter, band, "front", "back"); math.Abs(q-tt.whole) < 0.25 {
				t.Errorf("the quarter method gives %.2f in already: the balance proves nothing", q)
			}
			if len(m.Changes(trouser.Balanced)) == 0 {
				t.Error("the record does not tell what was changed")
			}
		})
	}
}

// A crotch length of trousers that fit holds its ease; one that nobody took is
// estimated, and the proof says that it rests on that.
func TestBalancedWithoutTape(t *testing.T) {
	v := measured(t, balancedBody)
	of := v[body.TotalCrotchLength]
	of.Of = body.OfGarment
	v[body.TotalCrotchLength] = of
	m := order{Body: v, Method: trouser.Balanced}.draft(t)
	about(t, "of a garment", forkSeam(t, m, 2, "front", "back"), 26.5, 1.0/25.4)

	list, _, _ := strings.Cut(balancedBody, ", total")
	taken := body.Takings{}
	for _, s := range strings.Split(list, ",") {
		id, text, _ := strings.Cut(strings.TrimSpace(s), " ")
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		taken[body.ID(id)] = body.Taking{Value: q}
	}
	v, err := body.Complete(body.Women, taken, trouser.Garment().Needed(trouser.Balanced))
	if err != nil {
		t.Fatal(err)
	}
	guess := v[body.TotalCrotchLength]
	if !guess.Estimated {
		t.Fatal("nobody took it, and yet it is no estimate")
	}
	m = order{Body: v, Method: trouser.Balanced}.draft(t)
	about(t, "as estimated", forkSeam(t, m, 2, "front", "back"), guess.Length.In()+1, 1.0/25.4)
	if f := m.Finding("balance"); f == nil || !strings.Contains(f.Say, "estimate") {
		t.Errorf("%+v, want it said that it rests on an estimate", f)
	}
}

// A crotch length that no rule's range reaches: as near as can be, with the
// rules that stopped it.
func TestBalanceOutOfReach(t *testing.T) {
	for length, missed := range map[string]string{"36": "too short", "17": "too long"} {
		m := order{Body: measured(t, strings.Replace(balancedBody, "26 1/2", length, 1)), Method: trouser.Balanced}.draft(t)
		f := m.Finding("balance")
		if f == nil || f.Level != proof.Mind || !strings.Contains(f.Mend, missed+", and at the end of their range: ") {
			t.Errorf("%s in: %+v, want it minded, by how much it was missed, and the rules named", length, f)
		}
		checkSound(t, m)
	}
}

// Where the front fork has grown for the thigh as far as it may, the other
// figures are balanced without it: a body of the survey, wide legs, one pleat.
func TestBalancedBesideWhatMayNotChange(t *testing.T) {
	v := surveyed(t)[87]
	for id, times := range map[body.ID]unit.Length{body.ThighGirth: 1.024, body.HipGirth: 0.9794082641601562} {
		v[id] = body.Value{Length: v[id].Length * times}
	}
	v[body.TotalCrotchLength] = body.Value{Length: 2*v[body.BodyRise].Length + v[body.HipGirth].Length/4}
	m := order{Body: v, Method: trouser.Balanced, Style: garment.Style{"front_dart": "pleat", "leg": "wide", "length": "knee"}}.draft(t)
	if !m.Record.Has("front.reach_grown") || m.Record.Has("front.reach_balanced") {
		t.Fatal("the front fork has not grown as far as it may: the check proves nothing")
	}
	if f := m.Finding("balance"); f == nil || f.Level != proof.Fine {
		t.Errorf("%+v, want it balanced", f)
	}
}

// By the quarter method nothing is changed, and no balance is claimed.
func TestQuarterIsNotBalanced(t *testing.T) {
	m := order{Body: measured(t, balancedBody)}.draft(t)
	if m.Finding("balance") != nil || len(m.Changes(trouser.Balanced)) > 0 {
		t.Error("the quarter method was balanced")
	}
}

// What was changed answers why: by the crotch length and the ease.
func TestBalanceAnswersWhy(t *testing.T) {
	m := order{Body: measured(t, balancedBody), Method: trouser.Balanced}.draft(t)
	for _, step := range []string{"front.reach_balanced", "back.reach_balanced", "back.raise_balanced", "fork_level_balanced"} {
		if !m.Record.Has(step) {
			t.Fatalf("no step %s", step)
		}
		found := map[string]bool{}
		for _, r := range m.Record.Why(step, unit.Format{System: unit.Inches, Den: 8}) {
			found[r.Name] = true
		}
		if !found["total_crotch_length"] || !found["fork_ease"] {
			t.Errorf("why %s: %v, want the crotch length and the ease in it", step, found)
		}
	}
}

// Any body with any crotch length in any style: as wished within 3 mm, or the
// proof says what stopped it; nothing that the truings promise is lost.
func TestPlausibleBodiesBalanced(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{Body: anyBody(t, all), Style: anyStyle(t), Method: trouser.Balanced}
		rise := o.Body[body.HipGirth].Length / 4
		if r, ok := o.Body[body.BodyRise]; ok {
			rise = r.Length
		}
		o.Body[body.TotalCrotchLength] = body.Value{Length: 2*rise + o.Body[body.HipGirth].Length*unit.Length(rapid.Float64Range(0.1, 0.3).Draw(t, "through"))}
		m, ok := tryDraft(t, o)
		if !ok {
			return
		}
		checkSound(t, m)
		for _, check := range []string{"inseam", "side seam", "waist to band", "waist girth", "hip girth", "thigh girth"} {
			if l := m.Level(t, check); l == proof.Stops {
				t.Fatalf("balanced, and yet the %s stops the cut: %+v", check, m.Finding(check))
			}
		}
		if f := m.Finding("balance"); f.Level != proof.Fine && !strings.Contains(f.Mend, "at the end of their range: ") {
			t.Fatalf("%+v, want the rules that stopped it", f)
		}
	})
}

// The balance finds its way with the truings off as well.
func TestBalancedAsSpoken(t *testing.T) {
	m := order{Body: measured(t, balancedBody), Method: trouser.Balanced, Spoken: true, Style: garment.Style{"front_dart": "none"}}.draft(t)
	about(t, "fork seam", forkSeam(t, m, 2, "front", "back"), 27.5, 1.0/25.4)
}
