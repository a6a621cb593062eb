package ui

import "chalkfold/ui/share"

type shareViewed struct{}

func (d *Desk) shareView() share.View {
	return share.View{Words: d.Words}
}

func (d *Desk) wantCount()  {}
func (d *Desk) leaveShare() {}
