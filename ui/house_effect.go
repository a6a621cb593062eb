package ui

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/flat"
	"chalkfold/ui/house"
)

// effect is what the rules in force would make of the open job.
type effect struct {
	gen  int
	by   string // the values
	rows []house.Row
}

// leastTold is the least change of a girth that is told: half of what the finest
// tape shows.
const leastTold = unit.Inch / 32

// wantEffect has the open job drafted by the rules in force, beside the draft
// that it has, once the rules rest.
func (d *Desk) wantEffect() {
	if d.stage != stageHouse || d.work == nil || d.work.Result == nil {
		return
	}
	d.ctx.After(layAfter, func(app.Context) {
		if d.stage != stageHouse || d.work == nil || d.work.Result == nil {
			return
		}
		j := d.work.Result.Job
		j.Rules.House = d.houseValues()
		by := flat.Unstyled(j)
		if d.view.house.effect.gen == d.work.Gen && d.view.house.effect.by == by {
			return
		}
		d.view.house.effect = effect{gen: d.work.Gen, by: by}
		if r, err := d.sketching.Maker.Make(j); err == nil {
			d.view.house.effect.rows = d.effects(d.work.Result, r)
		}
	})
}

// effects are the girths that two drafts of one job differ in.
func (d *Desk) effects(was, would *draft.Result) []house.Row {
	var out []house.Row
	for i, g := range was.Report.Girths {
		if i >= len(would.Report.Girths) || would.Report.Girths[i].Name != g.Name {
			continue
		}
		now := would.Report.Girths[i].Draft
		if by := now - g.Draft; by > leastTold || by < -leastTold {
			out = append(out, house.Row{
				Name: d.Say(say.Name(g.Name)), Theirs: was.Format.Text(g.Draft), Ours: was.Format.Text(now),
			})
		}
	}
	return out
}
