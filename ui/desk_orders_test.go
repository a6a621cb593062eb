//go:build !js

package ui

import (
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/quote"
	"chalkfold/draft/rules"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/book"
	"chalkfold/ui/calendar"
)

// choir is a table of sizes.
const choir = "ticket,figure,waist_girth (in),hip_girth (in),outside_leg_length (in)\r\nAlto 1,women,32,40,39\r\nAlto 10,women,36,44,41\r\n"

// ordered opens the sample and begins an order with it, of three bodies.
func ordered(t *testing.T, b tried) {
	t.Helper()
	b.openSample()
	b.settle()
	b.stage = stageBook
	b.listJobs()
	b.settle()
	b.cardView().OnOrder()
	b.settle()
	if !b.ordering() || b.stage != stageOrder || len(b.garmentsOf(b.keeper.id)) != 1 {
		t.Fatalf("on %s: %s", b.stage, b.fault)
	}
}

// takeSizes takes the table of sizes into the open order.
func (b tried) takeSizes() {
	b.t.Helper()
	b.lookAtTable(choir)
	b.orderScreen()
	b.takeTable(true)
	b.settle()
}

// tickets are those of the garments of the open order.
func (b tried) tickets() string {
	var all []string
	for _, s := range b.garmentsOf(b.keeper.id) {
		all = append(all, s.Ticket)
	}
	return strings.Join(all, ", ")
}

// TestOrder: an order of the open job, and of two bodies of a table, all of one style, are
// laid on one cloth, each piece by its ticket; what all take is told for each cloth.
func TestOrder(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	ordered(t, b)
	b.buyView().OnOpen()
	b.settle()
	v := b.buyView()
	if len(v.Tables) != len(b.work.Result.Kinds()) || len(v.Tables) < 2 || v.Busy || v.Fault != "" || v.Tables[0].Name != "Main cloth" {
		t.Errorf("how much to buy: %+v", v)
	}
	b.takeSizes()
	if b.buyView().Open {
		t.Error("what to buy for fewer garments is still shown")
	}
	b.nameIt("Choir")
	b.promise(7)
	b.settle()
	if got := b.tickets(); got != "Alto 1, Alto 3, Alto 10" {
		t.Fatalf("the garments are %s: %s", got, b.fault)
	}
	if c := b.job.File.Cloth[0]; c.Width.String() != "60 in" || c.Length.Set() {
		t.Errorf("its cloth is %+v, want the job's, off the bolt", c)
	}
	first := b.garmentsOf(b.keeper.id)[0].whole()
	if first.File.Style["crease"] != "tuck" || first.File.Measurements[body.HipGirth].Value.String() != "40 in" || first.File.Measurements[body.ThighGirth].Value.Set() {
		t.Errorf("made like the first: %+v", first.File)
	}
	b.shows("3 garments", "Lay them on one cloth", "How much to buy", "Table of measurements")

	b.turn(stageCloth)
	b.wantLay()
	b.settle()
	l := b.laying
	if !b.laid() {
		t.Fatalf("nothing is laid: %q", l.missing)
	}
	if err := lay.Verify(l.shown.Cloth, l.shown.Items, l.shown.Result); err != nil {
		t.Error(err)
	}
	cut, want := lay.Want{}, 0
	cut.Cut(l.shown.Items, l.shown.Result)
	for _, s := range b.garmentsOf(b.keeper.id) {
		for _, p := range b.together.drafts[s.ID].Result.Pieces {
			if n := cut[s.ID+"."+p.ID]; p.Cloth == "main" && n.Plain+n.Turned != p.Count {
				t.Errorf("%s of %s is cut %d times, want %d", p.ID, s.Ticket, n.Plain+n.Turned, p.Count)
			}
		}
		want++
	}
	b.shows("Alto 1, front", "Alto 10, back", "Page to cut by")
	if view := b.clothView(); view.Advice.Wanted || !view.Several {
		t.Errorf("of an order: %+v", view.Advice)
	}
	h := b.catch(true)
	b.clothView().Cut.OnPage()
	b.settle()
	if h.name != "choir-cloth.pdf" || !strings.HasPrefix(string(h.file), "%PDF") {
		t.Errorf("handed over %s of %d bytes", h.name, len(h.file))
	}
	b.clothView().Cut.OnChalk()
	b.shows("Where the pieces lie on the cloth", "Alto 3, front", "in its own job")

	// A change of the cloth can be undone.
	b.turn(stageOrder)
	gen := b.work.Gen
	b.changeCloth("", func(c *job.Cloth) { c.OneWay = true })
	b.settle()
	if !b.work.Result.Job.Cloth[0].OneWay || b.work.Gen == gen {
		t.Error("the cloth is not changed")
	}
	b.step(false)
	b.settle()
	if b.work.Result.Job.Cloth[0].OneWay || b.tickets() != "Alto 1, Alto 3, Alto 10" {
		t.Error("the change is not undone")
	}
}

