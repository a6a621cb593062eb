package main

import (
	"bytes"
	"io"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/static/words"
	"chalkfold/wasm/browser"
	"chalkfold/wasm/browser/audit"
)

// copying serves the page with second copies, and tells where, and in which file the
// copies are.
func copying(t *testing.T) (address, store string) {
	t.Helper()
	built, list := builtPage(t)
	site, err := newSite(built, list)
	if err != nil {
		t.Fatal(err)
	}
	store = filepath.Join(t.TempDir(), "store.db")
	flags, s := serveFlags(io.Discard)
	if err := flags.Parse([]string{"-store", store}); err != nil {
		t.Fatal(err)
	}
	c, err := s.open(t.Context(), site, io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(c.Handler())
	t.Cleanup(func() {
		server.Close()
		if err := c.Close(); err != nil {
			t.Error(err)
		}
	})
	return server.URL, store
}

const (
	wordsShown = `[...document.querySelectorAll("#copy-words strong")].map((w) => w.textContent)`
	account    = `document.querySelector("#copy-account").textContent`
	allThere   = account + `.includes("On this phone only: 0")`
)

// toCopy opens the screen of the second copy from the book.
func toCopy(tab *browser.Tab) {
	turnTo(tab, "book")
	press(tab, "Open the second copy")
	tab.Until(`document.querySelector("section.copy")`)
}

// measuredWell is that nothing of the screen is cut off, too small or too pale.
func measuredWell(t *testing.T, tab *browser.Tab, what string) {
	t.Helper()
	for _, f := range illFitting(tab) {
		t.Errorf("%s: %s", what, f)
	}
}

// startCopy starts a second copy as a maker does who writes its words down, and returns
// them.
func startCopy(t *testing.T, tab *browser.Tab) []string {
	t.Helper()
	press(tab, "Start a second copy")
	tab.Until(`document.querySelectorAll("#copy-words strong").length === 24`)
	shot(t, tab, "copy-words")
	measuredWell(t, tab, "the words")
	key := browser.Eval[[]string](tab, wordsShown)
	press(tab, "I have written them down")
	tab.Until(`document.querySelector("#copy-word-2")`)
	asked := browser.Eval[[]int](tab, `[...document.querySelectorAll("label[for^=copy-word-]")].map((l) => Number(l.textContent.replace(/\D/g, "")))`)
	for i, n := range asked {
		tab.Do(chromedp.SendKeys(chromedp.ID("copy-word-"+string(rune('0'+i))), key[n-1]))
	}
	shot(t, tab, "copy-asked")
	tap(tab, "#copy-repeat")
	tab.Until(allThere)
	return key
}

// meant reports whether a browser complains of an answer that is part of the protocol:
// that there is a server, that another phone was first, that the network was taken away.
func meant(problem string) bool {
	for _, parts := range [][2]string{{"401", "/sync/1/usage"}, {"409", "/sync/1/push"}, {"ERR_INTERNET_DISCONNECTED", "/sync/1/"}} {
		if strings.Contains(problem, parts[0]) && strings.Contains(problem, parts[1]) {
			return true
		}
	}
	return false
}

// TestTwoPhones: a second copy is begun in one browser, and another joins by its camera.
// What one enters the other shows by itself; one goes on without a network, and meets
// the other again over a slow line; what both measured meanwhile is chosen by a tap. Nothing that was entered is to be read in
// the file of the server.
func TestTwoPhones(t *testing.T) {
	address, store := copying(t)
	key := twoPhones(t, address)
	for _, name := range []string{store, store + "-wal"} {
		kept, err := os.ReadFile(name)
		if err != nil && !os.IsNotExist(err) {
			t.Fatal(err)
		}
		for _, text := range []string{"Alto 3", "hip_girth", "navy suiting", "JFIF", strings.Join(key[:2], " ")} {
			if bytes.Contains(kept, []byte(text)) {
				t.Errorf("%q is to be read in %s", text, filepath.Base(name))
			}
		}
	}
}

// TestTwoPhonesElsewhere does the same by what CHALKFOLD_SERVER names: a server that is run
// elsewhere, such as one on a Workers runtime.
func TestTwoPhonesElsewhere(t *testing.T) {
	address := os.Getenv("CHALKFOLD_SERVER")
	if address == "" {
		t.Skip("CHALKFOLD_SERVER names no server")
	}
	twoPhones(t, strings.TrimSuffix(address, "/"))
}

func twoPhones(t *testing.T, address string) (key []string) {
	t.Helper()
	a, b := browser.Open(t, "").Tab(), browser.Open(t, "").Tab()
	a.Goto(address + "/")
	press(a, "Open the sample")
	a.Until(savedAs("Alto 3"))
	toCopy(a)
	shot(t, a, "copy-offer")
	key = startCopy(t, a)
	shot(t, a, "copy-begun")
	measuredWell(t, a, "what is where")
	press(a, "Pair another phone")
	a.Until(`document.querySelectorAll("#copy-pair-words strong").length === 8`)
	a.Still()
	shot(t, a, "copy-pair")
	code := browser.Eval[[]string](a, strings.ReplaceAll(wordsShown, "copy-words", "copy-pair-words"))
	tap(a, "#copy-back")

	b.Before(seesCode)
	b.Goto(address + "/#copy")
	press(b, "Join one of my phones")
	tap(b, "#copy-scan")
	b.Until(`!document.querySelector("#copy-picture").hidden`)
	browser.Eval[any](b, `void (window.seen = "`+address+"/#pair="+strings.Join(code, "-")+`")`)
	b.Until(value("copy-code") + ` === "` + strings.Join(code, " ") + `"`)
	shot(t, b, "copy-join")
	measuredWell(t, b, "joining")
	tap(b, "#copy-enter")
	b.Until(allThere)
	turnTo(b, "book")
	b.Until(`document.querySelector("#jobs").textContent.includes("Alto 3")`)
	shot(t, b, "copy-book")
	tap(b, "#jobs .job")
	b.Until(`document.querySelector("h1").textContent === "Alto 3" && !document.querySelector('.stage-link[data-stage="book"][aria-current]')`)
	turnTo(b, "tape")

	// What one measures the other shows, without a key being pressed.
	turnTo(a, "tape")
	retype(a, "thigh_girth", "26")
	b.Until(value("thigh_girth") + ` === "26"`)

	// Both measure, one of them without a network.
	b.Offline(true)
	retype(b, "hip_girth", "43")
	b.Until(savedAs("Alto 3"))
	toCopy(b)
	b.Until(account + `.includes("out of reach")`)
	shot(t, b, "copy-away")
	measuredWell(t, b, "without a network")
	turnTo(b, "tape")
	retype(a, "hip_girth", "41")
	toCopy(a)
	a.Until(allThere)
	b.Line(50, 800) // as slow as a phone's line gets that still is one
	for _, tab := range []*browser.Tab{a, b} {
		turnTo(tab, "tape")
		tab.Until(`document.querySelector("#hip_girth-differs")?.offsetParent`)
	}
	scrolledTo(a, "#hip_girth-differs")
	shot(t, a, "copy-tape")
	measuredWell(t, a, "what was measured differently")
	toCopy(b)
	b.Until(`document.querySelector("#copy-conflicts").offsetParent`)
	scrolledTo(b, "#copy-conflicts")
	shot(t, b, "copy-conflict")
	measuredWell(t, b, "what was measured differently")
	b.Offline(false)
	other := browser.Eval[string](a, `[...document.querySelectorAll("#hip_girth-differs button")].find((b) => b.textContent.includes("43")).id`)
	tap(a, "#"+other)
	b.Until(`!document.querySelector("#copy-conflicts").offsetParent`)
	for _, tab := range []*browser.Tab{a, b} {
		turnTo(tab, "tape")
		tab.Until(value("hip_girth") + ` === "43" && !document.querySelector("#hip_girth-differs")?.offsetParent`)
		tab.Until(`document.querySelector("#hip_girth-note").textContent.includes("41 in")`)
	}
	shot(t, a, "copy-chosen")
	photoTravels(t, a, b)
	for _, tab := range []*browser.Tab{a, b} {
		for _, p := range tab.Problems() {
			if !meant(p) {
				t.Error(p)
			}
		}
	}
	return key
}

// photoTravels takes a photo on one phone, and looks at it on another.
func photoTravels(t *testing.T, a, b *browser.Tab) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "IMG_1.jpg")
	if err := os.WriteFile(file, fromCamera(t, 1600, 1200), 0o600); err != nil {
		t.Fatal(err)
	}
	turnTo(a, "fitting")
	photograph(a, "fitting", file, photosShown("fitting", "1"))
	toCopy(a)
	a.Until(account + `.includes("Photos with a copy on the server: 1. Photos only on this phone: 0 (0.0 MB).")`)
	shot(t, a, "copy-photo-sent")
	measuredWell(t, a, "with a photo")
	was := browser.Eval[keptInBrowser](a, keptPhotos)
	turnTo(b, "fitting")
	b.Until(photosShown("fitting", "1"))
	if there := browser.Eval[keptInBrowser](b, keptPhotos); len(there.Pictures) != 0 {
		t.Error("the picture came before anybody wanted it")
	}
	tap(b, "#photos-fitting .photo")
	// Its small picture, which came with the record, stands there until it has come.
	b.Until(`document.querySelector(".photo-page .paper image")?.getAttribute("href").length > 20000 && document.querySelector("#photo-told").hidden`)
	shot(t, b, "copy-photo-seen")
	there := browser.Eval[keptInBrowser](b, keptPhotos)
	for name, jpg := range was.Pictures {
		if len(jpg) == 0 || !bytes.Equal(there.Pictures[name], jpg) {
			t.Errorf("a picture of %d bytes came as %d", len(jpg), len(there.Pictures[name]))
		}
	}
	tap(b, "#photo-close")
}

