package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
	"chalkfold/ui/day"
	"chalkfold/ui/tape"
)

// tapeViewed is how the tape is looked at.
type tapeViewed struct {
	focus, help body.ID
	more        bool
	phone       bool // the phone's own keys are wanted
}

func (d *Desk) tapeView() tape.View {
	return tape.View{
		Words: d.Words,
		Sheet: d.withDiffering(d.sheet), Ticket: d.job.File.Name, Tape: d.tapeFormat(), Figure: d.job.File.Figure,
		Singly: d.settings.Singly, Focus: d.view.tape.focus, Help: d.view.tape.help, More: d.view.tape.more, Phone: d.view.tape.phone,
		Garments: d.garments(), Garment: d.garment.ID, OnGarment: d.chooseGarment,
		Sample:   d.job.Blank() && len(d.records) == 0,
		OnSample: d.openSample,
		OnTicket: func(text string) {
			d.job.SetName(text)
			d.changed("name")
		},
		OnText: func(id body.ID, text string) {
			d.job.Measure(id, text, d.today())
			d.changed(measured(id))
		},
		OnPad: func(key string) {
			id := d.view.tape.focus // the page may still show the one before
			if id == "" {
				return
			}
			text := tape.Press(d.job.Measured(id), key, d.job.System())
			d.job.Measure(id, text, d.today())
			showTyped(string(id), text)
			d.changed(measured(id))
		},
		OnOf: func(id body.ID, of body.Of) {
			d.job.SetOf(id, of)
			d.changed("")
		},
		OnKeep: func(id body.ID, text string) {
			d.job.Answered[id] = text
			d.changed("")
		},
		OnSettle: d.settleMeasured,
		OnFocus:  d.typeAt,
		OnCaret:  d.typedAt,
		OnStep:   func(by int) { d.typeAt(d.sheet.Step(d.view.tape.focus, by)) },
		OnPhone:  d.changeKeys,
		OnSingly: func() {
			d.set(func(s *Settings) { s.Singly = !s.Singly })
			d.toMeasured()
		},
		OnHelp: func(id body.ID) {
			if d.view.tape.help == id {
				id = ""
			}
			d.view.tape.help = id
		},
		OnMore: func() { d.view.tape.more = !d.view.tape.more },
		OnSystem: func(sign string) {
			s := unit.Inches
			if sign == unit.Centimetres.String() {
				s = unit.Centimetres
			}
			d.job.SetSystem(s)
			d.changed("")
		},
		OnFigure: func(figure string) {
			d.job.File.Figure = body.Figure(figure)
			d.changed("")
		},
	}
}

// withDiffering is the sheet with what two phones measured differently.
func (d *Desk) withDiffering(s tape.Sheet) tape.Sheet {
	if len(d.copying.conflicts) == 0 && len(d.job.Aside) == 0 {
		return s
	}
	return d.sayOnTape(s)
}

// tapeFormat is how the tape is read, and its reader spoken to.
func (d *Desk) tapeFormat() unit.Format {
	f := d.job.File.Units.Format()
	f.Words = d.Words
	return f
}

// fractions are keys of the tape's fractions for the field of a length.
func (d *Desk) fractions(id, name string) app.UI { return tape.Fractions(d.tapeFormat(), id, name) }

// fractionsOfCloth are fractions for what is sold by the yard.
func (d *Desk) fractionsOfCloth(id, name string) app.UI {
	return tape.Fractions(d.tapeFormat(), id, name, unit.Yards)
}

// typeAt has the keys go to a measurement, and its field in sight above them.
func (d *Desk) typeAt(id body.ID) {
	if d.view.tape.focus == id {
		return
	}
	d.view.tape.focus = id
	d.toMeasured()
}

// typedAt has the page keep up with the caret, which may be on its way to another
// field already: only the sight is moved.
func (d *Desk) typedAt(id body.ID) {
	if d.view.tape.focus == id {
		return
	}
	d.view.tape.focus = id
	d.ctx.Defer(func(app.Context) {
		if d.view.tape.focus == id {
			intoSight(string(id))
		}
	})
}

// toMeasured brings into sight what the tape is at: the one measurement and the
// overview from their beginning, in the list the field that has the keys.
func (d *Desk) toMeasured() {
	d.ctx.Defer(func(ctx app.Context) {
		if d.settings.Singly {
			toTop(ctx)
		}
		focusOn(string(d.view.tape.focus))
	})
}

// changeKeys changes between the pad and the phone's own keys, which come and go
// with the caret.
func (d *Desk) changeKeys() {
	d.view.tape.phone = !d.view.tape.phone
	id := string(d.view.tape.focus)
	d.ctx.Defer(func(app.Context) {
		if el := app.Window().GetElementByID(id); el != nil && el.Truthy() {
			el.Call("blur")
		}
		focusOn(id)
	})
}

// focusOn puts the caret into a field, where there is one.
func focusOn(id string) {
	el := app.Window().GetElementByID(id)
	if el == nil || !el.Truthy() {
		return
	}
	el.Call("focus")
	intoSight(id)
}

// intoSight scrolls as little as brings a node into sight, where there is one.
func intoSight(id string) {
	if el := app.Window().GetElementByID(id); el != nil && el.Truthy() {
		el.Call("scrollIntoView", map[string]any{"block": "nearest"})
	}
}

// read understands what was typed on the tape.
func (d *Desk) read() {
	typed := map[body.ID]tape.Entry{}
	earlier, today := d.earlierJobs(), d.today()
	for _, def := range body.Defs() {
		typed[def.ID] = d.tapeEntry(def.ID, earlier, today)
	}
	d.sheet = tape.Read(d.garment.Needs, typed, d.job.File.Figure, d.tapeFormat())
}

func (d *Desk) tapeEntry(id body.ID, earlier []*shelved, today day.Day) tape.Entry {
	on := d.job.Taken[id]
	e := tape.Entry{
		Text: d.job.Measured(id), Of: d.job.File.Measurements[id].Of, Kept: d.job.Answered[id],
		Day: on.Text(d.Words), Today: on == today,
	}
	for _, b := range takings(earlier, id) {
		e.Before = append(e.Before, tape.Earlier{Taking: b.Taking, Day: b.Day.Text(d.Words), Ticket: b.Ticket})
	}
	return e
}
