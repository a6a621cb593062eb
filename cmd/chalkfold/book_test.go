package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	cdp "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// tickets are those in the book, the open job's first.
const tickets = `[...document.querySelectorAll("#open-job:not([hidden]) .job strong, #jobs .job strong")].map((e) => e.textContent).join()`

// deletedNow are the names of what can be recovered.
const deletedNow = `[...document.querySelectorAll("#deleted .job strong")].map((e) => e.textContent).join()`

// looks turns the book to the jobs, the clients or what was deleted.
func looks(tab *browser.Tab, at string) {
	tap(tab, `#book-views button:nth-child(`+map[string]string{"jobs": "1", "clients": "2", "cloths": "3", "deleted": "4"}[at]+`)`)
	tab.Until(`document.querySelector("#` + at + `")`)
}

// keyOf is the key of that name beside one job.
func keyOf(name, ticket string) string { return `button[aria-label="` + name + ` ` + ticket + `"]` }

// sampleAnd opens the sample and begins a job besides.
func sampleAnd(tab *browser.Tab, s *stall, ticket string) {
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	press(tab, "New job")
	tab.Until(deskStands)
	tab.Do(chromedp.SendKeys(chromedp.ID("ticket"), ticket))
	tab.Until(savedAs(ticket))
	turnTo(tab, "book")
	tab.Until(tickets + ` === "` + ticket + `,Alto 3"`)
}

// TestDeleteAndRecover deletes a job by two taps, finds it under what was
// deleted when the page is opened anew, and recovers it.
func TestDeleteAndRecover(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	sampleAnd(tab, s, "Bass 1")
	shot(t, tab, "book-two")
	tap(tab, ".job:not([aria-current])")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "book")
	tap(tab, "#details[aria-expanded=false]")
	press(tab, "Delete this job")
	browser.Eval[any](tab, `document.querySelector("#delete-job").scrollIntoView({block: "center"})`)
	shot(t, tab, "book-sure")
	for _, f := range illFitting(tab) {
		t.Errorf("the details: %s", f)
	}
	press(tab, "Yes, delete it")
	tab.Until(tickets + ` === "Bass 1" && document.querySelector("h1").textContent === "Bass 1"`)
	looks(tab, "deleted")
	tab.Until(deletedNow + ` === "Alto 3"`)
	shot(t, tab, "book-deleted")
	for _, f := range illFitting(tab) {
		t.Errorf("the book: %s", f)
	}

	tab.Goto(s.url("/?again#book"))
	looks(tab, "deleted")
	tap(tab, keyOf("Recover", "Alto 3"))
	tab.Until(deletedNow + ` === ""`)
	looks(tab, "jobs")
	tab.Until(tickets + ` === "Bass 1,Alto 3"`)
	tab.Until(`document.querySelector("#jobs .state").textContent === "Drafted, may be cut"`)
	tap(tab, ".job:not([aria-current])")
	tab.Until(savedAs("Alto 3"))
	tab.Until(`document.querySelector("#lay-verdict")`) // where the work stands
	turnTo(tab, "tape")
	tab.Until(value("hip_girth") + ` === "42"`)
	noProblems(t, tab)
}

// TestUndoAfterKill changes a job in several ways, ends the browser the hard
// way, and undoes and redoes all of it.
func TestUndoAfterKill(t *testing.T) {
	s := openStall(t)
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	tab.Goto(s.url("/#tape"))
	tab.Until(deskStands)
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "tape")
	tab.Until(`document.querySelector("#undo").disabled && document.querySelector("#redo").disabled`)
	retype(tab, "hip_girth", "44")
	retype(tab, "ticket", "Alto 4")
	turnTo(tab, "style")
	press(tab, "as it is spoken")
	tap(tab, "#group-fork")
	tab.Until(`document.querySelector("#fork_fullness")`)
	fullness := browser.Eval[string](tab, value("fork_fullness"))
	retype(tab, "fork_fullness", "1/8")
	tab.Until(savedAs("Alto 4"))
	b.Kill()

	tab = browser.Open(t, profile).Tab()
	tab.Goto(s.url("/#style"))
	tab.Until(`document.querySelector("#saving")?.textContent === "Saved"`)
	tap(tab, "#group-fork")
	tab.Until(value("fork_fullness") + ` === "1/8"`)
	shot(t, tab, "undo")
	pressed := func(name string) string {
		return `[...document.querySelectorAll("button[aria-pressed=true]")].some((b) => b.textContent === "` + name + `")`
	}
	tap(tab, "#undo:not([disabled])")
	tab.Until(value("fork_fullness") + ` === "` + fullness + `" && ` + pressed("as it is spoken"))
	tap(tab, "#undo")
	tab.Until(pressed("trued") + ` && document.querySelector("h1").textContent === "Alto 4"`)
	tap(tab, "#undo")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "tape")
	tab.Until(value("ticket") + ` === "Alto 3" && ` + value("hip_girth") + ` === "44"`)
	tap(tab, "#undo")
	tab.Until(value("hip_girth") + ` === "42" && document.querySelector("#undo").disabled`)
	for range 4 {
		tap(tab, "#redo:not([disabled])")
	}
	tab.Until(value("hip_girth") + ` === "44" && document.querySelector("#redo").disabled`)
	tab.Until(savedAs("Alto 4"))
	for _, f := range illFitting(tab) {
		t.Errorf("the tape: %s", f)
	}
	noProblems(t, tab)
}