// TestOrderInTheBook: the book has the order, and its garments by its name and day; one
// that cannot be drafted is named; what is owed is added up; deleted, the order leaves
// its garments, and comes back with them.
func TestOrderInTheBook(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	ordered(t, b)
	b.takeSizes()
	b.nameIt("Choir")
	b.promise(7)
	b.settle()
	id := b.keeper.id
	b.orderScreen().OnLike() // measured by nobody yet
	b.settle()
	if b.stage != stageTape || b.ordering() || b.job.Order != id || b.job.File.Style["crease"] != "tuck" || len(b.job.File.Measurements) > 0 {
		t.Fatalf("on %s: %+v", b.stage, b.job.File)
	}
	b.nameIt("Alto 11")
	b.job.Quote = quote.Quote{Terms: quote.Terms{Currency: quote.CurrencyOf("GHS")}, Given: "2031-05-17", Lines: []quote.Line{{ID: "own-1", Own: true, Count: 1000, Price: 4550}}}
	b.changed("")
	b.settle()
	b.stage = stageBook
	b.listJobs()
	b.settle()
	v := b.bookView()
	if len(v.Orders) != 1 || v.Orders[0].Name != "Choir" || v.Orders[0].State != "4 garments" || len(v.Due) != 3 || v.Due[0].For != "Choir" {
		t.Errorf("the book has %+v and is to do %+v", v.Orders, v.Due)
	}
	v.OnOpen(id)
	b.settle()
	o := b.orderScreen()
	if b.stage != stageOrder || o.Owed != "45.50 GHS" || !strings.Contains(o.NotLaid, "Alto 11.") || !o.Laid || b.tickets() != "Alto 1, Alto 3, Alto 10, Alto 11" {
		t.Errorf("on %s: %+v", b.stage, o)
	}

	// Where an order has no stage, the newest job is on the desk.
	if b.hasStage(stageTape) || !b.hasStage(stageCloth) {
		t.Error("an order is measured")
	}
	o.Card.OnDelete()
	b.orderScreen().Card.OnDelete()
	b.settle()
	if b.stage != stageBook || b.ordering() || len(b.bookView().Orders) > 0 {
		t.Fatalf("deleted, it is on %s", b.stage)
	}
	if live, deleted := b.bookOf(); len(live) != 4 || len(deleted) != 1 || !strings.HasPrefix(deleted[0], "Choir") {
		t.Errorf("deleted, the book has %v and %v", live, deleted)
	}
	b.recover(id)
	b.settle()
	b.view.book.view = book.ViewJobs
	if v := b.bookView(); len(v.Orders) != 1 || len(b.garmentsOf(id)) != 4 {
		t.Errorf("recovered: %+v", v.Orders)
	}

	// One garment taken out, another put in.
	b.openKept(b.garmentsOf(id)[0].ID)
	b.settle()
	b.cardView().OnNoOrder()
	b.settle()
	taken := b.keeper.id
	b.listJobs()
	b.settle()
	if got := len(b.garmentsOf(id)); got != 3 {
		t.Errorf("%d garments are left", got)
	}
	b.openKept(id)
	b.settle()
	b.orderScreen().OnOthers()
	if others := b.orderScreen().Others; len(others) != 1 || others[0].ID != taken {
		t.Fatalf("could be put in: %+v", others)
	}
	b.orderScreen().OnAdd(taken)
	b.settle()
	if got := b.tickets(); got != "Alto 1, Alto 3, Alto 10, Alto 11" {
		t.Errorf("the garments are %s", got)
	}
	if j := find(b.records, taken).whole(); j.past.done == 0 {
		t.Error("what was done in the job cannot be undone any more")
	}
}

