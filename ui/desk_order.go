package ui

import (
	"slices"

	"chalkfold/draft"
	order "chalkfold/draft/bench"
	"chalkfold/draft/quote"
	"chalkfold/ui/bench"
	"chalkfold/ui/calendar"
	"chalkfold/ui/cloth"
	"chalkfold/ui/kit"
)

// benchViewed is how the bench is looked at, and what was worked out for it.
type benchViewed struct {
	sewnWith bool // the questions are out
	drawer   bool // on the cloth, what is needed is
	gen      int  // of which draft the rest is
	by       order.Setting
	words    string // the language it is told in
	tasks    []order.Task
	notions  []draft.Notion
	took     string // the field for the hours that it took, and what is wrong with it
	tookBad  string
	tookHere bool // something was typed there
}

// setting is with what the job is sewn.
func (d *Desk) setting() order.Setting {
	by := order.Setting{Machine: order.Machine(d.settings.Machine), Weight: d.job.Sewing.Weight}
	if by.Machine == "" {
		by.Machine = order.Straight
	}
	if by.Weight == "" {
		by.Weight = order.Medium
	}
	return by
}

// ordered is the order of work and the notions of the draft, worked out once; of
// garments that are laid together the notions.
func (d *Desk) ordered() *benchViewed {
	v, r := &d.view.bench, d.work.Result
	by, words := d.setting(), d.Words.Language().ID
	if v.words != "" && v.gen == d.work.Gen && v.by == by && v.words == words {
		return v
	}
	v.gen, v.by, v.words = d.work.Gen, by, words
	var err error
	if v.notions, err = draft.Notions(r, by); err == nil && !d.ordering() {
		v.tasks, err = draft.Order(r, by)
		d.job.Sewing.reckon(v.tasks)
	}
	if err != nil {
		d.fault = d.sayFault(err)
	}
	return v
}

// reckon notes how long tasks take, and those of them that are not done.
func (s *Sewing) reckon(tasks []order.Task) {
	s.Minutes, s.Left = order.Minutes(tasks), 0
	for _, t := range tasks {
		if !s.Done[t.ID] {
			s.Left += t.Minutes
		}
	}
}

// reckoned says how long the order of work is reckoned to take, and this maker.
func (d *Desk) reckoned(minutes int) string {
	if hers := d.pace(d.job.File.Garment).minutes(minutes); hers != minutes {
		return d.F("The order of work is reckoned at %s; going by your last ones it takes you %s.", d.long(minutes), d.long(hers))
	}
	return d.F("The order of work is reckoned at %s.", d.long(minutes))
}

// tookView is the question how long the job took, once it is sewn.
func (d *Desk) tookView() bench.Took {
	v, s := &d.view.bench, d.job.Sewing
	t := bench.Took{Asked: d.job.Reached[Sewn] != "", Text: v.took, Bad: v.tookBad, Reckoned: d.reckoned(s.Minutes), On: d.typeTook}
	if !v.tookHere {
		t.Text = orBlank(s.Took == 0, quote.Quantity((s.Took*int(quote.One)+30)/60).Eighths(d.Words))
	}
	return t
}

// typeTook takes what was typed for the hours that the job took.
func (d *Desk) typeTook(text string) {
	v := &d.view.bench
	v.took, v.tookHere, v.tookBad = text, true, ""
	q, err := hoursOf(text)
	if err != nil {
		v.tookBad = d.Err(err)
		return
	}
	d.job.Sewing.Took = (int(q)*60 + int(quote.One)/2) / int(quote.One)
	d.changed("took")
}

// notionsNow are the notions of the draft.
func (d *Desk) notionsNow() []calendar.Tick {
	if d.work.Result == nil {
		return nil
	}
	var out []calendar.Tick
	for _, n := range d.ordered().notions {
		tick := calendar.Tick{ID: n.ID, Name: kit.Sentence(n.Text)}
		if d.job.Sewing.Drawer[n.ID] {
			tick.Day = d.T("in the drawer")
		}
		out = append(out, tick)
	}
	return out
}

// notionsView is what the draft takes besides its cloth.
func (d *Desk) notionsView() cloth.Needed {
	at := &d.view.bench
	v := cloth.Needed{Can: d.work.Result != nil, Open: at.drawer, OnOpen: func() { at.drawer = !at.drawer }, OnNotion: d.tickNotion}
	if v.Open {
		v.All = d.notionsNow()
	}
	return v
}

func (d *Desk) tickNotion(id string) {
	turn(d.job.Sewing.Drawer, id)
	d.changed("")
}

