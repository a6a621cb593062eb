package ui

import (
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/ui/drafting"
)

// draftViewed is how the draft is looked at.
type draftViewed struct {
	open   string
	full   bool
	chosen string // the thing that is pointed at
	part   string // whose lines are shown
	lit    int
	fine   bool
	cut    bool
	sums   bool
	step   int // of the replay
	plays  bool
	turn   int // tells one playing from the next
	mended mended
	held   held
}

// held is the last draft there was, and what was changed on it then. It stays
// in sight while that figure cannot be used, and the field with it.
type held struct {
	draft *draft.Result
	of    *Job
	path  string
}

// mended is the last mend, until the job is changed again.
type mended struct {
	drafting.Mended
	at int // how many changes had been made
}

func (d *Desk) draftView() drafting.View {
	at := &d.view.draft
	v := drafting.View{
		Words: d.Words, Fractions: d.fractions,
		Open: at.open, Full: at.full, Lit: at.lit, Fine: at.fine, ShowCut: at.cut, ShowSums: at.sums,
		Spoken: d.job.File.Drafting == job.Spoken, Playing: at.plays,
		OnOpen:   d.openDrawing,
		OnFull:   func() { at.full = !at.full },
		OnTap:    d.tapDrawing,
		OnChoose: d.choose,
		OnBeside: func(by int) {
			if r := d.drawn(); r != nil {
				d.choose(d.scene(r).Beside(d.view.draft.chosen, by))
			}
		},
		OnPart: func(part string) { at.part, at.chosen = part, "" },
		OnText: d.enterAt,
		OnStep: d.stepAt,
		OnLit: func(n int) {
			if at.lit == n {
				n = 0
			}
			at.lit, at.chosen = n, ""
		},
		OnCure: d.cure,
		OnUndo: func() { d.step(false) },
		OnFine: func() { at.fine = !at.fine },
		Learn:  !d.settings.Signs, OnLearnt: func() { d.set(func(s *Settings) { s.Signs = true }) },
		OnCut: func() { at.cut = !at.cut }, OnSums: func() { at.sums = !at.sums },
		OnReplay: func(by int) { at.step, at.plays = at.step+by, false },
		OnStart:  func(n int) { at.step, at.plays = n, false },
		OnPlay:   d.play,
		OnLesson: func() { d.turn(stageLesson) },
		OnMend:   d.mend, Hers: d.hers(), OnHers: d.takeHersOut,
	}
	if v.Open == "" {
		v.Open = drafting.ViewPieces
	}
	for _, w := range d.work.Whys {
		v.Whys = append(v.Whys, drafting.Why{Path: w.Path, What: w.What, Text: sentenceOf(w.Text)})
	}
	v.Cures = d.work.cures
	if r := d.drawn(); r != nil {
		v.Drafted = true
		d.fillDraft(&v, r)
	}
	return v
}

// drawn is the draft that is shown: that of the job or, while nothing but the
// figure that is typed on a card stands in its way, the one before.
func (d *Desk) drawn() *draft.Result {
	h := &d.view.draft.held
	if r := d.work.Result; r != nil {
		h.draft, h.of = r, d.job
		return r
	}
	if h.of != d.job || h.path == "" {
		return nil
	}
	_, field, _ := strings.Cut(h.path, ".")
	for _, w := range d.work.Whys {
		if w.Path != "" && !strings.HasSuffix(w.Path, "."+field) {
			return nil
		}
	}
	return h.draft
}

// fillDraft gives the view what is open of a draft, and nothing else.
func (d *Desk) fillDraft(v *drafting.View, r *draft.Result) {
	at := &d.view.draft
	switch v.Open {
	case drafting.ViewPieces:
		d.fillChecks(v, r)
	case drafting.ViewLines:
		v.Parts = drafting.Parts(r.Record)
		v.Part = d.part(r)
		v.Scene = drafting.Lines(r.Record, v.Part, at.chosen)
		if v.ShowSums {
			v.Sums = drafting.Sums(r)
		}
	case drafting.ViewTrued:
		v.Changes = drafting.Changes(r)
		spoken := d.maker.Spoken(d.work)
		if spoken == nil {
			spoken = r
		} else {
			v.Taught = drafting.Stops(spoken)
		}
		v.Scene = drafting.Overlay(r, spoken, at.chosen)
	case drafting.ViewReplay:
		v.Replay = drafting.ReplayAt(r.Record, at.step, r.Format)
		at.step = v.Replay.At
		v.Scene = v.Replay.Scene
		if v.Replay.Placed {
			v.Spot, v.Place = v.Replay.Title, v.Replay.Place
		}
		return
	case drafting.ViewGirths:
		v.Girths = drafting.Girths(r)
		return
	}
	if at.chosen != "" {
		v.Chosen = at.chosen
		if where, ok := v.Scene.Place(at.chosen); ok {
			v.Spot, v.Place = at.chosen, where
		}
		if c, ok := drafting.CardOf(r, at.chosen); ok && v.Open != drafting.ViewTrued {
			v.Card = c
			v.Inputs = d.inputs(r, c.Uses)
		}
	}
}

