package skirt_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/skirt"
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

// Bodies in inches (common practice): a middling one, one with a small waist,
// and one whose waist is nearly as large as her hip.
const (
	hip38         = "waist_girth 28, hip_girth 38, waist_to_hips 8, waist_to_knee 23"
	curvy         = "waist_girth 26, hip_girth 42, waist_to_hips 8 1/2, waist_to_knee 24"
	straightWaist = "waist_girth 40, hip_girth 41, waist_to_hips 8, waist_to_knee 22 1/2"
)

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
	v, err := body.Complete(body.Unknown, taken, skirt.Garment().Needs)
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
}

func (o order) input(t fataler) garment.Input {
	t.Helper()
	g := skirt.Garment()
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
	return garment.Input{Body: o.body, Rules: g.Figured(set, style), Style: style, Spoken: o.spoken, Untrued: o.untrued, Altered: o.altered}
}

// draft drafts and proves the order, which must be possible.
func (o order) draft(t fataler) made {
	t.Helper()
	d, err := skirt.Garment().Draft(o.input(t))
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

func about(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.4f, want %.4f ± %.4f", what, got, want, tol)
	}
}
