// Package bill is the screen of what a job costs the client: the quote, what was
// paid, and what goes out to her.
package bill

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// Figure is a field with what is wrong with it.
type Figure struct{ Text, Bad string }

// Line is one thing that is charged.
type Line struct {
	ID, Name     string
	Own          bool // the maker added it: its name is typed, and it can be taken out
	Per          string
	Count, Price Figure
	Amount       string
	Note         string // what is to be known of it
}

// Payment is money that came in.
type Payment struct{ Day, Amount string }

// The fields of the terms, by which OnTerm tells them apart.
const (
	Currency = "currency"
	Margin   = "margin"
	Step     = "step"
	Deposit  = "deposit"
)

// The figures of a line, by which OnLine tells them apart.
const (
	Name  = "name"
	Count = "count"
	Price = "price"
)

// View is what the screen shows and whom it tells.
type View struct {
	*say.Words

	Total   string // what it comes to
	Missing string // why nothing follows a draft
	Waits   bool   // what follows the draft is being worked out
	Lines   []Line
	Given   string   // the day on which it was given; empty until then
	Later   []string // what is no longer as it was given

	TermsOpen bool
	Terms     map[string]Figure
	Flat      bool // labour is charged by the piece
	Free      bool // what lies in the drawer is not charged

	Inner    []quote.Row // what the maker alone sees
	Rows     []quote.Row // as the client is told
	Open     bool        // what each costs
	Asked    bool        // something is
	Payments []Payment
	Pay      Figure
	Whole    string // what is owed, to be received at a tap; empty when nothing is

	Making  string // the form that is being made
	Percent int
	Told    string
	ToldOf  string
	Sends   bool

	OnLine            func(id, figure, text string)
	OnAdd             func()
	OnRemove          func(id string)
	OnGive            func()
	OnTerms           func()
	OnTerm            func(id, text string)
	OnFlat, OnFree    func(yes bool)
	OnOpen            func()
	OnPay             func(text string)
	OnReceive, OnBack func()
	OnWhole           func()
	OnText            func(send bool)
	OnFile            func(form string, send bool)
	OnStop            func()
}

// Render returns the nodes of the screen.
func (v View) Render() app.UI {
	return kit.Stage(v.T("Quote"), "bill").Body(
		kit.Strong().ID("bill-total").Role("status").Hidden(v.Total == "").Text(v.Total),
		kit.P().Class("quiet").Hidden(v.Total != "").Text(v.T("Write down what each thing costs. What has no price is not charged.")),
		kit.P().Class("quiet").Hidden(v.Missing == "").Text(v.Missing),
		kit.P().ID("bill-waits").Role("status").Hidden(!v.Waits).Text(v.T("Cloth, notions and hours of work are being worked out…")),
		v.later(),
		kit.Div().ID("bill-lines").Class("stack").Body(
			app.Range(v.Lines).Slice(func(i int) app.UI { return v.line(v.Lines[i]) }),
			kit.Div().Class("actions").Body(
				kit.Act("bill-add", "choice", v.T("Add a line"), v.OnAdd).Hidden(v.Given != ""),
			),
		),
		v.terms(),
		v.sum(),
		v.give(),
		v.payments(),
		v.send(),
	)
}

// later tells what has changed since the quote was given.
func (v View) later() app.UI {
	return kit.Div().ID("bill-later").Hidden(len(v.Later) == 0).Body(
		app.If(len(v.Later) > 0, func() app.UI {
			return kit.Note(kit.Mind, v.T("The draft has changed since the quote was given"), v.Later...)
		}),
	)
}

func (v View) line(l Line) app.UI {
	id := "bill-" + l.ID
	fixed := v.Given != ""
	return kit.Div().Class("bill-line").Body(
		kit.Strong().ID(id).Hidden(l.Own && !fixed).Text(l.Name),
		kit.Div().Class("bill-name").Hidden(!l.Own || fixed).Body(
			&kit.Field{ID: id + "-name", Text: l.Name, Label: v.T("What it is"), Hint: v.T("What it is"), Most: 60, OnText: func(_, text string) { v.OnLine(l.ID, Name, text) }},
			kit.Act(id+"-out", "choice", v.T("Take out"), func() { v.OnRemove(l.ID) }).Aria("label", v.F("Take out %s", l.Name)),
		),
		kit.Div().Class("bill-figures").Body(
			v.figure(id+"-count", v.F("%s: how much", l.Name), "0", l.Count, fixed, func(text string) { v.OnLine(l.ID, Count, text) }),
			kit.Span().Class("bill-per").Text(l.Per),
			kit.Span().Class("quiet").Aria("hidden", "true").Hidden(fixed && l.Amount == "").Text("×"),
			v.figure(id+"-price", v.F("%s: price of one", l.Name), v.T("price"), l.Price, fixed, func(text string) { v.OnLine(l.ID, Price, text) }),
			kit.Strong().Class("bill-amount").Text(l.Amount),
		),
		kit.P().ID(id+"-note").Class("quiet").Hidden(l.Note == "").Text(l.Note),
		bad(id+"-bad", l.Count.Bad, l.Price.Bad),
	)
}

