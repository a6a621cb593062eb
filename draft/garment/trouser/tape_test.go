package trouser_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// fataler is a test or a property.
type fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// The body that the quarter method is explained on (common practice): hip 42,
// waist 34, thigh 25, knee 15½, outside leg 40.
const hip42 = "waist_girth 34, hip_girth 42, thigh_girth 25, knee_girth 15 1/2, outside_leg_length 40"

// measured reads "hip_girth 42, waist_girth 34": in inches, of the body. What
// the garment needs beyond that is estimated.
func measured(t fataler, list string) body.Values {
	t.Helper()
	taken := body.Takings{}
	for _, m := range strings.Split(list, ",") {
		id, text, _ := strings.Cut(strings.TrimSpace(m), " ")
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		taken[body.ID(id)] = body.Taking{Value: q}
	}
	v, err := body.Complete(body.Unknown, taken, trouser.Garment().Needs)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// made is one draft and its proof.
type made struct {
	*garment.Draft
	proof.Report
}

// order is what is to be drafted.
type order struct {
	body    body.Values
	rules   rules.Values
	style   garment.Style
	spoken  bool
	untrued []string
	altered []garment.Altered
	method  string // the quarter method when it is ""
}

func (o order) input(t fataler) garment.Input {
	t.Helper()
	g := trouser.Garment()
	set, err := rules.Resolve(g.Rules, o.rules, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	style, err := g.Complete(o.style)
	if err != nil {
		t.Fatal(err)
	}
	if err := g.CheckTruings(o.untrued); err != nil {
		t.Fatal(err)
	}
	return garment.Input{Body: o.body, Rules: g.Figured(set, style), Style: style, Spoken: o.spoken, Untrued: o.untrued, Method: o.method, Altered: o.altered}
}

// draft drafts and proves the order, which must be possible.
func (o order) draft(t fataler) made {
	t.Helper()
	d, err := trouser.Garment().Draft(o.input(t))
	if err != nil {
		t.Fatal(err)
	}
	return made{d, proof.Of(d.Panels, d.Pieces, d.Claims, nil)}
}

func (m made) panel(name string) piece.Panel {
	return m.Panels[slices.IndexFunc(m.Panels, func(p piece.Panel) bool { return p.Name == name })]
}

func (m made) edge(t fataler, panel, name string) geom.Path {
	t.Helper()
	e, ok := m.panel(panel).Edge(name)
	if !ok {
		t.Fatalf("the %s has no %s", panel, name)
	}
	return e.Sew
}

func (m made) piece(id string) (piece.Piece, bool) {
	i := slices.IndexFunc(m.Pieces, func(p piece.Piece) bool { return p.ID == id })
	if i < 0 {
		return piece.Piece{}, false
	}
	return m.Pieces[i], true
}

// must is piece for one that has to be there.
func (m made) must(t fataler, id string) piece.Piece {
	t.Helper()
	p, ok := m.piece(id)
	if !ok {
		t.Fatalf("there is no piece %q", id)
	}
	return p
}

// dist is from one mark of the record to another, in inches.
func (m made) dist(a, b string) float64 {
	return m.Record.Point(a).Dist(m.Record.Point(b)) / 25.4
}

// finding is the first of that check; nil when there is none.
func (m made) finding(check string) *proof.Finding {
	i := slices.IndexFunc(m.Findings, func(f proof.Finding) bool { return f.Check == check })
	if i < 0 {
		return nil
	}
	return &m.Findings[i]
}

// level is that of the check; it must have been made.
func (m made) level(t fataler, check string) proof.Level {
	t.Helper()
	f := m.finding(check)
	if f == nil {
		t.Fatalf("%q was not checked", check)
	}
	return f.Level
}

// girth is a finished girth in inches.
func (m made) girth(t fataler, name string) float64 {
	t.Helper()
	i := slices.IndexFunc(m.Girths, func(g proof.Girth) bool { return g.Name == name })
	if i < 0 {
		t.Fatalf("no %s was measured", name)
	}
	return m.Girths[i].Draft.In()
}

// faults lists the checks of a level and above, each once.
func (m made) faults(from proof.Level) []string {
	var out []string
	for _, f := range m.Findings {
		if f.Level >= from && !slices.Contains(out, f.Check) {
			out = append(out, f.Check)
		}
	}
	return out
}

// changes are the truing steps of one truing.
func (m made) changes(truing string) []construct.Change {
	var out []construct.Change
	for _, c := range m.Record.Changes() {
		if c.Truing == truing {
			out = append(out, c)
		}
	}
	return out
}

// across measures a ring along the line through at, mm, on the stretch that
// holds at. It is the tests' own measure, apart from that of the proof.
func across(t fataler, ring []geom.Pt, at geom.Pt, dir geom.Vec) float64 {
	t.Helper()
	dir = dir.Unit()
	lo, hi := math.Inf(-1), math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		u, v := dir.Cross(a.Sub(at)), dir.Cross(b.Sub(at))
		if (u < 0) == (v < 0) {
			continue
		}
		if s := a.Lerp(b, u/(u-v)).Sub(at).Dot(dir); s <= 0 {
			lo = math.Max(lo, s)
		} else {
			hi = math.Min(hi, s)
		}
	}
	if math.IsInf(hi-lo, 0) {
		t.Fatalf("nothing is crossed through %v", at)
	}
	return hi - lo
}

// level is how wide a panel is at a mark, straight across, in inches.
func (m made) across(t fataler, panel, mark string) float64 {
	t.Helper()
	return across(t, m.panel(panel).Ring(), m.Record.Point(mark), geom.Vec{X: 1}) / 25.4
}

func about(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.4f, want %.4f ± %.4f", what, got, want, tol)
	}
}
