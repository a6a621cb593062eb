package cloth

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/geom"
	"chalkfold/ui/kit"
)

// Hand is the piece that is taken up.
type Hand struct {
	Item    int // -1 when none is
	Name    string
	Kept    bool   // it stays where it lies
	Keeps   bool   // it can be kept at all
	Turns   bool   // it may lie another way round
	Flips   bool   // it may lie on its other face
	OnFold  bool   // it lies along the fold and cannot leave it
	Other   string // names the other part of folded cloth, where it may lie there
	Moved   bool   // it does not lie where it was taken up
	Note    string // what came of the last move
	Step    string // by how much a key moves it
	LetGo   []string
	AllKept bool
	Some    bool // pieces are kept
}

// Moves are what is told of the piece in the hand.
type Moves struct {
	Tap  func(at geom.Pt, reach float64)
	Take func(item int) // up, or down again when it is in the hand
	Grip func(at geom.Pt, reach float64) bool
	Move func(by geom.Vec) bool
	Drop func(by geom.Vec)
	By   func(right, down int)
	Step func() // takes the next step
	Turn func()
	Flip func()
	Part func() // lays it on the other part of folded cloth
	Keep func()
	Back func()
	Down func()
	All  func(keep bool) // keeps all where they lie, or lets all go
	Fill func()          // the screen with the drawing
}

// inHand are the keys that move the piece in the hand.
func (v View) inHand() app.UI {
	h, m := v.Hand, v.Moves
	key := func(id, sign, name string, right, down int) app.UI {
		return kit.Key().ID(id).Class("hand-key").Aria("label", name).Attr("title", name).Attr("disabled", h.OnFold && right != 0).Text(sign).
			OnClick(func(app.Context, app.Event) { m.By(right, down) }, app.EventScope(id))
	}
	keep := v.T("Keep it here")
	if h.Kept {
		keep = v.T("Let it go")
	}
	return kit.Div().ID("in-hand").Class("in-hand").Hidden(h.Item < 0).Role("group").Aria("label", v.T("The piece in the hand")).Body(
		kit.Div().Class("hand-name").Body(
			kit.Strong().ID("hand-name").Text(h.Name),
			kit.Act("hand-down", "choice", v.T("Put it down"), m.Down),
		),
		kit.P().ID("hand-note").Class("quiet").Role("status").Text(h.Note),
		kit.Div().Class("hand-keys").Body(
			key("hand-left", "←", v.T("left"), -1, 0),
			key("hand-up", "↑", v.T("up"), 0, -1),
			key("hand-downward", "↓", v.T("down"), 0, 1),
			key("hand-right", "→", v.T("right"), 1, 0),
			kit.Key().ID("hand-step").Class("hand-key", "by").Text(v.F("by %s", h.Step)).OnClick(func(app.Context, app.Event) { m.Step() }),
		),
		kit.Div().Class("choices").Body(
			kit.Act("hand-turn", "choice", v.T("Turn it"), m.Turn).Hidden(!h.Turns),
			kit.Act("hand-flip", "choice", v.T("Turn it over"), m.Flip).Hidden(!h.Flips),
			kit.Act("hand-part", "choice", h.Other, m.Part).Hidden(h.Other == ""),
			kit.Act("hand-keep", "choice", keep, m.Keep).Hidden(!h.Keeps),
			kit.Act("hand-back", "choice", v.T("Put it back"), m.Back).Hidden(!h.Moved),
		),
	)
}

// kept tells of the pieces that are kept where they lie.
func (v View) kept() app.UI {
	h, m := v.Hand, v.Moves
	return kit.Div().Class("stack").Hidden(v.Drawing == "").Body(
		app.If(len(h.LetGo) > 0, func() app.UI {
			return kit.Div().ID("let-go").Body(kit.Note(kit.Mind, v.T("Not kept where they were"), h.LetGo...))
		}),
		kit.Div().Class("choices").Hidden(h.Item >= 0).Body(
			kit.Act("keep-all", "choice", v.T("Keep them all here"), func() { m.All(true) }).Hidden(h.AllKept),
			kit.Act("let-all-go", "choice", v.T("Let all go"), func() { m.All(false) }).Hidden(!h.Some),
		),
	)
}