// figure is a field for a figure, or the figure where it stays as it is.
func (v View) figure(id, label, hint string, f Figure, fixed bool, on func(text string)) app.UI {
	if fixed {
		return kit.Span().ID(id).Text(f.Text)
	}
	return &kit.Field{ID: id, Text: f.Text, Label: label, Hint: hint, Numeric: true, Bad: f.Bad != "", Most: 14, OnText: func(_, text string) { on(text) }}
}

// bad is what is wrong with fields, below them.
func bad(id string, whys ...string) app.UI {
	why := ""
	for _, w := range whys {
		if w != "" {
			why = w
		}
	}
	return kit.P().ID(id).Class("bad").Hidden(why == "").Text(kit.Sentence(why))
}

// terms are what the maker charges by.
func (v View) terms() app.UI {
	term := func(id, name, hint string, numeric bool) app.UI {
		f := v.Terms[id]
		return kit.Div().Class("bill-term").Body(
			kit.Label("bill-"+id, name),
			&kit.Field{ID: "bill-" + id, Text: f.Text, Hint: hint, Numeric: numeric, Bad: f.Bad != "", Most: 12, Note: "bill-" + id + "-bad", OnText: func(_, text string) { v.OnTerm(id, text) }},
			bad("bill-"+id+"-bad", f.Bad),
		)
	}
	aside := v.Terms[Currency].Text
	return kit.Div().ID("bill-terms").Class("stack").Hidden(v.Given != "").Body(
		kit.Disclose("bill-by", v.T("What you charge by"), aside, v.TermsOpen, v.OnTerms),
		kit.Div().Class("stack").Hidden(!v.TermsOpen).Body(
			kit.P().Class("quiet").Text(v.T("Kept for your next quotes, with the prices of notions and labour. The client never sees the margin.")),
			kit.Div().Class("bill-pair").Body(
				term(Currency, v.T("Currency"), v.F("such as %s", "GHS"), false),
				term(Step, v.T("Round up to"), v.F("such as %s", "1"), true),
			),
			kit.Div().Class("bill-pair").Body(
				term(Margin, v.T("Margin, %"), v.T("none"), true),
				term(Deposit, v.T("Before the cut, %"), v.F("such as %s", "50"), true),
			),
			either("labour-by", v.T("Labour"), v.T("by the hour"), v.T("by the piece"), v.Flat, v.OnFlat),
			either("drawer-by", v.T("What lies in the drawer"), v.T("is charged"), v.T("is not charged"), v.Free, v.OnFree),
		),
	)
}

// either is a question with two answers, of which the second is yes.
func either(id, question, no, yes string, is bool, on func(yes bool)) app.UI {
	return kit.Choose(id, question, "", []kit.Choice{{ID: kit.YesNo(false), Name: no}, {ID: kit.YesNo(true), Name: yes}}, kit.YesNo(is), func(_, choice string) { on(choice == kit.YesNo(true)) })
}

// rows are rows of figures as a table.
func rows(id string, all []quote.Row) app.UI {
	return app.Elem("table").ID(id).Class("bill-rows").Body(
		app.Elem("tbody").Body(app.Range(all).Slice(func(i int) app.UI {
			r := all[i]
			class := "bill-row"
			switch r.Weight {
			case quote.Strong:
				class = "bill-strong"
			case quote.Break:
				class = "bill-break"
			case quote.Plain:
			}
			return app.Elem("tr").Class(class).Body(
				app.Elem("th").Attr("scope", "row").Body(kit.Span().Text(kit.Sentence(r.Name)), kit.Span().Class("quiet").Text(r.Sum)),
				app.Elem("td").Text(r.Amount),
			)
		})),
	)
}

