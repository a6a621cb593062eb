package ui

import (
	"bytes"
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/job"
	asked "chalkfold/draft/lesson"
	"chalkfold/draft/say"
	"chalkfold/sync/store"
	"chalkfold/ui/drafting"
	"chalkfold/ui/engine"
	class "chalkfold/ui/lesson"
	"chalkfold/ui/tape"
)

// lessonViewed is how lessons are looked at.
type lessonViewed struct {
	kept []*sitting
	sure string // id of the one that the next tap deletes
	open *sitting
	of   *draft.Result // of the open one
	told *say.Words    // in which it was drafted
	*asked.Lesson

	state   class.State
	text    string
	bad     string
	reply   asked.Reply
	marking bool
}

// wantLessons has the kept lessons read when their screen is opened. again opens
// the one that was left last.
func (d *Desk) wantLessons(again bool) {
	s := d.store
	if d.stage != stageLesson || s == nil {
		return
	}
	d.ctx.Async(func() {
		records, err := s.List(d.ctx, sittingKind)
		d.ctx.Dispatch(func(app.Context) {
			if err != nil {
				d.fault = d.sayFault(err)
				return
			}
			d.fileLessons(records)
			at := &d.view.lesson
			if again && at.open == nil && len(at.kept) > 0 && at.kept[0].err == nil && !at.kept[0].Over {
				d.openLesson(at.kept[0])
			}
		})
	})
}

// fileLessons takes the lessons as they were read, the one that was left last
// first.
func (d *Desk) fileLessons(records []store.Record) {
	at := &d.view.lesson
	at.kept = nil
	for _, r := range records {
		if at.open != nil && at.open.id == r.ID {
			continue
		}
		one := &sitting{filing: filing{id: r.ID, keeper: NewKeeper(sittingKind, r.ID, r.Rev, d.deps.Now)}}
		one.load(r)
		at.kept = append(at.kept, one)
	}
	if at.open != nil && at.open.kept {
		at.kept = append(at.kept, at.open)
	}
	slices.SortStableFunc(at.kept, func(a, b *sitting) int { return int(b.updated - a.updated) })
}

// beginLesson begins a lesson about a job. Nothing of it is kept until that is
// wished, unless keep is.
func (d *Desk) beginLesson(file job.Job, keep bool) {
	var b bytes.Buffer
	file.Cloth = nil
	if err := file.Encode(&b); err != nil {
		d.fault = d.sayFault(err)
		return
	}
	s := &sitting{Sitting: &Sitting{Job: b.Bytes(), Day: d.today()}, filing: filing{id: d.deps.NewID()}, kept: keep}
	s.keeper = NewKeeper(sittingKind, s.id, 0, d.deps.Now)
	d.openLesson(s)
	if d.stage != stageLesson {
		d.turn(stageLesson)
	}
}

// openLesson opens a lesson where it was left.
func (d *Desk) openLesson(s *sitting) {
	at := &d.view.lesson
	*at = lessonViewed{kept: at.kept, open: s}
	if d.draftLesson() {
		at.marking = s.Over
		d.comeTo(s.Place(at.Lesson))
	}
}

// draftLesson drafts the job of the open lesson, and reports whether it could.
func (d *Desk) draftLesson() bool {
	at := &d.view.lesson
	f, err := job.Decode(bytes.NewReader(at.open.Job))
	if err == nil {
		var m draft.Maker
		m.Words = d.Words
		at.of, err = m.Make(f)
	}
	if err == nil && at.open.err != nil {
		err = at.open.err
	}
	if err != nil {
		d.fault = d.F("The lesson was left untouched: %s", sentenceOf(d.Err(err)))
		at.open = nil
		return false
	}
	at.told, at.Lesson = d.Words, asked.Of(at.of.Record, at.of.Format)
	return true
}

// place is the step that the student has come to.
func (d *Desk) place() int { return d.view.lesson.open.Place(d.view.lesson.Lesson) }

// comeTo shows a step, or asks for it. Past the last one come the marks.
func (d *Desk) comeTo(i int) {
	at := &d.view.lesson
	if i >= at.Steps() {
		at.open.Go(at.Lesson, i)
		at.marking = true
		d.keepLesson()
		return
	}
	at.open.Go(at.Lesson, i)
	at.text, at.bad, at.reply = "", "", asked.Reply{}
	a := at.open.Answer(at.Lesson, i)
	switch {
	case !at.Asks(i):
		at.state = class.Given
	case a.Right:
		at.state = class.Right
	case a.Shown:
		at.state = class.Shown
	default:
		at.state = class.Asked
	}
	d.ctx.Defer(toTop)
}

