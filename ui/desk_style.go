package ui

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/ui/flat"
	"chalkfold/ui/kit"
	"chalkfold/ui/style"
)

// styleViewed is how the style is looked at.
type styleViewed struct {
	option  string   // the question that is open
	gaveUp  []string // the other answers that were given up for its last one
	folded  bool     // the sketch is folded away
	group   string
	rule    rules.ID
	truings bool
	differs bool // where the rules of the job differ from those of the house is open
	apart   bool // they may
}

func (d *Desk) styleView() style.View {
	j, middle := d.toSketch()
	pictures := make([][]string, len(d.garment.Options))
	for i, o := range d.garment.Options {
		if svgs := d.sketching.pictures[o.ID].svgs; len(svgs) == len(o.Choices) { // else those of another garment
			pictures[i] = svgs
		}
	}
	return style.View{
		Words: d.Words, Fractions: d.fractions,
		Garments: d.garments(), Garment: d.garment.ID, OnGarment: d.chooseGarment,
		Sketch: d.sketch(j), Pictures: pictures, Folded: d.view.style.folded, Option: d.view.style.option, GaveUp: d.view.style.gaveUp,
		Middle: middle, Measured: len(d.job.File.Measurements) > 0,
		OnFold: func() { d.view.style.folded = !d.view.style.folded },
		OnOption: func(id string) {
			if d.view.style.option == id {
				id = ""
			}
			d.view.style.option, d.view.style.gaveUp = id, nil
			d.wantSketches()
			if id != "" {
				d.ctx.Defer(func(app.Context) { intoSight(style.QuestionID(id)) })
			}
		},
		Options: d.garment.Options, Chosen: d.job.File.Style, Truings: d.garment.Truings,
		Spoken: d.job.File.Drafting == job.Spoken, Untrued: d.job.File.Untrued, Rules: d.rules(),
		Group: d.view.style.group, Rule: d.view.style.rule, Truing: d.view.style.truings,
		Methods: d.garment.Methods, Method: d.methodOf(d.job.File.Method), Changed: d.balanced(),
		OnMethod: func(id string) {
			d.job.File.Method = job.Method(id)
			d.changed("")
		},
		On: func(option, choice string) {
			d.chooseStyle(option, choice)
		},
		OnSpoken: func(spoken bool) {
			d.job.File.Drafting = job.Trued
			if spoken {
				d.job.File.Drafting = job.Spoken
			}
			d.changed("")
		},
		OnTruing: func(id string) {
			d.job.SwitchTruing(id)
			d.changed("")
		},
		OnTruths: func() { d.view.style.truings = !d.view.style.truings },
		OnGroup: func(name string) {
			if d.view.style.group == name {
				name = ""
			}
			d.view.style.group, d.view.style.rule = name, ""
		},
		OnOpen: func(id rules.ID) {
			if d.view.style.rule == id {
				id = ""
			}
			d.view.style.rule = id
		},
		OnRule: func(id rules.ID, text string) {
			if def, ok := d.rule(id); ok {
				d.settleHouse()
				d.job.EditRule(def, text)
				d.changed("rules." + string(id))
			}
		},
		OnMove: func(to rules.Level, id rules.ID) {
			if def, ok := d.rule(id); ok {
				d.settleHouse()
				d.job.MoveRule(to, def)
				d.changed("")
			}
		},
	}
}

// chooseStyle answers a question, gives up the answers that cannot go with it,
// and tells which.
func (d *Desk) chooseStyle(option, choice string) {
	d.view.style.gaveUp = nil
	was, _ := d.garment.Complete(d.job.File.Style)
	d.job.Choose(option, choice)
	if now := flat.Answered(d.garment, d.job.File, option, choice).Style; was != nil {
		for _, o := range d.garment.Options {
			if to := now[o.ID]; to != "" && to != was[o.ID] && o.ID != option {
				d.job.Choose(o.ID, to)
				d.view.style.gaveUp = append(d.view.style.gaveUp, d.F("%s: %s, to go with it", say.Name(o.Name), say.Name(d.garment.Named(o.ID, to))))
			}
		}
	}
	d.changed("")
}

// balanced tells what the method of the job changes of the house's figures.
func (d *Desk) balanced() []string {
	r := d.work.Result
	if r == nil {
		return nil
	}
	var out []string
	for _, t := range r.Record.Tell(r.Format) {
		if t.Truing == string(r.Job.Method) {
			out = append(out, kit.Sentence(t.What))
		}
	}
	return out
}

func (d *Desk) rule(id rules.ID) (rules.Def, bool) {
	i := slices.IndexFunc(d.garment.Rules, func(r rules.Def) bool { return r.ID == id })
	if i < 0 {
		return rules.Def{}, false
	}
	return d.garment.Rules[i], true
}

// rules are the house rules of the garment with their values in this job.
func (d *Desk) rules() []style.Rule {
	out := make([]style.Rule, 0, len(d.garment.Rules))
	moved := d.movedRules()
	for _, def := range d.garment.Rules {
		level, value := d.job.Rule(def.ID)
		if level == rules.Built {
			value = def.Default
		}
		r := style.Rule{Def: def, Level: level, Value: value, Text: d.job.RuleText(def), Echo: style.Echo(def, value, d.job.System(), d.Words), Moved: moved[def.ID]}
		for _, w := range d.work.Whys {
			if w.Path == rulePath(level, def.ID) {
				r.Bad = w.Text
			}
		}
		out = append(out, r)
	}
	return out
}
