package ui

import (
	"bytes"
	"strings"

	"chalkfold/ui/engine"
	"chalkfold/ui/share"
)

// since is what has changed since the last print.
type since struct {
	id    uint32 // of the task
	gen   int    // of the draft
	paper []byte // Job.Printed
	done  bool
	is    engine.Change
	bad   string // why it cannot be told
}

// wantSince has the draft compared with what was printed of it, unless it is.
func (d *Desk) wantSince() {
	s := &d.view.share.since
	if s.gen == d.work.Gen && bytes.Equal(s.paper, d.job.Printed) {
		return
	}
	d.helpers.Stop(s.id)
	*s = since{gen: d.work.Gen, paper: d.job.Printed}
	if p, ok := engine.ReadPrint(d.job.Printed); !ok || !d.asPrinted(p) {
		return
	}
	of := *s
	s.id = d.ask(d.work.Result, engine.Changed, engine.Order{Since: s.paper}, true, func(a engine.Answer) {
		switch {
		case s.gen != of.gen || !bytes.Equal(s.paper, of.paper):
		case a.Is == engine.Done:
			s.is, s.done = engine.ReadChange(a.Data)
		case a.Is == engine.Fault:
			s.bad, s.done = string(a.Data), true
		}
	})
}

// asPrinted reports whether the printer is corrected as it was for a print: on
// what it prints now, nothing else joins.
func (d *Desk) asPrinted(p engine.Print) bool {
	now := d.settings.printer()
	return p.Printer() == [2]int{now.Across, now.Along}
}

// printed notes what was handed over to be printed.
func (d *Desk) printed(sheets []byte) {
	if len(sheets) == 0 { // of a roll
		return
	}
	d.job.Printed = sheets
	d.keep()
	d.wantSince()
}

// replaced notes that the old sheets are replaced by those that were printed.
func (d *Desk) replaced() {
	if p, ok := engine.ReadPrint(d.job.Printed); ok {
		d.printed(p.Last().Encode())
	}
}

// reprintView tells what has changed since the last print; nil when there is none.
func (d *Desk) reprintView() *share.Since {
	p, ok := engine.ReadPrint(d.job.Printed)
	if !ok {
		return nil
	}
	s := d.view.share.since
	v := &share.Since{
		Print: d.N(p.Sheets, "Last print: %d sheet of %s, plan %s.", "Last print: %d sheets of %s, plan %s.", p.Paper(), p.Plan),
		Open:  p.Open(), OnReplaced: d.replaced,
	}
	switch {
	case !d.asPrinted(p):
		v.Say = d.T("The printer is corrected otherwise since: print the whole pattern anew.")
	case !s.done:
		v.Say = d.T("Comparing with it…")
	case s.bad != "":
		v.Say = sentenceOf(s.bad)
	case len(s.is.Pages) == 0 && len(s.is.Void) == 0:
		v.Say = d.T("No sheet has changed since.")
	case !s.is.Saves:
		v.Say = d.T("So much has changed that the whole pattern is best printed anew.")
	default:
		if n := len(s.is.Pages); n > 0 {
			v.May = true
			v.Say = d.N(n, "%d sheet has changed: row/column %s. The others stay good.", "%d sheets have changed: row/column %s. The others stay good.", strings.Join(s.is.Pages, ", "))
		}
		if len(s.is.Void) > 0 {
			v.Void = d.F("Throw away the old sheets at %s: nothing of the pattern lies there any more.", strings.Join(s.is.Void, ", "))
		}
	}
	return v
}
