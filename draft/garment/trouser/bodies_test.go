package trouser_test

import (
	"errors"
	"math"
	"strconv"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
	tables "chalkfold/testdata/body"
)

// surveyed are the bodies of the survey, mm.
// The survey takes its waist at the navel: what hangs from the waist is
// measured from the natural waist above it.
func surveyed(t *testing.T) []body.Values {
	t.Helper()
	var out []body.Values
	for _, r := range tables.Rows(t, tables.Survey) {
		mm := func(name string) unit.Length {
			v, err := strconv.ParseFloat(r[name], 64)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			return unit.Length(v)
		}
		v := body.Values{}
		for id, l := range map[body.ID]unit.Length{
			body.WaistGirth: mm("waistcircumference"), body.HipGirth: mm("buttockcircumference"), body.ThighGirth: mm("thighcircumference"),
			body.KneeGirth: mm("lowerthighcircumference"), body.CalfGirth: mm("calfcircumference"), body.HeelGirth: mm("heelanklecircumference"),
			body.OutsideLegLength: mm("waistheightomphalion") + body.NaturalWaist,
			body.BodyRise:         mm("waistheightomphalion") - mm("crotchheight") + body.NaturalWaist,
			body.WaistToHips:      mm("waistheightomphalion") - mm("buttockheight") + body.NaturalWaist,
		} {
			v[id] = body.Value{Length: l}
		}
		out = append(out, v)
	}
	return out
}

// anyBody draws a plausible body: a surveyed one, each measure of it up to 3 %
// more or less, with rise and hip depth or without. A rise below the least that
// the house rule for it allows is no rise for a band of 2 in.
func anyBody(t *rapid.T, all []body.Values) body.Values {
	v := body.Values{}
	row := all[rapid.IntRange(0, len(all)-1).Draw(t, "surveyed")]
	for _, d := range body.Defs() {
		if m, ok := row[d.ID]; ok {
			m.Length *= unit.Length(rapid.Float64Range(0.97, 1.03).Draw(t, string(d.ID)))
			v[d.ID] = m
		}
	}
	if r := v[body.BodyRise]; r.Length < leastRise {
		r.Length = leastRise
		v[body.BodyRise] = r
	}
	if rapid.Bool().Draw(t, "levels by rule") {
		delete(v, body.BodyRise)
		delete(v, body.WaistToHips)
	}
	return v
}

// leastRise is the least of the rule "rise".
const leastRise = 7 * unit.Inch

// anyStyle draws an answer to every question of style.
func anyStyle(t *rapid.T) garment.Style {
	s := garment.Style{}
	for _, o := range trouser.Garment().Options {
		s[o.ID] = o.Choices[rapid.IntRange(0, len(o.Choices)-1).Draw(t, o.ID)].ID
	}
	return s
}

