package garment

import (
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Gift is one change of the job that may save cloth when it is short. It is
// only a proposal: whoever offers it drafts and lays the changed job first.
type Gift struct {
	piece.Mend         // Path and To
	Does       say.Msg // what is done; none is told from the change
	// Harm weighs what it costs the garment: the gifts of a set add up.
	Harm int
	Cost string // what it costs, in English, to be said
	// Tells are the claimed girths and the checks whose figures, before and
	// after, show what it costs.
	Tells []string
	Leave bool // only by the client's leave
}

// Steps are the values of a rule by further and further, up to limit.
func Steps(set rules.Set, id rules.ID, by, limit unit.Length, metric bool) []string {
	var out []string
	text := set.Text(id)
	for {
		next, ok := set.Def(id).Beyond(text, by.MM(), metric)
		if !ok {
			return out
		}
		with, err := set.With(id, next, rules.Job)
		if err != nil || by > 0 && with.Length(id) > limit || by < 0 && with.Length(id) < limit {
			return out
		}
		out, text = append(out, next), next
	}
}
