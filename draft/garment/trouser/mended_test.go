package trouser_test

import (
	"errors"
	"slices"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/rules"
)

// A dart that cannot lie inside the waist, or leaves no room for the pocket, is
// refused with what to mend.
func TestDartsThatDoNotFitAreRefused(t *testing.T) {
	for _, tt := range []struct {
		name, body string
		rules      rules.Values
		style      garment.Style
	}{
		{"back dart beyond the side", "waist_girth 22 1/2, hip_girth 45 3/8, thigh_girth 26, knee_girth 16, inside_leg_length 30", rules.Values{"back_dart_from": "6 in"}, nil},
		{"front dart beyond the side", "waist_girth 23 1/4, hip_girth 60, thigh_girth 30, knee_girth 18, outside_leg_length 41", rules.Values{"front_dart_from": "6 in"}, nil},
		{"no room for the pocket", "waist_girth 22 1/2, hip_girth 36, thigh_girth 20, knee_girth 13, outside_leg_length 38", rules.Values{"front_dart_from": "5 in"}, nil},
		{"a fly narrower than its allowances", hip42, rules.Values{"fly_width": "2 1/2 in", "seam_allowance": "1 1/4 in"}, nil},
	} {
		for _, spoken := range []bool{false, true} {
			o := order{Body: measured(t, tt.body), Rules: tt.rules, Style: tt.style, Spoken: spoken}
			_, err := trouser.Garment().Draft(o.input(t))
			var no *garment.Impossible
			if err != nil && !errors.As(err, &no) {
				t.Errorf("%s, spoken %t: %v is no refusal", tt.name, spoken, err)
			}
			if !spoken && err == nil {
				t.Errorf("%s: drafted", tt.name)
			}
		}
	}
}

// Drawn right side up, the band laps under on the right front when the left
// laps over, and on the left front when the right does.
func TestBandLapsToItsSide(t *testing.T) {
	left := order{Body: measured(t, hip42)}.draft(t)
	right := order{Body: measured(t, hip42), Style: garment.Style{"closure": "fly_right"}}.draft(t)
	at := func(m made) []float64 {
		var ys []float64
		for _, n := range m.Must(t, "waistband").Notches {
			ys = append(ys, n.At.Y)
		}
		slices.Sort(ys)
		return ys
	}
	l, r := at(left), at(right)
	length := left.Record.Value("band.length")
	if len(l) != 4 || len(r) != 4 {
		t.Fatalf("notches at %v and %v, want four each", l, r)
	}
	for i := range l {
		about(t, "mirrored notch", (length-l[i])/25.4, r[len(r)-1-i]/25.4, 1e-6)
	}
	about(t, "lap at the foot", (length-l[3])/25.4, 1.5, 1e-6)
	about(t, "lap at the top", r[0]/25.4, 1.5, 1e-6)
}

// The lines that set front and back on the cloth leave room for all that is
// cut.
func TestRoomAtTheEdges(t *testing.T) {
	for _, allow := range []string{"1/4 in", "1/2 in", "1 in", "1 1/2 in"} {
		for _, body := range []string{hip42, "waist_girth 28, hip_girth 42, thigh_girth 25, knee_girth 15, outside_leg_length 40", "waist_girth 44, hip_girth 52, thigh_girth 31, knee_girth 19, outside_leg_length 41"} {
			m := order{Body: measured(t, body), Rules: rules.Values{"seam_allowance": allow, "centre_back_inlay": "1 1/2 in", "fly_width": "5 in"}}.draft(t)
			for _, part := range []string{"front", "back"} {
				box := geom.BoundsOf(m.Must(t, part).Cut)
				if room := m.Record.Value(part+".clear") + box.Min.X; room < 0 {
					t.Errorf("%s seams, %s: the fork needs %.1f mm more beyond the centre-front line", allow, part, -room)
				}
				if room := m.Record.Value(part+".down") + box.Min.Y; room < 0 {
					t.Errorf("%s seams, %s: the top needs %.1f mm more above the waist line", allow, part, -room)
				}
			}
		}
	}
}

// Every rule can be asked after: some step names it, in its sum or among what
// shaped it, or an edge is cut with it. What is only on or off is no figure.
func TestEveryRuleIsNamed(t *testing.T) {
	named := map[string]bool{}
	note := func(st construct.Step) {
		for _, n := range append(st.Formula.Names(), st.Uses...) {
			named[n] = true
		}
	}
	for _, style := range []garment.Style{
		{"crease": "tuck"},
		{"leg": "tapered"},
		{"leg": "flared", "front_dart": "pleats", "band": "shaped", "pocket": "seam", "length": "ankle"},
		{"leg": "wide", "closure": "side_zip", "pocket": "none", "back_pocket": "one", "hem": "turn_up"},
		{"length": "shorts"},
	} {
		o := order{Body: measured(t, hip42+", body_rise 10 1/2"), Style: style}
		for _, st := range o.draft(t).Record.Steps() {
			note(st)
		}
		o.Body = measured(t, "waist_girth 30, hip_girth 36, thigh_girth 27, knee_girth 15, outside_leg_length 40")
		o.Rules = rules.Values{"hem_girth": "18 in", "back_piecing": "1 in"}
		for _, st := range o.draft(t).Record.Steps() {
			note(st)
		}
	}
	o := order{Body: measured(t, balancedBody), Method: trouser.Balanced, Rules: rules.Values{"front_fork_more": "1/4 in", "back_fork_more": "1/4 in", "leg_set": "1/4 in"}}
	for _, st := range o.draft(t).Record.Steps() {
		note(st)
	}
	cut := []rules.ID{"hem_allowance", "pocket_facing", "loop_strip_width"} // drawn as they are
	for _, def := range trouser.Garment().Rules {
		if def.Kind != rules.Switch && !named[string(def.ID)] && !slices.Contains(cut, def.ID) {
			t.Errorf("no step names %s", def.ID)
		}
	}
}
