package ui

import "chalkfold/ui/bench"

func (d *Desk) benchView() bench.View {
	return bench.View{Words: d.Words}
}
