package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// openRaw opens the page's records as another version of it would, and holds
// them as window.held. It says whether it got them.
func openRaw(version string) string {
	return `new Promise((done) => {
		const open = indexedDB.open("chalkfold", ` + version + `);
		open.onupgradeneeded = () => {
			if (!open.result.objectStoreNames.contains("records")) open.result.createObjectStore("records");
		};
		open.onsuccess = () => { window.held = open.result; done(true); };
		open.onerror = open.onblocked = () => done(false);
	})`
}

// rawJobs are the bytes of the kept jobs by id, as the browser has them.
const rawJobs = `new Promise((done) => {
	const open = indexedDB.open("chalkfold");
	open.onsuccess = () => {
		const all = open.result.transaction("records").objectStore("records").getAll();
		all.onsuccess = () => {
			open.result.close();
			done(Object.fromEntries(all.result.filter((r) => r.kind === "job" && !r.deleted)
				.map((r) => [r.id, new TextDecoder().decode(r.data)])));
		};
	};
})`

// putRaw puts a value in JavaScript under the key of a job.
func putRaw(t *testing.T, tab *browser.Tab, id, value string) {
	t.Helper()
	if !browser.Eval[bool](tab, `new Promise((done) => {
		const open = indexedDB.open("chalkfold");
		open.onsuccess = () => {
			const tx = open.result.transaction("records", "readwrite", { durability: "strict" });
			tx.objectStore("records").put(`+value+`, ["job", "`+id+`"]);
			tx.oncomplete = () => { open.result.close(); done(true); };
			tx.onabort = () => done(false);
		};
	})`) {
		t.Fatalf("%s was not put", id)
	}
}

func harmed(words string) string {
	return `document.querySelector("#harm")?.textContent.includes("` + words + `")`
}

// TestOlderWindowHolds: a window of an older version that does not let go is
// waited for, in words; the page goes on by itself.
func TestOlderWindowHolds(t *testing.T) {
	s := openStall(t)
	b := browser.Open(t, "")
	older, tab := b.Tab(), b.Tab()
	older.Goto(s.url("/icon.svg"))
	if !browser.Eval[bool](older, openRaw("1")) {
		t.Fatal("the older window did not get the records")
	}
	tab.Goto(s.url("/#tape"))
	tab.Until(harmed("An older Chalkfold is open in another window"))
	fits(t, tab, "harm-older")
	browser.Eval[any](older, `held.close()`)
	tab.Until(deskStands + ` && !document.querySelector("#harm")`)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"))
	tab.Until(savedAs("Alto 3"))
	noProblems(t, tab)
}

// TestNewerWindowTakes: a newer version gets the records at once; this one says
// so, and what is typed in it after that is not lost.
func TestNewerWindowTakes(t *testing.T) {
	s := openStall(t)
	b := browser.Open(t, "")
	tab, newer := b.Tab(), b.Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"))
	tab.Until(savedAs("Alto 3"))
	newer.Goto(s.url("/icon.svg"))
	if !browser.Eval[bool](newer, openRaw("99")) {
		t.Fatal("the page did not let go of its records")
	}
	tab.Until(harmed("A newer Chalkfold is open in another window"))
	retype(tab, "ticket", "Alto 4")
	tab.Until(harmed("What you changed last is not saved"))
	fits(t, tab, "harm-newer")
	if file := saveBackup(t, tab); !bytes.Contains(file, []byte("Alto 4")) {
		t.Errorf("the change is not in the backup file:\n%s", file)
	}
	press(tab, "Reload")
	tab.Until(harmed("The records on this device are of a newer Chalkfold"))
	fits(t, tab, "harm-too-new")
	if got := browser.Eval[map[string]string](newer, rawJobs); len(got) != 1 {
		t.Errorf("the newer version has %d jobs, want 1", len(got))
	}
}

// TestFull fills the room that the browser allows: nothing typed is lost, and
// it is saved as soon as there is room.
func TestFull(t *testing.T) {
	s := openStall(t)
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"))
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	b.Close() // it remembers for a while how much room there was

	tab = browser.Open(t, profile).Tab()
	none := 1.0
	tab.Goto(s.url("/icon.svg"))
	allow(tab, s, &none)
	tab.Goto(s.url("/#tape"))
	tab.Until(ticketText + ` === "Alto 3"`)
	retype(tab, "ticket", "Alto 4")
	tab.Until(`document.querySelector("#unsaved")?.textContent.includes("There is no room left on this device")`)
	tab.Until(`document.querySelector("#saving").textContent === "Not saved"`)
	fits(t, tab, "full")
	if file := saveBackup(t, tab); !bytes.Contains(file, []byte("Alto 4")) {
		t.Errorf("the change is not in the backup file:\n%s", file)
	}
	press(tab, "Try again") // there still is none
	tab.Until(`document.querySelector("#unsaved")`)
	allow(tab, s, nil)
	// Pressed again and again: the try before may still be under way.
	tab.Until(`(document.querySelector("#unsaved button")?.click(), ` + savedAs("Alto 4") + ` && !document.querySelector("#unsaved"))`)
	tab.Goto(s.url("/?again#tape"))
	tab.Until(ticketText + ` === "Alto 4"`)
}

