//go:build js && wasm

// Bare is a page of the library that the app stands on with one element in it and
// nothing else: what make perf holds the start of the app against, in the same run.
package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type page struct{ app.Compo }

// Render is found by the class that a stage of the app is found by.
func (*page) Render() app.UI {
	return app.Div().Class("desk").Body(app.Main().Class("stage").Text("Nothing yet."))
}

func main() {
	app.Route("/", func() app.Composer { return &page{} })
	app.RunWhenOnBrowser()
}
