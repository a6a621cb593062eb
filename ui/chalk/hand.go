package chalk

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Hand keeps the screen awake while the hand is busy with chalk, and hears the
// keys of a keyboard, from when it is shown until it is gone.
type Hand struct {
	app.Compo
	Awake, Sleepy string // what is said of the screen

	OnStep  func(by int)
	OnFirst func()
	OnLast  func()
	OnLeave func() // the screen was left by the keyboard, or by the browser

	held  app.Value // the lock, while there is one
	gone  bool
	funcs []app.Func
	quits []func()
}

// OnMount implements app.Mounter.
func (h *Hand) OnMount(ctx app.Context) {
	if !app.IsClient {
		return
	}
	document := app.Window().Get("document")
	h.hear(app.Window(), "keydown", func(e app.Value) {
		if h.press(ctx, e) {
			e.Call("preventDefault")
		}
	})
	h.hear(document, "visibilitychange", func(app.Value) { h.wake(ctx) })
	h.hear(document, "fullscreenchange", func(app.Value) {
		if !document.Get("fullscreenElement").Truthy() {
			ctx.Dispatch(func(app.Context) { h.OnLeave() })
		}
	})
	h.wake(ctx)
}

// OnDismount implements app.Dismounter.
func (h *Hand) OnDismount() {
	h.gone = true
	h.release()
	for _, quit := range h.quits {
		quit()
	}
	for _, f := range h.funcs {
		f.Release()
	}
	Fill(false)
}

// hear calls do at an event of a target, until the hand is gone.
func (h *Hand) hear(target app.Value, event string, do func(e app.Value)) {
	f := app.FuncOf(func(_ app.Value, args []app.Value) any {
		do(args[0])
		return nil
	})
	h.funcs = append(h.funcs, f)
	target.Call("addEventListener", event, f)
	h.quits = append(h.quits, func() { target.Call("removeEventListener", event, f) })
}

// wake asks that the screen stays on. The browser lets go of it when the page
// is out of sight, so it is asked again when the page is back.
func (h *Hand) wake(ctx app.Context) {
	lock := app.Window().Get("navigator").Get("wakeLock")
	if !lock.Truthy() || app.Window().Get("document").Get("visibilityState").String() != "visible" {
		return
	}
	got := app.FuncOf(func(_ app.Value, args []app.Value) any {
		held := args[0]
		ctx.Dispatch(func(app.Context) {
			h.release()
			h.held = held
			if h.gone {
				h.release()
			}
		})
		return nil
	})
	refused := app.FuncOf(func(app.Value, []app.Value) any {
		ctx.Dispatch(func(app.Context) { h.held = nil })
		return nil
	})
	h.funcs = append(h.funcs, got, refused)
	lock.Call("request", "screen").Call("then", got, refused)
}

func (h *Hand) release() {
	if h.held != nil {
		h.held.Call("release")
		h.held = nil
	}
}

// press does what a key stands for, and reports whether it stands for anything.
func (h *Hand) press(ctx app.Context, e app.Value) bool {
	if e.Get("ctrlKey").Bool() || e.Get("altKey").Bool() || e.Get("metaKey").Bool() {
		return false
	}
	do := h.does(e.Get("key").String(), e.Get("target").Get("tagName").String())
	if do == nil {
		return false
	}
	ctx.Dispatch(func(app.Context) { do() })
	return true
}

// does is what a key stands for while an element of that kind has the focus:
// keys that press a button or type into a field are left to it.
func (h *Hand) does(key, focused string) func() {
	if focused == "INPUT" || (key == " " || key == "Enter") && (focused == "BUTTON" || focused == "A") {
		return nil
	}
	switch key {
	case "ArrowRight", "PageDown", " ", "Enter", "n":
		return func() { h.OnStep(1) }
	case "ArrowLeft", "PageUp", "Backspace", "p":
		return func() { h.OnStep(-1) }
	case "Home":
		return h.OnFirst
	case "End":
		return h.OnLast
	case "Escape":
		return h.OnLeave
	}
	return nil
}

// Fill has the page fill the whole screen, or no longer, where the browser can.
func Fill(whole bool) {
	if !app.IsClient {
		return
	}
	document := app.Window().Get("document")
	filled := document.Get("fullscreenElement").Truthy()
	root := document.Get("documentElement")
	switch {
	case whole && !filled && root.Get("requestFullscreen").Truthy():
		quiet(root.Call("requestFullscreen"))
	case !whole && filled:
		quiet(document.Call("exitFullscreen"))
	}
}

// quiet lets a promise fail: the page has done its part without it.
func quiet(promise app.Value) {
	var f app.Func
	f = app.FuncOf(func(app.Value, []app.Value) any {
		f.Release()
		return nil
	})
	promise.Call("then", f, f)
}

// Render implements app.Composer.
func (h *Hand) Render() app.UI {
	says := h.Sleepy
	if h.held != nil {
		says = h.Awake
	}
	return kit.P().ID("awake").Class("quiet").Role("status").Text(says)
}
