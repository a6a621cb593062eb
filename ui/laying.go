package ui

import (
	"errors"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/ui/cloth"
)

const (
	// layAfter is how long the cloth must rest before it is laid on.
	layAfter = 250 * time.Millisecond
	// layTurn is how long the search may hold the page, but for one step.
	layTurn = 10 * time.Millisecond
)

// A laying is the lay of one draft on one cloth, made or being made.
type laying struct {
	gen, cloth int  // of which draft, on which cloth
	done       bool // nothing is under way any more
	missing    string
	laid       *draft.Laid
	drawing    string
	list       []string
}

// wantLay has the pieces laid on the cloth that is looked at, unless they are.
func (d *Desk) wantLay() {
	if d.stage != stageCloth || d.work == nil || d.work.Result == nil {
		return
	}
	if l := d.laying; l != nil && l.gen == d.work.Gen && l.cloth == d.view.cloth.at {
		return
	}
	l := &laying{gen: d.work.Gen, cloth: d.view.cloth.at}
	if old := d.laying; old != nil && old.cloth == l.cloth {
		l.laid, l.drawing, l.list = old.laid, old.drawing, old.list // stays in sight until the new one is there
	}
	d.laying = l
	if d.view.cloth.at >= len(d.work.Result.Job.Cloth) {
		*l = laying{gen: l.gen, cloth: l.cloth, done: true, missing: "Give the width of the cloth, from selvedge to selvedge."}
		return
	}
	d.ctx.After(layAfter, func(ctx app.Context) {
		if d.laying == l {
			d.startLay(l, d.work.Result)
		}
	})
}

// startLay searches beside the page: between two steps it lets the page work,
// and it stops when another lay is wanted.
func (d *Desk) startLay(l *laying, r *draft.Result) {
	now := d.deps.Now
	d.ctx.Async(func() {
		turn := now()
		laid, err := draft.Lay(r, l.cloth, lay.Options{Stop: func() bool {
			if now().Sub(turn) > layTurn {
				time.Sleep(time.Millisecond)
				turn = now()
			}
			return d.laying != l
		}})
		d.ctx.Dispatch(func(app.Context) {
			if d.laying == l {
				l.finish(r, laid, err)
			}
		})
	})
}

func (l *laying) finish(r *draft.Result, laid *draft.Laid, err error) {
	l.done, l.laid, l.drawing, l.list, l.missing = true, laid, "", nil, ""
	var wide *lay.TooWideError
	var bad *job.Bad
	switch {
	case err == nil:
		l.drawing, l.list = cloth.Picture(laid, r.Format)
	case errors.As(err, &wide):
		l.missing = cloth.TooWide(wide, r.Format)
	case errors.As(err, &bad):
		l.missing = sentenceOf(r.Format.Words.Say(bad.Problems[0].Why))
	default:
		l.missing = r.Format.Words.Err(err)
	}
}
