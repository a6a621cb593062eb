package bodice_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/bodice"
	"chalkfold/draft/geom"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// The bodice by hand for bust 36, waist 28, back waist 16 (common practice), as
// it is spoken: what was not taken is estimated by its rule of thumb.
func TestSpokenByHand(t *testing.T) {
	m := order{Body: measured(t, bust36), Spoken: true}.draft(t)
	neck := (14+1.625)/5 - 0.25 // a fifth of the neck base
	scye := 36/10.0 + 4.125 + 0.25
	for _, w := range []struct {
		a, b string
		want float64
	}{
		{"back.neck_centre", "back.waist_centre", 16},
		{"back.neck_centre", "back.scye_centre", scye},
		{"back.neck_centre", "back.neck_out", neck},
		{"back.neck_side", "back.shoulder_end", 5 - 0.5},
		{"front.neck_side", "front.shoulder_end", 5 - 0.5},
		{"front.top", "front.neck_side", neck},
		{"front.top", "front.neck_centre", neck + 0.5},
		{"front.top", "front.waist_centre", 16 + 1.75},
		{"front.top", "front.bust_centre", 36/4.0 + 1.5},
		{"front.bust_centre", "front.bust_point", (36/5.0 + 0.25) / 2},
		{"front.scye_centre", "front.underarm", 36/4.0 + 0.5},
		{"back.scye_centre", "back.underarm", 36/4.0 - 0.5},
	} {
		about(t, w.a+" to "+w.b, m.Dist(w.a, w.b), w.want, 1e-6)
	}
	// The front is longer than the back below the arm by the bust dart.
	about(t, "bust dart", m.Record.Value("bust_dart")/25.4, (17.75-(scye+0.75-0.5))-(16-scye), 1e-6)
}

// The sizes of ASTM D5585-11e1, the rows on the page of its abstract: bust,
// waist (curvy) and neck base in inches. Each is drafted with nothing that stops
// the cut, bust and waist measure body and ease, and both places of the bust dart
// have the same seams. Lengths are of the middle of the survey.
func TestStandardSizes(t *testing.T) {
	bust := []float64{31.125, 31.75, 33, 34.125, 35.25, 36.25, 37.25, 38.75, 40.375, 42.125, 44, 46}
	waist := []float64{23.875, 24.625, 25.375, 26.125, 27, 28, 29, 30.75, 32.5, 34.5, 36.75, 39}
	base := []float64{13.25, 13.5, 13.75, 14, 14.25, 14.625, 14.875, 15.125, 15.5, 15.75, 16, 16.375}
	for i := range bust {
		b := measured(t, fmt.Sprintf("chest_girth %v, waist_girth %v, neck_base_girth %v, back_waist_length 16, shoulder_length 5", bust[i], waist[i], base[i]))
		side := order{Body: b}.draft(t)
		shoulder := order{Body: b, Style: garment.Style{"bust_dart": "from_shoulder"}}.draft(t)
		for _, m := range []made{side, shoulder} {
			if m.Stopped() {
				t.Errorf("bust %v is stopped by %q", bust[i], m.Faults(proof.Stops))
			}
			about(t, fmt.Sprintf("bust %v", bust[i]), m.Girth(t, "bust"), bust[i]+2, 0.05)
			about(t, fmt.Sprintf("waist %v", waist[i]), m.Girth(t, "waist"), waist[i]+1, 0.01)
		}
		for _, line := range []string{"neck", "waist"} {
			about(t, line+", its dart at the side and at the shoulder", side.Edge(t, "front", line).Len(), shoulder.Edge(t, "front", line).Len(), 1)
		}
	}
}

// Each truing, switched off, brings its fault back.
func TestTruingsOff(t *testing.T) {
	for truing, want := range map[string]struct {
		body  string
		fault func(made) bool
	}{
		"ease":     {bust36, func(m made) bool { return m.Girth(t, "waist") < 28.1 }},
		"bust":     {bust36, func(m made) bool { return math.Abs(m.Girth(t, "bust")-38) > 0.12 }},
		"dart":     {fullBust, func(m made) bool { return math.Abs(m.Record.Value("back.dart")-1.25*25.4) < 0.01 }},
		"shoulder": {bust36, func(m made) bool { return m.Level(t, "armhole at the shoulder") == proof.Mind }},
		"waist":    {bust36, func(m made) bool { return m.Level(t, "waist at the side") == proof.Mind }},
		"side":     {bust36, func(m made) bool { return m.Level(t, "side seam") == proof.Stops }},
	} {
		o := order{Body: measured(t, want.body)}
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
	if got := len(bodice.Garment().Truings); got != 6 {
		t.Errorf("%d truings, 6 are tested", got)
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

// Any body near these, in any style, is drafted or refused with a reason; no sew
// line crosses itself, and what is trued keeps its promise.
func TestAnyBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := func(name string, lo, hi float64) unit.Length {
			return unit.Length(rapid.Float64Range(lo, hi).Draw(t, name)) * unit.Inch
		}
		bust := l("bust", 30, 56)
		taken := body.Values{}
		for id, v := range map[body.ID]unit.Length{
			body.ChestGirth: bust, body.WaistGirth: bust - l("drop", -2, 12), body.BackWaistLength: l("back", 14, 19), body.ShoulderLength: l("shoulder", 4, 6),
			body.BackWidth: bust/5 + l("across", 5.5, 8), body.ScyeDepth: bust/10 + l("scye", 3.5, 5), body.NeckBaseGirth: l("neck", 13, 18),
			body.NeckToBust: bust/4 + l("point", 0.5, 2.5), body.BustPoints: bust/5 + l("apart", -0.5, 1),
		} {
			taken[id] = body.Value{Length: v}
		}
		taken[body.FrontWaist] = body.Value{Length: taken[body.BackWaistLength].Length + l("longer", 0.5, 4)}
		style := garment.Style{}
		for _, o := range bodice.Garment().Options {
			style[o.ID] = o.Choices[rapid.IntRange(0, len(o.Choices)-1).Draw(t, o.ID)].ID
		}
		o := order{Body: taken, Style: style, Spoken: rapid.Bool().Draw(t, "spoken")}
		d, err := bodice.Garment().Draft(o.input(t))
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
			if ring := p.Ring(); geom.Area(ring) <= 0 {
				t.Fatalf("the sew line of the %s encloses nothing", p.Name)
			}
			if !simple(p.Ring()) && m.Level(t, "outline: Front") != proof.Stops && m.Level(t, "outline: Back") != proof.Stops {
				t.Fatalf("the sew line of the %s crosses itself, and nobody says so", p.Name)
			}
		}
		if !o.Spoken && m.Level(t, "waist girth") == proof.Stops {
			t.Fatalf("trued, and yet the waist stops the cut: %+v", m.Finding("waist girth"))
		}
	})
}

// A neck that a head must go through is measured against one; a zip at the centre
// back opens it.
func TestHeadThroughTheNeck(t *testing.T) {
	b := measured(t, bust36)
	if l := (order{Body: b, Style: garment.Style{"closure": "zip_side"}}).draft(t).Level(t, "head through the neck"); l != proof.Mind {
		t.Errorf("a close neck and a zip at the side: %s", l)
	}
	if l := (order{Body: b, Style: garment.Style{"closure": "zip_side", "neck": "low"}}).draft(t).Level(t, "head through the neck"); l != proof.Fine {
		t.Errorf("a low neck and a zip at the side: %s", l)
	}
	if f := (order{Body: b}).draft(t).Finding("head through the neck"); f != nil {
		t.Errorf("open down the back: %+v", f)
	}
}
