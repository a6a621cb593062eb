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

// handOverLink gives the link to the clipboard or to what the phone shares with.
// Nothing else of the house goes with it.
func (d *Desk) handOverLink(to string) {
	text := address() + "#" + d.view.house.lent
	if !navigatorHas(to) {
		d.view.house.told = d.T("This browser does not copy. Mark the link and copy it by hand.")
		return
	}
	n := app.Window().Get("navigator")
	if to == "share" {
		n.Call("share", map[string]any{"title": d.house.inForce().Name, "url": text})
		return
	}
	n.Get("clipboard").Call("writeText", text)
	d.view.house.told = d.T("The link is copied.")
}
