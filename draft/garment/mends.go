package garment

import (
	"chalkfold/draft/body"
	"chalkfold/draft/piece"
)

// Mends are the changes that may cure each check, the likeliest first.
type Mends map[string][]piece.Mend

// Add adds changes that may cure a check.
func (m Mends) Add(check string, mends ...piece.Mend) { m[check] = append(m[check], mends...) }

// AddTruings adds, for each check, the truing that cures it: that all are done,
// where the draft is as it is spoken, or that this one is, where it is off.
func (m Mends) AddTruings(in Input, truings map[string]string) {
	for check, truing := range truings {
		switch {
		case in.Spoken:
			m.Add(check, piece.Mend{Path: "drafting", To: "trued"})
		case !in.Trues(truing):
			m.Add(check, SwitchOn(truing))
		}
	}
}

// SwitchOn is that a truing is done.
func SwitchOn(truing string) piece.Mend { return piece.Mend{Path: "untrued." + truing, To: "on"} }

// SetRule is a rule that goes so far for each millimetre or degree that lacks.
func SetRule(id string, per float64) piece.Mend { return piece.Mend{Path: "rules." + id, Per: per} }

// Choose is another answer to a question of style.
func Choose(option, choice string) piece.Mend {
	return piece.Mend{Path: "style." + option, To: choice}
}

// TakeAgain is that measurements are taken again.
func TakeAgain(ids ...body.ID) []piece.Mend {
	out := make([]piece.Mend, 0, len(ids))
	for _, id := range ids {
		out = append(out, piece.Mend{Path: "measurements." + string(id)})
	}
	return out
}
