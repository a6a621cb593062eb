package trouser_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
)

// A stitched tuck eats twice its depth in each panel: so much cloth is added,
// exactly, and the finished leg is as it was (common practice).
func TestTuckAddsItsCloth(t *testing.T) {
	for _, depth := range []struct {
		rule string
		in   float64
	}{{"1/32 in", 1.0 / 32}, {"1/16 in", 1.0 / 16}, {"1/8 in", 1.0 / 8}, {"1/4 in", 1.0 / 4}} {
		for _, dart := range []string{"sewn", "pressed", "none"} {
			for _, leg := range []string{"straight", "tapered", "free"} {
				o := order{Body: measured(t, hip42), Rules: rules.Values{"crease_tuck": depth.rule}, Style: garment.Style{"front_dart": dart, "leg": leg}}
				plain := o.draft(t)
				o.Style["crease"] = "tuck"
				tuck := o.draft(t)
				for _, part := range []string{"front", "back"} {
					for _, level := range []string{"thigh", "knee", "hem"} {
						at := part + ".crease_" + level
						if level == "hem" { // the mark lies on the edge: measured by the hem itself
							about(t, part+" hem, wider by", (tuck.Edge(t, part, "hem").Len()-plain.Edge(t, part, "hem").Len())/25.4, 2*depth.in, 1e-6)
							continue
						}
						about(t, part+" "+level+", wider by", acrossIn(t, tuck, part, at)-acrossIn(t, plain, part, at), 2*depth.in, 1e-6)
					}
				}
				about(t, "front hip, wider by", tuck.Dist("front.hip_centre", "front.hip_side")-plain.Dist("front.hip_centre", "front.hip_side"), 2*depth.in, 1e-6)
				for _, g := range []string{"waist", "hip", "thigh", "knee", "calf", "hem"} {
					about(t, "finished "+g, tuck.Girth(t, g), plain.Girth(t, g), 0.3/25.4)
				}
				if tuck.Stopped() {
					t.Errorf("tuck %s, dart %s, leg %s: stopped by %q", depth.rule, dart, leg, tuck.Faults(proof.Stops))
				}
				// where no dart takes it in, the tuck runs up into the band
				more := map[bool]float64{true: 2 * depth.in}[dart == "none"]
				about(t, "front waist, dart closed, wider by", (tuck.Record.Value("front.waist_closed")-plain.Record.Value("front.waist_closed"))/25.4, more, 1e-3)
				about(t, "band, longer by", (tuck.Record.Value("band.length")-plain.Record.Value("band.length"))/25.4, 0, 1e-3)
			}
		}
	}
}

// A crease that is only pressed takes no cloth.
func TestPressedCreaseTakesNoCloth(t *testing.T) {
	none := order{Body: measured(t, hip42), Style: garment.Style{"crease": "none"}}.draft(t)
	pressed := order{Body: measured(t, hip42), Style: garment.Style{"crease": "pressed"}}.draft(t)
	sameCloth(t, "crease pressed", none, pressed)
	for _, id := range []string{"front", "back"} {
		if !hasLine(pressed.Must(t, id), "crease") || hasLine(none.Must(t, id), "crease") {
			t.Errorf("%s: the crease is not marked where it is to be pressed", id)
		}
	}
}

// A dart that is pressed and not sewn has the geometry of one sewn on the crease,
// where it runs out; it is marked as a fold, and the finished waist counts it as
// taken in.
func TestPressedDartIsASewnDartNotSewn(t *testing.T) {
	pressed := order{Body: measured(t, hip42), Style: garment.Style{"front_dart": "pressed"}}.draft(t)
	// hip 42: (10⅞ − 2⅝)/2 = 4⅛ from the centre front to the crease
	sewn := order{Body: measured(t, hip42), Style: garment.Style{"front_dart": "sewn"}, Rules: rules.Values{"front_dart_from": "4 1/8 in"}}.draft(t)
	sameCloth(t, "dart pressed", sewn, pressed)
	if !hasLine(pressed.Must(t, "front"), "not sew") && !hasLine(pressed.Must(t, "front"), "pressed") {
		t.Error("the front does not say that its dart is pressed and not sewn")
	}
	for _, m := range []made{sewn, pressed} {
		about(t, "finished waist", m.Girth(t, "waist"), 34.5, 3/25.4)
		for _, d := range m.Claims.Darts {
			if d.Panel == "front" && d.Sewn == (m.Record == pressed.Record) {
				t.Errorf("the front dart is claimed sewn: %t", d.Sewn)
			}
		}
	}
}

// sameCloth fails unless both drafts cut the same cloth.
func sameCloth(t *testing.T, what string, a, b made) {
	t.Helper()
	if len(a.Pieces) != len(b.Pieces) {
		t.Fatalf("%s: %d pieces against %d", what, len(a.Pieces), len(b.Pieces))
	}
	for i, p := range a.Pieces {
		q := b.Pieces[i]
		if p.ID != q.ID || len(p.Cut) != len(q.Cut) || p.Count != q.Count {
			t.Errorf("%s: %s differs", what, p.ID)
			continue
		}
		for k := range p.Cut {
			if p.Cut[k].Dist(q.Cut[k]) > 1e-9 {
				t.Errorf("%s: the cut line of the %s differs at %v", what, p.ID, p.Cut[k])
				break
			}
		}
	}
}

func hasLine(p piece.Piece, word string) bool {
	for _, l := range p.Lines {
		if strings.Contains(l.Name, word) {
			return true
		}
	}
	return false
}

