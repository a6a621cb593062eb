//go:build !js

package ui

import (
	"strings"
	"testing"
	"time"

	"chalkfold/sync/store/mem"
)

func TestBrowserInWords(t *testing.T) {
	for _, tt := range []struct {
		browser       browser
		promise, used string
	}{
		{browser{Kept: "yes", Used: 3_000_001, Room: 2_100_000_000}, "has promised to keep your work", "4 MB used of the 2.1 GB that the browser allows"},
		{browser{Kept: "no", Used: 0, Room: 999_999_999}, "Keep Chalkfold on the home screen", "0 MB used of the 1000 MB that the browser allows"},
		{browser{Kept: "no", Installed: true}, "save a backup file now and then", ""},
		{browser{}, "does not say whether it keeps", ""},
	} {
		if got := tt.browser.promise(nil); !strings.Contains(got, tt.promise) {
			t.Errorf("%+v: %q, want %q in it", tt.browser, got, tt.promise)
		}
		if got := tt.browser.used(nil); got != tt.used {
			t.Errorf("%+v: %q, want %q", tt.browser, got, tt.used)
		}
	}
}

// TestHomeScreen is spoken of once a job is drafted, and not again for 30 days
// after it was declined.
func TestHomeScreen(t *testing.T) {
	const asks = "Keep Chalkfold on the home screen</strong>"
	s := &mem.Store{}
	b := open(t, s, nil)
	b.stage = stageBook
	due := func(what string, want bool) {
		t.Helper()
		b.listJobs()
		b.settle()
		if b.installDue() != want {
			t.Errorf("%s: due %v, want %v", what, b.installDue(), want)
		}
	}
	due("nothing is there", false)
	b.tapeView().OnTicket("Alto 3")
	b.settle()
	due("a job without a draft", false)
	b.openSample()
	b.settle()
	b.stage = stageBook
	due("a job is drafted", true)
	b.shows(asks, "Add to Home screen")
	b.browser.Installed = true
	due("it is there", false)
	b.browser.Installed = false
	b.note(deviceKind, notNowID, &b.noted.notNow)
	b.settle()
	due("declined", false)
	b = open(t, s, nil)
	b.stage = stageBook
	due("declined, in the next window", false)
	was := b.deps.Now
	b.deps.Now = func() time.Time { return was().Add(notNowLast + time.Hour) }
	due("declined long ago", true)
}
