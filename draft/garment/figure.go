package garment

import (
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
)

// Build is how the figure differs from the middle one, by the answers to
// questions that are asked of her and not of the garment (Option.OfFigure), and
// which rules are changed for it.
type Build struct {
	Option, Choice string
	Name           string // of the figure, within a sentence: "a flat seat"
	Moves          []rules.Move
}

// The questions of the figure. Their first choice is the middle figure, by
// which the rules are meant.
const (
	Seat      = "seat"
	Abdomen   = "abdomen"
	LowerBack = "lower_back"
)

// SeatOption asks how full the seat is.
func SeatOption() Option {
	return Option{ID: Seat, Name: "seat", OfFigure: true, Explain: "Seen from the side. A flat seat leaves folds under it, a full one pulls the back down.", Choices: []Choice{
		{ID: "average", Name: "average"}, {ID: "flat", Name: "flat seat"}, {ID: "full", Name: "full seat"},
	}}
}

// AbdomenOption asks how full the abdomen is.
func AbdomenOption() Option {
	return Option{ID: Abdomen, Name: "abdomen", OfFigure: true, Explain: "Seen from the side. Over a full abdomen the front needs more length, and less is taken in by its darts.", Choices: []Choice{
		{ID: "average", Name: "average"}, {ID: "full", Name: "full abdomen"},
	}}
}

// LowerBackOption asks how hollow the back is above the seat.
func LowerBackOption() Option {
	return Option{ID: LowerBack, Name: "lower back", OfFigure: true, Explain: "Seen from the side. In a sway back cloth folds across below the waist: the back is cut shorter there, and more is taken in.", Choices: []Choice{
		{ID: "average", Name: "average"}, {ID: "sway", Name: "sway back"},
	}}
}

// BuildOf is a build that answers a question so.
func BuildOf(option, choice string, moves ...rules.Move) Build {
	names := map[string]string{
		"flat" + Seat: say.Word("a flat seat"), "full" + Seat: say.Word("a full seat"),
		"full" + Abdomen: say.Word("a full abdomen"), "sway" + LowerBack: say.Word("a sway back"),
	}
	return Build{Option: option, Choice: choice, Name: names[choice+option], Moves: moves}
}

// Figured is the rules as they are for a figure answered so in a complete style.
// What is set for the client or the job stays as it is set.
func (g Garment) Figured(set rules.Set, s Style) rules.Set {
	for _, b := range g.Builds {
		if s[b.Option] == b.Choice {
			set = set.Moved(b.Name, b.Moves)
		}
	}
	return set
}
