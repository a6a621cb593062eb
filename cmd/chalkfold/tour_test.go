package main

import (
	"net/http"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// A stop of the tour is one screen in one telling state.
type stop struct {
	name string // also of its picture
	at   string // the stage, as in the address; empty stays where the tour is
	do   []act  // what brings the state about
	till string // what then stands on the page
	all  bool   // pictured on its side and on a laptop too, not on a phone alone
}

// A tour is a tab on its way through the page.
type tour struct {
	t   *testing.T
	b   *browser.Browser
	s   *stall
	tab *browser.Tab

	release func() // lets the program come that holdsProgram holds
}

// An act is what a hand does, or what happens to it.
type act func(*tour)

func presses(name string) act { return func(on *tour) { press(on.tab, name) } }

func taps(selector string) act { return func(on *tour) { tap(on.tab, selector) } }

// writes types into a field, in place of what is there.
func writes(id, text string) act { return func(on *tour) { retype(on.tab, id, text) } }

func enters(id string) act {
	return func(on *tour) {
		on.tab.Until(`document.getElementById("` + id + `")`)
		on.tab.Do(chromedp.Focus(chromedp.ID(id)))
	}
}

// scrolls brings an element to the middle of the screen.
func scrolls(selector string) act {
	return func(on *tour) {
		on.tab.Until("((e) => e && (e.scrollIntoView({block: 'center'}), true))(document.querySelector(`" + selector + "`))")
	}
}

// covers scrolls an element right under the head, so that no part of it is to be tapped.
func covers(selector string) act {
	return func(on *tour) {
		on.tab.Until(`((e, head) => e && (window.scrollBy(0, e.getBoundingClientRect().bottom - head.clientHeight), true))(document.querySelector("` + selector + `"), document.querySelector(".head"))`)
	}
}

// waits waits until an expression is true on the page.
func waits(js string) act { return func(on *tour) { on.tab.Until(js) } }

// saved waits until every change is kept.
func saved() act { return waits(`document.querySelector("#saving").textContent === "Saved"`) }

// opens opens the page anew.
func opens(path string) act { return func(on *tour) { on.tab.Goto(on.s.url(path)) } }

// without opens the page where something of the browser is not there.
func without(js, path string) act {
	return func(on *tour) {
		made := browser.Call(on.tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: js})
		on.tab.Goto(on.s.url(path))
		browser.Call(on.tab, page.RemoveScriptToEvaluateOnNewDocument, page.RemoveScriptToEvaluateOnNewDocumentParams(made))
	}
}

// elsewhere changes the open job in another window, and then in this one.
func elsewhere(on *tour) {
	other := on.b.Tab()
	defer other.Close()
	other.Goto(on.s.url("/#tape"))
	other.Until(`document.querySelector("#ticket")?.value === "Alto 3"`)
	retype(other, "ticket", "Alto 4")
	other.Until(savedAs("Alto 4"))
	retype(on.tab, "ticket", "Alto 5")
}

// updated serves the next version, and has the page look for it.
func updated(on *tour) {
	built, list := builtPage(on.t)
	on.s.put(nextVersion(on.t, built, list))
	on.tab.Until(readyOffline)
	browser.Eval[string](on.tab, lookForUpdate)
}

