package ui

import "chalkfold/ui/share"

func (d *Desk) shareView() share.View {
	return share.View{Words: d.Words}
}
