package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"chalkfold/draft/geom"
	"chalkfold/testdata/jobs"
	"chalkfold/wasm/browser"
)

// A place of the window, px.
type place struct{ x, y float64 }

// touch puts the fingers on the screen where they begin, moves them along and
// takes them off.
func touch(tab *browser.Tab, ways ...[]place) {
	points := func(at int) []*input.TouchPoint {
		var out []*input.TouchPoint
		for i, w := range ways {
			id := float64(i)
			out = append(out, &input.TouchPoint{X: w[at].x, Y: w[at].y, ID: &id})
		}
		return out
	}
	send := func(what input.DispatchTouchEventType, fingers []*input.TouchPoint) {
		browser.Call(tab, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: what, TouchPoints: fingers})
	}
	send(input.DispatchTouchEventTypeTouchStart, points(0))
	for at := 1; at < len(ways[0]); at++ {
		send(input.DispatchTouchEventTypeTouchMove, points(at))
	}
	send(input.DispatchTouchEventTypeTouchEnd, []*input.TouchPoint{})
	tab.Still()
}

// straight is the way of one finger, in small steps.
func straight(from, to place) []place {
	const steps = 8
	var out []place
	for i := range steps + 1 {
		t := float64(i) / steps
		out = append(out, place{from.x + (to.x-from.x)*t, from.y + (to.y-from.y)*t})
	}
	return out
}

// cloth is what of the drawing lies at a place of the window, mm.
func cloth(tab *browser.Tab, at place) geom.Pt {
	xy := browser.Eval[[]float64](tab, fmt.Sprintf(`((p) => [p.x, p.y])(new DOMPoint(%f, %f).matrixTransform(document.querySelector(".paper svg").getScreenCTM().inverse()))`, at.x, at.y))
	return geom.Pt{X: xy[0], Y: xy[1]}
}

// window is where a place of the drawing lies on the screen.
func window(tab *browser.Tab, at geom.Pt) place {
	xy := browser.Eval[[]float64](tab, fmt.Sprintf(`((p) => [p.x, p.y])(new DOMPoint(%f, %f).matrixTransform(document.querySelector(".paper svg").getScreenCTM()))`, at.X, at.Y))
	return place{xy[0], xy[1]}
}

// scale is px for each mm.
func scale(tab *browser.Tab) float64 {
	return browser.Eval[float64](tab, `document.querySelector(".paper svg").getScreenCTM().a`)
}

// openDraft opens the sample at its draft.
func openDraft(t *testing.T) *browser.Tab {
	t.Helper()
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Until(`document.querySelector(".paper svg[font-size]")`)
	return tab
}

func TestDrawingUnderFingers(t *testing.T) {
	tab := openDraft(t)
	whole := scale(tab)
	mid := place{170, 200}
	under := cloth(tab, mid)
	touch(tab, straight(place{150, 200}, place{90, 200}), straight(place{190, 200}, place{250, 200}))
	near := scale(tab)
	if near < 3*whole || near > 5*whole {
		t.Errorf("fingers four times as far apart look %.1f times nearer", near/whole)
	}
	if now := cloth(tab, mid); now.Dist(under) > 3/whole {
		t.Errorf("what lay between the fingers has moved by %.0f mm", now.Dist(under))
	}
	if y := browser.Eval[float64](tab, `scrollY + visualViewport.scale`); y != 1 {
		t.Errorf("the page was scrolled or zoomed too: %v", y)
	}

	under = cloth(tab, mid)
	touch(tab, straight(mid, place{110, 260}))
	if now := cloth(tab, place{110, 260}); now.Dist(under) > 1/near {
		t.Errorf("a finger lost the cloth by %.1f mm", now.Dist(under))
	}
	tap(tab, ".whole")
	tab.Still()
	if now := scale(tab); math.Abs(now-whole) > 1e-6 {
		t.Errorf("the whole is at %.3f px for each mm, was %.3f", now, whole)
	}
	for _, at := range []input.TimeSinceEpoch{1000, 1000.04, 1000.15, 1000.19} { // s, however slow this machine is
		fingers, what := []*input.TouchPoint{{X: mid.x, Y: mid.y}}, input.DispatchTouchEventTypeTouchStart
		if at == 1000.04 || at == 1000.19 {
			fingers, what = []*input.TouchPoint{}, input.DispatchTouchEventTypeTouchEnd
		}
		browser.Call(tab, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: what, TouchPoints: fingers, Timestamp: at})
	}
	tab.Still()
	if scale(tab) < 2*whole {
		t.Error("two taps do not look nearer")
	}

	// The same by keys on the drawing and of the keyboard.
	tap(tab, ".whole")
	tab.Do(chromedp.Focus(`.paper`))
	for _, key := range []string{"+", "+"} {
		tab.Do(chromedp.KeyEvent(key))
	}
	tab.Still()
	if scale(tab) < 2*whole {
		t.Error("+ does not look nearer")
	}
	for _, tt := range []struct{ key, class string }{{"\u0303", "right"}, {"\u0302", "left"}, {"\u0304", "up"}, {"\u0301", "down"}} {
		was := cloth(tab, mid)
		tap(tab, ".edge."+tt.class)
		tab.Still()
		if now := cloth(tab, mid); now.Dist(was) < 10 {
			t.Errorf("the key at the edge, %s, moved the drawing by %.0f mm", tt.class, now.Dist(was))
		}
		was = cloth(tab, mid)
		tab.Do(chromedp.KeyEvent(tt.key))
		tab.Still()
		if now := cloth(tab, mid); now.Dist(was) < 10 && tt.class != "down" {
			t.Errorf("the arrow, %s, moved the drawing by %.0f mm", tt.class, now.Dist(was))
		}
	}
	noProblems(t, tab)
}

