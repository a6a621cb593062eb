package trouser_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// Where levels come from: a rise or a hip depth that was taken goes before the
// house rule, an outside leg before an inside leg; the band is outside the
// cloth and comes off, the floor clearance too.
func TestLevels(t *testing.T) {
	const girths = "waist_girth 34, hip_girth 42, thigh_girth 25, knee_girth 15 1/2"
	for _, tt := range []struct {
		name, body string
		rules      rules.Values
		level      string
		want       float64
	}{
		{"hip by rule", hip42, nil, "hip_level", 9 - 2},
		{"hip by another rule", hip42, rules.Values{"hip_drop": "8 1/2 in", "waistband_width": "1 1/2 in"}, "hip_level", 8.5 - 1.5},
		{"hip as taken", hip42 + ", waist_to_hips 8", nil, "hip_level", 8 - 2},
		{"fork by rule", hip42, nil, "fork_level", 11 - 2},
		{"fork by another rule", hip42, rules.Values{"rise": "12 in"}, "fork_level", 12 - 2},
		{"fork as taken, with its ease", hip42 + ", body_rise 10", nil, "fork_level", 10 + 0.5 - 2},
		{"thigh", hip42, rules.Values{"thigh_drop": "3 in"}, "thigh_level", 9 + 3},
		{"hem by the outside leg", hip42, nil, "hem_level", 40 - 2},
		{"hem off the floor", hip42, rules.Values{"floor_clearance": "1 in"}, "hem_level", 40 - 1 - 2},
		{"hem by the inside leg", girths + ", inside_leg_length 30", nil, "hem_level", 9 + 30},
		{"hem by the inside leg, off the floor", girths + ", inside_leg_length 30", rules.Values{"floor_clearance": "2 in"}, "hem_level", 9 + 30 - 2},
		{"outside leg before inside leg", hip42 + ", inside_leg_length 30", nil, "hem_level", 38},
	} {
		for _, spoken := range []bool{true, false} {
			m := order{Body: measured(t, tt.body), Rules: tt.rules, Spoken: spoken}.draft(t)
			about(t, tt.name, m.Record.Value(tt.level)/25.4, tt.want, 1e-9)
		}
	}
}

// A measurement of a garment that fits holds its ease: none is added, and the
// finished girth is that of the garment.
func TestMeasuredOnAGarment(t *testing.T) {
	ofGarment := func(list string, ids ...body.ID) body.Values {
		v := measured(t, list)
		for _, id := range ids {
			m := v[id]
			m.Of = body.OfGarment
			v[id] = m
		}
		return v
	}
	const taken = hip42 + ", body_rise 10 1/2"
	b := ofGarment(taken, body.WaistGirth, body.HipGirth, body.ThighGirth, body.KneeGirth, body.BodyRise)
	m := order{Body: b}.draft(t)
	for name, want := range map[string]float64{"waist": 34, "hip": 42, "thigh": 25, "knee": 15.5} {
		about(t, "finished "+name+", of the garment", m.Girth(t, name), want, 3/25.4)
		if f := m.Finding(name + " girth"); f.Level != proof.Fine {
			t.Errorf("%s: %s, %q", f.Check, f.Level, f.Say)
		}
	}
	about(t, "fork line, of the garment", m.Record.Value("fork_level")/25.4, 10.5-2, 1e-9)
	for _, r := range m.Record.Why("hip_part", unit.Format{}) {
		if r.Name == "hip_ease" && (r.Value != 0 || !strings.Contains(r.Source, "garment")) {
			t.Errorf("hip ease is told as %+v", r)
		}
	}
	// only the measurement that was taken so: the others get their ease
	m = order{Body: ofGarment(taken, body.HipGirth)}.draft(t)
	about(t, "finished hip, of the garment", m.Girth(t, "hip"), 42, 3/25.4)
	about(t, "finished waist, of the body", m.Girth(t, "waist"), 34.5, 3/25.4)
}

