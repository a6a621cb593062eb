package ui

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
	"chalkfold/ui/share"
)

// checking is the check of a printer: what its fields hold.
type checking struct {
	open                bool
	name, across, along string
	bad, told           string
}

// mostPrinters is how many are kept; the one that was checked first gives way.
const mostPrinters = 8

// printer is the one in use; the zero Printer prints as it is.
func (s Settings) printer() Printer {
	for _, p := range s.Printers {
		if p.Name == s.Printer {
			return p
		}
	}
	return Printer{}
}

const million = 1e6

func (p Printer) correction() sheet.Correction {
	return sheet.Correction{Across: float64(p.Across) / million, Along: float64(p.Along) / million}
}

// printerView is the guided check of a printer.
func (d *Desk) printerView() share.Printer {
	c, used := &d.view.share.checking, d.settings.printer()
	v := share.Printer{
		Used: used.Name, Unit: d.Say(d.rulerUnit()), Inches: d.rulerUnit() == unit.Inches, Open: c.open, Name: c.name, Across: c.across, Along: c.along, Bad: c.bad, Told: c.told,
		OnOpen: func() { c.open = !c.open },
		OnUse: func(name string) {
			d.set(func(s *Settings) { s.Printer = name })
			*c = checking{open: true, name: name}
			d.wantCount()
		},
		OnType: func(id, text string) {
			switch id {
			case share.PrinterName:
				c.name = clip(text)
			case share.PrinterAcross:
				c.across = text
			case share.PrinterAlong:
				c.along = text
			}
			c.bad, c.told = "", ""
		},
		OnCheck: d.checkPrinter, OnForget: d.forgetPrinter,
	}
	v.All = append(v.All, kit.Choice{Name: d.T("As it is")})
	for _, p := range d.settings.Printers {
		v.All = append(v.All, kit.Choice{ID: p.Name, Name: p.Name})
	}
	if used.Name != "" {
		v.Sent = d.F("It is sent %s of the length across the sheet, and %s along it.", hundredths(used.Across), hundredths(used.Along))
	}
	return v
}

// rulerUnit is what a square is measured in when no unit is typed.
func (d *Desk) rulerUnit() unit.System {
	if d.job.System().Metric() {
		return unit.Millimetres
	}
	return unit.Inches
}

// hundredths are millionths, told as a figure in a hundred.
type hundredths int

// In is the figure as a reader writes it.
func (h hundredths) In(w *say.Words) string {
	const each = million / 100
	return w.Decimal(strconv.FormatFloat(float64(h)/each, 'f', 1, 64)) + " %"
}

// checkPrinter keeps what is wanting of a printer whose square was measured.
// What it printed was sent by its correction of before.
func (d *Desk) checkPrinter() {
	c := &d.view.share.checking
	c.bad, c.told = "", ""
	name := strings.TrimSpace(c.name)
	if name == "" {
		c.bad = d.T("Give the printer a name, so that it is known the next time.")
		return
	}
	var sides [2]unit.Quantity
	for i, text := range []string{c.across, c.along} {
		q, err := unit.Parse(text, d.rulerUnit())
		if err != nil {
			c.bad = sentenceOf(d.Err(err))
			return
		}
		sides[i] = q
	}
	next, err := d.settings.printer().correction().Measured(sides[0], sides[1])
	if err != nil {
		c.bad = sentenceOf(d.Err(err))
		return
	}
	p := Printer{name, int(math.Round(next.Across * million)), int(math.Round(next.Along * million))}
	d.set(func(s *Settings) {
		s.Printers = append(slices.DeleteFunc(slices.Clone(s.Printers), func(o Printer) bool { return o.Name == name }), p)
		s.Printers = s.Printers[max(0, len(s.Printers)-mostPrinters):]
		s.Printer = name
	})
	*c = checking{open: true, name: name, told: d.F("“%s” prints true from now on. Print the test sheet again and measure it, to be sure.", name)}
	d.wantCount()
}

// forgetPrinter forgets the printer in use.
func (d *Desk) forgetPrinter() {
	d.set(func(s *Settings) {
		s.Printers = slices.DeleteFunc(slices.Clone(s.Printers), func(o Printer) bool { return o.Name == s.Printer })
		s.Printer = ""
	})
	d.view.share.checking = checking{open: true}
	d.wantCount()
}

// leaveOut leaves a piece out of what is printed, or takes it in again.
func (d *Desk) leaveOut(id string) {
	s := &d.view.share
	if i := slices.Index(s.without, id); i >= 0 {
		s.without = slices.Delete(slices.Clone(s.without), i, i+1)
	} else {
		s.without = append(slices.Clone(s.without), id)
		slices.Sort(s.without)
	}
	d.wantCount()
}

// withoutHere are the pieces of this draft that are left out.
func (d *Desk) withoutHere() string {
	var out []string
	for _, p := range d.work.Result.Pieces {
		if slices.Contains(d.view.share.without, p.ID) {
			out = append(out, p.ID)
		}
	}
	return strings.Join(out, " ")
}

// paperName is a paper as it is shown.
func (d *Desk) paperName(p sheet.Paper) string {
	if !p.Roll() {
		return p.Name
	}
	wide, err := unit.Parse(strings.TrimSuffix(p.Name, " roll"), unit.Millimetres)
	if err != nil {
		return p.Name
	}
	return d.F("Roll of %s", wide)
}