// TestCopiesInFrench looks at every screen of the second copy in French, whose words are
// longer.
func TestCopiesInFrench(t *testing.T) {
	fr, err := words.Of("fr")
	if err != nil {
		t.Fatal(err)
	}
	tab := speaksFrench(t)
	look := audit.Of(t, tab)
	fits := func(name string) {
		t.Helper()
		tab.Still()
		for _, f := range look.Look() {
			t.Errorf("%s: %s", name, f)
		}
		if dir := os.Getenv("CHALKFOLD_SHOTS"); dir != "" {
			tab.Shot(filepath.Join(dir, "french-copy-"+name+".png"), true)
		}
	}
	tab.Goto(openStall(t).url("/#copy")) // a page whose server keeps no copies
	tab.Until(`document.querySelector(".copy")?.innerText.includes("` + fr.T("The server of this page keeps no copies. A file carries them from phone to phone.") + `")`)
	fits("no-server")

	address, _ := copying(t)
	tab.Goto(address + "/#copy")
	press(tab, fr.T("Join one of my phones"))
	tab.Do(chromedp.SendKeys(chromedp.ID("copy-code"), "bado kifo"))
	tap(tab, "#copy-enter")
	tab.Until(`document.querySelector("#copy-wrong").offsetParent`)
	fits("join")
	tap(tab, "#copy-back")
	press(tab, fr.T("Start a second copy"))
	tab.Until(`document.querySelectorAll("#copy-words strong").length === 24`)
	fits("words")
	shown := browser.Eval[[]string](tab, wordsShown)
	tap(tab, "#copy-written")
	tab.Until(`document.querySelector("#copy-word-2")`)
	tap(tab, "#copy-repeat")
	tab.Until(`document.querySelector("#copy-wrong").offsetParent`)
	fits("repeat")
	for i, n := range browser.Eval[[]int](tab, `[...document.querySelectorAll("label[for^=copy-word-]")].map((l) => Number(l.textContent.replace(/\D/g, "")))`) {
		tab.Do(chromedp.SendKeys(chromedp.ID("copy-word-"+string(rune('0'+i))), shown[n-1]))
	}
	tap(tab, "#copy-repeat")
	tab.Until(`document.querySelector("#copy-account")`)
	tab.Until(`document.querySelector("#copy-passing").hidden && document.querySelector("#copy-fault").hidden`)
	fits("begun")
	tap(tab, "#copy-pair")
	tab.Until(`document.querySelectorAll("#copy-pair-words strong").length === 8`)
	fits("pair")
	tap(tab, "#copy-beside")
	tab.Until(`!document.querySelector("#copy-pair-words") && document.querySelector(".copy svg")`)
	fits("beside")
	tap(tab, "#copy-back")
	tap(tab, "#copy-off")
	tab.Until(`document.querySelector("#copy-move")`)
	fits("off")
	tap(tab, "#copy-back")
	turnTo(tab, "book")
	fits("book")
}
