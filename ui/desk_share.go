package ui

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/sheet"
	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
	"chalkfold/ui/share"
)

// shareViewed is what was asked for at the stage Share.
type shareViewed struct {
	paper string
	count counted
	since since
	made  made    // the file that was made last, or is being made
	told  string  // what became of it
	of    string  // which
	look  *looked // what came by a link or in a file
	paste string  // in the field for a link

	giving   giving
	checking checking
	without  []string // pieces that are not printed
	pieces   bool     // they are chosen
	group    string   // of the forms, that is open
	tally    map[string]*tallied
}

// counted is how many sheets the pattern takes.
type counted struct {
	id            uint32 // of the task
	of            source
	engine.Counts // zero while they are not known
}

// made is a file made beside the page. It is kept until another is made, since
// some browsers send a file only right after a tap.
type made struct {
	id      uint32 // of the task; 0 when it is done
	what    string
	of      source
	now, in int
	file    []byte
	sheets  []byte // told of sheets: see Job.Printed
}

// source is what a file is made of.
type source struct {
	gen   int // of the draft
	paper string
	laid  drawn
	cloth int
	bill  string // as it is told
	cut   string
	// Of the pattern on paper.
	printer Printer
	without string
	by      bench.Setting // of the page that goes with the job
}

func (d *Desk) shareView() share.View {
	s := &d.view.share
	v := share.View{
		Words: d.Words, Note: d.engineNote(), Paper: d.paper(), Told: s.told, ToldOf: s.of,
		Paste: s.paste, Scans: d.browser.Scans, Scanning: d.scanning != nil, OnPaste: d.pasteLink, OnScan: d.scanCode,
	}
	v.OnPaper = func(id string) {
		s.paper = id
		d.wantCount()
	}
	v.OnFile, v.OnStop, v.OnText = d.shareFile, d.stopFile, d.shareText
	v.OnCloth = func() { d.turn(stageCloth) }
	v.OnChoose = func() { kit.ChooseFile(share.FileID) }
	v.OnOpen, v.OnKeep, v.OnLeave = d.openJobFile, d.keepLooked, d.leaveLook
	v.OnLesson = d.teachLooked
	v.Link, v.Looking = d.linkView(), d.lookingView()
	v.OnTick, v.OnLink = d.tickLink, d.sendLink
	v.OnCode = func() { s.giving.shown = !s.giving.shown }
	v.OnHouse = func() { d.turn(stageHouse) }
	v.Printer, v.PiecesOpen = d.printerView(), s.pieces
	v.Group = s.group
	v.OnGroup = func(id string) {
		if s.group == id {
			id = ""
		}
		s.group = id
		d.wantCount()
	}
	v.OnPieces, v.OnPiece = func() { s.pieces = !s.pieces }, d.leaveOut
	for _, p := range append(sheet.Papers(), sheet.Rolls()...) {
		v.Papers = append(v.Papers, kit.Choice{ID: p.Name, Name: d.paperName(p)})
	}
	if s.made.id != 0 {
		v.Making, v.Percent = s.made.what, percent(s.made.now, s.made.in)
	}
	r := d.work.Result
	if r == nil {
		v.Missing = d.T("The pattern, the diagram and the chalk guide are here once the draft is made.")
		return v
	}
	v.Stopped, v.Reprint, v.Tally = r.Report.Stopped(), d.reprintView(), d.tallies()
	v.Count = d.T("Counting the sheets…")
	if s.count.Sheets > 0 {
		v.Count, v.Bound = d.countView(s.count.Counts)
	}
	for _, p := range r.Pieces {
		v.Pieces = append(v.Pieces, share.Piece{ID: p.ID, Name: kit.Sentence(d.T(p.Name)), Out: slices.Contains(s.without, p.ID)})
	}
	if !d.laid() {
		v.NoLay = d.T("Lay the pieces on the cloth first.")
	}
	return v
}

// countView tells how much paper the pattern takes.
func (d *Desk) countView(n engine.Counts) (count, bound string) {
	p, _ := sheet.PaperNamed(d.paper())
	if p.Roll() {
		return d.F("%s of the roll", d.work.Result.Format.Told(n.Long)), ""
	}
	if n.Least == 0 {
		return d.N(n.Sheets, "%d sheet of %s so far", "%d sheets of %s so far", p.Name), d.T("Looking for places on fewer…")
	}
	return d.N(n.Sheets, "%d sheet of %s", "%d sheets of %s", p.Name),
		d.N(n.Least, "No placing of the pieces can do with fewer than %d sheet.", "No placing of the pieces can do with fewer than %d sheets.")
}

