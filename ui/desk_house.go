package ui

import "chalkfold/ui/house"

func (d *Desk) houseView() house.View {
	return house.View{Words: d.Words}
}
