package drafting

import (
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/proof"
	"chalkfold/ui/kit"
)

// Truing is what one truing did to the draft as it is spoken.
type Truing struct {
	Name  string
	Steps []Change
}

// Change is what one step of a truing did.
type Change struct{ Step, Text string }

// Changes tells, method and truing by truing, what is different from the draft as it is
// spoken. A truing that moved nothing that a tape shows is left out.
func Changes(r *draft.Result) []Truing {
	all := r.Record.Tell(r.Format)
	var out []Truing
	for _, t := range append(slices.Clone(r.Garment.Methods), r.Garment.Truings...) {
		one := Truing{Name: r.Format.Words.T(t.Name)}
		for _, c := range all {
			if c.Truing == t.ID {
				one.Steps = append(one.Steps, Change{c.Step, r.Format.Words.F("%s; %s", c.What, c.Why)})
			}
		}
		if len(one.Steps) > 0 {
			out = append(out, one)
		}
	}
	return out
}

// Stops puts what stops the cut of a draft in words.
func Stops(r *draft.Result) []string {
	var out []string
	for _, f := range r.Report.At(proof.Stops) {
		out = append(out, r.Format.Words.F("%s: %s, %s", kit.Sentence(f.Name), f.Say, figures(f, r.Format)))
	}
	return out
}