// TestTapALine taps a mark on the drawing, changes a rule at it, and sees the
// mark move and stay chosen.
func TestTapALine(t *testing.T) {
	tab := openDraft(t)
	r := jobs.Made(t, "alto-3.json")
	press(tab, "Lines")
	tab.Until(`document.querySelector("#lines")`)
	tip := r.Record.Point("front.fork_tip")
	touch(tab, []place{window(tab, tip)})
	tab.Until(`document.querySelector("#thing strong")?.textContent === "Front fork tip"`)
	shot(t, tab, "draft-lines")
	tab.Until(`document.querySelector("#thing-sum").textContent.includes("2⅝")`)

	touch(tab, straight(place{100, 150}, place{100, 160}), straight(place{150, 220}, place{180, 260}))
	was := cloth(tab, place{170, 200})
	tap(tab, `.thing .row:has(#front_fork_part) .step-key:first-child`)
	tab.Until(`document.querySelector("#front_fork_part").value === "15"`)
	tab.Until(`document.querySelector("#thing-sum").textContent.includes("2¾")`)
	if now := cloth(tab, place{170, 200}); now.Dist(was) > 1 {
		t.Errorf("the drawing was moved by %.1f mm under the change", now.Dist(was))
	}
	shot(t, tab, "draft-lines-changed")

	// A measurement at it in eighths, by the keys beside its field.
	tab.Until(`((f) => f && (f.focus(), true))(document.querySelector(".thing #hip_girth"))`)
	tab.Until(`((half) => half && getComputedStyle(half).visibility === "visible" && (half.click(), true))(
		[...document.querySelectorAll(".thing .row:has(#hip_girth) .key")].find((k) => k.textContent === "½"))`)
	tab.Until(`document.querySelector(".thing #hip_girth").value === "42½"`)
	shot(t, tab, "draft-lines-eighths")

	noProblems(t, tab)
}

// TestMendAtOneTap mends what the draft as it is spoken lacks, and takes it back.
func TestMendAtOneTap(t *testing.T) {
	tab := openDraft(t)
	turnTo(tab, "style")
	press(tab, "as it is spoken")
	turnTo(tab, "draft")
	tab.Until(`document.querySelector("#verdict").textContent.includes("Do not cut")`)
	tab.Until(`document.querySelector('.cure[data-path=drafting]')`)
	shot(t, tab, "draft-cures")
	tap(tab, `.cure[data-path=drafting]`)
	tab.Until(`document.querySelector("#verdict").textContent.includes("It can be cut") && document.querySelector("#mended:not([hidden])")`)
	shot(t, tab, "draft-mended")
	press(tab, "Undo it")
	tab.Until(`document.querySelector("#verdict").textContent.includes("Do not cut") && document.querySelector("#mended[hidden]")`)
	noProblems(t, tab)
}

// TestReplay goes through the construction by its keys.
func TestReplay(t *testing.T) {
	tab := openDraft(t)
	steps := jobs.Made(t, "alto-3.json").Record.Steps()
	press(tab, "Replay")
	at := func(n int) string {
		return fmt.Sprintf(`document.querySelector("#replay-at")?.textContent.endsWith("step %d of %d") && document.querySelector("#replay-title").textContent.toLowerCase() === %q`, n, len(steps), strings.ToLower(steps[n-1].Label))
	}
	tab.Until(at(1))
	for n := 2; n < 5; n++ {
		tap(tab, "#replay-next")
		tab.Until(at(n))
	}
	tap(tab, "#replay-back")
	tab.Until(at(3))
	press(tab, "Back")
	tab.Until(`document.querySelector("#replay-at").textContent.startsWith("Back")`)
	for range 12 {
		tap(tab, "#replay-next")
	}
	tab.Still()
	shot(t, tab, "draft-replay")
	noProblems(t, tab)
}
