package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// FileInput takes a file: on hears its text, nothing for one that cannot be
// read. It is out of sight; ChooseFile opens it.
func FileInput(id, accept string, on func(text string)) app.UI {
	return app.Elem("input").ID(id).Attr("type", "file").Attr("accept", accept).Hidden(true).
		OnChange(func(ctx app.Context, _ app.Event) {
			in := ctx.JSSrc()
			file := in.Get("files").Index(0)
			if !file.Truthy() {
				return
			}
			var read, failed app.Func
			take := func(text string) {
				read.Release()
				failed.Release()
				ctx.Dispatch(func(app.Context) { on(text) })
			}
			read = app.FuncOf(func(_ app.Value, args []app.Value) any {
				take(args[0].String())
				return nil
			})
			failed = app.FuncOf(func(app.Value, []app.Value) any {
				take("")
				return nil
			})
			file.Call("text").Call("then", read, failed)
			in.Set("value", "") // so that the same file can be chosen again
		}, app.EventScope(id))
}

// ChooseFile has the browser ask for a file.
func ChooseFile(id string) {
	if el := app.Window().GetElementByID(id); el.Truthy() {
		el.Call("click")
	}
}