// sum is what it comes to.
func (v View) sum() app.UI {
	return kit.Div().Class("card").Hidden(!v.Asked).Body(
		kit.H2().Text(v.T("What it comes to")),
		rows("bill-sum", v.Inner),
	)
}

// give fixes the quote, or takes it back.
func (v View) give() app.UI {
	name, says := v.T("It is agreed with the client"), v.T("From then on it stays as it is, whatever becomes of the draft.")
	if v.Given != "" {
		name, says = v.T("Change it again"), v.F("Agreed on %s: it stays as it is.", v.Given)
	}
	return kit.Div().ID("bill-given").Class("stack").Hidden(!v.Asked).Body(
		kit.P().Text(says),
		kit.Act("bill-give", "choice", name, v.OnGive),
	)
}

func (v View) payments() app.UI {
	return kit.Div().ID("bill-paid").Class("card").Hidden(!v.Asked).Body(
		kit.H2().Text(v.T("Money received")),
		kit.P().Class("quiet").Hidden(len(v.Payments) > 0).Text(v.T("Nothing yet.")),
		app.Range(v.Payments).Slice(func(i int) app.UI {
			p := v.Payments[i]
			return kit.P().Class("bill-payment").Body(kit.Span().Text(p.Day), kit.Strong().Text(p.Amount))
		}),
		kit.Act("bill-back", "choice", v.T("Take the last one back"), v.OnBack).Hidden(len(v.Payments) == 0),
		kit.Label("bill-pay", v.T("Received today")),
		kit.Div().Class("bill-name").Body(
			&kit.Field{ID: "bill-pay", Text: v.Pay.Text, Numeric: true, Bad: v.Pay.Bad != "", Most: 14, Note: "bill-pay-bad", OnText: func(_, text string) { v.OnPay(text) }},
			kit.Act("bill-receive", "choice", v.T("Write down"), v.OnReceive),
		),
		bad("bill-pay-bad", v.Pay.Bad),
		kit.Act("bill-whole", "choice", v.F("All that is owed: %s", v.Whole), v.OnWhole).Hidden(v.Whole == ""),
	)
}

// send is what goes out to the client.
func (v View) send() app.UI {
	title := v.T("For the client")
	return kit.Div().ID("bill-send").Class("card").Hidden(!v.Asked).Body(
		kit.H2().ID("bill-send-head").Text(title),
		kit.Key().ID("bill-open").Class("choice").Aria("pressed", kit.YesNo(v.Open)).Text(v.T("Tell what each thing costs")).
			OnClick(func(app.Context, app.Event) { v.OnOpen() }),
		rows("bill-told", v.Rows),
		kit.Strong().Text(v.T("As a message")),
		kit.Div().Class("choices").Body(
			v.key("bill-text-send", v.T("Send"), func() { v.OnText(true) }).Hidden(!v.Sends),
			v.key("bill-text-copy", v.T("Copy"), func() { v.OnText(false) }),
		),
		v.told(Text),
		kit.Strong().Text(v.T("As a page (PDF)")),
		v.file(Page),
		kit.Strong().Text(v.T("As a picture, or for a receipt printer (PNG)")),
		v.file(Picture),
	)
}

// What goes out, by which what became of it is told. Page and Picture are those
// of the engine.
const (
	Text    = "bill-text"
	Page    = "quote"
	Picture = "receipt"
)

func (v View) file(form string) app.UI {
	busy := v.Making == form
	return kit.Div().Class("stack").Body(
		kit.Div().Class("choices").Hidden(busy).Body(
			v.key(form+"-save", v.T("Save"), func() { v.OnFile(form, false) }),
			v.key(form+"-send", v.T("Send"), func() { v.OnFile(form, true) }).Hidden(!v.Sends),
		),
		kit.Div().Class("task").Hidden(!busy).Body(
			kit.Progress(form+"-making", v.T("Making the file"), busy, v.Percent),
			v.key(form+"-stop", v.T("Stop"), v.OnStop),
		),
		v.told(form),
	)
}

func (v View) told(of string) app.UI {
	return kit.P().ID(of + "-told").Role("status").Hidden(v.ToldOf != of || v.Told == "").Text(v.Told)
}

func (v View) key(id, name string, do func()) app.HTMLElem {
	return kit.Key().ID(id).Class("choice").Text(name).Aria("describedby", "bill-send-head").
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(id))
}
