package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// FileInput takes a file: on hears its text, nothing for one that cannot be
// read. It is out of sight; ChooseFile opens it.
func FileInput(id, accept string, on func(text string)) app.UI {
	return fileInput(id, accept, func(ctx app.Context, file app.Value) {
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
	})
}

// RawInput takes a file as the browser has it. It is out of sight; ChooseFile opens it.
func RawInput(id, accept string, on func(file app.Value)) app.HTMLElem {
	return fileInput(id, accept, func(_ app.Context, file app.Value) { on(file) })
}

// PictureInput takes a picture: from the camera, where the browser can, or chosen.
func PictureInput(id string, camera bool, on func(file app.Value)) app.UI {
	in := RawInput(id, "image/*", on)
	if camera {
		return in.Attr("capture", "environment")
	}
	return in
}

func fileInput(id, accept string, on func(ctx app.Context, file app.Value)) app.HTMLElem {
	return app.Elem("input").ID(id).Attr("type", "file").Attr("accept", accept).Hidden(true).
		OnChange(func(ctx app.Context, _ app.Event) {
			in := ctx.JSSrc()
			file := in.Get("files").Index(0)
			if !file.Truthy() {
				return
			}
			on(ctx, file)
			in.Set("value", "") // so that the same file can be chosen again
		}, app.EventScope(id))
}

// ChooseFile has the browser ask for a file.
func ChooseFile(id string) {
	if el := app.Window().GetElementByID(id); el.Truthy() {
		el.Call("click")
	}
}