// allStyles are all the answers to all the questions.
func allStyles() []garment.Style {
	out := []garment.Style{{}}
	for _, o := range trouser.Garment().Options {
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

// simple reports by the independent library that a ring does not cross itself.
func simple(pts []geom.Pt) bool {
	var xy []float64
	for i := range len(pts) + 1 {
		xy = append(xy, pts[i%len(pts)].X, pts[i%len(pts)].Y)
	}
	return sf.NewLineString(sf.NewSequence(xy, sf.DimXY)).IsSimple()
}

// tryDraft drafts the order or reports that it is said to be impossible.
func tryDraft(t fataler, o order) (made, bool) {
	t.Helper()
	d, err := trouser.Garment().Draft(o.input(t))
	var no *garment.Impossible
	if errors.As(err, &no) {
		if no.What == "" || no.Mend == "" {
			t.Fatalf("impossible without a reason or a mend: %+v", no)
		}
		return made{}, false
	}
	if err != nil {
		t.Fatalf("%v", err)
	}
	return made{d, proof.Of(d.Panels, d.Pieces, d.Claims, nil)}, true
}

// checkSound fails when a sew line crosses itself or a number is none.
func checkSound(t fataler, m made) {
	t.Helper()
	for _, p := range m.Panels {
		ring := p.Ring()
		if geom.Area(ring) <= 0 || !simple(ring) {
			t.Fatalf("the sew line of the %s crosses itself or encloses nothing", p.Name)
		}
	}
	for _, s := range m.Record.Steps() {
		if math.IsNaN(s.Value) || math.IsInf(s.Value, 0) || math.IsNaN(s.At.X+s.At.Y) {
			t.Fatalf("%s is %v at %v", s.Name, s.Value, s.At)
		}
	}
	for _, f := range m.Findings {
		if math.IsNaN(f.Figure.V) || f.Level != proof.Fine && (f.Mend == "" || f.Say == "") {
			t.Fatalf("a finding of %s says %q, figure %v, mend %q", f.Level, f.Say, f.Figure, f.Mend)
		}
	}
}

// Spoken or trued, in any style, a plausible body is drafted without a panic
// or refused with a reason; no sew line crosses itself, and the trued draft
// keeps what the truings promise.
func TestPlausibleBodies(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{body: anyBody(t, all), style: anyStyle(t)}
		if m, ok := tryDraft(t, o); ok {
			checkSound(t, m)
			for _, check := range []string{"inseam", "side seam", "waist to band", "waist girth", "hip girth"} {
				if l := m.level(t, check); l == proof.Stops {
					t.Fatalf("trued, and yet the %s stops the cut: %+v", check, m.finding(check))
				}
			}
		}
		o.spoken = true
		if m, ok := tryDraft(t, o); ok {
			checkSound(t, m)
		}
	})
}

// Any set of truings switched off can still be drawn.
func TestAnyTruingsOff(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{body: anyBody(t, all), style: anyStyle(t)}
		for _, c := range trouser.Garment().Truings {
			if rapid.Bool().Draw(t, c.ID+" off") {
				o.untrued = append(o.untrued, c.ID)
			}
		}
		if m, ok := tryDraft(t, o); ok {
			checkSound(t, m)
			for _, off := range o.untrued {
				if len(m.changes(off)) > 0 {
					t.Fatalf("truing %q is off and yet changed the draft", off)
				}
			}
		}
	})
}

// Every combination of style, spoken and trued, for three bodies.
func TestEveryStyle(t *testing.T) {
	styles := allStyles()
	if len(styles) != 2*3*2*2*3*3 {
		t.Fatalf("%d combinations of style", len(styles))
	}
	for _, b := range []string{hip42, wideThigh, straightWaist} {
		for _, s := range styles {
			o := order{body: measured(t, b), style: s}
			m := o.draft(t)
			checkSound(t, m)
			if m.Stopped() {
				t.Errorf("%v for %s is stopped by %q", s, b, m.faults(proof.Stops))
			}
			for _, p := range m.Pieces {
				if !simple(p.Sew) || !simple(p.Cut) {
					t.Errorf("%v for %s: a line of the %s crosses itself", s, b, p.Name)
				}
			}
			o.spoken = true
			checkSound(t, o.draft(t))
		}
	}
}

// The same order drafts the same, to the last bit.
func TestDraftIsRepeatable(t *testing.T) {
	o := order{body: measured(t, hip42), style: garment.Style{"crease": "tuck"}}
	a, b := o.draft(t), o.draft(t)
	for i, s := range a.Record.Steps() {
		if z := b.Record.Steps()[i]; s.Name != z.Name || s.Value != z.Value || s.At != z.At {
			t.Errorf("%s: %v at %v, then %v at %v", s.Name, s.Value, s.At, z.Value, z.At)
		}
	}
	for i, p := range a.Pieces {
		for k, q := range p.Cut {
			if b.Pieces[i].Cut[k] != q {
				t.Fatalf("the cut line of the %s differs from one draft to the next", p.Name)
			}
		}
	}
}