// stops is the tour: every screen, in the states that tell something. It is one
// walk: what is done at a stop holds at those after it.
func stops() []stop {
	const (
		stands  = `document.querySelector("main .stage")`
		drafted = `document.querySelector("#verdict")`
		laid    = `document.querySelector("#lay-verdict") && document.querySelector("#laying").hidden`
	)
	return []stop{
		// Before the program runs, and where it cannot.
		{name: "first", do: []act{holdsProgram}, till: firstSays + `.startsWith("Laying")`, all: true},
		{name: "first-fails", do: []act{losesProgram}, till: mayRetry},
		{name: "no-store", do: []act{without(`IDBFactory.prototype.open = () => { throw new DOMException("the records are damaged", "UnknownError") }`, "/?no-store#tape")}, till: `document.querySelector(".warnings .note")`},

		// The first visit.
		{name: "tape-empty", do: []act{opens("/?first#tape")}, till: deskStands, all: true},
		{name: "book-empty", at: "book", till: stands},
		{name: "style-empty", at: "style", till: stands},
		{name: "draft-empty", at: "draft", till: stands},
		{name: "cloth-empty", at: "cloth", till: stands},
		{name: "chalk-empty", at: "chalk", till: stands},
		{name: "bench-empty", at: "bench", till: stands},
		{name: "fitting-empty", at: "fitting", till: stands},
		{name: "share-empty", at: "share", till: stands},
		{name: "stages", at: "book", do: []act{taps("#all-stages[aria-expanded=false]")}, till: `document.querySelector("#stages[data-open=true]")`},

		// What cannot be so.
		{name: "tape-refused", at: "tape", do: []act{writes("waist_girth", "98"), writes("hip_girth", "wide"), saved()}, till: `document.querySelector("#hip_girth[aria-invalid]")`},
		{name: "draft-refused", at: "draft", till: `document.querySelector(".card")`},
		{name: "cloth-refused", at: "cloth", till: stands},

		// The sample.
		{name: "draft", at: "book", do: []act{presses("Open the sample"), waits(savedAs("Alto 3"))}, till: drafted, all: true},
		{name: "draft-found", do: []act{taps("#fine"), taps(`.found:has([data-check^="waist at the side"]) .finding`), presses("+")}, till: `document.querySelector(".paper .spot")`},
		{name: "draft-girths", do: []act{presses("Girths")}, till: `document.querySelector("#girths")`},
		{name: "draft-lines", do: []act{presses("Lines"), taps(`.about-thing [aria-label="the next one"]`)}, till: `document.querySelector(".thing .links")`, all: true},
		{name: "draft-sums", do: []act{taps("#all-sums"), taps(`.sum[data-step="hip_part"]`)}, till: `document.querySelector(".thing #hip_girth")`},
		{name: "draft-trued", do: []act{presses("Trued")}, till: `document.querySelector("#changes")`, all: true},
		{name: "draft-replay", do: []act{presses("Replay"), presses("Front"), taps("#replay-next"), taps("#replay-next"), taps("#replay-next"), taps("#replay-next")}, till: `document.querySelector("#replay-at").textContent.startsWith("Front")`, all: true},
		{name: "draft-full", do: []act{presses("Lines"), taps("#fill")}, till: `document.querySelector(".draft.full")`},
		{name: "tape", at: "tape", till: value("hip_girth") + ` === "42"`, all: true},
		{name: "tape-keys", do: []act{enters("waist_girth"), taps("#waist_girth ~ .help"), covers("#singly")}, till: `document.querySelector(".pad") && document.querySelector(".help[aria-expanded=true]")`},
		{name: "tape-one", do: []act{taps("#singly")}, till: `document.querySelector("#overview")`},
		{name: "tape-more", do: []act{taps("#singly"), taps("#more"), scrolls("#more")}, till: `document.querySelector("#more[aria-expanded=true]")`},
		{name: "style", at: "style", till: stands, all: true},
		{name: "style-truings", do: []act{taps("#truings"), scrolls("#truings")}, till: `document.querySelector("#truings[aria-expanded=true]")`},
		{name: "style-rule", do: []act{taps("#group-fork"), taps("#fork_fullness ~ .help"), scrolls("#fork_fullness")}, till: `document.querySelector(".about")`},
		{name: "style-rule-refused", do: []act{writes("fork_fullness", "9"), scrolls("#fork_fullness")}, till: `document.querySelector("#fork_fullness[aria-invalid]")`},
		{name: "draft-spoken", at: "style", do: []act{taps("#undo"), waits(`!document.querySelector("#fork_fullness[aria-invalid]")`), presses("as it is spoken"), goes("draft"), taps("#fill"), presses("Pieces")}, till: `document.querySelector("#verdict").textContent.includes("Do not cut") && document.querySelectorAll(".cure").length > 1`},
		{name: "chalk-stopped", at: "chalk", till: `document.querySelector(".note-stop")`},
		{name: "cloth", at: "style", do: []act{presses("trued"), goes("cloth")}, till: laid, all: true},
		{name: "cloth-lay", do: []act{scrolls(".lay .drawing")}, till: laid},
		{name: "cloth-hand", do: []act{taps("#take-2"), waits(handUp), scrolls("#on-table")}, till: handUp, all: true},
		{name: "cloth-kept", do: []act{taps("#hand-keep"), taps("#hand-down"), waits(`!` + handUp), scrolls("#lay-list")}, till: laid + ` && ` + pinned + ` === 1`},
		{name: "cloth-flaws", do: []act{taps("#let-all-go"), taps("#cloth-more"), taps("#flaw-add"), waits(`document.querySelector("#flaw-gone-0")`), scrolls("#flaws")}, till: laid},
		{name: "cloth-short", do: []act{taps("#flaw-gone-0"), taps("#cloth-more"), writes("cloth-main-width", "60"), writes("cloth-main-length", "1")}, till: laid + ` && document.querySelector("#lay-verdict").textContent.includes("short by")`},
		{name: "chalk", at: "chalk", do: []act{waits(`document.querySelector("#mark-next")`), taps("#mark-next")}, till: `document.querySelector("#mark-place")?.textContent.includes(" 2 of ")`, all: true},
		{name: "chalk-list", do: []act{presses("List")}, till: `document.querySelector("#marks")`},
		{name: "bench", at: "bench", till: stands, all: true},
		{name: "fitting", at: "fitting", till: stands, all: true},
		{name: "share", at: "share", till: stands, all: true},
		{name: "share-print", do: []act{taps("#pieces-printed"), presses("Waistband"), taps("#pieces-printed"), taps("#printer"), writes("printer-name", "Stall"), writes("printer-across", "99.6 mm"), writes("printer-along", "100.2 mm"), taps("#printer-check"), waits(`!document.querySelector("#printer-told").hidden`), writes("printer-across", "94 mm"), writes("printer-along", "94 mm"), taps("#printer-check"), scrolls("#printer-name")}, till: `!document.querySelector("#printer-bad").hidden`},
		{name: "share-link", do: []act{taps("#tick-measurements"), taps("#link-code"), scrolls("#link-holds")}, till: `document.querySelector("#code svg")`, all: true},
		{name: "share-look", do: []act{pastes("paste-draft", sentDraft)}, till: `document.querySelectorAll("#looking svg").length === 2`, all: true},
		{name: "share-look-refused", do: []act{pastes("paste-draft", sentDraft[:40])}, till: `document.querySelector("#look .note-stop")`},
		{name: "house", at: "house", till: stands, all: true},
		{name: "help", at: "draft", do: []act{taps("#how")}, till: `document.querySelector("#help svg")`},
		{name: "photo", at: "fitting", do: []act{photographs, taps("#photos-fitting .photo")}, till: `document.querySelector(".photo-page .paper image")?.getAttribute("href").length > 5000`},
		{name: "lesson", do: []act{taps("#photo-close"), goesBeside("lesson"), presses("Begin: Alto 3")}, till: `document.querySelector("#lesson-answer")`},
		{name: "book", at: "book", do: []act{saved()}, till: tickets + ` !== ""`, all: true},
		{name: "book-late", do: []act{taps("#details"), presses("Today"), presses("A day earlier"), scrolls("#due")}, till: `document.querySelector("#open-job .late")?.textContent === "1 day late"`},
		{name: "client", do: []act{writes("job-client", "Choir"), presses("New client: Choir"), taps("#look")}, till: `document.querySelector("#client #takings")`},
		{name: "book-clients", do: []act{presses("All clients"), saved()}, till: `document.querySelector("#clients .job")`},
		{name: "book-sure", do: []act{presses("New job"), writes("ticket", "Bass 1"), saved(), goes("book"), presses("Jobs"), taps("#details"), presses("Delete this job"), scrolls("#delete-job")}, till: `document.querySelector("#delete-job").textContent.startsWith("Yes")`},
		{name: "book-deleted", do: []act{presses("Yes, delete it"), presses("Deleted")}, till: deletedNow + ` === "Bass 1"`},
		{name: "book-backup", do: []act{scrolls("#keep")}, till: `document.querySelector("#nudge:not([hidden])")`},
		{name: "order", do: []act{presses("Jobs"), taps("#details[aria-expanded=false]"), presses("Begin an order with it"), taps("#needed-open")}, till: `document.querySelector("#order-name") && document.querySelector("#needed [data-tick=thread]")`},
		{name: "elsewhere", at: "tape", do: []act{waits(ticketText + ` === "Alto 3"`), elsewhere}, till: `document.querySelector(".warnings").textContent.includes("another window")`},
		{name: "update", do: []act{presses("The other window's"), updated}, till: `document.querySelector(".warnings").textContent.includes("newer Chalkfold")`},
		{name: "stopped", do: []act{stopsProgram}, till: `document.querySelector("#stopped-fault")`},
	}
}

