package ui

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
)

// draftViewed is how the draft is looked at.
type draftViewed struct {
	open string
	zoom int
	lit  int
	sum  string
	fine bool
}

func (d *Desk) draftView() drafting.View {
	v := drafting.View{
		Words: d.Words,
		Open:  d.view.draft.open, Zoom: d.view.draft.zoom, Lit: d.view.draft.lit, Sum: d.view.draft.sum, Fine: d.view.draft.fine,
		Spoken: d.job.File.Drafting == job.Spoken,
		OnOpen: func(view string) { d.view.draft.open = view },
		OnZoom: func(steps int) { d.view.draft.zoom = kit.ZoomBy(d.view.draft.zoom, steps) },
		OnLit: func(n int) {
			if d.view.draft.lit == n {
				n = 0
			}
			d.view.draft.lit = n
		},
		OnSum: func(step string) {
			if d.view.draft.sum == step {
				step = ""
			}
			d.view.draft.sum = step
		},
		OnFine: func() { d.view.draft.fine = !d.view.draft.fine },
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
		d.view.tape.more = d.view.tape.more || !slices.Contains(d.garment.Needs, body.ID(field))
		d.turn(stageTape)
		d.view.tape.focus = body.ID(field)
	case strings.HasPrefix(path, "rules."):
		if def, ok := d.rule(rules.ID(field)); ok {
			d.view.style.group, d.view.style.rule = def.Group, def.ID
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