// saveBackup presses the key and waits for the file.
func saveBackup(t *testing.T, tab *browser.Tab) []byte {
	t.Helper()
	return savedFile(t, tab, "Save a backup file", "chalkfold-backup-"+time.Now().Format("2006-01-02")+".json")
}

// savedFile presses a key and waits for the file of that name.
func savedFile(t *testing.T, tab *browser.Tab, key, file string) []byte {
	t.Helper()
	dir := t.TempDir()
	allowDownloads(tab, dir)
	press(tab, key)
	return fileCame(t, filepath.Join(dir, file))
}

// allowDownloads has the browser keep in dir what it saves.
func allowDownloads(tab *browser.Tab, dir string) {
	browser.Call(tab, cdp.SetDownloadBehavior, cdp.SetDownloadBehaviorParams{Behavior: "allow", DownloadPath: dir})
}

// fileCame waits for a file that the browser saves.
func fileCame(t testing.TB, name string) []byte {
	t.Helper()
	for deadline := time.Now().Add(browser.Patience); ; time.Sleep(30 * time.Millisecond) {
		if text, err := os.ReadFile(name); err == nil && len(text) > 0 {
			return text
		}
		if time.Now().After(deadline) {
			there, _ := os.ReadDir(filepath.Dir(name))
			t.Fatalf("%s did not come: %v", name, there)
		}
	}
}

// wipe takes everything from the phone but the page, as a browser does that
// clears an origin. The open page lets go of its records.
func wipe(tab *browser.Tab) {
	browser.Eval[bool](tab, `new Promise((done) => {
		const gone = indexedDB.deleteDatabase("chalkfold");
		gone.onsuccess = () => done(true);
		gone.onerror = gone.onblocked = () => done(false);
	})`)
}

// TestBackup saves a file, loses everything, and restores it: without a
// network, and byte for byte.
func TestBackup(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	sampleAnd(tab, s, "Bass 1")
	tab.Until(readyOffline)
	s.shut()
	tab.Until(`document.querySelector("#nudge:not([hidden])").textContent.startsWith("No backup yet")`)
	file := saveBackup(t, tab)
	tab.Until(`document.querySelector("#told").textContent.startsWith("Handed over") && document.querySelector("#nudge").hidden`)
	browser.Eval[any](tab, `document.querySelector("#keep").scrollIntoView()`)
	shot(t, tab, "backup-saved")
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	whole, half := write("whole.json", file), write("half.json", file[:len(file)/2])
	choose := func(name string) { tab.Do(chromedp.SetUploadFiles(chromedp.ID("backup-file"), []string{name})) }

	wipe(tab)
	tab.Goto(s.url("/?wiped#book"))
	tab.Until(`document.querySelector("#keep") && ` + tickets + ` === ""`)
	choose(half)
	tab.Until(`document.querySelector("#told").textContent.includes("nothing is changed")`)
	shot(t, tab, "backup-refused")
	choose(whole)
	tab.Until(`document.querySelector("#found:not([hidden])")?.textContent.includes("Jobs in the file: 2. New here: 2. Different from here: 0.")`)
	browser.Eval[any](tab, `document.querySelector("#keep").scrollIntoView()`)
	shot(t, tab, "backup-found")
	for _, f := range illFitting(tab) {
		t.Errorf("the book: %s", f)
	}
	press(tab, "Merge")
	tab.Until(tickets + ` === "Bass 1,Alto 3"`)
	if again := saveBackup(t, tab); !bytes.Equal(again, file) {
		t.Errorf("a backup of what was restored is\n%s\nwas\n%s", again, file)
	}

	// A job changed meanwhile: merged, both are there; replaced, it is as it was.
	tap(tab, ".job:not([aria-current])")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "tape")
	retype(tab, "ticket", "Alto 4")
	tab.Until(savedAs("Alto 4"))
	turnTo(tab, "book")
	tab.Until(tickets + ` === "Alto 4,Bass 1"`)
	choose(whole)
	tab.Until(`document.querySelector("#found:not([hidden])")?.textContent.includes("New here: 0. Different from here: 1.")`)
	press(tab, "Merge")
	tab.Until(tickets + ` === "Alto 4,Bass 1,Alto 3 (from backup)"`)
	choose(whole)
	press(tab, "Replace")
	tab.Until(tickets + ` === "Bass 1,Alto 3"`)
	looks(tab, "deleted")
	tab.Until(deletedNow + ` === "Alto 4,Alto 3 (from backup)"`)
	looks(tab, "jobs")
	shot(t, tab, "backup-replaced")
	if again := saveBackup(t, tab); !bytes.Equal(again, file) {
		t.Errorf("a backup of what was put back is\n%s\nwas\n%s", again, file)
	}
	noProblems(t, tab)
}