// TestOrderPartlyCut: of an order whose garments are cut in part only the others are laid,
// and it is said which are not; what is in the drawer is ticked off for all, and kept;
// what is sewn takes no notions any more.
func TestOrderPartlyCut(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	ordered(t, b)
	b.takeSizes()
	id := b.keeper.id
	change := func(ticket string, do func()) {
		t.Helper()
		for _, s := range b.garmentsOf(id) {
			if s.Ticket == ticket {
				b.openKept(s.ID)
				b.settle()
				do()
				b.changed("")
				b.settle()
				b.listJobs()
				b.settle()
				b.openKept(id)
				b.settle()
				return
			}
		}
		t.Fatalf("no %s", ticket)
	}
	laid := func() (keys map[string]int) {
		keys = map[string]int{}
		for _, p := range b.work.Result.Pieces {
			for _, s := range b.garmentsOf(id) {
				if strings.HasPrefix(p.ID, s.ID+".") {
					keys[s.Ticket]++
				}
			}
		}
		return keys
	}
	zips := func() (n quote.Quantity) {
		for _, o := range b.ordered().notions {
			if strings.HasPrefix(o.ID, "zip") {
				n += o.Count
			}
		}
		return n
	}
	all := laid()
	if len(all) != 3 || zips() != 3*quote.One || len(b.orderScreen().Cut) > 0 {
		t.Fatalf("laid are %v, with %v zips: %v", all, zips(), b.orderScreen().Cut)
	}
	change("Alto 1", func() { b.job.Reach(Cut, b.today()) })
	change("Alto 10", func() { b.job.CutPiece("front") })
	if got := laid(); got["Alto 1"] != 0 || got["Alto 3"] != all["Alto 3"] || got["Alto 10"] != all["Alto 10"]-1 || zips() != 3*quote.One {
		t.Errorf("laid are %v of %v, with %v zips", got, all, zips())
	}
	b.shows("Cut already, and not laid again: Alto 1.", "Of Alto 10 these are cut already, and not laid again: front.")
	b.turn(stageCloth)
	b.wantLay()
	b.settle()
	if !b.laid() {
		t.Fatalf("nothing is laid: %q", b.laying.missing)
	}
	b.shows("Cut already, and not laid again: Alto 1.")
	b.turn(stageOrder)

	b.notionsView().OnOpen()
	v := b.notionsView()
	i := slices.IndexFunc(v.All, func(n calendar.Tick) bool { return n.ID == "thread" })
	if i < 0 {
		t.Fatalf("the notions are %+v", v.All)
	}
	v.OnNotion("thread")
	b.settle()
	if b.notionsView().All[i].Day != "in the drawer" {
		t.Error("what is in the drawer is not ticked")
	}
	change("Alto 1", func() { b.job.Reach(Sewn, b.today()) }) // the order is opened anew
	b.notionsView().OnOpen()
	if v := b.notionsView(); v.All[i].Day != "in the drawer" || zips() != 2*quote.One {
		t.Errorf("%v zips for two that are not sewn: %+v", zips(), v.All)
	}
	for _, ticket := range []string{"Alto 3", "Alto 10"} {
		change(ticket, func() { b.job.Reach(Cut, b.today()) })
	}
	if o := b.orderScreen(); o.Laid || len(laid()) > 0 || b.buyView().Can {
		t.Errorf("all are cut, and %v are laid", laid())
	}
	b.turn(stageCloth)
	b.wantLay()
	b.settle()
	b.shows("Every piece is cut already.")
}

// TestOrderIsKept: an order and its garments go through a backup file.
func TestOrderIsKept(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	ordered(t, b)
	b.takeSizes()
	b.nameIt("Choir")
	b.settle()
	id := b.keeper.id
	h := b.catch(true)
	b.saveBackup(false)
	b.settle()
	c := open(t, &mem.Store{}, nil)
	c.stage = stageBook
	c.takeFile(textFile(string(h.file)))
	c.settle()
	c.shows("Orders in the file: 1. New here: 1.")
	c.restore(false)
	c.settle()
	if len(c.orders) != 1 || len(c.garmentsOf(id)) != 3 || c.orders[0].Ticket != "Choir" {
		t.Errorf("restored %d orders, %d garments: %s", len(c.orders), len(c.garmentsOf(id)), c.keeping.told)
	}
}

