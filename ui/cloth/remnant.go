package cloth

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Remnants is what the stage shows of the cloth that is kept in the book.
type Remnants struct {
	Is       bool // the cloth is a remnant
	Cornered bool // of corners, so that it has no width and length of its own
	Name     string
	Size     string
	Used     string // the other jobs that it is used for
	Offers   []kit.Choice
	CanKeep  bool // the lay leaves something that is worth keeping
	Told     string

	OnTake  func(id string)
	OnLeave func()
	OnKeep  func()
}

// remnant tells that the cloth is one.
func (v View) remnant() app.UI {
	r := v.Remnants
	return kit.Div().ID("remnant").Class("card").Hidden(!r.Is).Body(
		kit.Strong().Text(r.Name),
		kit.P().Hidden(r.Size == "").Text(r.Size),
		kit.P().ID("remnant-used").Class("bad").Hidden(r.Used == "").Text(r.Used),
		kit.Act("remnant-leave", "choice", v.T("Take another cloth"), r.OnLeave),
	)
}

// offers are the remnants that can be taken.
func (v View) offers() app.UI {
	r := v.Remnants
	return kit.Div().ID("remnants").Hidden(len(r.Offers) == 0).Body(
		kit.Choose("remnant", v.T("Cloth kept in the Book"), "", r.Offers, "", func(_, id string) { r.OnTake(id) }),
	)
}
