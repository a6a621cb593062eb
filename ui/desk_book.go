package ui

import (
	"slices"
	"strings"
	"time"

	"chalkfold/draft/say"
	"chalkfold/ui/book"
	"chalkfold/ui/calendar"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
)

// bookViewed is how the book is looked at.
type bookViewed struct {
	view    string // of book's; empty is the jobs
	search  string // as it is typed
	found   string // and as the list is searched
	typing  int    // counts the keys
	more    int    // how often more was asked for
	details bool   // of the open job
	typed   string // for its client
	client  string // id of the client who is looked at
	cloth   string // id of the remnant that is looked at
	sure    string // the id of what a tap more deletes
	load    bool   // the workload is shown
	told    string // what became of the calendar
	others  bool   // the jobs that could be put into the open order are shown

	week, weekBad string // the field for the hours in a week, and what is wrong with it
	weekTyped     bool
}

const (
	// atOnce is how many entries of a list are shown, and added by a tap: a
	// phone draws them without a pause.
	atOnce = 20
	// searched is how many entries there are before they can be searched.
	searched = 8
)

// bookView shows what is due, the other jobs, the clients and what was deleted.
func (d *Desk) bookView() *book.View {
	at := &d.view.book
	v := &book.View{
		Words: d.Words, Sends: d.browser.Sends,
		First: len(d.records)+len(d.orders)+len(d.clients) == 0 && d.job.Blank(),
		Busy:  !d.settled(), View: at.view, Search: at.search, Language: d.Language().ID,
		OnNew: d.newJob, OnSample: d.openSample, OnOpen: d.openKept,
		OnView: func(view string) {
			*at = bookViewed{view: view}
		},
		OnSearch: d.searchBook,
		OnMore:   func() { at.more++ },
		OnClient: func(id string) { at.client, at.sure, at.more = id, "", 0 },
		OnNewClient: func() {
			if c := d.newClient(""); c != nil {
				at.client, at.sure = c.id, ""
			}
		},
		OnRecover:  d.recover,
		OnLanguage: d.chooseLanguage,
	}
	if v.View == "" {
		v.View = book.ViewJobs
	}
	for _, l := range say.Offered() {
		v.Languages = append(v.Languages, kit.Choice{ID: l.ID, Name: l.Name})
	}
	switch v.View {
	case book.ViewClients:
		d.listClients(v)
	case book.ViewCloth:
		d.listRemnants(v)
	case book.ViewDeleted:
		d.listDeleted(v)
	default:
		if d.onDesk() {
			v.Open = d.cardView()
		}
		d.listJobsIn(v)
		v.Load, v.Remind = d.loadView(), d.list().remind
	}
	v.Keep = d.keepView(len(d.records))
	v.Paste, v.Scans, v.OnPaste = d.view.share.paste, d.browser.Scans, d.pasteLink
	if d.view.share.of == pasted {
		v.NoUse = d.view.share.told
	}
	v.OnScan = func() {
		d.turn(stageShare)
		d.scanCode()
	}
	return v
}

// onDesk reports whether there is anything of the open job to show.
func (d *Desk) onDesk() bool {
	return !d.ordering() && (!d.job.Blank() || d.keeper != nil && d.keeper.rev > 0)
}

// A window is the part of a list that is shown.
type window struct{ most, left int }

func (d *Desk) window() *window { return &window{most: atOnce * (1 + d.view.book.more)} }

// takes reports whether one more entry is shown, and counts those that are not.
func (w *window) takes() bool {
	if w.most == 0 {
		w.left++
		return false
	}
	w.most--
	return true
}

// listJobsIn lists the jobs but the open one: first those that are due, the next
// first, then those that were changed last.
func (d *Desk) listJobsIn(v *book.View) {
	f := d.list()
	d.listOrders(v, book.NewSearch(v.Search))
	v.Many = f.n > searched
	w := d.window()
	list := func(all []*shelved) (out []book.Entry) {
		for _, r := range all {
			if w.left == atOnce { // no more are told of than a tap adds
				break
			}
			if (d.keeper == nil || r.ID != d.keeper.id) && w.takes() {
				out = append(out, d.entry(r))
			}
		}
		return out
	}
	v.Due, v.Jobs, v.Reading = list(f.due), list(f.others), d.later
	v.Left = min(w.left, atOnce)
}

