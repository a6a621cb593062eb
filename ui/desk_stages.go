package ui

import (
	"errors"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	core "chalkfold/draft/chalk"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/ui/chalk"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
	"chalkfold/ui/style"
	"chalkfold/ui/tape"
)

func (d *Desk) tapeView() tape.View {
	return tape.View{
		Sheet: d.sheet, Ticket: d.job.File.Name, System: d.job.System(), Figure: d.job.File.Figure,
		Focus: d.view.focus, Help: d.view.help, More: d.view.more,
		Sample:   d.job.Blank() && len(d.records) == 0,
		OnSample: d.openSample,
		OnTicket: func(text string) {
			d.job.SetName(text)
			d.changed("name")
		},
		OnText: func(id body.ID, text string) {
			d.job.Measure(id, text)
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
		OnFocus: func(id body.ID) { d.view.focus = id },
		OnHelp: func(id body.ID) {
			if d.view.help == id {
				id = ""
			}
			d.view.help = id
		},
		OnMore: func() { d.view.more = !d.view.more },
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

func (d *Desk) styleView() style.View {
	return style.View{
		Options: d.garment.Options, Chosen: d.job.File.Style, Truings: d.garment.Truings,
		Spoken: d.job.File.Drafting == job.Spoken, Untrued: d.job.File.Untrued, Rules: d.rules(),
		Group: d.view.group, Rule: d.view.rule, Truing: d.view.truings,
		On: func(option, choice string) {
			d.job.Choose(option, choice)
			d.changed("")
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
		OnTruths: func() { d.view.truings = !d.view.truings },
		OnGroup: func(name string) {
			if d.view.group == name {
				name = ""
			}
			d.view.group, d.view.rule = name, ""
		},
		OnOpen: func(id rules.ID) {
			if d.view.rule == id {
				id = ""
			}
			d.view.rule = id
		},
		OnRule: func(id rules.ID, text string) {
			if def, ok := d.rule(id); ok {
				d.job.EditRule(def, text)
				d.changed("rules." + string(id))
			}
		},
		OnMove: func(to rules.Level, id rules.ID) {
			if def, ok := d.rule(id); ok {
				d.job.MoveRule(to, def)
				d.changed("")
			}
		},
	}
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
	for _, def := range d.garment.Rules {
		level, value := d.job.Rule(def.ID)
		if level == rules.Built {
			value = def.Default
		}
		r := style.Rule{Def: def, Level: level, Value: value, Text: d.job.RuleText(def), Echo: style.Echo(def, value, d.job.System())}
		for _, w := range d.work.Whys {
			if w.Path == rulePath(level, def.ID) {
				r.Bad = w.Text
			}
		}
		out = append(out, r)
	}
	return out
}

func (d *Desk) draftView() drafting.View {
	v := drafting.View{
		Open: d.view.open, Zoom: d.view.zoom, Lit: d.view.lit, Sum: d.view.sum, Fine: d.view.fine,
		Spoken: d.job.File.Drafting == job.Spoken,
		OnOpen: func(view string) { d.view.open = view },
		OnZoom: func(steps int) { d.view.zoom = kit.ZoomBy(d.view.zoom, steps) },
		OnLit: func(n int) {
			if d.view.lit == n {
				n = 0
			}
			d.view.lit = n
		},
		OnSum: func(step string) {
			if d.view.sum == step {
				step = ""
			}
			d.view.sum = step
		},
		OnFine: func() { d.view.fine = !d.view.fine },
		OnMend: d.mend,
	}
	if v.Open == "" {
		v.Open = drafting.ViewFindings
	}
	for _, w := range d.work.Whys {
		v.Whys = append(v.Whys, drafting.Why{Path: w.Path, What: w.What, Text: sentenceOf(w.Text)})
	}
	r := d.work.Result
	if r == nil {
		return v
	}
	v.Findings = drafting.Findings(r)
	if v.Lit > len(v.Findings) {
		v.Lit = 0
	}
	var lit drafting.Lit
	if v.Lit > 0 {
		lit = v.Findings[v.Lit-1].Lit
	}
	v.Drafted = true
	switch v.Open {
	case drafting.ViewFindings:
		v.Drawing = drafting.Picture(r.Pieces, lit)
		for _, e := range r.Estimates {
			v.Rests = append(v.Rests, e.Name+", about "+r.Format.Text(e.Is))
		}
	case drafting.ViewGirths:
		v.Girths = drafting.Girths(r)
	case drafting.ViewSums:
		v.Sums = drafting.Sums(r)
		if v.Sum != "" {
			v.Reasons = drafting.Reasons(r, v.Sum)
		}
	case drafting.ViewChanges:
		v.Changes = drafting.Changes(r)
		v.Taught = d.maker.Taught(d.work, drafting.Stops)
	}
	return v
}

// mend turns to the field that is in the way.
func (d *Desk) mend(path string) {
	field := path[strings.LastIndexByte(path, '.')+1:]
	switch {
	case strings.HasPrefix(path, "measurements."):
		d.view.more = d.view.more || !slices.Contains(d.garment.Needs, body.ID(field))
		d.turn(stageTape)
		d.view.focus = body.ID(field)
	case strings.HasPrefix(path, "rules."):
		if def, ok := d.rule(rules.ID(field)); ok {
			d.view.group, d.view.rule = def.Group, def.ID
		}
		d.turn(stageStyle)
	default:
		d.turn(stageStyle)
		return
	}
	d.ctx.Defer(func(app.Context) {
		if el := app.Window().GetElementByID(field); el.Truthy() {
			el.Call("focus")
		}
	})
}

// whyUnread is the reason alone, without the text, which stands in its field.
func whyUnread(err error) string {
	var bad *unit.ParseError
	if errors.As(err, &bad) {
		return bad.Why
	}
	return err.Error()
}

func (d *Desk) chalkView() chalk.View {
	v := chalk.View{
		List: d.view.list, Missing: "The marks are listed here once the draft is made.",
		OnAt: func(i int) {
			d.view.list = false
			d.chalkAt(i)
		},
		OnStep: func(by int) {
			d.view.list = false
			d.chalkAt(d.work.Marks().Find(d.job.Mark) + by)
		},
		OnSection: d.chalkAt,
		OnList:    func() { d.view.list = !d.view.list },
	}
	r := d.work.Result
	if r == nil {
		return v
	}
	v.Guide, v.Stopped = d.work.Marks(), r.Report.Stopped()
	v.At = v.Guide.Find(d.job.Mark)
	m := v.Guide.Marks[v.At]
	s := v.Guide.Sections[m.Section]
	i := slices.IndexFunc(r.Pieces, func(p piece.Piece) bool { return p.ID == s.Piece })
	if i >= 0 && !v.List {
		var before []core.Mark
		for _, b := range v.Guide.Marks[s.First:v.At] {
			before = append(before, b.Of)
		}
		v.Drawing = chalk.Picture(r.Pieces[i], before, m.Of)
	}
	return v
}

// chalkAt turns to a mark, and has the place kept.
func (d *Desk) chalkAt(i int) {
	marks := d.work.Marks().Marks
	if i < 0 || i >= len(marks) {
		return
	}
	d.job.Mark = marks[i].Key
	d.keep()
}

// sentenceOf ends a reason as a sentence.
func sentenceOf(s string) string {
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(r)) + s[n:]
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}