// orderView is the order of work.
func (d *Desk) orderView() bench.Order {
	v, s := d.ordered(), &d.job.Sewing
	by, r := v.by, d.work.Result
	o := bench.Order{
		Open: v.sewnWith, OnOpen: func() { v.sewnWith = !v.sewnWith }, On: d.sewWith, OnStep: d.openStep, OnDone: d.doneStep,
		Machines: []kit.Choice{{ID: string(order.Straight), Name: d.T("straight stitch")}, {ID: string(order.Zigzag), Name: d.T("zigzag")}, {ID: string(order.Overlock), Name: d.T("overlock")}},
		Machine:  string(by.Machine),
		Weights:  []kit.Choice{{ID: string(order.Light), Name: d.T("light, as lawn")}, {ID: string(order.Medium), Name: d.T("medium, as poplin or suiting")}, {ID: string(order.Heavy), Name: d.T("heavy, as drill or denim")}},
		Weight:   string(by.Weight),
		Hands:    []kit.Choice{{ID: "one", Name: d.T("one person")}, {ID: "two", Name: d.T("two, side by side")}},
		Hand:     "one",
	}
	if s.Two {
		o.Hand = "two"
	}
	for _, q := range []struct {
		all []kit.Choice
		at  string
	}{{o.Machines, o.Machine}, {o.Weights, o.Weight}} {
		i := slices.IndexFunc(q.all, func(c kit.Choice) bool { return c.ID == q.at })
		if o.Sewn != "" {
			o.Sewn += " · "
		}
		o.Sewn += q.all[max(i, 0)].Name
	}
	shared := d.shared(v.tasks)
	open := d.stepOpen(v.tasks)
	done, left, cared := 0, 0, map[string]bool{}
	for _, t := range shared {
		step := bench.Step{ID: t.ID, Name: t.Name, Time: d.F("%d min", t.Minutes), Done: s.Done[t.ID], Open: t.ID == open, MadeUp: t.MadeUp}
		if step.Done {
			done++
		} else {
			left += t.Minutes
		}
		if s.Two && !cared[d.worker(t.Worker)] {
			step.Worker = d.worker(t.Worker)
			cared[step.Worker] = true
		}
		step.Mind = d.cautions(t, by, cared)
		if step.Open {
			step.Do = t.Do
			step.Drawing, step.Names = bench.Picture(r.Pieces, t.Task, d.Words)
			step.Facts = d.facts(t, by, v.tasks)
		}
		o.Steps = append(o.Steps, step)
	}
	o.Said = d.N(done, "%d of %d steps is done; some %s left.", "%d of %d steps are done; some %s left.", len(shared), d.long(left))
	return o
}

// long is a time as it is said.
func (d *Desk) long(minutes int) string {
	const hour = 60
	if minutes < hour {
		return d.F("%d min", minutes)
	}
	return d.F("%d h %d min", minutes/hour, minutes%hour)
}

// shared is whose each task is: in two lists, when two share them.
func (d *Desk) shared(tasks []order.Task) []order.Shared {
	var out []order.Shared
	if d.job.Sewing.Two {
		if both, err := order.Split(tasks); err == nil {
			slices.SortStableFunc(both, func(a, b order.Shared) int { return a.Worker - b.Worker })
			return both
		}
	}
	for _, t := range tasks {
		out = append(out, order.Shared{Task: t})
	}
	return out
}

func (d *Desk) worker(i int) string {
	if i == 0 {
		return d.T("First worker")
	}
	return d.T("Second worker")
}

// cautions are said once for each worker, where they come up first.
func (d *Desk) cautions(t order.Shared, by order.Setting, cared map[string]bool) []string {
	var out []string
	once := func(comesUp bool, what, text string) {
		if what += d.worker(t.Worker); comesUp && !cared[what] {
			cared[what] = true
			out = append(out, text)
		}
	}
	once(by.Length(t.Stitch) > 0, "needle", d.T("Keep fingers clear of the needle, and switch off before you thread or change it. Your workshop's rules and training come first."))
	once(t.Press != "", "iron", d.T("Iron and steam burn: stand it up, and never leave it on alone. Your workshop's rules and training come first."))
	return out
}

// facts are what else is to be known for a task.
func (d *Desk) facts(t order.Shared, by order.Setting, tasks []order.Task) []string {
	f := d.work.Result.Format
	var out []string
	for _, id := range t.From {
		i := slices.IndexFunc(tasks, func(o order.Task) bool { return o.ID == id })
		out = append(out, d.F("Take over from the other: %s", tasks[i].Name))
	}
	if t.Allow > 0 {
		out = append(out, d.F("Allowance: %s", f.Text(t.Allow)))
	}
	if s := by.Needled(d.Words, t.Stitch); s != "" {
		out = append(out, s)
	} else if t.Stitch == order.ByHand {
		out = append(out, d.T("By hand"))
	}
	if t.Press != "" {
		out = append(out, t.Press)
	}
	return append(out, d.F("Time: some %d min", t.Minutes))
}

// noStep is kept when every step is shut.
const noStep = "-"

// stepOpen is the step that is open: the one opened last, or the first that is
// not done.
func (d *Desk) stepOpen(tasks []order.Task) string {
	s := d.job.Sewing
	if s.Step == noStep || slices.ContainsFunc(tasks, func(t order.Task) bool { return t.ID == s.Step }) {
		return s.Step
	}
	return d.nextStep(tasks)
}

func (d *Desk) nextStep(tasks []order.Task) string {
	for _, t := range d.shared(tasks) {
		if !d.job.Sewing.Done[t.ID] {
			return t.ID
		}
	}
	return noStep
}

// openStep opens a step, or shuts it.
func (d *Desk) openStep(id string) {
	if d.stepOpen(d.ordered().tasks) == id {
		id = noStep
	}
	d.job.Sewing.Step = id
	d.keep()
}

// doneStep ticks a step and goes on to the next, or takes the tick back.
func (d *Desk) doneStep(id string) {
	s := &d.job.Sewing
	turn(s.Done, id)
	tasks := d.ordered().tasks
	if s.reckon(tasks); s.Done[id] {
		s.Step = d.nextStep(tasks)
	}
	d.changed("")
}

// sewWith answers with what the job is sewn.
func (d *Desk) sewWith(question, choice string) {
	switch question {
	case "machine":
		d.set(func(s *Settings) { s.Machine = choice })
		return
	case "weight":
		d.job.Sewing.Weight = order.Weight(choice)
	case "hands":
		d.job.Sewing.Two = choice == "two"
	}
	d.changed("")
}