// isDue reports whether something is promised of the job, and it is not yet
// ready to be fetched.
func (h head) isDue() bool { return h.next() != "" }

// entry is a kept job as it is listed.
func (d *Desk) entry(r *shelved) book.Entry {
	if r.err != nil {
		return book.Entry{ID: r.ID, Name: d.T("Cannot be read"), Bad: true, Changed: d.Err(r.err)}
	}
	e := d.headEntry(r.head)
	e.ID = r.ID
	if r.Due == "" {
		e.Changed = d.F("changed %s", day.Of(r.Updated.Local()).Text(d.Words))
	}
	return e
}

// headEntry is what a list tells of a job.
func (d *Desk) headEntry(h head) book.Entry {
	e := book.Entry{
		Name: d.ticket(h.Ticket), For: d.whose(h), Garment: d.garmentName(h.Garment),
		State: d.sayState(h), Paid: h.Reached[Paid] != "", Owed: h.Owed,
	}
	e.ToCut, e.CutLate = d.cutBy(h)
	if h.Fitting != "" && h.Reached[Fitted] == "" {
		e.Fitting = d.F("Fitting: %s", h.Fitting.Full(d.Words))
		if near := h.Fitting.From(d.today(), d.Words); near != "" {
			e.Fitting = d.F("Fitting: %s", near)
		}
	}
	if h.Due == "" {
		return e
	}
	e.Due, e.Day = h.Due.From(d.today(), d.Words), h.Due.Text(d.Words)
	if e.Due == "" || h.Reached[Fitted] != "" {
		e.Due, e.Day = e.Day, ""
	}
	e.Late = h.Reached[Fitted] == "" && h.Due < d.today()
	return e
}

func (d *Desk) ticket(name string) string {
	if name == "" {
		return d.T("No ticket")
	}
	return name
}

func (d *Desk) garmentName(id string) string {
	return kit.Sentence(d.T(d.makeOf(id).Name))
}

// sayState puts a state in words: the last milestone of the work, or how far
// the draft is; nothing for a job of before states were kept.
func (d *Desk) sayState(h head) string {
	switch {
	case h.Reached[Fitted] != "":
		return d.T("Fitted")
	case h.Reached[Sewn] != "":
		return d.T("Sewn")
	case h.Reached[Cut] != "":
		return d.T("Cut")
	}
	switch h.State {
	case ToMeasure:
		return d.T("To be measured")
	case Measured:
		return d.T("Measured, no draft yet")
	case Stopped:
		return d.T("Drafted, stopped: do not cut")
	case MayBeCut:
		return d.T("Drafted, may be cut")
	}
	return ""
}

// stands is the stage where the work on the open job stands; none when there
// is nothing left to do.
func (d *Desk) stands() string {
	h := d.job.head()
	switch {
	case h.Reached[Fitted] != "" && h.Reached[Paid] != "":
		return ""
	case h.Reached[Sewn] != "" || h.Reached[Fitted] != "":
		return stageFitting
	case h.Reached[Cut] != "":
		return stageBench
	}
	switch h.State {
	case MayBeCut:
		if d.job.Mark != "" {
			return stageChalk
		}
		return stageCloth
	case Stopped:
		return stageDraft
	case Measured:
		if !slices.ContainsFunc(d.work.Whys, func(w Why) bool { return strings.HasPrefix(w.Path, "measurements.") }) {
			return stageDraft
		}
	case ToMeasure:
	}
	return stageTape
}

// goOn turns to where the work stands; a job with nothing left to do shows its
// draft.
func (d *Desk) goOn() {
	if d.ordering() {
		d.turn(stageOrder)
		return
	}
	to := d.stands()
	if to == "" {
		to = stageDraft
	}
	d.turn(to)
}