// What was not taken is estimated, and the findings that rest on it say so.
func TestEstimatesAreTold(t *testing.T) {
	m := order{Body: measured(t, hip42)}.draft(t)
	if f := m.Finding("calf girth"); f == nil || !strings.Contains(f.Say, "estimated") {
		t.Errorf("the calf was not taken: %+v", f)
	}
	for _, g := range m.Girths {
		if want := g.Name == "calf" || g.Name == "hem"; g.Estimated != want {
			t.Errorf("%s is told as estimated: %t", g.Name, g.Estimated)
		}
	}
	m = order{Body: measured(t, hip42+", calf_girth 15, heel_girth 13")}.draft(t)
	if f := m.Finding("calf girth"); f == nil || strings.Contains(f.Say, "estimated") {
		t.Errorf("the calf was taken: %+v", f)
	}
}

// The fork seam is told in numbers, band to band, front and back, against what
// was taken; too short or too long is to be minded.
func TestForkSeamIsTold(t *testing.T) {
	m := order{Body: measured(t, hip42)}.draft(t)
	in := func(panel, edge string) float64 { return m.Edge(t, panel, edge).Len() }
	front, back := in("front", "centre")+in("front", "fork")+2*25.4, in("back", "centre")+in("back", "fork")+2*25.4
	for check, want := range map[string]float64{"fork seam, front": front, "fork seam, back": back, "fork seam": front + back} {
		f := m.Finding(check)
		if f == nil || math.Abs(f.Figure.V-want) > 0.01 {
			t.Errorf("%s is told as %+v, on the sew lines it is %.2f mm", check, f, want)
		}
	}
	seam := (front + back) / 25.4
	for _, tt := range []struct {
		crotch float64
		want   proof.Level
	}{{seam - 1, proof.Fine}, {seam + 0.5, proof.Mind}, {seam - 4, proof.Mind}} {
		b := measured(t, hip42)
		b[body.TotalCrotchLength] = body.Value{Length: unit.Length(tt.crotch) * unit.Inch}
		m := order{Body: b}.draft(t)
		if l := m.Level(t, "fork seam"); l != tt.want {
			t.Errorf("crotch length %.2f in, fork seam %.2f: %s, want %s", tt.crotch, seam, l, tt.want)
		}
	}
}

// Stepping in: the waist and twice the opening must be as large as the hip.
func TestSteppingIn(t *testing.T) {
	const slim = "waist_girth 26, hip_girth 42, thigh_girth 25, knee_girth 15, outside_leg_length 40"
	m := order{Body: measured(t, slim)}.draft(t)
	about(t, "waist opening", m.Finding("stepping in").Figure.V/25.4, 26.5+2*(6+2), 0.1)
	if l := m.Level(t, "stepping in"); l != proof.Fine {
		t.Errorf("a hip of 42 through an opening of 42½: %s", l)
	}
	m = order{Body: measured(t, slim), Rules: rules.Values{"fly_length": "3 in", "waistband_width": "2 in"}}.draft(t)
	about(t, "waist opening", m.Finding("stepping in").Figure.V/25.4, 26.5+2*(3+2), 0.1)
	if l := m.Level(t, "stepping in"); l != proof.Stops {
		t.Errorf("a hip of 42 through an opening of 36½: %s", l)
	}
}

// A hand needs 5¾ in of pocket mouth (common practice).
func TestSmallPocketIsCaught(t *testing.T) {
	m := order{Body: measured(t, hip42), Rules: rules.Values{"pocket_along_waist": "1 in", "pocket_down_side": "4 in"}}.draft(t)
	mouth := m.Record.Path("front.pocket_mouth")
	if got := mouth.Start().Dist(mouth.End()) / 25.4; got > 5.75 {
		t.Fatalf("the mouth is %.2f in", got)
	}
	if !caught(t, m, "pocket mouth") {
		t.Error("a mouth too small for a hand is not caught")
	}
	m = order{Body: measured(t, hip42), Rules: rules.Values{"pocket_depth": "10 in"}}.draft(t)
	if !caught(t, m, "pocket depth") {
		t.Error("a bag 10 in deep is not caught")
	}
}

