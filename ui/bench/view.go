// Package bench is the stage where the garment is cut and sewn.
package bench

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/calendar"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Ready   bool // there is a draft
	Stopped bool // which may not be cut
	Pieces  []Piece
	Said    string // how many are cut
	Notches []Notch
	Band    *Band // nil when the garment has none
	Steps   []calendar.Tick
	Needed  []calendar.Tick // besides the cloth
	Order   Order
	Took    Took

	Fractions func(id, name string) app.UI // keys for the field of a length

	OnNotion    func(id string)
	OnPiece     func(id string)
	OnMadeUp    func(text string)
	OnMilestone func(id string)
}

// Piece is one line of the cutting list.
type Piece struct {
	ID      string
	Name    string
	Many    string // "2, one of them turned over"
	Cloth   string
	Heading bool // the first of its cloth
	Note    string
	Cut     bool
}

// Notch is one number and the pieces that meet there.
type Notch struct {
	Number int
	Name   string
	Pieces string
}

// Band is the waist as it was drafted against the waist that was sewn.
type Band struct {
	Drafted string
	Text    string // of the field
	Bad     string // why it cannot be read
	Says    string // what to do
	Even    bool
	Why     []string // what the difference means
	Cut     []CutBand
}

// CutBand is one piece of the band as it is cut to the waist that was sewn.
type CutBand struct {
	Name, Long string
	Marks      [][2]string // what comes to lie where
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	return kit.Stage(v.T("Bench")).Body(
		kit.Div().ID("bench-missing").Hidden(v.Ready).Body(
			kit.Note(kit.Mind, v.T("Nothing to cut yet"), v.T("The pieces are listed here once the draft is made.")),
		),
		kit.Div().ID("bench-stopped").Hidden(!v.Stopped).Body(
			kit.Note(kit.Stop, v.T("Do not cut yet"), v.T("The draft has a fault that would spoil the garment: the Draft stage says which, and how to mend it.")),
		),
		kit.Div().ID("pieces").Class("cutting").Hidden(!v.Ready).Body(
			kit.H2().Text(v.T("To be cut")),
			kit.P().ID("cut-count").Role("status").Text(v.Said),
			kit.P().Class("quiet").Text(v.T("Tap a piece when it is cut. Blades cut more than cloth: follow their makers' instructions and your workshop's rules.")),
			app.Range(v.Pieces).Slice(func(i int) app.UI { return v.piece(v.Pieces[i]) }),
		),
		kit.Div().ID("bench-cut").Hidden(!v.Ready).Body(calendar.Ticks(v.steps(0), v.OnMilestone)),
		kit.Div().ID("notions").Class("stack").Hidden(len(v.Needed) == 0).Body(
			kit.H2().Text(v.T("Notions")), kit.P().Class("quiet").Text(v.T("Tap what is in the drawer.")),
			calendar.Ticks(v.Needed, v.OnNotion),
		),
		v.order(),
		kit.Div().ID("notches").Hidden(len(v.Notches) == 0).Body(
			kit.H2().Text(v.T("Notches that meet")),
			kit.Table("notch-table", []string{v.T("notch"), v.T("where"), v.T("on the pieces")}, app.Range(v.Notches).Slice(func(i int) app.UI {
				n := v.Notches[i]
				return kit.Row("", v.F("%d", n.Number), n.Name, n.Pieces)
			})),
		),
		kit.Div().ID("band").Class("row").Hidden(v.Band == nil || v.measuring()).Body(
			app.If(v.Band != nil && !v.measuring(), func() app.UI { return v.band() }),
		),
		kit.Div().ID("bench-sewn").Class("stack").Hidden(!v.Ready).Body(calendar.Ticks(v.steps(1), v.OnMilestone), v.took()),
	)
}

// Took is the question how long it took to sew.
type Took struct {
	Asked     bool
	Text, Bad string // of the field
	Reckoned  string // how long it was reckoned to take
	On        func(text string)
}

func (v View) took() app.UI {
	t := v.Took
	return kit.Div().Class("stack").Hidden(!t.Asked).Body(
		kit.Label("took", v.T("Hours it took you to sew")),
		&kit.Field{ID: "took", Text: t.Text, Numeric: true, Bad: t.Bad != "", Note: "took-says", Most: 8, OnText: func(_, text string) { t.On(text) }},
		kit.P().ID("took-says").Class("quiet").Text(t.Reckoned+" "+v.T("What you write here goes into your next quotes and promises.")),
		kit.P().Class("bad").Hidden(t.Bad == "").Text(t.Bad),
	)
}

// steps is one of the milestones, where there is one.
func (v View) steps(i int) []calendar.Tick {
	if i < len(v.Steps) {
		return v.Steps[i : i+1]
	}
	return nil
}

func (v View) piece(p Piece) app.UI {
	return kit.Div().Body(
		kit.P().Class("cloth-of").Hidden(!p.Heading).Text(p.Cloth),
		kit.Key().Class("choice", "cut-piece").DataSet("piece", p.ID).Aria("pressed", kit.YesNo(p.Cut)).Body(
			kit.Strong().Text(p.Name),
			kit.Span().Text(p.Many),
			kit.Span().Class("piece-note").Hidden(p.Note == "").Text(p.Note),
		).OnClick(func(app.Context, app.Event) { v.OnPiece(p.ID) }, app.EventScope(p.ID)),
	)
}

func (v View) band() app.UI {
	b := v.Band
	class := "doubt"
	if b.Even {
		class = "even"
	}
	return kit.Div().Class("made-up").Body(
		kit.H2().Text(v.T("The band goes on the waist that was sewn")),
		kit.P().Class("howto").Hidden(v.measuring()).Text(v.T("Close darts and seams first, then lay the tape along the waist seam, from one end of the opening to the other. Cut the band to that.")),
		kit.P().Text(v.F("Drafted: %s", b.Drafted)),
		kit.Label("made-up", v.T("Measured on the sewn garment")),
		&kit.Field{ID: "made-up", Text: b.Text, Numeric: true, Bad: b.Bad != "", Note: "made-up-says", Most: 40, OnText: func(_, text string) { v.OnMadeUp(text) }},
		v.Fractions("made-up", v.T("Measured on the sewn garment")),
		kit.Div().ID("made-up-says").Role("status").Body(
			kit.P().Class("bad").Hidden(b.Bad == "").Text(b.Bad),
			kit.P().Class(class).Hidden(b.Says == "").Text(b.Says),
			app.Range(b.Why).Slice(func(i int) app.UI { return kit.P().Text(b.Why[i]) }),
		),
		app.Range(b.Cut).Slice(func(i int) app.UI {
			c := b.Cut[i]
			return kit.Table("", []string{c.Name, c.Long}, app.Range(c.Marks).Slice(func(i int) app.UI { return kit.Row("", c.Marks[i][0], c.Marks[i][1]) }))
		}),
	)
}