// paper is the paper that is printed on.
func (d *Desk) paper() string {
	if d.view.share.paper == "" {
		return sheet.A4().Name
	}
	return d.view.share.paper
}

// source is what a file of that kind would be made of now.
func (d *Desk) source(what string) source {
	s := source{gen: d.work.Gen}
	if kind, form := formKind(what); what == share.Sheets || what == share.Diagram || form && kind == pdfKind {
		s.paper = d.paper()
	}
	if what == engine.Bill || what == engine.BillStrip {
		s.bill = d.bill().Message(d.Words)
	}
	if what == share.Sheets || what == engine.Check {
		s.printer = d.settings.printer()
	}
	if what == share.Sheets {
		s.without = d.withoutHere()
	}
	if what == engine.Handover || what == string(engine.Charge) {
		s.by = d.setting()
	}
	if l := d.laying; l != nil && (what == share.Diagram || what == share.DiagramSVG || (what == engine.Handover || what == string(engine.Charge)) && d.laid()) {
		s.laid, s.cloth, s.cut = l.drawn, l.cloth, l.cut
	}
	return s
}

// wantCount has the sheets counted, unless they are.
func (d *Desk) wantCount() {
	c := &d.view.share.count
	if d.stage != stageShare || d.work == nil || d.work.Result == nil {
		return
	}
	d.wantSince()
	d.wantTally()
	if c.of == d.source(share.Sheets) {
		return
	}
	d.helpers.Stop(c.id)
	*c = counted{of: d.source(share.Sheets)}
	of := c.of
	c.id = d.ask(d.work.Result, engine.Count, d.paperOrder(c.of), true, func(a engine.Answer) {
		switch {
		case c.of != of:
		case a.Is == engine.Done, a.Is == engine.Part:
			c.Counts = engine.Counted(a.Data)
		case a.Is == engine.Fault:
			d.tellShared(share.Sheets, d.F("The sheets could not be counted: %s", string(a.Data)))
		}
	})
}

// paperOrder is how a source is printed.
func (d *Desk) paperOrder(of source) engine.Order {
	return engine.Order{Paper: of.paper, Printer: [2]int{of.printer.Across, of.printer.Along}, Without: of.without}
}

// leaveShare gives up what is being made and counted of a job.
func (d *Desk) leaveShare() {
	d.stopScan()
	d.stopFile()
	s := &d.view.share
	d.helpers.Stop(s.count.id)
	d.helpers.Stop(s.since.id)
	for _, t := range s.tally {
		d.helpers.Stop(t.id)
	}
}

// stopFile gives up the file that is being made.
func (d *Desk) stopFile() {
	if m := &d.view.share.made; m.id != 0 {
		d.helpers.Stop(m.id)
		*m = made{}
	}
}

// tellShared says what became of a file.
func (d *Desk) tellShared(what, text string) {
	d.view.share.of, d.view.share.told = what, text
}

// shareFile saves a file or sends it, once it is made.
func (d *Desk) shareFile(what string, send bool) {
	d.tellShared("", "")
	switch what {
	case share.JobFile:
		d.handOut(what, []byte(d.jobFile()), send)
		return
	case share.CodeFile:
		d.handOut(what, []byte(d.linkView().Code), send)
		return
	}
	r, m := d.work.Result, &d.view.share.made
	_, form := formKind(what)
	onCloth := what == share.Diagram || what == share.DiagramSVG
	if r == nil || onCloth && !d.laid() {
		return // the draft has changed under the key
	}
	if m.what == what && m.of == d.source(what) && m.id == 0 {
		d.handOut(what, m.file, send)
		return
	}
	d.stopFile()
	*m = made{what: what, of: d.source(what)}
	do, o := engine.Pieces, d.paperOrder(m.of)
	o.Cloth, o.Cut = m.of.cloth, m.of.cut
	o.Machine, o.Weight = string(m.of.by.Machine), string(m.of.by.Weight)
	switch {
	case what == share.Sheets:
		do = engine.Sheets
	case what == share.Reprint:
		do, o.Since = engine.Sheets, d.job.Printed
	case onCloth:
		do = engine.Diagram
	case form:
		do, o.Form = engine.Form, what
	}
	if what == engine.Bill || what == engine.BillStrip {
		text, err := d.bill().Encode()
		if err != nil {
			d.tellShared(what, sentenceOf(d.Err(err)))
			*m = made{}
			return
		}
		o.Bill = text
	}
	if m.of.laid != (drawn{}) {
		laid, err := d.laying.shown.Encode(d.laying.shown.Items)
		if err != nil {
			d.tellShared(what, sentenceOf(d.Err(err)))
			*m = made{}
			return
		}
		o.Laid = laid
	}
	m.id = d.ask(r, do, o, true, func(a engine.Answer) {
		m.now, m.in = a.Now, a.Of
		switch a.Is {
		case engine.Part:
			m.sheets = a.Data
		case engine.Done:
			m.id, m.file = 0, a.Data
			d.handOut(what, m.file, send)
		case engine.Fault:
			*m = made{}
			d.tellShared(what, d.F("The file could not be made: %s", string(a.Data)))
		case engine.Up, engine.Progress, engine.Ended:
		}
	})
}

