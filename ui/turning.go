package ui

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// navigate turns to a stage as its tab does.
func (d *Desk) navigate(stage string) {
	u := *d.ctx.Page().URL()
	u.Fragment = stage
	d.ctx.NavigateTo(&u)
}

// OnNav implements app.Navigator.
func (d *Desk) OnNav(ctx app.Context) {
	fragment := ctx.Page().URL().Fragment
	next := stageFromFragment(fragment)
	if d.hearLink(fragment) || next == d.stage {
		return
	}
	if !d.hasStage(next) {
		d.leaveOrder()
	}
	if d.stage != stageBook && slices.ContainsFunc(stages(), func(s stage) bool { return s.id == d.stage }) {
		d.view.from = d.stage
	}
	d.covered = false // what is gone to has taken the place of the step
	d.stage, d.view.stages, d.view.how.open = next, false, false
	d.view.tape.focus, d.view.tape.help = "", ""
	d.view.album = albumViewed{}
	d.stopScan()
	d.heedTyped()
	if d.waiting {
		d.catchUp()
	} else {
		d.wants()
	}
	if next == stageBook {
		d.lookAtBrowser(false)
	}
	if next == stageBook || next == stageOrder {
		d.listJobs()
		if d.photosRead {
			d.listPhotos()
		}
	}
	if next == stageCopy {
		d.lookForServer()
	}
	if next == stageLesson {
		d.wantLessons(false)
	}
	ctx.Defer(toTop)
}
