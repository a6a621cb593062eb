//go:build !js

package browser

import (
	"context"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// A Screen is what a page is looked at on.
type Screen struct {
	Name          string
	Width, Height int64
	Touch         bool // a phone or a tablet: no mouse, and the page's own idea of its width
}

// Screens are a small phone, the same on its side, and a student's laptop.
func Screens() []Screen {
	return []Screen{
		{Name: "phone", Width: 360, Height: 640, Touch: true},
		{Name: "side", Width: 640, Height: 360, Touch: true},
		{Name: "laptop", Width: 1280, Height: 800},
	}
}

// Call sends the browser one command about the tab, and returns its answer.
func Call[P, R any](tab *Tab, cmd cdp.Command[P, R], params P) R {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, Patience)
	defer cancel()
	answer, err := chromedp.Run(ctx, func(ctx context.Context, _ *chromedp.Target) (R, error) {
		return chromedp.Call(ctx, cmd, params)
	})
	if err != nil {
		tab.t.Fatalf("%s: %v\n%s", cmd.Method, err, tab.heard())
	}
	return answer
}

// On shows the tab on another screen, as turning a phone does.
func (tab *Tab) On(s Screen) {
	tab.t.Helper()
	Call(tab, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: s.Width, Height: s.Height, DeviceScaleFactor: 1, Mobile: s.Touch,
	})
	Call(tab, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: s.Touch, MaxTouchPoints: 1})
	tab.Still()
}

// Calm has the page told that its user wants no motion.
func (tab *Tab) Calm() {
	tab.t.Helper()
	Call(tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-reduced-motion", Value: "reduce"}},
	})
}

// Still waits until what has been done is drawn, and what moves has come to rest.
func (tab *Tab) Still() {
	tab.t.Helper()
	Eval[any](tab, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(Promise.allSettled(
		document.getAnimations().filter((a) => a.effect?.getComputedTiming().endTime < Infinity).map((a) => a.finished)).then(() => null)))))`)
}

// Picture is the screen as WebP, of so many bytes at most: coarser where it
// must be.
func (tab *Tab) Picture(most int) []byte {
	tab.t.Helper()
	for quality := int64(60); ; quality -= 10 {
		picture := Call(tab, page.CaptureScreenshot, page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatWebp, Quality: &quality})
		if len(picture.Data) <= most || quality <= 10 {
			return picture.Data
		}
	}
}