// With no dart the waist is so much narrower and the band the same; the side
// takes up what the dart took.
func TestNoDart(t *testing.T) {
	with := order{Body: measured(t, hip42)}.draft(t)
	for _, part := range []string{"front", "back"} {
		m := order{Body: measured(t, hip42), Style: garment.Style{part + "_dart": "none"}}.draft(t)
		for _, d := range m.Claims.Darts {
			if d.Panel == part {
				t.Errorf("no %s dart was wanted, and there is one", part)
			}
		}
		if got, want := m.Record.Point(part+".waist_side").X, with.Record.Point(part+".waist_side").X; got > want-15 {
			t.Errorf("the side of the %s stands at %.1f mm with no dart, at %.1f with one", part, got, want)
		}
		about(t, "band", m.Record.Value("band.length")/25.4, with.Record.Value("band.length")/25.4, 1e-3)
		about(t, part+" waist, closed", m.Record.Value(part+".waist_closed")/25.4, 34.5/4, 1e-3)
	}
}

// The leg by style (common practice): straight from the knee, narrowed to the
// hem by the taper but not below the heel, or as wide as the thigh all down.
func TestLegs(t *testing.T) {
	for _, tt := range []struct {
		leg       string
		rules     rules.Values
		knee, hem float64
	}{
		{"straight", nil, 15.5 + 4, 15.5 + 4},
		{"straight", rules.Values{"knee_ease": "2 in"}, 17.5, 17.5},
		{"straight", rules.Values{"hem_girth": "17 in"}, 19.5, 17},
		{"tapered", nil, 19.5, 15.5},
		{"tapered", rules.Values{"taper": "2 in"}, 19.5, 17.5},
		{"free", nil, 26, 26},
		{"free", rules.Values{"hem_girth": "24 in"}, 26, 24},
	} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"leg": tt.leg}, Rules: tt.rules}.draft(t)
		hem := (m.Edge(t, "front", "hem").Len() + m.Edge(t, "back", "hem").Len()) / 25.4
		about(t, tt.leg+" knee", acrossIn(t, m, "front", "front.crease_knee")+acrossIn(t, m, "back", "back.crease_knee"), tt.knee, 1e-3)
		about(t, tt.leg+" hem", hem, tt.hem, 1e-6)
		about(t, tt.leg+": the back leg is wider by", (m.Edge(t, "back", "hem").Len()-m.Edge(t, "front", "hem").Len())/25.4, 1, 1e-6)
		if m.Stopped() {
			t.Errorf("%s %v: stopped by %q", tt.leg, tt.rules, m.Faults(proof.Stops))
		}
	}
	// tapered by as much as may be, the foot still goes through
	m := order{Body: measured(t, hip42+", heel_girth 14"), Style: garment.Style{"leg": "tapered"}, Rules: rules.Values{"taper": "10 in"}}.draft(t)
	if hem := m.Edge(t, "front", "hem").Len() + m.Edge(t, "back", "hem").Len(); hem < 14*25.4 {
		t.Errorf("tapered hem %.2f in, the heel is 14", hem/25.4)
	}
	// asked for narrower than the heel, the proof stops it
	m = order{Body: measured(t, hip42+", heel_girth 14"), Rules: rules.Values{"hem_girth": "12 in"}}.draft(t)
	if m.Level(t, "foot through the hem") != proof.Stops {
		t.Error("a hem of 12 in over a heel of 14 is not stopped")
	}
}

// Crease and grain: straight, on the grain, half of thigh, knee and hem on each
// side, in every style.
func TestCreaseIsOnTheGrain(t *testing.T) {
	for _, s := range pairStyles(t) {
		m := order{Body: measured(t, hip42), Style: s}.draft(t)
		for _, part := range []string{"front", "back"} {
			crease := m.Record.Path(part + ".crease")
			g := m.Must(t, part).Grain
			if !g.IsLine() || math.Abs(g.A.X-g.D.X) > 1e-9 || math.Abs(crease.Start().X-crease.End().X) > 1e-9 || math.Abs(g.A.X-crease.Start().X) > 1e-9 {
				t.Errorf("%v: the grain of the %s runs %v to %v, the crease %v to %v", s, part, g.A, g.D, crease.Start(), crease.End())
			}
			ring := m.Panel(part).Ring()
			for _, level := range []string{"thigh", "knee"} {
				at := m.Record.Point(part + ".crease_" + level)
				w := across(t, ring, at, geom.Vec{X: 1})
				in, out := m.Record.Point(part+"."+level+"_in"), m.Record.Point(part+"."+level+"_out")
				if math.Abs(at.X-in.X-w/2) > 0.05 || math.Abs(out.X-at.X-w/2) > 0.05 {
					t.Errorf("%v: the crease of the %s does not halve the %s, %v of %v to %v", s, part, level, at.X, in.X, out.X)
				}
			}
		}
	}
}

// Answers that are none, and questions that are none, are refused all at once,
// each with what may be answered.
func TestStyleIsRefused(t *testing.T) {
	_, err := trouser.Garment().Complete(garment.Style{"leg": "balloon", "front_dart": "sewn", "cuffs": "yes"})
	if err == nil {
		t.Fatal("a balloon leg and cuffs were taken")
	}
	for _, say := range []string{`style "leg": "balloon"`, "straight, tapered, free", `style "cuffs"`, "front_dart"} {
		if !strings.Contains(err.Error(), say) {
			t.Errorf("the refusal %q does not say %q", err, say)
		}
	}
	s, err := trouser.Garment().Complete(garment.Style{"leg": "free", "crease": ""})
	if err != nil || s["leg"] != "free" || s["crease"] != "none" || s["closure"] != "fly_left" || len(s) != len(trouser.Garment().Options) {
		t.Errorf("completed to %v, %v", s, err)
	}
}
