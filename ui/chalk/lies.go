package chalk

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Lies is where the pieces lie on the cloth.
type Lies struct {
	Out    bool
	Cloth  string // its name
	Pieces []Lie  // as they are met from the cut edge; none when nothing is laid
	OnOut  func()
	OnLay  func() // to the cloth
}

// Lie is where one piece is chalked.
type Lie struct{ Piece, Name, Where string }

// of is where the copies of a piece are chalked.
func (l Lies) of(piece string) []string {
	var out []string
	for _, one := range l.Pieces {
		if one.Piece == piece {
			out = append(out, kit.Sentence(one.Where))
		}
	}
	return out
}

// lies shows where the pieces lie.
func (v View) lies() app.UI {
	l := v.Lies
	bare := len(l.Pieces) == 0
	return kit.Div().ID("lies").Class("stack").Body(
		kit.Disclose("lies-open", v.T("Where the pieces lie on the cloth"), l.Cloth, l.Out, l.OnOut),
		kit.Div().Class("stack").Hidden(!l.Out).Body(
			app.Range(l.Pieces).Slice(func(i int) app.UI {
				return kit.Div().Body(kit.Strong().Text(l.Pieces[i].Name), kit.P().Text(kit.Sentence(l.Pieces[i].Where)))
			}),
			kit.P().Hidden(!bare).Text(v.T("Lay the pieces on the cloth first.")),
			kit.Act("lies-lay", "choice", v.T("To the cloth"), l.OnLay),
		),
	)
}
