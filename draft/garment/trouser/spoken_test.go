package trouser_test

import (
	"math"
	"slices"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// The quarter method as it is spoken, worked by hand for hip 42, waist 34,
// thigh 25 with the default rules (common practice): a quarter of the hip 10½,
// the extension a sixteenth 2⅝, the fork line 13⅛; the back reaches a further
// sixteenth, 5¼ in all.
func TestSpokenIsWorkedByHand(t *testing.T) {
	m := order{Body: measured(t, hip42), Spoken: true}.draft(t)
	for name, want := range map[string]float64{
		// levels below the waist seam: the band, 2, is outside the cloth
		"hip_level": 9 - 2, "fork_level": 11 - 2, "thigh_level": 11 - 2 + 4, "hem_level": 40 - 2, "knee_level": (9+38)/2.0 - 2,
		"quarter_hip": 10.5, "quarter_waist": 8.5,
		"front.hip_width": 10.5, "front.waist_width": 8.5 + 1, "back.waist_width": 8.5 + 1,
		"front.reach": 2.625, "back.reach": 2.625, "front.half_thigh": 12.5,
		"front.thigh_width": 12.5, "back.thigh_width": 13.5,
	} {
		about(t, name, m.Record.Value(name)/25.4, want, 1e-9)
	}
	for _, tt := range []struct {
		what, from, to string
		want           float64
	}{
		{"waist, front", "front.waist_centre", "front.waist_side", 9.5},
		{"hip line", "front.hip_centre", "front.hip_side", 10.5},
		{"fork line", "front.fork_tip", "front.fork_side", 13.125},
		{"front extension", "front.fork_centre", "front.fork_tip", 2.625},
		{"back extension in all", "front.fork_centre", "back.fork_tip", 5.25},
		{"crease halves the fork line", "front.fork_tip", "front.crease_fork", 13.125 / 2},
		{"crease halves the fork line", "front.crease_fork", "front.fork_side", 13.125 / 2},
		{"thigh, half on each side of the crease", "front.crease_thigh", "front.thigh_in", 6.25},
		{"thigh, half on each side of the crease", "front.crease_thigh", "front.thigh_out", 6.25},
		{"thigh below the fork", "front.crease_fork", "front.crease_thigh", 4},
		{"centre back in by the tilt and up by the raise", "front.waist_centre", "back.waist_centre", math.Hypot(2, 1)},
		{"back waist, swung from the centre back", "back.waist_centre", "back.waist_side", 9.5},
		{"back knee wider by ½ at the side", "front.knee_out", "back.knee_out", 0.5},
		{"back knee wider by ½ inside", "front.knee_in", "back.knee_in", 0.5},
		{"back hem wider by ½ at the side", "front.hem_out", "back.hem_out", 0.5},
		{"back hem wider by ½ inside", "front.hem_in", "back.hem_in", 0.5},
		{"hem, outside leg less band", "front.waist_centre", "front.hem_centre", 38},
	} {
		about(t, tt.what, m.Dist(tt.from, tt.to), tt.want, 1e-6)
	}
	// the back's side at the waist lies on the front's waist line
	about(t, "back side at the waist, below the waist line", m.Record.Point("back.waist_side").Y, 0, 1e-9)
}

// The numbers can say where they come from.
func TestSpokenSums(t *testing.T) {
	m := order{Body: measured(t, hip42), Spoken: true}.draft(t)
	f := unit.Format{Den: 8}
	for name, want := range map[string]string{
		"quarter_hip":       "hip girth ÷ 4 = 42 ÷ 4 = 10½",
		"front.reach":       "hip girth ÷ front fork part = 42 ÷ 16 = 2⅝",
		"front.half_thigh":  "thigh girth ÷ 2 = 25 ÷ 2 = 12½",
		"front.waist_width": "waist of one panel + front dart = 8½ + 1 = 9½",
	} {
		if got := m.Record.Sum(name, f); got != want {
			t.Errorf("%s is told as %q, want %q", name, got, want)
		}
	}
	sources := map[string]string{}
	for _, r := range m.Record.Why("front.fork_tip", f) {
		sources[r.Name] = r.Source
	}
	if sources["hip_girth"] != "measured" || sources["front_fork_part"] != "rule (default)" {
		t.Errorf("the fork tip rests on %v, want the hip as measured and the fork part as defaulted", sources)
	}
}

// Nothing of what is spoken was trued, and every step but a sum is one that a
// hand can do: from a mark already made.
func TestSpokenHasNoTruings(t *testing.T) {
	m := order{Body: measured(t, hip42), Spoken: true}.draft(t)
	if c := m.Record.Changes(); len(c) > 0 {
		t.Errorf("the spoken draft was changed: %+v", c)
	}
	laid := map[string]bool{}
	for _, s := range m.Record.Steps() {
		if s.Truing != "" || s.Kind == construct.KindMove {
			t.Errorf("%s belongs to truing %q", s.Name, s.Truing)
		}
		if s.Kind == construct.KindPoint && s.From != "" && !laid[s.From] {
			t.Errorf("%s is measured from %s, which is not marked yet", s.Name, s.From)
		}
		if s.Label == "" || s.Why == "" {
			t.Errorf("%s lacks words: %q, %q", s.Name, s.Label, s.Why)
		}
		laid[s.Name] = true
	}
}

// Taken as spoken, with the tilt of 1½ for short cloth, the finished hip is
// about 41½ in, less than the body; the back inseam comes out about ½ in
// longer than the front; the sides differ by about 1/8 in (common practice).
// The proof stops the cut for hip and inseam.
func TestSpokenIsCaught(t *testing.T) {
	for _, tilt := range []string{"1 1/2 in", "2 in"} {
		m := order{Body: measured(t, hip42), Spoken: true, Rules: rules.Values{"seat_tilt": tilt}}.draft(t)
		for _, check := range []string{"hip girth", "inseam"} {
			if l := m.Level(t, check); l != proof.Stops {
				t.Errorf("tilt %s: %s is %s, want it to stop the cut", tilt, check, l)
			}
			if f := m.Finding(check); f.Mend == "" {
				t.Errorf("tilt %s: no mend for the %s", tilt, check)
			}
		}
		if got := m.Girth(t, "hip"); got >= 42 || got < 41 {
			t.Errorf("tilt %s: finished hip %.2f in, want it under the body's 42", tilt, got)
		}
	}
	m := order{Body: measured(t, hip42), Spoken: true, Rules: rules.Values{"seat_tilt": "1 1/2 in"}}.draft(t)
	about(t, "finished hip", m.Girth(t, "hip"), 41.5, 0.25)
	in := func(panel, edge string) float64 { return m.Edge(t, panel, edge).Len() / 25.4 }
	about(t, "back inseam over the front", in("back", "inseam")-in("front", "inseam"), 0.5, 0.25)
	about(t, "sides apart", math.Abs(in("back", "side")-in("front", "side")), 0.125, 0.0625)

	// The hip is lost in the back alone, by the slope of the seat line.
	front, seat := acrossIn(t, m, "front", "front.hip_centre"), m.Record.Point("back.hip_centre").Sub(m.Record.Point("back.waist_centre")).Unit()
	about(t, "front hip", front, 10.5, 1e-3)
	about(t, "finished hip from the slope", m.Girth(t, "hip"), 2*10.5+2*10.5*math.Abs(seat.Y), 0.01)
}

// Trued, the same body passes, every check of it, and what each truing did is
// told as a change with its reason.
func TestTruedPasses(t *testing.T) {
	for _, tilt := range []string{"1 1/2 in", "2 in"} {
		m := order{Body: measured(t, hip42), Rules: rules.Values{"seat_tilt": tilt}}.draft(t)
		if bad := m.Faults(proof.Mind); len(bad) > 0 {
			t.Errorf("tilt %s: not fine: %q", tilt, bad)
		}
		about(t, "finished hip", m.Girth(t, "hip"), 42+1.5, 3/25.4)
		about(t, "finished waist", m.Girth(t, "waist"), 34+0.5, 3/25.4)
		about(t, "finished thigh", m.Girth(t, "thigh"), 25+1, 3/25.4)
		// by the tests' own measure: square to the seat line from where the hip
		// was marked, up to the side
		about(t, "front hip line", m.Dist("front.hip_centre", "front.hip_side"), 43.5/4, 1e-6)
		seat := m.Record.Point("back.hip_centre").Sub(m.Record.Point("back.waist_centre")).Unit()
		across := m.Record.Point("back.hip_side").Sub(m.Record.Point("back.hip_centre")).Dot(seat.Left()) / 25.4
		about(t, "back hip square to the seat line", across, 43.5/4, 1e-3)
		for _, c := range m.Record.Changes() {
			if c.Label == "" || c.Why == "" || !known(c.Truing) {
				t.Errorf("a change is not told: %+v", c)
			}
		}
	}
}

func known(truing string) bool {
	for _, c := range trouser.Garment().Truings {
		if c.ID == truing {
			return true
		}
	}
	return false
}

// The checks of a whole pair are all made: none is passed over.
func TestEveryCheckIsMade(t *testing.T) {
	m := order{Body: measured(t, hip42+", inside_leg_length 30, body_rise 10 1/2, total_crotch_length 27, front_crotch_length 12, back_crotch_length 15")}.draft(t)
	for _, check := range []string{
		"outline: Front", "outline: Back", "outline: Waistband", "inseam", "side seam", "waist to band", "fork at the inseam",
		"waist at the side", "waist at the centre front", "waist at the centre back", "front dart legs", "back dart legs",
		"front dart, waist across it", "back dart, waist across it", "waist girth", "hip girth", "thigh girth", "knee girth", "calf girth",
		"stepping in", "foot through the hem", "fork seam", "fork seam, front", "fork seam, back", "pocket mouth", "pocket depth",
		"pocket clears crease and fly", "fly", "front crease at the knee", "back crease at the hem", "inside leg",
		"notches: inseam", "notches: side seam", "notches: waist to band", "notches in pairs", "cut as proved: Front", "turn of the back inseam", "hem of the front, square", "hem of the back, turned up",
	} {
		if m.Finding(check) == nil {
			t.Errorf("%q was not checked", check)
		}
	}
	if i := slices.IndexFunc(m.Seams, func(s proof.Seam) bool { return s.Name == "waist to band" }); i < 0 || m.Seams[i].A < 30*unit.Inch {
		t.Errorf("the waist seam was not measured: %+v", m.Seams)
	}
}
