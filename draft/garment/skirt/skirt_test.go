package skirt_test

import (
	"errors"
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/skirt"
	"chalkfold/draft/geom"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// The quarter method by hand for hip 38, waist 28, as it is spoken (common
// practice): a quarter of each, the front ½ in wider at the hip and ¾ in at the
// waist than the back, a dart of ¾ in in the front and two of 1 in in the back.
func TestSpokenByHand(t *testing.T) {
	m := order{Body: measured(t, hip38), Spoken: true}.draft(t)
	for _, w := range []struct {
		a, b string
		want float64
	}{
		{"front.hip_centre", "front.hip_side", 9.5 + 0.25},
		{"back.hip_centre", "back.hip_side", 9.5 - 0.25},
		{"front.waist_centre", "front.waist_out", 7 + 0.375 + 0.75},
		{"front.waist_out", "front.waist_side", 0.5},
		{"front.waist_centre", "front.hip_centre", 8},
		{"front.waist_centre", "front.hem_centre", 23},
		{"front.waist_centre", "back.waist_centre", 0.375},
		{"back.vent_hem", "back.hem_centre", 2},
		{"back.hem_centre", "back.opening_top", 8},
		{"back.waist_centre", "back.zip_end", 8},
	} {
		about(t, w.a+" to "+w.b, m.Dist(w.a, w.b), w.want, 1e-6)
	}
	about(t, "back waist", m.Record.Point("back.waist_out").X/25.4, 7-0.375+2, 1e-6)
}

// Trued, the skirt goes round the body with its ease, its seams meet, and what
// the hip and the waist differ by is shared: 0.55 of it at the front side, 0.4 at
// the back (rules), no more than 1½ in.
func TestTrued(t *testing.T) {
	m := order{Body: measured(t, hip38)}.draft(t)
	if f := m.Faults(proof.Mind); len(f) > 0 {
		t.Errorf("to be minded: %q", f)
	}
	about(t, "waist", m.Girth(t, "waist"), 28.5, 0.01)
	about(t, "hip", m.Girth(t, "hip"), 40, 0.01)
	about(t, "front side taken in", m.Record.Value("front.side_in")/25.4, 1.5, 1e-6) // 0.55 × 2¾ is more
	about(t, "front dart", m.Record.Value("front.dart")/25.4, 10.25-7.5-1.5, 1e-6)
	about(t, "back dart", m.Record.Value("back.dart")/25.4, 0.6*(9.75-6.75)/2, 1e-6)
	about(t, "sides", m.Edge(t, "front", "side").Len(), m.Edge(t, "back", "side").Len(), 0.01)
	// What the hand measures: the made-up waist is the band less its lap.
	about(t, "band", m.Record.Value("band.length")/25.4, 28.5+1.25, 0.01)
	about(t, "halves at the hip", m.Dist("front.hip_centre", "front.hip_side")+m.Dist("back.hip_centre", "back.hip_side"), 20, 1e-6)
}

// Each truing, switched off, brings its fault back.
func TestTruingsOff(t *testing.T) {
	for truing, want := range map[string]struct {
		body  string
		style garment.Style
		fault func(made) bool
	}{
		"ease":  {hip38, nil, func(m made) bool { return m.Girth(t, "hip") < 38.01 }},
		"dart":  {straightWaist, nil, func(m made) bool { return m.Record.Point("back.waist_side").X > m.Record.Point("back.hip_side").X }},
		"hem":   {hip38, garment.Style{"shape": "a_line"}, func(m made) bool { return m.Level(t, "hem at the side") == proof.Mind }},
		"waist": {hip38, nil, func(m made) bool { return m.Level(t, "waist at the side") == proof.Mind }},
		"side":  {curvy, nil, func(m made) bool { return apart(t, m) > 0.1 }},
	} {
		o := order{Body: measured(t, want.body), Style: want.style}
		if want.fault(o.draft(t)) {
			t.Errorf("%s: trued, and the fault is there", truing)
		}
		o.Untrued = []string{truing}
		if m := o.draft(t); !want.fault(m) {
			t.Errorf("%s: off, and its fault is not there", truing)
		} else if len(m.Changes(truing)) > 0 {
			t.Errorf("%s: off, and it changed the draft", truing)
		}
	}
	if got := len(skirt.Garment().Truings); got != 5 {
		t.Errorf("%d truings, 5 are tested", got)
	}
}

// simple reports by an independent library that a ring does not cross itself.
func simple(pts []geom.Pt) bool {
	var xy []float64
	for i := range len(pts) + 1 {
		xy = append(xy, pts[i%len(pts)].X, pts[i%len(pts)].Y)
	}
	return sf.NewLineString(sf.NewSequence(xy, sf.DimXY)).IsSimple()
}

// styles are all the answers to all the questions but those of the figure.
func styles() []garment.Style {
	out := []garment.Style{{}}
	for _, o := range skirt.Garment().Options {
		if o.OfFigure {
			continue
		}
		var next []garment.Style
		for _, s := range out {
			for _, c := range o.Choices {
				more := garment.Style{o.ID: c.ID}
				for k, v := range s {
					more[k] = v
				}
				next = append(next, more)
			}
		}
		out = next
	}
	return out
}

// Many combinations of style for three bodies: none is stopped, and no line of
// a piece crosses itself.
func TestManyStyles(t *testing.T) {
	all := styles()
	if len(all) != 3*4*2*4*3*3*2 {
		t.Fatalf("%d combinations of style", len(all))
	}
	for i := 0; i < len(all); i += 11 { // prime to the whole
		for _, b := range []string{hip38, straightWaist} {
			m := order{Body: measured(t, b), Style: all[i]}.draft(t)
			if m.Stopped() {
				t.Errorf("%v for %s is stopped by %q", all[i], b, m.Faults(proof.Stops))
			}
			for _, p := range m.Pieces {
				if !simple(p.Sew) || !simple(p.Cut) {
					t.Errorf("%v for %s: a line of the %s crosses itself", all[i], b, p.Name)
				}
			}
		}
	}
}

// Any body near these, in any style, is drafted or refused with a reason; what
// is trued keeps its promise.
func TestAnyBody(t *testing.T) {
	all := styles()
	rapid.Check(t, func(t *rapid.T) {
		l := func(name string, lo, hi float64) body.Value {
			return body.Value{Length: unit.Length(rapid.Float64Range(lo, hi).Draw(t, name)) * unit.Inch}
		}
		hip := l("hip", 30, 60)
		v := body.Values{
			body.HipGirth: hip, body.WaistGirth: {Length: hip.Length - l("drop", -2, 14).Length},
			body.WaistToHips: l("hips", 6, 11), body.WaistToKnee: l("knee", 19, 28),
		}
		o := order{Body: v, Style: all[rapid.IntRange(0, len(all)-1).Draw(t, "style")], Spoken: rapid.Bool().Draw(t, "spoken")}
		d, err := skirt.Garment().Draft(o.input(t))
		var no *garment.Impossible
		if errors.As(err, &no) {
			if no.What == "" || no.Mend == "" {
				t.Fatalf("impossible without a reason or a mend: %+v", no)
			}
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		m := made{Draft: d, Report: proof.Of(d.Panels, d.Pieces, d.Claims, nil)}
		for _, p := range m.Panels {
			if ring := p.Ring(); geom.Area(ring) <= 0 || !simple(ring) {
				t.Fatalf("the sew line of the %s crosses itself", p.Name)
			}
		}
		if o.Spoken {
			return
		}
		for _, check := range []string{"side seam", "waist to band", "waist girth", "hip girth"} {
			if l := m.Level(t, check); l == proof.Stops {
				t.Fatalf("trued, and yet the %s stops the cut: %+v", check, m.Finding(check))
			}
		}
	})
}

// A straight skirt to the knee without an opening is too narrow to walk in, and
// each of the mends that are offered is a way out (common practice).
func TestRoomToWalk(t *testing.T) {
	none := garment.Style{"opening": "none"}
	if l := (order{Body: measured(t, hip38), Style: none}).draft(t).Level(t, "room to walk"); l != proof.Mind {
		t.Errorf("a straight skirt with no opening: %s", l)
	}
	for _, s := range []garment.Style{{"opening": "vent"}, {"opening": "slit"}, {"opening": "side_slits"}, {"opening": "none", "shape": "a_line"}} {
		if l := (order{Body: measured(t, hip38), Style: s}).draft(t).Level(t, "room to walk"); l != proof.Fine {
			t.Errorf("%v: %s", s, l)
		}
	}
	// Longer, it needs more.
	long := garment.Style{"opening": "none", "shape": "a_line", "length": "ankle"}
	m := order{Body: measured(t, hip38), Style: long, Rules: rules.Values{"flare": "1/2 in"}}.draft(t)
	if l := m.Level(t, "room to walk"); l != proof.Mind {
		t.Errorf("to the ankle, hardly flared: %s", l)
	}
}

// What is turned up along the hem of an A-line is longer than the cloth that it
// comes to lie on by twice its depth times the angle between the side and the
// grain: here measured on the cut line.
func TestFlaredHem(t *testing.T) {
	m := order{Body: measured(t, hip38), Style: garment.Style{"shape": "a_line", "closure": "zip_side", "opening": "none"}}.draft(t)
	p := m.Must(t, "front")
	hem := m.Edge(t, "front", "hem")
	lean := math.Atan2(m.Record.Point("front.hem_side").X-m.Record.Point("front.hip_side").X, m.Record.Point("front.hem_side").Y-m.Record.Point("front.hip_side").Y)
	depth := 25.4
	run := 0.0
	for i, a := range p.Cut {
		b := p.Cut[(i+1)%len(p.Cut)]
		_, offA := hem.Nearest(a)
		_, offB := hem.Nearest(b)
		if most := math.Hypot(depth, 12.7) + 0.5; math.Min(offA, offB) > depth-0.5 && math.Max(offA, offB) < most && a.Y > hem.End().Y && b.Y > hem.End().Y {
			run += a.Dist(b)
		}
	}
	seam := 12.7 // beyond the side, the cut line runs on over its allowance
	about(t, "edge of the allowance", run, hem.Len()+depth*lean+seam, 1)
	if l := m.Level(t, "hem of the front, turned up"); l != proof.Fine {
		t.Errorf("an inch of hem: %s", l)
	}
}

// apart is how much the side seams differ, mm.
func apart(t fataler, m made) float64 {
	t.Helper()
	return math.Abs(m.Edge(t, "front", "side").Len() - m.Edge(t, "back", "side").Len())
}

// A flat seat and a sway back dip the waist behind, a full seat raises it; over a
// full abdomen more of the waist lies in front. The draft is still proved.
func TestFigures(t *testing.T) {
	shape := func(s garment.Style) (hollow, front float64) {
		m := order{Body: measured(t, hip38), Style: s}.draft(t)
		if m.Stopped() {
			t.Errorf("%v is stopped: %v", s, m.Faults(proof.Stops))
		}
		return m.Record.Value("back_hollow"), m.Edge(t, "front", "waist").Len()
	}
	hollow, front := shape(nil)
	for _, tt := range []struct {
		option, choice string
		dips           bool
	}{{garment.Seat, "flat", true}, {garment.LowerBack, "sway", true}, {garment.Seat, "full", false}} {
		if h, _ := shape(garment.Style{tt.option: tt.choice}); (h > hollow) != tt.dips || h == hollow {
			t.Errorf("%s %s: the waist dips by %.1f mm, %.1f without", tt.choice, tt.option, h, hollow)
		}
	}
	if _, f := shape(garment.Style{garment.Abdomen: "full"}); f < front+4 {
		t.Errorf("over a full abdomen the front waist is %.1f mm, %.1f without", f, front)
	}
}
