package ui

import "chalkfold/ui/fitting"

func (d *Desk) fittingView() fitting.View {
	return fitting.View{Words: d.Words}
}
