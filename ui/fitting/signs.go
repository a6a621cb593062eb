package fitting

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/ui/kit"
)

// Group are the signs that are seen from one side.
type Group struct {
	View  garment.View
	Name  string // "From the front"
	Signs []Sign // drawn only where the group is open
}

// Sign is something that may be seen on the garment.
type Sign struct {
	ID, Name string
	SVG      string
	Causes   []Cause
	Trial    *Trial // of the alteration that was tapped
}

// Cause is what a sign may come from, and what can be done about it.
type Cause struct {
	Why    string
	Alters []Alter
}

// Alter is one way of altering the garment.
type Alter struct {
	ID, Name, Does string
	Chosen         bool
	OneSide        bool // the left or the right alone can be altered
	Side           job.Side
}

// Altered is an alteration that is made.
type Altered struct {
	Name, By string
	Hers     bool
	InCut    bool // it was cut so
}

// Learned is what the maker alters again and again.
type Learned struct {
	Kind string // of the alteration
	Says string // "You raised … for 4 of your last 5 clients."
	Key  string // "Make it the house rule: …"; "" where no rule does it
}

// signs are the groups, of which one is open.
func (v View) signs() app.UI {
	return kit.Div().ID("signs").Hidden(len(v.Groups) == 0).Body(
		kit.H2().Text(v.T("What do you see?")),
		kit.P().Class("quiet").Text(v.T("Tap what you see on the body: you are told where it may come from, and can try what to alter.")),
		kit.Views(v.T("What do you see?"), v.sides(), sideID(v.Open), func(id string) {
			for _, g := range v.Groups {
				if sideID(g.View) == id {
					v.OnGroup(g.View)
				}
			}
		}),
		kit.Div().Class("grid").Body(app.Range(v.openSigns()).Slice(func(i int) app.UI {
			s := v.openSigns()[i]
			return kit.Key().Class("drawn").DataSet("sign", s.ID).Body(
				kit.Span().Class("paper", "small").Aria("hidden", "true").Body(app.Raw(s.SVG)),
				kit.Span().Text(kit.Sentence(s.Name)),
			).OnClick(func(app.Context, app.Event) { v.OnSign(s.ID) }, app.EventScope(s.ID))
		})),
	)
}

func (v View) openSigns() []Sign {
	for _, g := range v.Groups {
		if g.View == v.Open {
			return g.Signs
		}
	}
	return nil
}

func sideID(v garment.View) string { return [...]string{"front", "side", "back"}[v] }

func (v View) sides() []kit.Choice {
	var out []kit.Choice
	for _, g := range v.Groups {
		out = append(out, kit.Choice{ID: sideID(g.View), Name: g.Name})
	}
	return out
}

// sign is the page of one sign: where it may come from, and what is tried.
func (v View) sign() app.UI {
	s := v.Sign
	return kit.Div().ID("sign").Class("stack").Body(
		kit.Act("all-signs", "choice", v.T("Back to all signs"), func() { v.OnSign("") }),
		kit.Div().Class("seen-sign").Body(
			kit.Span().Class("paper", "small").Aria("hidden", "true").Body(app.Raw(s.SVG)),
			kit.Strong().Text(kit.Sentence(s.Name)),
		),
		app.Range(s.Causes).Slice(func(i int) app.UI {
			c := s.Causes[i]
			return kit.Div().Class("card").Body(
				kit.P().Text(c.Why),
				app.Range(c.Alters).Slice(func(n int) app.UI { return v.alter(c.Alters[n]) }),
			)
		}),
	)
}

func (v View) alter(a Alter) app.UI {
	return kit.Div().Body(
		kit.Key().Class("choice", "alter").DataSet("alter", a.ID).Aria("pressed", kit.YesNo(a.Chosen)).Text(kit.Sentence(a.Name)).
			OnClick(func(app.Context, app.Event) { v.OnAlter(a.ID) }, app.EventScope(a.ID)),
		app.If(a.Chosen && v.Sign.Trial != nil, func() app.UI { return v.trial(a, *v.Sign.Trial) }),
	)
}

// altered lists what is altered, each to be taken out again.
func (v View) altered() app.UI {
	return kit.Div().ID("altered").Hidden(len(v.Altered) == 0).Body(
		kit.H2().Text(v.T("Altered")),
		kit.Div().Class("stack").Body(app.Range(v.Altered).Slice(func(i int) app.UI {
			a := v.Altered[i]
			whose := v.T("for this garment")
			if a.Hers {
				whose = v.T("hers: her next garments have it too")
			}
			if a.InCut {
				whose = v.F("%s; it was cut so", whose)
			}
			return kit.Div().Class("card").Body(
				kit.Strong().Text(v.F("%s: %s", kit.Sentence(a.Name), a.By)),
				kit.P().Class("quiet").Text(kit.Sentence(whose)),
				kit.Key().Class("choice").DataSet("out", a.Name).Text(v.T("Take it out")).
					OnClick(func(app.Context, app.Event) { v.OnTakeOut(i) }, app.EventScope(a.Name, a.By)),
			)
		})),
	)
}

// learned tells what is altered again and again.
func (v View) learned() app.UI {
	return kit.Div().ID("learned").Hidden(len(v.Learned) == 0).Body(app.Range(v.Learned).Slice(func(i int) app.UI {
		return v.Learned[i].Render(v.OnHouse)
	}))
}

// Render shows it, with the key that makes it a rule of the house.
func (l Learned) Render(on func(kind string)) app.UI {
	return kit.Div().Class("card", "learned").Body(
		kit.P().Text(l.Says),
		app.If(l.Key != "", func() app.UI {
			return kit.Key().Class("choice").DataSet("house", l.Kind).Text(l.Key).
				OnClick(func(app.Context, app.Event) { on(l.Kind) }, app.EventScope(l.Kind))
		}),
	)
}