func (d *Desk) fillChecks(v *drafting.View, r *draft.Result) {
	at := &d.view.draft
	v.Findings = drafting.Findings(r)
	v.Lit = min(at.lit, len(v.Findings))
	var lit drafting.Lit
	if v.Lit > 0 {
		lit = v.Findings[v.Lit-1].Lit
	}
	v.Scene, v.Place = drafting.Pieces(r, at.chosen, lit)
	if v.Lit > 0 {
		v.Spot = v.Findings[v.Lit-1].Check
	}
	for _, e := range r.Estimates {
		v.Rests = append(v.Rests, d.F("%s, about %s", d.T(e.Name), r.Format.Text(e.Is)))
	}
	for _, x := range r.Pieces {
		v.Cut, v.CutID = append(v.Cut, d.T(x.Name)), append(v.CutID, x.ID)
	}
	if at.mended.at == d.job.past.done {
		v.Mended = at.mended.Mended
	}
}

// part is the part whose lines are shown: the first when none was chosen.
func (d *Desk) part(r *draft.Result) string {
	parts := drafting.Parts(r.Record)
	if slices.Contains(parts, d.view.draft.part) || len(parts) == 0 {
		return d.view.draft.part
	}
	return parts[0]
}

// scene is the drawing that is looked at.
func (d *Desk) scene(r *draft.Result) drafting.Scene {
	var v drafting.View
	v.Open = d.view.draft.open
	if v.Open == "" {
		v.Open = drafting.ViewPieces
	}
	d.fillDraft(&v, r)
	return v.Scene
}

func (d *Desk) openDrawing(view string) {
	at := &d.view.draft
	at.open, at.plays, at.held.path = view, false, ""
	if view == drafting.ViewTrued || view == drafting.ViewReplay {
		at.chosen = ""
	}
	d.ctx.Defer(toTop)
	d.wantCures()
}

// tapDrawing takes a tap on the drawing: what it means is pointed at.
func (d *Desk) tapDrawing(where geom.Pt, reach float64) {
	r := d.drawn()
	if r == nil || d.view.draft.open == drafting.ViewReplay {
		return
	}
	d.choose(d.scene(r).Hit(where, reach, d.view.draft.chosen))
}

// choose points at a thing. A step of another part brings its part with it.
func (d *Desk) choose(id string) {
	at := &d.view.draft
	r := d.drawn()
	at.chosen, at.lit, at.held.path = id, 0, ""
	if r == nil || at.open != drafting.ViewLines {
		return
	}
	if s, ok := r.Record.Find(id); ok && slices.Contains(drafting.Parts(r.Record), s.Part) {
		at.part = s.Part
	}
}

// inputs are the fields of the measurements and rules that shape a thing.
func (d *Desk) inputs(r *draft.Result, names []string) []drafting.Input {
	metric := r.Format.System.Metric()
	var out []drafting.Input
	for _, n := range names {
		q, _ := r.Record.Quantity(n)
		in := drafting.Input{ID: n, Name: q.Label, From: q.Source}
		if def, ok := d.rule(rules.ID(n)); ok {
			value := r.Rules.Text(def.ID)
			in.Path, in.Text, in.Hint = "rules."+n, d.job.RuleText(def), d.Say(def.Told(def.Default))
			in.Length = def.Kind == rules.Length
			_, in.Less = def.Next(value, false, metric)
			_, in.More = def.Next(value, true, metric)
		} else if def, ok := body.Find(body.ID(n)); ok {
			in.Path, in.Text, in.Hint = measured(def.ID), d.job.Measured(def.ID), d.F("about %s", r.Format.Bare(r.Body[def.ID].Length))
			in.Less, in.More, in.Length = true, true, true
		}
		if d.work.Result == nil && in.Path == d.view.draft.held.path {
			for _, w := range d.work.Whys {
				in.Bad = strings.TrimSpace(in.Bad + " " + sentenceOf(w.Text))
			}
		}
		out = append(out, in)
	}
	return out
}

// enterAt takes what was typed for a measurement or a rule.
func (d *Desk) enterAt(path, text string) {
	what, id, _ := strings.Cut(path, ".")
	if what == "measurements" {
		d.job.Measure(body.ID(id), text, d.today())
	} else if def, ok := d.rule(rules.ID(id)); ok {
		d.job.EditRule(def, text)
	}
	d.view.draft.held.path = path
	d.changed(path)
}

// stepAt makes a measurement or a rule one step less or more.
func (d *Desk) stepAt(path string, up bool) {
	r := d.drawn()
	if r == nil {
		return
	}
	what, id, _ := strings.Cut(path, ".")
	def, now := rules.Def{Kind: rules.Length}, r.Format.Text(r.Body[body.ID(id)].Length)
	if what == "rules" {
		def, _ = d.rule(rules.ID(id))
		_, now = d.job.Rule(def.ID)
		if now == "" {
			now = r.Rules.Text(def.ID)
		}
	} else if q := d.job.File.Measurements[body.ID(id)].Value; q.Set() {
		now = q.String()
	}
	if text, ok := def.Next(now, up, r.Format.System.Metric()); ok {
		d.enterAt(path, strings.TrimSuffix(text, " "+d.job.System().String()))
	}
}
