package trouser_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
)

// Bodies on which a truing has something to do.
const (
	wideThigh     = "waist_girth 34, hip_girth 40, thigh_girth 27, knee_girth 16, outside_leg_length 41"
	widestThigh   = "waist_girth 34, hip_girth 40, thigh_girth 30, knee_girth 16, outside_leg_length 41"
	straightWaist = "waist_girth 40, hip_girth 41, thigh_girth 23, knee_girth 15, outside_leg_length 41"
	lowHip        = hip42 + ", waist_to_hips 11, body_rise 11"
	highHip       = hip42 + ", waist_to_hips 6, body_rise 11"
)

// lost is what comes back when a truing is switched off: what it mends, true
// of a draft that has the fault and false of one that has not.
type lost struct {
	body  string
	fault string
	has   func(t *testing.T, m made) bool
}

func caught(t *testing.T, m made, check string) bool {
	t.Helper()
	return m.Level(t, check) != proof.Fine
}

// forkLine is the width at the fork line, tip to side, in inches.
func forkLine(m made, part string) float64 { return m.Dist(part+".fork_tip", part+".fork_side") }

func faultsOfTruings() map[string]lost {
	return map[string]lost{
		"level": {lowHip, "the hip line lies within an inch of the fork line, or below it", func(_ *testing.T, m made) bool {
			return m.Record.Value("hip_level") > m.Record.Value("fork_level")-25.3
		}},
		"ease": {hip42, "no room over the body", func(t *testing.T, m made) bool {
			t.Helper()
			return caught(t, m, "hip girth") && caught(t, m, "waist girth") && m.Girth(t, "hip") < 42.1 && m.Girth(t, "waist") < 34.1
		}},
		"dart": {straightWaist, "the side runs outwards from the hip up to the waist, to make room for the dart", func(_ *testing.T, m made) bool {
			return m.Record.Point("front.waist_side").X > m.Record.Point("front.hip_side").X+3
		}},
		"reach": {wideThigh, "the back leg takes more of the thigh than its ½ on each side", func(t *testing.T, m made) bool {
			t.Helper()
			return acrossIn(t, m, "back", "back.crease_thigh")-acrossIn(t, m, "front", "front.crease_thigh") > 1.1
		}},
		"thigh": {widestThigh, "the front leg is wider at the thigh than at the fork line above it", func(t *testing.T, m made) bool {
			t.Helper()
			return acrossIn(t, m, "front", "front.crease_thigh") > forkLine(m, "front")
		}},
		"tilt": {highHip, "the seat line leans more than 2 in over the depth of the hip line", func(_ *testing.T, m made) bool {
			v := m.Record.Point("back.hip_centre").Sub(m.Record.Point("back.tilt_in"))
			return math.Abs(v.X/v.Y) > 2.0/7+0.005
		}},
		"hip": {hip42, "the finished hip is less than was asked for", func(t *testing.T, m made) bool {
			t.Helper()
			return caught(t, m, "hip girth") && m.Girth(t, "hip") < 43.3
		}},
		"leg": {hip42, "the back crease does not halve the back fork line", func(_ *testing.T, m made) bool {
			return math.Abs(m.Dist("back.fork_tip", "back.crease_fork")-m.Dist("back.crease_fork", "back.fork_side")) > 0.5
		}},
		"waist": {hip42, "the waist is not square, and bends where the darts close", func(t *testing.T, m made) bool {
			t.Helper()
			return caught(t, m, "waist at the side") && caught(t, m, "waist at the centre back") && caught(t, m, "front dart, waist across it")
		}},
		"side": {hip42, "the sides are not of one length", func(t *testing.T, m made) bool {
			t.Helper()
			return m.Level(t, "side seam") == proof.Stops
		}},
		"inseam": {hip42, "the inseams are not of one length", func(t *testing.T, m made) bool {
			t.Helper()
			return m.Level(t, "inseam") == proof.Stops
		}},
		"fork": {hip42, "the fork curve has a corner at the inseam", func(t *testing.T, m made) bool {
			t.Helper()
			return caught(t, m, "fork at the inseam")
		}},
	}
}

// Each truing switched off alone brings its own fault back; with all of them
// on there is no such fault, and the truing is told as a change.
func TestEachTruingMendsItsOwnFault(t *testing.T) {
	mends := faultsOfTruings()
	for _, c := range trouser.Garment().Truings {
		l, ok := mends[c.ID]
		if !ok {
			t.Errorf("nothing says what truing %q mends", c.ID)
			continue
		}
		t.Run(c.ID, func(t *testing.T) {
			on := order{Body: measured(t, l.body)}
			off := on
			off.Untrued = []string{c.ID}
			with, without := on.draft(t), off.draft(t)
			if l.has(t, with) {
				t.Errorf("trued, and yet %s", l.fault)
			}
			if !l.has(t, without) {
				t.Errorf("switched off, and yet it is not so that %s", l.fault)
			}
			if len(with.Changes(c.ID)) == 0 {
				t.Errorf("the truing is on and nothing tells what it changed")
			}
			if got := without.Changes(c.ID); len(got) > 0 {
				t.Errorf("the truing is off and yet changed %+v", got)
			}
			if with.Stopped() {
				t.Errorf("trued, and yet stopped by %q", with.Faults(proof.Stops))
			}
		})
	}
}

