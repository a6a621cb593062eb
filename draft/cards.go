package draft

import (
	"fmt"

	"chalkfold/draft/chalk"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
)

// Cards are the curves of the draft that a tape cannot draw, as cards that fit
// on the paper: numbered, their marks lettered, as ChalkOnCards tells of them.
func Cards(r *Result, paper sheet.Paper) []piece.Card {
	opt := cardOptions(r)
	return chalk.Cards(r.Record, r.Curves, r.Pieces, r.Format, func(c piece.Card) bool { return sheet.CardFits(c, paper, opt) })
}

// ChalkOnCards is the guide for a hand that has the curve cards of that paper:
// "lay card 2 on marks F and H".
func ChalkOnCards(r *Result, paper sheet.Paper) []chalk.Section {
	return chalk.OnCards(Chalk(r), Cards(r, paper), r.Pieces, r.Format)
}

// CardSheets lays the curve cards on few sheets of paper, true to scale.
func CardSheets(r *Result, paper sheet.Paper) (sheet.Carded, error) {
	all := Cards(r, paper)
	if len(all) == 0 {
		return sheet.Carded{}, say.Errorf("cards: this draft has no curve that needs a card; a tape draws it all")
	}
	out, ok := sheet.Cards(all, paper, cardOptions(r))
	if !ok {
		return sheet.Carded{}, fmt.Errorf("cards: %s: %w", paper.Name, errCard)
	}
	return out, nil
}

var errCard = say.Errorf("a card fits on no sheet; take a larger paper")

func cardOptions(r *Result) sheet.CardOptions {
	opt := sheet.CardOptions{Job: r.Job.Name, Words: r.Format.Words, Lengths: r.Format, Grain: map[string]geom.Vec{}}
	for _, p := range r.Pieces {
		up := p.Grain.A.Sub(p.Grain.D)
		if up.Y > 0 {
			up = up.Neg()
		}
		opt.Grain[p.ID] = up
	}
	return opt
}
