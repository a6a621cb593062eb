package main

import (
	"strings"
	"testing"

	"chalkfold/wasm/browser"
)

// scrolledTo brings an element to the top of the screen.
func scrolledTo(tab *browser.Tab, selector string) {
	browser.Eval[any](tab, `document.querySelector("`+selector+`").scrollIntoView({block: "start"})`)
}

// TestDraftTravelsByLink sends the sample from one phone to another, which has no
// network, and keeps it there beside its own work.
func TestDraftTravelsByLink(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "share")
	tab.Until(`document.querySelector("#draft-link").value.includes("#draft=")`)
	scrolledTo(tab, "#share-link")
	shot(t, tab, "link")
	plain := browser.Eval[string](tab, `document.querySelector("#draft-link").value`)
	tap(tab, "#tick-measurements")
	tap(tab, "#tick-ticket")
	tab.Until(`document.querySelector("#link-holds").textContent.includes("the measurements and the ticket.")`)
	sent := browser.Eval[string](tab, `document.querySelector("#draft-link").value`)
	tap(tab, "#link-code")
	tab.Until(`document.querySelector("#code svg")`)
	scrolledTo(tab, "#link-holds")
	shot(t, tab, "link-code")
	noProblems(t, tab)

	other := browser.Open(t, "").Tab()
	other.Goto(s.url("/#tape"))
	other.Until(deskStands)
	other.Until(readyOffline)
	retype(other, "ticket", "Bass 1")
	other.Until(savedAs("Bass 1"))
	s.shut()
	other.Goto(plain)
	other.Until(`document.querySelector("#looking")?.textContent.includes("No measurements are in it")`)
	other.Still()
	shot(t, other, "look-plain")
	other.Goto(sent)
	other.Until(`document.querySelector("#looking h2")?.textContent === "A draft to look at: Alto 3"`)
	other.Until(`document.querySelectorAll("#looking svg").length === 2`)
	other.Still()
	shot(t, other, "look")
	if got := browser.Eval[string](other, `document.querySelector("h1").textContent`); got != "Bass 1" {
		t.Errorf("looking put %s on the desk", got)
	}
	press(other, "Keep it as a new job")
	other.Until(savedAs("Alto 3"))
	other.Until(value("hip_girth") + ` === "42"`)
	turnTo(other, "book")
	other.Until(tickets + `.includes("Bass 1")`)
	noProblems(t, other)
}

// TestLinkStaysHere: no request, to whomever, has any part of what a link
// carries, and no page that is led to from here hears of it.
func TestLinkStaysHere(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	turnTo(tab, "share")
	tap(tab, "#tick-measurements")
	tab.Until(`document.querySelector("#link-holds").textContent.startsWith("In it: rules, style and the measurements")`)
	sent := browser.Eval[string](tab, `document.querySelector("#draft-link").value`)
	_, fragment, _ := strings.Cut(sent, "#")

	other := browser.Open(t, "").Tab()
	other.Goto(sent) // the page itself is fetched under this address
	other.Until(`document.querySelector("#looking")`)
	other.Until(readyOffline)
	other.Goto(s.url("/?again#" + fragment)) // and comes from the worker
	other.Until(`document.querySelector("#looking")`)
	other.Until(readyOffline)
	press(other, "Leave it")
	other.Until(`!document.querySelector("#looking")`)
	browser.Eval[any](other, `fetch("/nowhere")`)
	browser.Eval[any](other, `void (window.before = true, location.href = "/led-to")`)
	other.Until(`!window.before && document.querySelector("h1")`)
	if from := browser.Eval[string](other, `document.referrer`); from != "" {
		t.Errorf("the next page is told of %s", from)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.heard) < 10 {
		t.Fatalf("%d requests were seen", len(s.heard))
	}
	const part = 8
	for _, request := range s.heard {
		for i := 0; i+part <= len(fragment); i++ {
			if strings.Contains(request, fragment[i:i+part]) {
				t.Fatalf("%q of the link is in the request\n%s", fragment[i:i+part], request)
			}
		}
		// The browser looks for a newer worker when it likes, and names the worker itself.
		if from := "Referer: " + s.url("/sw.js"); strings.Contains(strings.ReplaceAll(request, from, ""), "Referer:") {
			t.Errorf("a request tells where it comes from:\n%s", request)
		}
	}
}

// seesCode stands in for a camera and a reader of codes: the camera shows a
// picture that flickers, in which the code is found when the test says so.
const seesCode = `
	navigator.mediaDevices.getUserMedia = async () => {
		const canvas = document.createElement("canvas"), pen = canvas.getContext("2d");
		let n = 0;
		setInterval(() => {
			pen.fillStyle = n++ % 2 ? "#444" : "#555";
			pen.fillRect(0, 0, canvas.width, canvas.height);
		}, 50);
		return (window.borrowed = canvas.captureStream(10));
	};
	window.BarcodeDetector = class {
		async detect() { return window.seen ? [{ rawValue: window.seen }] : []; }
	};`

// TestCodeIsReadByCamera reads a code with the camera where the browser can, and
// offers nothing where it cannot. The camera is let go of.
func TestCodeIsReadByCamera(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Before(`delete window.BarcodeDetector`)
	tab.Goto(s.url("/#share"))
	tab.Until(`document.querySelector("#share-open")`)
	if browser.Eval[bool](tab, `document.querySelector("#scan").offsetParent !== null`) {
		t.Error("a camera is offered that cannot read codes")
	}

	other := browser.Open(t, "").Tab()
	other.Before(seesCode)
	other.Goto(s.url("/#share"))
	const ended = `window.borrowed.getTracks().every((track) => track.readyState === "ended")`
	for _, stop := range []func(){
		func() { tap(other, "#scan-stop") },
		func() { turnTo(other, "tape"); turnTo(other, "share") },
	} {
		tap(other, "#scan")
		other.Until(`window.borrowed && !(` + ended + `)`)
		stop()
		other.Until(ended + ` && document.querySelector("#scan").offsetParent !== null`)
	}
	tap(other, "#scan")
	other.Until(`!document.querySelector("#scan-picture").hidden`)
	scrolledTo(other, "#share-open")
	shot(t, other, "scan")
	browser.Eval[any](other, `void (window.seen = "https://stall.example/#draft=nothing")`)
	other.Until(`document.querySelector("#look").textContent.includes("damaged or cut short")`)
	other.Until(ended)
	noProblems(t, other)
}
