package trouser_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// carried are the widths that carry each measurement, by panel, mm.
func carried(t fataler, m made) map[body.ID]map[string]float64 {
	t.Helper()
	level := func(mark string) map[string]float64 {
		out := map[string]float64{}
		for _, part := range []string{"front", "back"} {
			out[part] = across(t, m.Panel(part).Ring(), m.Record.Point(part+"."+mark), geom.Vec{X: 1})
		}
		return out
	}
	waist := map[string]float64{}
	for _, part := range []string{"front", "back"} {
		waist[part] = m.Edge(t, part, "waist").Len()
	}
	for _, d := range m.Claims.Darts {
		e, _ := m.Panel(d.Panel).Edge(d.Edge)
		waist[d.Panel] -= d.Intake(e).MM()
	}
	seat := m.Record.Point("back.hip_centre").Sub(m.Record.Point("back.waist_centre")).Unit()
	hip := map[string]float64{
		"front": m.Record.Point("front.hip_centre").Dist(m.Record.Point("front.hip_side")),
		"back":  m.Record.Point("back.hip_side").Sub(m.Record.Point("back.hip_centre")).Dot(seat.Left()),
	}
	long := map[string]float64{}
	for _, part := range []string{"front", "back"} {
		long[part] = m.Edge(t, part, "side").Len()
	}
	return map[body.ID]map[string]float64{
		body.WaistGirth: waist, body.HipGirth: hip, body.ThighGirth: level("crease_thigh"), body.KneeGirth: level("crease_knee"), body.OutsideLegLength: long,
	}
}

// Growing a measurement never shrinks what carries it, front or back. Shorts
// end so far below the fork however long the leg is: their side does not carry
// its length, and a longer leg, which narrows more slowly, makes it straighter
// by a hair. Every other length carries the leg's.
func TestGrowingNeverShrinks(t *testing.T) {
	const rounding = 0.02 // mm: what the truings settle to
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		small := order{Body: anyBody(t, all), Style: anyStyle(t), Spoken: rapid.Bool().Draw(t, "spoken")}
		id := rapid.SampledFrom([]body.ID{body.WaistGirth, body.HipGirth, body.ThighGirth, body.KneeGirth, body.OutsideLegLength}).Draw(t, "grows")
		if id == body.OutsideLegLength && small.Style["length"] == "shorts" {
			small.Style["length"] = "full"
		}
		large := small
		large.Body = body.Values{}
		for k, v := range small.Body {
			if k == id {
				v.Length += unit.Length(rapid.Float64Range(0.5, 60).Draw(t, "by"))
			}
			large.Body[k] = v
		}
		a, okA := tryDraft(t, small)
		b, okB := tryDraft(t, large)
		if !okA || !okB {
			t.Skip("not to be drafted")
		}
		was, is := carried(t, a)[id], carried(t, b)[id]
		for part := range was {
			if is[part] < was[part]-rounding {
				t.Fatalf("%s grew by %v mm and the %s that carries it shrank from %.3f to %.3f mm", id, (large.Body[id].Length - small.Body[id].Length).MM(), part, was[part], is[part])
			}
		}
	})
}

// The finished girths are the sums of what carries them, by the tests' own
// measure, and are what the proof says. Shorts end above the knee: the proof
// measures none, and what is drawn there is no knee.
func TestFinishedGirths(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{Body: anyBody(t, all), Style: anyStyle(t)}
		m, ok := tryDraft(t, o)
		if !ok {
			t.Skip("not to be drafted")
		}
		tuck := 0.0
		if o.Style["crease"] == "tuck" {
			tuck = m.Record.Value("tuck_cloth")
		}
		c := carried(t, m)
		kneed := slices.ContainsFunc(m.Girths, func(g proof.Girth) bool { return g.Name == "knee" })
		if kneed != (o.Style["length"] != "shorts") {
			t.Fatalf("length %s, and a knee was measured: %t", o.Style["length"], kneed)
		}
		for _, g := range []struct {
			name  string
			id    body.ID
			times float64
			less  float64 // tucks, in all
		}{{"hip", body.HipGirth, 2, 2 * tuck}, {"thigh", body.ThighGirth, 1, 2 * tuck}, {"knee", body.KneeGirth, 1, 2 * tuck}} {
			if g.id == body.KneeGirth && !kneed {
				continue
			}
			own := g.times*(c[g.id]["front"]+c[g.id]["back"]) - g.less
			if told := m.Girth(t, g.name) * 25.4; math.Abs(own-told) > 0.1 {
				t.Fatalf("%s: %.3f mm by the tests, %.3f by the proof", g.name, own, told)
			}
		}
	})
}

