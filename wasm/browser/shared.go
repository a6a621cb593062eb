//go:build !js

package browser

import (
	"context"
	"sync"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"
)

// Sharing runs the tests of a package with as few browsers as are open at the same
// time: one that a test has opened with a new profile is cleared of its tabs and of
// all that was kept for the origins it has opened, and handed to the next. Since
// each server has an address of its own, nothing of one test is met by another.
// TestMain hands Sharing to what runs the tests.
type Sharing struct{ M interface{ Run() int } }

// Run runs the tests, and ends the browsers.
func (s Sharing) Run() int {
	idle.mu.Lock()
	idle.on = true
	idle.mu.Unlock()
	code := s.M.Run()
	for p := take(); p != nil; p = take() {
		p.end()
	}
	return code
}

// idle are the browsers that no test has, where they are shared.
var idle struct { //nolint:gochecknoglobals // all tests of a package know it
	mu   sync.Mutex
	on   bool
	have []*process
}

// A process is one running Chromium.
type process struct {
	ctx context.Context
	end func()
}

// take returns a browser that no test has, or nil.
func take() *process {
	idle.mu.Lock()
	defer idle.mu.Unlock()
	if len(idle.have) == 0 {
		return nil
	}
	last := len(idle.have) - 1
	p := idle.have[last]
	idle.have = idle.have[:last]
	return p
}

// giveBack hands the browser to the next test, or ends it: where its profile was
// named, where it was closed or killed, and where the test has failed.
func (b *Browser) giveBack() {
	idle.mu.Lock()
	shared := idle.on
	idle.mu.Unlock()
	if !shared || b.own || b.t.Failed() || b.clear() != nil {
		b.end()
		return
	}
	idle.mu.Lock()
	defer idle.mu.Unlock()
	idle.have = append(idle.have, b.process)
}

// clear closes all tabs but the browser's own, and has the browser forget what it
// keeps for the origins that were opened.
func (b *Browser) clear() error {
	for _, tab := range b.tabs {
		_ = chromedp.Cancel(tab.ctx) // it may be closed
	}
	ctx, cancel := context.WithTimeout(b.ctx, Patience)
	defer cancel()
	own := chromedp.FromContext(b.ctx).Target.TargetID
	return chromedp.Do(ctx, func(ctx context.Context, _ *chromedp.Target) (chromedp.Void, error) {
		var none chromedp.Void
		open, err := chromedp.Call(ctx, target.GetTargets, target.GetTargetsParams{})
		if err != nil {
			return none, err
		}
		for _, one := range open.TargetInfos {
			if one.Type != "page" || one.TargetID == own {
				continue
			}
			if _, err := chromedp.Call(ctx, target.CloseTarget, target.CloseTargetParams{TargetID: one.TargetID}); err != nil {
				return none, err
			}
		}
		for _, tab := range b.tabs {
			for _, origin := range tab.origins {
				if _, err := chromedp.Call(ctx, storage.ClearDataForOrigin, storage.ClearDataForOriginParams{Origin: origin, StorageTypes: "all"}); err != nil {
					return none, err
				}
			}
		}
		return none, nil
	})
}