// The proof measures the pieces themselves: a real draft spoilt after the
// construction is caught, whatever its record says.
func TestSpoiltDraftsAreCaught(t *testing.T) {
	for _, tt := range []struct {
		name, check string
		spoil       func(m made)
	}{
		{"back side cut short", "side seam", func(m made) { shorten(m, "back", "side", 4) }},
		{"back inseam cut short", "inseam", func(m made) { shorten(m, "back", "inseam", 4) }},
		{"front waist drawn narrow", "waist to band", func(m made) { squeeze(m, "front", "waist", 0.98) }},
		{"front hip drawn narrow", "hip girth", func(m made) { squeeze(m, "front", "side", 0.93) }},
		{"a dart leg moved", "front dart legs", func(m made) { m.Claims.Darts[0].Legs[0].Y -= 3 }},
		{"a notch moved", "notches: side seam", func(m made) {
			p := &m.Pieces[1]
			p.Notches = slices.Clone(p.Notches)
			for i, n := range p.Notches {
				if n.Name == "knee" && n.At.X > 100 {
					p.Notches[i].At.Y += 5
				}
			}
		}},
		{"a notch left out", "notches in pairs", func(m made) {
			p := &m.Pieces[1]
			p.Notches = slices.DeleteFunc(slices.Clone(p.Notches), func(n piece.Notch) bool { return n.Name == "thigh" })
		}},
		{"a back cut smaller than it was proved", "cut as proved: Back", func(m made) {
			p := &m.Pieces[1]
			p.Edges = slices.Clone(p.Edges)
			p.Edges[1].Sew = p.Edges[1].Sew.Map(geom.Translate(geom.Vec{X: -5}))
		}},
		{"cut line crossed", "outline: Front", func(m made) {
			p := &m.Pieces[0]
			p.Cut = slices.Clone(p.Cut)
			n := len(p.Cut) / 2
			p.Cut[n], p.Cut[n+3] = p.Cut[n+3], p.Cut[n]
		}},
		{"a cut line drawn inside", "outline: Back", func(m made) {
			p := &m.Pieces[1]
			p.Cut = geom.MapPts(p.Sew, geom.Translate(geom.Vec{X: 3}))
		}},
	} {
		m := order{Body: measured(t, hip42)}.draft(t)
		if l := m.Level(t, tt.check); l != proof.Fine {
			t.Fatalf("%s is %s before anything is spoilt", tt.check, l)
		}
		tt.spoil(m)
		m.Report = proof.Of(m.Panels, m.Pieces, m.Claims, nil)
		if l := m.Level(t, tt.check); l == proof.Fine || tt.check != "hip girth" && l != proof.Stops {
			t.Errorf("%s: %s is %s", tt.name, tt.check, l)
		}
	}
}

// shorten cuts mm off the end of a panel's edge.
func shorten(m made, panel, name string, mm float64) {
	at(m, panel, name, func(p geom.Path) geom.Path { return p.Between(0, p.Len()-mm) })
}

// squeeze narrows a panel's edge towards the centre front.
func squeeze(m made, panel, name string, k float64) {
	at(m, panel, name, func(p geom.Path) geom.Path { return p.Map(geom.Affine{A: k, D: 1}) })
}

func at(m made, panel, name string, f func(geom.Path) geom.Path) {
	i := slices.IndexFunc(m.Panels, func(p piece.Panel) bool { return p.Name == panel })
	for j, e := range m.Panels[i].Edges {
		if e.Name == name {
			m.Panels[i].Edges[j].Sew = f(e.Sew)
		}
	}
}
