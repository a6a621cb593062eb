package ui

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// address is that of the page, without a fragment.
func address() string {
	u := *app.Window().URL()
	u.Fragment = ""
	return u.String()
}

// navigatorHas reports whether the browser can do that: copy, or share.
func navigatorHas(what string) bool {
	n := app.Window().Get("navigator")
	return n != nil && n.Truthy() && n.Get(what).Truthy()
}

// handOverLink sends the link, or copies it. Nothing else of the house goes with
// it.
func (d *Desk) handOverLink(send bool) {
	d.sendText(address()+"#"+d.view.house.lent, send, func(told string) { d.view.house.told = told })
}