// Nothing is trued that needs no truing: on a body of usual proportions these
// truings lay no step.
func TestTruingsLeaveAloneWhatIsRight(t *testing.T) {
	m := order{Body: measured(t, hip42)}.draft(t)
	for _, id := range []string{"level", "dart", "reach", "thigh", "tilt"} {
		if c := m.Changes(id); len(c) > 0 {
			t.Errorf("truing %q changed %+v", id, c)
		}
	}
}

// A back inseam that is to be stretched with the iron is cut so much shorter.
func TestInseamStretch(t *testing.T) {
	for text, want := range map[string]float64{"0 in": 0, "1/8 in": 0.125, "1/4 in": 0.25, "3/8 in": 0.375} {
		m := order{Body: measured(t, hip42), Rules: rules.Values{"inseam_stretch": text}}.draft(t)
		about(t, "front inseam over back", (m.Edge(t, "front", "inseam").Len()-m.Edge(t, "back", "inseam").Len())/25.4, want, 0.01)
		if l := m.Level(t, "inseam"); l != proof.Fine {
			t.Errorf("stretched by %s, the inseam is %s", text, l)
		}
	}
}

// All truings off one by one is the same as spoken.
func TestAllTruingsOffIsSpoken(t *testing.T) {
	var all []string
	for _, c := range trouser.Garment().Truings {
		all = append(all, c.ID)
	}
	for _, b := range []string{hip42, wideThigh, straightWaist, highHip} {
		spoken := order{Body: measured(t, b), Spoken: true}.draft(t)
		off := order{Body: measured(t, b), Untrued: all}.draft(t)
		a, z := spoken.Record.Steps(), off.Record.Steps()
		if len(a) != len(z) {
			t.Fatalf("%d steps spoken, %d with every truing off", len(a), len(z))
		}
		for i := range a {
			if a[i].Name != z[i].Name || a[i].Value != z[i].Value || a[i].At != z[i].At {
				t.Errorf("step %d: spoken %s %v at %v, off %s %v at %v", i, a[i].Name, a[i].Value, a[i].At, z[i].Name, z[i].Value, z[i].At)
			}
		}
	}
}

func TestUnknownTruingIsRefused(t *testing.T) {
	var bad *garment.BadTruing
	err := trouser.Garment().CheckTruings([]string{"fork", "pleat"})
	if !errors.As(err, &bad) || bad.Name != "pleat" {
		t.Errorf("a truing that is not there: %v", err)
	}
}

// Where neither the waist is squared nor the dart fitted, and the waist is wider
// than the hip, no back side runs as long as the front one: that is refused, with
// the truing that would mend it.
func TestSideThatCannotBeLevelled(t *testing.T) {
	o := order{
		Body:    measured(t, "waist_girth 105.884 cm, hip_girth 103.206 cm, thigh_girth 67.156 cm, knee_girth 42.436 cm, calf_girth 39.655 cm, heel_girth 32.548 cm, outside_leg_length 109.396 cm, body_rise 25.451 cm, waist_to_hips 15.872 cm"),
		Untrued: []string{"ease", "dart", "tilt", "hip", "waist"},
	}
	_, err := trouser.Garment().Draft(o.input(t))
	var no *garment.Impossible
	if !errors.As(err, &no) || !strings.Contains(no.Mend, `"waist"`) {
		t.Errorf("%v, want a garment.Impossible that names the truing", err)
	}
}

// Levels that no leg can be drawn over are refused with what is wrong and what
// to do, spoken or trued.
func TestImpossibleBodies(t *testing.T) {
	for _, tt := range []struct{ name, body string }{
		{"leg as short as the rise", "waist_girth 34, hip_girth 42, thigh_girth 25, knee_girth 15, outside_leg_length 20"},
		{"rise hardly below the band", "waist_girth 34, hip_girth 42, thigh_girth 25, knee_girth 15, outside_leg_length 40, body_rise 3"},
	} {
		for _, spoken := range []bool{true, false} {
			_, err := trouser.Garment().Draft(order{Body: measured(t, tt.body), Spoken: spoken}.input(t))
			var no *garment.Impossible
			if !errors.As(err, &no) || no.What == "" || no.Mend == "" {
				t.Errorf("%s, spoken %t: %v, want a garment.Impossible that says what and how to mend", tt.name, spoken, err)
			}
		}
	}
}
