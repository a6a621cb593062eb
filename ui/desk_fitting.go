package ui

import "chalkfold/ui/fitting"

func (d *Desk) fittingView() fitting.View {
	v := fitting.View{
		Words: d.Words,
		On:    d.job.Fitting, Today: d.today(), Seen: d.job.Seen,
		Steps: d.milestones(Fitted, Paid), OnMilestone: d.tick,
		OnDay: func(days int) {
			d.job.Fitting = d.moved(d.job.Fitting, days)
			d.changed("")
		},
		OnNoDay: func() {
			d.job.Fitting = ""
			d.changed("")
		},
		OnSeen: func(text string) {
			d.job.Seen = clipTo(text, longest)
			d.changed("seen")
		},
	}
	if r := d.work.Result; r != nil {
		v.Ready = true
		v.Girths, v.Rooms = fitting.Girths(r.Report.Girths, r.Format), fitting.Rooms(r.Panels, r.Pieces, r.Format)
	}
	return v
}
