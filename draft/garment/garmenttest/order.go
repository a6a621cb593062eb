// Package garmenttest is what the tests of all garments draft and measure with:
// each calls it with its own garment and its own facts.
package garmenttest

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// Fataler is a test or a property.
type Fataler interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// Measured reads "hip_girth 42, waist_girth 34": in inches, of the body. What
// the garment needs beyond that is estimated.
func Measured(t Fataler, g garment.Garment, list string) body.Values {
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
	v, err := body.Complete(body.Unknown, taken, g.Needs)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Order is what is to be drafted.
type Order struct {
	Garment garment.Garment
	Body    body.Values
	Rules   rules.Values
	Style   garment.Style
	Spoken  bool
	Untrued []string
	Altered []garment.Altered
	Method  string // the garment's first when it is ""
}

// Input is what the garment is drafted of.
func (o Order) Input(t Fataler) garment.Input {
	t.Helper()
	set, err := rules.Resolve(o.Garment.Rules, o.Rules, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	style, err := o.Garment.Complete(o.Style)
	if err != nil {
		t.Fatal(err)
	}
	if err := o.Garment.CheckTruings(o.Untrued); err != nil {
		t.Fatal(err)
	}
	return garment.Input{Body: o.Body, Rules: o.Garment.Figured(set, style), Style: style, Spoken: o.Spoken, Untrued: o.Untrued, Method: o.Method, Altered: o.Altered}
}

// Draft drafts and proves the order, which must be possible.
func (o Order) Draft(t Fataler) Made {
	t.Helper()
	d, err := o.Garment.Draft(o.Input(t))
	if err != nil {
		t.Fatal(err)
	}
	return Made{d, proof.Of(d.Panels, d.Pieces, d.Claims, nil)}
}

// Made is one draft and its proof.
type Made struct {
	*garment.Draft
	proof.Report
}

// Panel is the panel of that name, which must be there.
func (m Made) Panel(name string) piece.Panel {
	return m.Panels[slices.IndexFunc(m.Panels, func(p piece.Panel) bool { return p.Name == name })]
}

// Edge is an edge of a panel.
func (m Made) Edge(t Fataler, panel, name string) geom.Path {
	t.Helper()
	e, ok := m.Panel(panel).Edge(name)
	if !ok {
		t.Fatalf("the %s has no %s", panel, name)
	}
	return e.Sew
}

// Piece is the piece of that ID; false when there is none.
func (m Made) Piece(id string) (piece.Piece, bool) {
	i := slices.IndexFunc(m.Pieces, func(p piece.Piece) bool { return p.ID == id })
	if i < 0 {
		return piece.Piece{}, false
	}
	return m.Pieces[i], true
}

// Must is Piece for one that has to be there.
func (m Made) Must(t Fataler, id string) piece.Piece {
	t.Helper()
	p, ok := m.Piece(id)
	if !ok {
		t.Fatalf("there is no piece %q", id)
	}
	return p
}

// Dist is from one mark of the record to another, in inches.
func (m Made) Dist(a, b string) float64 {
	return m.Record.Point(a).Dist(m.Record.Point(b)) / 25.4
}

// Finding is the first of that check; nil when there is none.
func (m Made) Finding(check string) *proof.Finding {
	i := slices.IndexFunc(m.Findings, func(f proof.Finding) bool { return f.Check == check })
	if i < 0 {
		return nil
	}
	return &m.Findings[i]
}

// Level is that of the check; it must have been made.
func (m Made) Level(t Fataler, check string) proof.Level {
	t.Helper()
	f := m.Finding(check)
	if f == nil {
		t.Fatalf("%q was not checked", check)
	}
	return f.Level
}

// Girth is a finished girth in inches.
func (m Made) Girth(t Fataler, name string) float64 {
	t.Helper()
	i := slices.IndexFunc(m.Girths, func(g proof.Girth) bool { return g.Name == name })
	if i < 0 {
		t.Fatalf("no %s was measured", name)
	}
	return m.Girths[i].Draft.In()
}

// Faults lists the checks of a level and above, each once.
func (m Made) Faults(from proof.Level) []string {
	var out []string
	for _, f := range m.Findings {
		if f.Level >= from && !slices.Contains(out, f.Check) {
			out = append(out, f.Check)
		}
	}
	return out
}

// Changes are the truing steps of one truing.
func (m Made) Changes(truing string) []construct.Change {
	var out []construct.Change
	for _, c := range m.Record.Changes() {
		if c.Truing == truing {
			out = append(out, c)
		}
	}
	return out
}

// About holds a figure against what it should be.
func About(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.4f, want %.4f ± %.4f", what, got, want, tol)
	}
}
