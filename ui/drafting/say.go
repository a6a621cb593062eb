package drafting

import (
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/proof"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Finding is one check of the draft, as shown.
type Finding struct {
	Tone    kit.Tone
	Check   string // what it is known by
	Name    string
	Say     string // in words
	Figures string // the figure, what was wanted, the tolerance
	Mend    string
	Lit     Lit
}

// Findings puts the findings of a draft in words, worst first.
func Findings(r *draft.Result) []Finding {
	out := make([]Finding, 0, len(r.Report.Findings))
	for _, f := range r.Report.Findings {
		out = append(out, Finding{
			Tone: tone(f.Level), Check: f.Check, Name: f.Name, Say: f.Say, Figures: figures(f, r.Format), Mend: f.Mend,
			Lit: Lit{Panel: f.Panel, At: f.At},
		})
	}
	return out
}

func tone(l proof.Level) kit.Tone {
	switch l {
	case proof.Stops:
		return kit.Stop
	case proof.Mind:
		return kit.Mind
	case proof.Fine:
	}
	return kit.Fine
}

// figures says what was found, what was wanted, and how far off it may be.
func figures(f proof.Finding, lengths unit.Format) string {
	w := lengths.Words
	got, want := f.Figure.Text(lengths), f.Want.Text(lengths)
	switch {
	case f.Least != nil && f.Most != nil:
		return w.F("%s; from %s to %s will do", got, f.Least.Text(lengths), f.Most.Text(lengths))
	case f.Least != nil:
		return w.F("%s; at least %s", got, f.Least.Text(lengths))
	case f.Most != nil:
		return w.F("%s; at most %s", got, f.Most.Text(lengths))
	}
	if got == want && !f.Figure.Degrees && f.Figure != f.Want { // too close for the tape to show
		fine := unit.Format{System: unit.Inches, Den: 32, Words: w}
		if lengths.System.Metric() {
			fine.System = unit.Millimetres
		}
		got, want = f.Figure.Text(fine), f.Want.Text(fine)
	}
	switch off, wanted := tolerance(f.Tolerance, lengths), f.Figure != f.Want; {
	case wanted && f.Tolerance.V > 0:
		return w.F("%s, wanted %s; may be off by %s", got, want, off)
	case wanted:
		return w.F("%s, wanted %s", got, want)
	case f.Tolerance.V > 0:
		return w.F("%s; may be off by %s", got, off)
	}
	return got
}

// tolerance is written in the tape's fractions where one comes near it, else in
// millimetres.
func tolerance(g proof.Figure, f unit.Format) string {
	if g.Degrees {
		return strings.Replace(g.Text(f), f.Words.Decimal(".0")+"°", "°", 1)
	}
	if f.System.Metric() && g.V >= 10 {
		return g.Text(f)
	}
	for _, den := range []int{8, 16, 32} {
		f.Den = den
		if d := f.Round(unit.Length(g.V)).MM() - g.V; !f.System.Metric() && d < g.V/8 && d > -g.V/8 {
			return g.Text(f)
		}
	}
	return decimal(g.V, f.Words) + " " + unit.Millimetres.In(f.Words)
}

// decimal is v to one decimal.
func decimal(v float64, w *say.Words) string {
	return unit.Format{System: unit.Centimetres, Words: w}.Bare(unit.Length(v * 10))
}

// Girth is one line of what goes round the body.
type Girth struct {
	Name, Body, Draft, Room string
	Estimated               bool
	Less                    bool // the draft is smaller than the body
}

// Girths puts the girths in figures.
func Girths(r *draft.Result) []Girth {
	out := make([]Girth, 0, len(r.Report.Girths))
	for _, g := range r.Report.Girths {
		out = append(out, Girth{
			Name: kit.Sentence(r.Format.Words.T(g.Name)), Body: r.Format.Bare(g.Body), Draft: r.Format.Bare(g.Draft), Room: r.Format.Bare(g.Ease),
			Estimated: g.Estimated, Less: r.Format.Round(g.Ease) < 0,
		})
	}
	return out
}

// Sum is one step of the construction with its sum.
type Sum struct {
	Step, Part, Label, Sum string
	Truing                 bool
}

// Sums are the steps that are sums, gathered by part.
func Sums(r *draft.Result) []Sum {
	var parts []string
	of := map[string][]Sum{}
	for _, s := range r.Record.Steps() {
		if s.Kind != construct.KindValue {
			continue
		}
		sum := r.Record.SumOf(s, r.Format)
		if s.Formula.String() == "" {
			sum += ", " + s.Why
		}
		if len(of[s.Part]) == 0 {
			parts = append(parts, s.Part)
		}
		of[s.Part] = append(of[s.Part], Sum{s.Name, s.Part, s.Label, sum, s.Truing != ""})
	}
	var out []Sum
	for _, p := range parts {
		out = append(out, of[p]...)
	}
	return out
}

func lengthOf(mm float64) unit.Length { return unit.Length(mm) }