// sentDraft is a link that somebody sent: the sample, with its measurements.
const sentDraft = "https://stall.example/#draft=x18BAgIdEgwTMEFsdG8gMw4BFCkVHRYZF0QAGB0igiIkgiolghkmwg8wgigAGQkaERsdQMkIPHkAHB0dHUSCAQAeHUcINgAAAOPAChw"

// pastes puts a text into a field at once.
func pastes(id, text string) act {
	return func(on *tour) {
		on.tab.Until("document.getElementById(" + quoted(id) + ")")
		browser.Eval[any](on.tab, "((e) => { e.value = "+quoted(text)+"; e.dispatchEvent(new Event(\"input\", {bubbles: true})) })(document.getElementById("+quoted(id)+"))")
	}
}

// goes turns to a stage by the address.
func goes(stage string) act {
	return func(on *tour) {
		browser.Eval[any](on.tab, `void (location.hash = "#`+stage+`")`)
		on.tab.Until(`document.querySelector("main .stage") && document.querySelector('[data-stage="` + stage + `"][aria-current]')`)
	}
}

// goesBeside turns to a screen that is no stage of the list.
func goesBeside(stage string) act {
	return func(on *tour) {
		browser.Eval[any](on.tab, `void (location.hash = "#`+stage+`")`)
		on.tab.Until(`document.querySelector("main .stage") && document.querySelector("#how")?.dataset.of === "` + stage + `"`)
	}
}