// TestGarbage puts garbage among the jobs: it is shown as such, hides none of
// the others, and survives a backup byte for byte.
func TestGarbage(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	sampleAnd(tab, s, "Bass 1")
	putRaw(t, tab, "torn", `{ kind: "job", id: "torn", rev: 1, updated: 1, data: new Uint8Array([123, 255, 0]) }`)
	putRaw(t, tab, "text", `"not even a record"`)
	tab.Goto(s.url("/?garbage#book"))
	unreadable := tickets + `.split(",").filter((name) => name === "Cannot be read").length`
	tab.Until(unreadable + ` === 2 && ` + tickets + `.split(",").length === 4`)
	tab.Until(`!document.querySelector("#raw").hidden`)
	browser.Eval[any](tab, `document.querySelector("#raw").scrollIntoView({ block: "center" })`)
	fits(t, tab, "garbage")
	file := saveBackup(t, tab)
	copied := string(savedFile(t, tab, "Save a copy as they are", "chalkfold-copy-"+time.Now().UTC().Format("2006-01-02")+".json"))
	for _, want := range []string{"not even a record", "Alto 3", "Bass 1", `{"base64":"e/8A"}`} {
		if !strings.Contains(copied, want) {
			t.Errorf("%q is not in the copy of what is kept", want)
		}
	}

	wipe(tab)
	tab.Goto(s.url("/?wiped#book"))
	tab.Until(`document.querySelector("#keep") && ` + tickets + ` === ""`)
	name := filepath.Join(t.TempDir(), "backup.json")
	if err := os.WriteFile(name, file, 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.ID("backup-file"), []string{name}))
	tab.Until(`document.querySelector("#found:not([hidden])")?.textContent.includes("Cannot be read by this version: 2.")`)
	press(tab, "Merge")
	tab.Until(unreadable + ` === 2 && ` + tickets + `.split(",").length === 4`)
	if again := saveBackup(t, tab); !bytes.Equal(again, file) {
		t.Errorf("a backup of what was restored is\n%s\nwas\n%s", again, file)
	}
	noProblems(t, tab)
}

// TestLostValues takes a value from under the browser, as a failing card does:
// the other jobs open.
func TestLostValues(t *testing.T) {
	s := openStall(t)
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	sampleAnd(tab, s, "Bass 1")
	// A value that is large and cannot be pressed has a file of its own.
	putRaw(t, tab, "large", `{ kind: "job", id: "large", rev: 1, updated: 1, data: new Uint8Array(400_000).map(() => 256 * Math.random()) }`)
	b.Close()
	lost, err := filepath.Glob(filepath.Join(profile, "*", "IndexedDB", "*.blob", "*", "*", "*"))
	if err != nil || len(lost) == 0 {
		t.Fatalf("the browser keeps large values elsewhere: %q, %v", lost, err)
	}
	for _, name := range lost {
		if err := os.Remove(name); err != nil {
			t.Fatal(err)
		}
	}
	tab = browser.Open(t, profile).Tab()
	tab.Goto(s.url("/#book"))
	tab.Until(tickets + `.split(",").sort().join() === "Alto 3,Bass 1,Cannot be read"`)
	shot(t, tab, "lost")
}

// TestForeignRecords: what cannot be opened stays; others are begun beside it,
// and a backup restored into them.
func TestForeignRecords(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/icon.svg"))
	browser.Eval[bool](tab, `new Promise((done) => {
		const open = indexedDB.open("chalkfold", 2);
		open.onupgradeneeded = () => open.result.createObjectStore("else").put("another's", 1);
		open.onsuccess = () => { open.result.close(); done(true); };
	})`)
	tab.Goto(s.url("/#book"))
	tab.Until(harmed("The records on this device cannot be opened"))
	fits(t, tab, "harm-damaged")
	name := "chalkfold-copy-" + time.Now().UTC().Format("2006-01-02") + ".json"
	if copied := savedFile(t, tab, "Save a copy as they are", name); !bytes.Contains(copied, []byte("another's")) {
		t.Errorf("the copy has\n%s", copied)
	}
	press(tab, "Open the sample") // the page works meanwhile
	tab.Until(`document.querySelector("h1").textContent === "Alto 3" && document.querySelector("#saving").textContent === "Not saved"`)
	tab.Goto(s.url("/?again#book"))
	tab.Until(harmed("cannot be opened"))
	press(tab, "Start new records")
	tab.Until(`!document.querySelector("#harm") && document.querySelector("#raw:not([hidden])")?.textContent.includes("stand beside these")`)
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Goto(s.url("/?later#book"))
	tab.Until(tickets + ` === "Alto 3"`)
	if left := browser.Eval[string](tab, `new Promise((done) => {
		const open = indexedDB.open("chalkfold");
		open.onsuccess = () => open.result.transaction("else").objectStore("else").get(1).onsuccess = (e) => done(e.target.result);
	})`); left != "another's" {
		t.Errorf("what could not be opened is now %q", left)
	}
}