// laid reports whether the draft on the desk has a lay.
func (d *Desk) laid() bool {
	l := d.laying
	return l != nil && l.gen == d.work.Gen && l.drawn != (drawn{})
}

// jobFile is the file of the job on the desk.
func (d *Desk) jobFile() string {
	var b strings.Builder
	if err := d.job.File.Encode(&b); err != nil {
		d.fault = d.sayFault(err)
	}
	return b.String()
}

// handOut has the browser save a file or send it.
func (d *Desk) handOut(what string, file []byte, send bool) {
	name, kind := d.fileName(what)
	of, sheets := d.keeper.id, d.view.share.made.sheets
	d.hand(name, kind, file, send, func(out bool) {
		text := ""
		if out {
			text = d.F("Handed over as %s.", name)
			if d.keeper.id == of && (what == share.Sheets || what == share.Reprint) {
				d.printed(sheets)
			}
		}
		d.tellShared(what, text)
	})
}

// codeName names the picture of a code by the ticket where that is in it.
func (d *Desk) codeName() string {
	if d.view.share.giving.what.Name {
		return plainName(d.job.File.Name) + "-code.svg"
	}
	return "chalkfold-code.svg"
}

// plainName makes a name that every file system takes of a ticket.
func plainName(ticket string) string {
	name := strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9', r > 0x7f:
			return r
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		}
		return '-'
	}, ticket), "-")
	if name == "" {
		return "chalkfold-job"
	}
	return name
}

// giveFile has the browser save a file of a kind, or hand it to another
// program. done hears whether it went out.
func (d *Desk) giveFile(name, kind string, file []byte, send bool, done func(out bool)) {
	l := loader()
	if l == nil {
		return
	}
	bytes := app.Window().Get("Uint8Array").New(len(file))
	app.CopyBytesToJS(bytes, file)
	l.Call("handOver", name, bytes, send, d.hearOnce(func(v app.Value) { done(v.Bool()) }), kind)
}

// hearOnce is a function for the browser to call once.
func (d *Desk) hearOnce(do func(v app.Value)) app.Func {
	var hear app.Func
	hear = app.FuncOf(func(_ app.Value, args []app.Value) any {
		v := args[0]
		hear.Release()
		d.ctx.Dispatch(func(app.Context) { do(v) })
		return nil
	})
	return hear
}

// guideText is the chalk guide as a message.
func (d *Desk) guideText() string {
	return share.Text(draft.Title(d.work.Result), d.work.Marks(), d.Words)
}

// shareText sends the chalk guide as words, or copies it.
func (d *Desk) shareText(send bool) {
	if d.work.Result != nil {
		d.sendText(d.guideText(), send, func(told string) { d.tellShared("text", told) })
	}
}

// sendText sends a text, or copies it, and tells what became of it.
func (d *Desk) sendText(text string, send bool, tell func(told string)) {
	l := loader()
	if l == nil {
		return
	}
	l.Call("sendText", text, send, d.hearOnce(func(v app.Value) {
		switch v.String() {
		case "copied":
			tell(d.T("Copied. Paste it into a message."))
		case "sent":
			tell(d.T("Handed over."))
		default:
			tell(d.T("It was not sent."))
		}
	}))
}