// goOn goes to the next step, or to the next that is asked for.
func (d *Desk) goOnLesson(toQuestion bool) {
	at := &d.view.lesson
	next := d.place() + 1
	if toQuestion {
		next = at.Next(next)
	}
	d.comeTo(next)
	d.keepLesson()
}

// checkAnswer marks what stands in the field.
func (d *Desk) checkAnswer() {
	at := &d.view.lesson
	if at.open == nil || at.state != class.Asked || strings.TrimSpace(at.text) == "" {
		return
	}
	reply, err := at.open.Try(at.Lesson, d.place(), at.text)
	if err != nil {
		at.bad = sentenceOf(whyUnread(err, d.Words))
		return
	}
	at.reply, at.bad, at.state = reply, "", class.Wrong
	if reply.Right {
		at.state = class.Right
	}
	d.keepLesson()
	d.ctx.Defer(toTop)
}

// showAnswer has her shown the answer.
func (d *Desk) showAnswer() {
	at := &d.view.lesson
	at.open.Show(at.Lesson, d.place())
	at.state = class.Shown
	d.keepLesson()
	d.ctx.Defer(toTop)
}

// keepLesson has the open lesson saved, where that is wished.
func (d *Desk) keepLesson() {
	s := d.view.lesson.open
	if s.kept && d.keepFiled(&s.filing, s.Encode) {
		s.updated = d.deps.Now().UnixMilli()
	}
}

// wishKept has the open lesson kept, or no more.
func (d *Desk) wishKept() {
	s := d.view.lesson.open
	s.kept = !s.kept
	if s.kept {
		d.keepLesson()
		return
	}
	if s.keeper.Saving() == Saved && s.keeper.rev > 0 {
		d.deleteLesson(s)
	}
	s.id = d.deps.NewID() // kept again, it is another record
	s.keeper = NewKeeper(sittingKind, s.id, 0, d.deps.Now)
}

// deleteLesson takes a lesson off this device.
func (d *Desk) deleteLesson(s *sitting) {
	at, to := &d.view.lesson, d.store
	id, rev := s.id, s.keeper.rev
	at.kept = slices.DeleteFunc(slices.Clone(at.kept), func(o *sitting) bool { return o.id == id })
	if to == nil {
		return
	}
	d.ctx.Async(func() {
		if err := to.Delete(d.ctx, sittingKind, id, rev); err != nil {
			d.ctx.Dispatch(func(app.Context) { d.fault = d.sayFault(err) })
		}
	})
}

// leaveLesson goes back to where lessons begin.
func (d *Desk) leaveLesson() {
	d.view.lesson = lessonViewed{}
	d.tellShared("", "")
	d.wantLessons(false)
}

// marksTitle names what a lesson is about.
func (d *Desk) marksTitle(s *sitting) string {
	f, err := job.Decode(bytes.NewReader(s.Job))
	if err != nil {
		return d.T("Lesson")
	}
	return d.F("%s: %s", d.ticket(f.Name), say.Within(d.garmentName(f.Garment)))
}

func (d *Desk) lessonView() class.View {
	at := &d.view.lesson
	v := class.View{
		Words: d.Words, Drafted: d.work.Result != nil, Ticket: d.ticket(d.job.File.Name), Sure: at.sure, Sends: d.browser.Sends,
		OnBegin: func() { d.beginLesson(d.job.File, true) },
		OnOpen:  func(id string) { d.openLesson(at.kept[d.keptLesson(id)]) },
		OnDelete: func(id string) {
			if at.sure != id {
				at.sure = id
				return
			}
			d.deleteLesson(at.kept[d.keptLesson(id)])
		},
	}
	if at.open != nil && at.told != d.Words { // another language
		d.draftLesson()
	}
	if at.open == nil {
		for _, s := range at.kept {
			v.Kept = append(v.Kept, d.keptView(s))
		}
		return v
	}
	d.fillLesson(&v)
	return v
}

func (d *Desk) keptLesson(id string) int {
	return max(0, slices.IndexFunc(d.view.lesson.kept, func(s *sitting) bool { return s.id == id }))
}