// TestHomeScreen: the place on the home screen is offered once a job is
// drafted, and not again when it was declined.
func TestHomeScreen(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	offered := `document.querySelector("#install:not([hidden])")`
	tab.Goto(s.url("/#new"))
	tab.Until(deskStands) // the shortcut to a new job
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), "Bass 1"))
	tab.Until(savedAs("Bass 1"))
	turnTo(tab, "book")
	tab.Until(tickets + ` === "Bass 1"`)
	if browser.Eval[bool](tab, `!!`+offered) {
		t.Error("offered before a job is drafted")
	}
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	tab.Until(offered)
	fits(t, tab, "install")
	press(tab, "Not now")
	tab.Until(`!` + offered)
	tab.Goto(s.url("/?again#book"))
	tab.Until(tickets + ` === "Alto 3,Bass 1"`)
	if browser.Eval[bool](tab, `!!`+offered) {
		t.Error("offered again after it was declined")
	}
	tab.Until(`/^\d+ MB used of the .+ that the browser allows$/.test(document.querySelector("#used").textContent)`)
	tab.Goto(s.url("/?shortcut#new"))
	tab.Until(deskStands + ` && ` + ticketText + ` === ""`)
	noProblems(t, tab)
}

// TestWholeStory is a job from its first keystroke to its return after the
// phone was wiped, most of it without a network.
func TestWholeStory(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#new"))
	tab.Until(deskStands)
	tab.Do(
		chromedp.SendKeys(chromedp.ID("ticket"), "Alto 3"),
		chromedp.SendKeys(chromedp.ID("waist_girth"), "34"),
		chromedp.SendKeys(chromedp.ID("hip_girth"), "42"),
		chromedp.SendKeys(chromedp.ID("outside_leg_length"), "40"),
	)
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	s.shut()
	turnTo(tab, "style")
	press(tab, "as it is spoken")
	turnTo(tab, "draft")
	tab.Until(`document.querySelector(".drawing svg")`)
	turnTo(tab, "chalk")
	tab.Until(`document.querySelector(".guide, #mark, .mark")`)
	for mark := 2; mark <= 4; mark++ {
		press(tab, "Next")
		tab.Until(fmt.Sprintf(`document.querySelector("#mark-place").textContent.includes(" %d of ")`, mark))
	}
	tab.Until(savedAs("Alto 3"))
	place := browser.Eval[string](tab, `document.querySelector("main").innerText`)
	tab.Goto(s.url("/?reload#chalk"))
	tab.Until(`document.querySelector("main").innerText === ` + quoted(place))
	was := browser.Eval[map[string]string](tab, rawJobs)
	if len(was) != 1 {
		t.Fatalf("%d jobs are kept, want 1", len(was))
	}
	turnTo(tab, "book")
	file := saveBackup(t, tab)
	wipe(tab)
	tab.Goto(s.url("/?wiped#book"))
	tab.Until(`document.querySelector("#keep") && ` + tickets + ` === ""`)
	name := filepath.Join(t.TempDir(), "backup.json")
	if err := os.WriteFile(name, file, 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.ID("backup-file"), []string{name}))
	press(tab, "Merge")
	tab.Until(tickets + ` === "Alto 3"`)
	now := browser.Eval[map[string]string](tab, rawJobs)
	for id, job := range was {
		if now[id] != job {
			t.Errorf("the job came back as\n%s\nwas\n%s", now[id], job)
		}
	}
	tab.Goto(s.url("/?restored#chalk"))
	tab.Until(`document.querySelector("main").innerText === ` + quoted(place))
	noProblems(t, tab)
}

// fits measures the screen, and keeps a picture of it.
func fits(t *testing.T, tab *browser.Tab, name string) {
	t.Helper()
	for _, f := range illFitting(tab) {
		t.Errorf("%s: %s", name, f)
	}
	shot(t, tab, name)
}

// allow lets the page keep so many bytes; nil is what the browser allows by itself.
func allow(tab *browser.Tab, s *stall, bytes *float64) {
	tab.Do(func(ctx context.Context, _ *chromedp.Target) (chromedp.Void, error) {
		_, err := chromedp.Call(ctx, storage.OverrideQuotaForOrigin, storage.OverrideQuotaForOriginParams{Origin: s.url(""), QuotaSize: bytes})
		return chromedp.Void{}, err
	})
}