// scaled is every measurement and every length rule times k.
func (o order) scaled(t fataler, k float64) order {
	t.Helper()
	out := o
	out.Body = body.Values{}
	for id, v := range o.Body {
		v.Length *= unit.Length(k)
		out.Body[id] = v
	}
	in := o.input(t)
	out.Rules = rules.Values{}
	for _, d := range in.Rules.Defs() {
		if d.Kind == rules.Length {
			out.Rules[d.ID] = fmt.Sprintf("%.4f mm", in.Rules.Length(d.ID).MM()*k)
		} else {
			out.Rules[d.ID] = in.Rules.Text(d.ID)
		}
	}
	return out
}

// capped reports that a bound in inches took part in the draft: the hip line
// kept an inch above the fork, a dart too narrow to sew, the side raised by no
// more than an inch, the back fork let out by a sixteenth to an inch and a half.
func capped(m made) bool {
	if m.Record.Has("hip_level_kept") || m.Record.Has("front.dart_kept") || m.Record.Has("back.dart_kept") {
		return true
	}
	near := func(name string, bounds ...float64) bool {
		for _, b := range bounds {
			if m.Record.Has(name) && math.Abs(m.Record.Value(name)/25.4-b) < 0.2*b {
				return true
			}
		}
		return false
	}
	return near("front.side_rise", 1) || near("back.let_out", 1.0/16, 1.5) || len(m.Changes("fork")) > 0 && !m.Record.Has("back.let_out")
}

// A body and all its length rules k times as large give sew lines k times as
// large, bounds in inches apart and what is the same in inches on every body:
// the room over the heel in a tapered hem, the thumb's breadth between two
// pleats, the inch by which the second of two back darts is shorter, the inch
// that a hem at the knee hangs below it.
func TestScaling(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{Body: anyBody(t, all), Style: anyStyle(t), Spoken: rapid.Bool().Draw(t, "spoken")}
		for _, inches := range []struct{ option, choice, instead string }{
			{"leg", "tapered", "straight"}, {"front_dart", "pleats", "pleat"}, {"back_dart", "two", "sewn"}, {"length", "knee", "calf"},
		} {
			if o.Style[inches.option] == inches.choice {
				o.Style[inches.option] = inches.instead
			}
		}
		for _, q := range []string{garment.Seat, garment.Abdomen, garment.LowerBack} {
			delete(o.Style, q) // their amounts are the same for every body
		}
		k := rapid.Float64Range(0.9, 1.15).Draw(t, "k")
		a, okA := tryDraft(t, o)
		b, okB := tryDraft(t, o.scaled(t, k))
		if !okA || !okB || capped(a) || capped(b) {
			t.Skip("not to be drafted, or bounded")
		}
		for _, part := range []string{"front", "back"} {
			for _, e := range a.Panel(part).Edges {
				p, q := e.Sew, b.Edge(t, part, e.Name)
				if want := k * p.Len(); math.Abs(q.Len()-want) > 0.05 {
					t.Fatalf("%v times as large, the %s of the %s is %.3f mm long, want %.3f", k, e.Name, part, q.Len(), want)
				}
				want := geom.Pt{X: p.Start().X * k, Y: p.Start().Y * k}
				if d := q.Start().Dist(want); d > 0.05 {
					t.Fatalf("%v times as large, the %s of the %s begins %.3f mm off", k, e.Name, part, d)
				}
			}
		}
	})
}

// Mirrored pieces: half of what is cut in pairs is turned over, so there is an
// even number of them; what lies on one side alone is not paired.
func TestPairs(t *testing.T) {
	for _, s := range pairStyles(t) {
		m := order{Body: measured(t, hip42), Style: s}.draft(t)
		for _, p := range m.Pieces {
			twosided := p.ID == "front" || p.ID == "back" || strings.HasPrefix(p.ID, "pocket") || p.ID == "side-facing" ||
				strings.HasSuffix(p.ID, "-lining") || p.ID == "waistband" && s["band"] == "shaped"
			if p.Pairs != twosided || p.Pairs && p.Count%2 != 0 {
				t.Errorf("%v: %s is cut %d times, in pairs %t", s, p.Name, p.Count, p.Pairs)
			}
		}
	}
}