// cardView is the open job with its details.
func (d *Desk) cardView() *book.Card {
	j, at := d.job, &d.view.book
	c := &book.Card{
		Entry: d.headEntry(j.head()), Out: at.details, Sure: d.keeper != nil && at.sure == d.keeper.id,
		Steps: d.milestones(Cut, Sewn, Fitted, Paid), Note: j.Notes,
		Ticket: j.File.Name, Typed: at.typed, Client: d.clientName(j.Client), Promised: j.Due, Today: d.today(),
		OnGo:      d.goOn,
		OnQuote:   func() { d.turn(stageQuote) },
		OnDetails: func() { at.details, at.sure = !at.details, "" },
		OnTicket:  d.nameIt, OnDue: d.promise, OnNoDue: d.promiseNothing,
		Told: at.told,
		OnCalendar: func() {
			if d.keeper != nil {
				d.giveCalendar(d.promisesOf(d.keeper.id, j.head()), plainName(j.File.Name), d.browser.Sends)
			}
		},
		OnMilestone: d.tick,
		OnNote:      d.noteDown, OnDelete: d.deleteOpen, OnRepeat: d.repeat,
	}
	if o := d.orderOf(j.Order); o != nil {
		c.Order = d.orderName(o)
	}
	c.OnOrder = func() {
		if o := d.orderOf(d.job.Order); o != nil {
			d.openKept(o.ID)
			return
		}
		d.beginOrder(d.job)
	}
	c.OnNoOrder = func() {
		d.job.Order = ""
		d.changed("")
	}
	for _, s := range stages() {
		if s.id == d.stands() {
			c.Next = d.T(s.name)
		}
	}
	d.offerClients(c)
	if at.details {
		c.Photos = d.photosView("job", d.T("Photos"), "")
	}
	return c
}

// milestones are those of the open job.
func (d *Desk) milestones(which ...Milestone) []calendar.Tick {
	var out []calendar.Tick
	for _, m := range which {
		name := ""
		switch m {
		case Cut:
			name = d.T("Cut")
		case Sewn:
			name = d.T("Sewn")
		case Fitted:
			name = d.T("Fitted")
		case Paid:
			name = d.T("Paid")
		}
		out = append(out, calendar.Tick{ID: string(m), Name: name, Day: d.job.Reached[m].Text(d.Words)})
	}
	return out
}

// moved is a day so many days on, counted from today where none is chosen.
func (d *Desk) moved(from day.Day, days int) day.Day {
	if from == "" {
		from = d.today()
	}
	return from.Add(days)
}

// tick has a milestone reached today, or takes it back.
func (d *Desk) tick(milestone string) {
	m := Milestone(milestone)
	on := d.today()
	if d.job.Reached[m] != "" {
		on = ""
	}
	d.job.Reach(m, on)
	d.changed("")
}

// deleteOpen deletes the open job when it is asked for twice.
func (d *Desk) deleteOpen() {
	if d.keeper == nil {
		return
	}
	if d.view.book.sure != d.keeper.id {
		d.view.book.sure = d.keeper.id
		return
	}
	d.view.book.sure = ""
	d.discard(d.keeper.id, d.deps.Now().UnixMilli())
}

// listDeleted lists what can be recovered.
func (d *Desk) listDeleted(v *book.View) {
	until := func(deleted int64) string {
		return d.F("until %s", day.Of(time.UnixMilli(deleted).Add(deletedFor).Local()).Text(d.Words))
	}
	w := d.window()
	for _, c := range d.clients {
		if c.Deleted > 0 && w.takes() {
			v.Deleted = append(v.Deleted, book.Entry{ID: c.id, Name: d.nameOf(c), Changed: until(c.Deleted)})
		}
	}
	for _, r := range d.remnants {
		if r.Deleted > 0 && w.takes() {
			v.Deleted = append(v.Deleted, book.Entry{ID: r.id, Name: d.remnantName(r), Changed: until(r.Deleted)})
		}
	}
	for _, p := range d.photos {
		if p.Deleted > 0 && w.takes() {
			v.Deleted = append(v.Deleted, book.Entry{ID: p.id, Name: d.deletedPhoto(p), Changed: until(p.Deleted)})
		}
	}
	for _, r := range slices.Concat(d.orders, d.records) {
		if r.deleted() && w.takes() {
			v.Deleted = append(v.Deleted, book.Entry{ID: r.ID, Name: d.ticket(r.Ticket), Changed: until(r.Deleted)})
		}
	}
	v.Left = min(w.left, atOnce)
}
