package trouser_test

import (
	"errors"
	"math"
	"math/rand/v2"
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

// anyStyle draws an answer to every question of style, all of which go
// together.
func anyStyle(t *rapid.T) garment.Style {
	s := garment.Style{}
	for _, o := range trouser.Garment().Options {
		s[o.ID] = o.Choices[rapid.IntRange(0, len(o.Choices)-1).Draw(t, o.ID)].ID
	}
	return together(s)
}

// together gives up answers that cannot go with others.
func together(s garment.Style) garment.Style { return trouser.Garment().Together(s, "") }

// pairStyles are few styles in which every answer meets every answer to every
// other question that it goes together with: of many at random, again and
// again the one in which most meet for the first time.
func pairStyles(t *testing.T) []garment.Style {
	t.Helper()
	g := trouser.Garment()
	type pair struct{ a, b string }
	pairs := func(s garment.Style) (out []pair) {
		for i, o := range g.Options {
			for _, p := range g.Options[i+1:] {
				out = append(out, pair{o.ID + s[o.ID], p.ID + s[p.ID]})
			}
		}
		return out
	}
	left := map[pair]bool{}
	for i, o := range g.Options {
		for _, p := range g.Options[i+1:] {
			for _, c := range o.Choices {
				for _, w := range p.Choices {
					s, _ := g.Complete(garment.Style{o.ID: c.ID, p.ID: w.ID})
					if s = together(s); s[o.ID] == c.ID && s[p.ID] == w.ID {
						left[pair{o.ID + c.ID, p.ID + w.ID}] = true
					}
				}
			}
		}
	}
	rng := rand.New(rand.NewPCG(1, 2))
	var out []garment.Style
	for len(left) > 0 {
		var best garment.Style
		most := 0
		for range 200 {
			s := garment.Style{}
			for _, o := range g.Options {
				s[o.ID] = o.Choices[rng.IntN(len(o.Choices))].ID
			}
			n := 0
			s = together(s)
			for _, p := range pairs(s) {
				if left[p] {
					n++
				}
			}
			if n > most {
				best, most = s, n
			}
		}
		for _, p := range pairs(best) {
			delete(left, p)
		}
		if out = append(out, best); len(out) > 100 {
			t.Fatalf("%d pairs of answers meet in no style: %v", len(left), left)
		}
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
	return made{Draft: d, Report: proof.Of(d.Panels, d.Pieces, d.Claims, nil)}, true
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
		o := order{Body: anyBody(t, all), Style: anyStyle(t)}
		if m, ok := tryDraft(t, o); ok {
			checkSound(t, m)
			for _, check := range []string{"inseam", "side seam", "waist to band", "waist girth", "hip girth"} {
				if l := m.Level(t, check); l == proof.Stops {
					t.Fatalf("trued, and yet the %s stops the cut: %+v", check, m.Finding(check))
				}
			}
		}
		o.Spoken = true
		if m, ok := tryDraft(t, o); ok {
			checkSound(t, m)
		}
	})
}

// Any set of truings switched off can still be drawn.
func TestAnyTruingsOff(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{Body: anyBody(t, all), Style: anyStyle(t)}
		for _, c := range trouser.Garment().Truings {
			if rapid.Bool().Draw(t, c.ID+" off") {
				o.Untrued = append(o.Untrued, c.ID)
			}
		}
		if m, ok := tryDraft(t, o); ok {
			checkSound(t, m)
			for _, off := range o.Untrued {
				if len(m.Changes(off)) > 0 {
					t.Fatalf("truing %q is off and yet changed the draft", off)
				}
			}
		}
	})
}

// Every answer with every other, spoken and trued, by both methods, for three
// bodies: nothing stops the cut. Where a pocket finds no room beside two pleats
// that is said.
func TestEveryStyle(t *testing.T) {
	styles := pairStyles(t)
	if len(styles) < 25 {
		t.Fatalf("%d styles: 5 closures meet 5 fronts, so there must be 25 or more", len(styles))
	}
	for _, b := range []string{hip42, wideThigh, straightWaist} {
		for _, s := range styles {
			for _, method := range []string{trouser.Quarter, trouser.Balanced} {
				o := order{Body: measured(t, b), Style: s, Method: method}
				m, ok := tryDraft(t, o)
				if !ok {
					if s["pocket"] != "slant" && s["pocket"] != "straight_slant" {
						t.Errorf("%v for %s cannot be drafted", s, b)
					}
					continue
				}
				checkSound(t, m)
				if m.Stopped() {
					for _, f := range m.Findings {
						if f.Level == proof.Stops {
							t.Errorf("%v for %s is stopped: %+v", s, b, f)
						}
					}
				}
				for _, p := range m.Pieces {
					if !simple(p.Sew) || !simple(p.Cut) {
						t.Errorf("%v for %s: a line of the %s crosses itself", s, b, p.Name)
					}
				}
			}
			if m, ok := tryDraft(t, order{Body: measured(t, b), Style: s, Spoken: true}); ok {
				checkSound(t, m)
			}
		}
	}
}

// The same order drafts the same, to the last bit.
func TestDraftIsRepeatable(t *testing.T) {
	o := order{Body: measured(t, hip42), Style: garment.Style{"crease": "tuck"}}
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