func (d *Desk) keptView(s *sitting) class.Kept {
	k := class.Kept{ID: s.id, Over: s.Over, Name: d.marksTitle(s), Marks: s.Marks(d.Words).Say(d.Words)}
	if s.Student != "" {
		k.Name = d.F("%s, %s", s.Student, k.Name)
	}
	if s.err != nil {
		k.Marks = sentenceOf(d.Err(s.err))
	}
	return k
}

// fillLesson gives the view the open lesson.
func (d *Desk) fillLesson(v *class.View) {
	at := &d.view.lesson
	s, i, f := at.open, d.place(), at.of.Format
	v.Open, v.Title, v.Tape, v.State, v.Text, v.Bad, v.Reply = true, d.marksTitle(s), f, at.state, at.text, at.bad, at.reply
	v.No, v.Of, v.Last = min(at.Questions(i)+1, at.Questions(at.Steps())), at.Questions(at.Steps()), at.Next(i+1) == at.Steps()
	v.Student, v.Keeps, v.Over, v.Marking = s.Student, s.kept, s.Over, at.marking
	v.ToldOf, v.Told = d.view.share.of, d.view.share.told
	if at.marking {
		v.Marks = s.Marks(d.Words)
	} else {
		d.fillStep(v, i)
	}
	if m := d.view.share.made; m.id != 0 && m.what == engine.Marks {
		v.Making, v.Percent = true, percent(m.now, m.in)
	}
	v.OnText = func(text string) { at.text, at.bad = text, "" }
	v.OnKey = func(key string) { at.text, at.bad = tape.Press(at.text, key, at.of.Format.System), "" }
	v.OnCheck, v.OnShow, v.OnNext = d.checkAnswer, d.showAnswer, d.goOnLesson
	v.OnAgain = func() { d.comeTo(d.place()) }
	v.OnMarks = func(look bool) {
		if !look && at.open.Over {
			d.leaveLesson()
			return
		}
		at.marking = look
		d.ctx.Defer(toTop)
	}
	v.OnStudent = func(name string) {
		at.open.Student = clip(name)
		d.keepLesson()
	}
	v.OnKeep, v.OnLeave = d.wishKept, d.leaveLesson
	v.OnSend = func(send bool) {
		d.sendText(draft.MarksMessage(d.marksTitle(at.open), at.open.Sitting.Sitting, at.of.Format), send, func(told string) { d.tellShared(engine.Marks, told) })
	}
	v.OnFile, v.OnStop = d.marksFile, d.stopFile
}

// fillStep gives the view the step that she has come to. What is asked for is
// not drawn yet.
func (d *Desk) fillStep(v *class.View, i int) {
	at := &d.view.lesson
	r, f := at.of.Record, at.of.Format
	q := at.Question(i)
	v.Replay = drafting.ReplayAt(r, i+1, f)
	v.Given, v.Sum, v.Flat = q.Given, r.SumOf(q.Step, f), q.Step.Kind == construct.KindValue
	if at.state == class.Asked || at.state == class.Wrong {
		v.Replay.Scene, v.Replay.Placed = drafting.ReplayAt(r, i, f).Scene, false
	}
}

// marksFile makes the marksheet as a file.
func (d *Desk) marksFile(what string, send bool) {
	at, m := &d.view.lesson, &d.view.share.made
	text, err := at.open.Encode()
	if err != nil {
		d.tellShared(what, sentenceOf(d.Err(err)))
		return
	}
	d.stopFile()
	d.tellShared("", "")
	name := plainName(at.of.Job.Name) + "-" + what + ".pdf"
	*m = made{what: what}
	m.id = d.ask(at.of, engine.Form, engine.Order{Form: what, Paper: d.paper(), Sitting: text}, true, func(a engine.Answer) {
		m.now, m.in = a.Now, a.Of
		switch a.Is {
		case engine.Done:
			m.id = 0
			d.hand(name, pdfKind, a.Data, send, func(out bool) {
				if out {
					d.tellShared(what, d.F("Handed over as %s.", name))
				}
			})
		case engine.Fault:
			*m = made{}
			d.tellShared(what, d.F("The file could not be made: %s", string(a.Data)))
		case engine.Part, engine.Up, engine.Progress, engine.Ended:
		}
	})
}