// TestOrderOnTwoPhones: two phones that each put a garment into one order have both,
// and what each changed of the order.
func TestOrderOnTwoPhones(t *testing.T) {
	w := newWired()
	a, b := copied(t, w, 1), copied(t, w, 2)
	ids := b.deps.NewID
	b.deps.NewID = func() string { return "b-" + ids() }
	ordered(t, a)
	a.takeSizes()
	id := a.keeper.id
	words := a.begin()
	b.stage = stageCopy
	b.copyView().OnJoin()
	b.copyView().OnType(0, strings.Join(words, "\n"))
	b.copyView().OnEnter()
	b.copyNowAndSettle()
	for i, d := range []tried{a, b} {
		d.stage = stageOrder
		d.openKept(id)
		d.settle()
		if !d.ordering() {
			t.Fatalf("phone %d: the order is not there: %s", i, d.fault)
		}
		if i == 0 {
			d.nameIt("Choir")
		} else {
			d.changeCloth("", func(c *job.Cloth) { c.OneWay = true })
		}
		d.settle()
		d.stage = stageOrder
		d.lookAtTable("ticket,hip_girth (in)\r\nBass " + string(rune('1'+i)) + ",44\r\n")
		d.takeTable(true)
		d.settle()
	}
	a.copyNowAndSettle()
	b.copyNowAndSettle()
	a.copyNowAndSettle()
	for i, d := range []tried{a, b} {
		if got := d.tickets(); got != "Alto 1, Alto 3, Alto 10, Bass 1, Bass 2" || d.job.File.Name != "Choir" || !d.job.File.Cloth[0].OneWay {
			t.Errorf("phone %d has %q with %s, one way %v", i, d.job.File.Name, got, d.job.File.Cloth[0].OneWay)
		}
	}
}

// TestMadeAgain: a job is made again for its client on the newest of each measurement,
// from its style, rules and cloth, with what her fittings taught.
func TestMadeAgain(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	c := b.newClient("Alto 3")
	b.give(c)
	b.job.File.Rules.Job = rules.Values{"belt_loops": "6"}
	b.changed("")
	b.settle()
	c.correct("trousers", []Correction{{Kind: "back_longer", By: inches("½ in")}})
	b.keepClient(c)
	first := b.keeper.id
	b.listJobs()
	b.settle()
	b.newJobFor(c)
	b.settle()
	b.job.Measure(body.HipGirth, "43", b.today())
	b.changed("")
	b.settle()
	b.listJobs()
	b.settle()
	b.openKept(first)
	b.settle()
	was := b.job.File
	b.cardView().OnRepeat()
	b.settle()
	j := b.job
	if b.keeper.id == first || b.stage != stageTape || j.Client != c.id || j.Measured(body.HipGirth) != "43" || j.Measured(body.WaistGirth) != "34" || j.Taken[body.HipGirth] != b.today() {
		t.Errorf("on %s: hip %s, waist %s", b.stage, j.Measured(body.HipGirth), j.Measured(body.WaistGirth))
	}
	if j.File.Style["crease"] != was.Style["crease"] || j.File.Rules.Job["belt_loops"] != "6" || j.File.Cloth[0].Width != was.Cloth[0].Width || j.File.Cloth[0].Length.Set() {
		t.Errorf("made of %+v, was %+v", j.File, was)
	}
	if len(j.File.Alterations) != 1 || j.File.Alterations[0].Kind != "back_longer" || len(j.Reached) > 0 || !j.Quote.Empty() {
		t.Errorf("it starts from %+v, %v", j.File.Alterations, j.Reached)
	}
	b.stage = stageBook
	b.view.book = bookViewed{view: book.ViewClients, client: c.id}
	b.listJobs()
	b.settle()
	b.shows("Her next garment starts from", "Trousers: ", "½ in")
}

func TestByTicket(t *testing.T) {
	all := []string{"Alto 10", "", "Bass 2", "Alto 9", "Alto", "Alto 1"}
	slices.SortFunc(all, byTicket)
	if got := strings.Join(all, "|"); got != "|Alto|Alto 1|Alto 9|Alto 10|Bass 2" {
		t.Error(got)
	}
}