// photographs hands a photo to the fitting.
func photographs(on *tour) {
	file := filepath.Join(on.t.TempDir(), "IMG_1.jpg")
	if err := os.WriteFile(file, fromCamera(on.t, 800, 600), 0o600); err != nil {
		on.t.Fatal(err)
	}
	photograph(on.tab, "fitting", file, photosShown("fitting", "1"))
}

// holdsProgram opens the page on a line so slow that the program does not come.
func holdsProgram(on *tour) {
	held := make(chan struct{})
	on.release = sync.OnceFunc(func() { close(held) })
	on.t.Cleanup(on.release)
	on.s.instead("/app.wasm", func(http.ResponseWriter, *http.Request) { <-held })
	on.tab.Goto(on.s.url("/?held"))
}

// losesProgram opens the page on a line that breaks off.
func losesProgram(on *tour) {
	on.s.instead("/app.wasm", func(w http.ResponseWriter, _ *http.Request) {
		http.Error(w, "the line is broken", http.StatusServiceUnavailable)
	})
	on.release()
	on.tab.Goto(on.s.url("/?lost"))
	on.tab.Until(mayRetry + ` && ` + firstSays + `.includes("could not be fetched")`)
	on.s.put(builtPage(on.t))
}

// stopsProgram has the program run into a fault.
func stopsProgram(on *tour) {
	browser.Eval[any](on.tab, `void setTimeout(() => {
		chalkfold.files = () => { throw new Error("a fault for the test") };
		dispatchEvent(new Event("chalkfold-files"));
	})`)
}

// afresh lets go of what the last stop has left: the focus, and what was
// scrolled.
const afresh = `void (document.activeElement?.blur(), scrollTo(0, 0), document.querySelectorAll("main *").forEach((e) => e.scrollTo(0, 0)))`

// walk makes the tour, and calls at each stop.
func walk(t *testing.T, look func(on *tour, st stop)) {
	t.Helper()
	on := &tour{t: t, b: browser.Open(t, ""), s: openStall(t)}
	on.tab = on.b.Tab()
	if os.Getenv("CHALKFOLD_SCREENS") == "" { // what is pictured is laid well
		on.tab.Before(laysQuickly)
	}
	on.tab.On(browser.Screens()[0])
	on.tab.Calm()
	for _, st := range stops() {
		browser.Eval[any](on.tab, afresh)
		if st.at != "" {
			goes(st.at)(on)
		}
		for _, do := range st.do {
			do(on)
		}
		// What was done last may still be on its way to the page.
		for so := false; !so; so = browser.Eval[bool](on.tab, `!!(`+st.till+`)`) {
			on.tab.Until(st.till)
			on.tab.Still()
		}
		look(on, st)
	}
}
