package ui

import (
	"chalkfold/draft/body"
	"chalkfold/draft/unit"
	"chalkfold/ui/tape"
)

// tapeViewed is how the tape is looked at.
type tapeViewed struct {
	focus, help body.ID
	more        bool
}

func (d *Desk) tapeView() tape.View {
	return tape.View{
		Words: d.Words,
		Sheet: d.sheet, Ticket: d.job.File.Name, System: d.job.System(), Figure: d.job.File.Figure,
		Focus: d.view.tape.focus, Help: d.view.tape.help, More: d.view.tape.more,
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
		OnOf: func(id body.ID, of body.Of) {
			d.job.SetOf(id, of)
			d.changed("")
		},
		OnKeep: func(id body.ID, text string) {
			d.job.Answered[id] = text
			d.changed("")
		},
		OnFocus: func(id body.ID) { d.view.tape.focus = id },
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
