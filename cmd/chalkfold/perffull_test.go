package main

import (
	"fmt"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// What a full Book has.
const (
	fullClients = 1000
	fullJobs    = 5000
	fullPhotos  = 500
)

// fill puts a full Book beside the job that is kept, in the layout of the store: jobs
// made like that one, four in ten of them due, for clients; photos of 150 kB, a few
// jobs with several. The names are made of the words of a market.
const fill = `async (clients, jobs, photos) => {
	const ask = (r) => new Promise((done, failed) => { r.onsuccess = () => done(r.result); r.onerror = () => failed(r.error); });
	const db = await ask(indexedDB.open("chalkfold"));
	const put = async (store, entries) => {
		for (let i = 0; i < entries.length; i += 250) {
			const tx = db.transaction(store, "readwrite");
			for (const [value, key] of entries.slice(i, i + 250)) tx.objectStore(store).put(value, key);
			await new Promise((done, failed) => { tx.oncomplete = done; tx.onabort = () => failed(tx.error); });
		}
	};
	const all = await ask(db.transaction("records").objectStore("records").getAll());
	const like = new TextDecoder().decode(all.find((r) => r.kind === "job").data);
	const one = JSON.parse(like);
	const bytes = (value) => new TextEncoder().encode(JSON.stringify(value));
	const record = (kind, id, value, updated) => [{ kind, id, rev: 1, updated, data: bytes(value) }, [kind, id]];
	const words = ["Adire", "Bazin", "Kente", "Faso", "Indigo", "Calico", "Denim", "Gabardine", "Ọjọ́", "Élégance", "Poplin", "Serge"];
	const now = Date.now(), day = 86_400_000;
	const on = (ms) => new Date(ms).toISOString().slice(0, 10);
	const id = (head, i) => head + String(i).padStart(31, "0");
	const records = [];
	for (let i = 0; i < clients; i++) {
		const name = words[i % words.length] + " " + words[Math.floor(i / words.length) % words.length] + " " + i;
		records.push(record("client", id("c", i), { version: 2, name, note: "by the bridge", figure: "women" }, now - i));
	}
	for (let i = 0; i < jobs; i++) {
		const { version, head, ...rest } = one;
		const due = i % 10 < 4 ? { due: on(now + ((i % 60) - 5) * day) } : { reached: { cut: "2026-01-02", sewn: "2026-01-03", fitted: "2026-01-04" } };
		const ticket = words[i % words.length] + " " + i;
		records.push(record("job", id("a", i), { version, head: { ...head, ticket, client: id("c", i % clients), ...due }, ...rest, job: { ...rest.job, name: ticket } }, now - 1000 - i * 60_000));
	}
	const noise = new Uint8Array(150_000);
	for (let i = 0; i < noise.length; i++) noise[i] = 256 * Math.random();
	const small = btoa(Array.from(noise.subarray(0, 4000), (b) => String.fromCharCode(b)).join(""));
	const blobs = [];
	for (let i = 0; i < photos; i++) {
		const picture = id("d", i);
		records.push(record("photo", id("e", i), { version: 1, job: id("a", (i * 7) % jobs), of: i % 2 ? "cloth" : "fitting", on: on(now - i * day), picture, size: noise.length, wide: 1280, high: 960, small }, now - i));
		blobs.push([noise.slice(), picture]);
	}
	await put("records", records);
	await put("blobs", blobs);
	db.close();
	return (await navigator.storage.estimate()).usage;
}`

// fullBook measures the Book of a maker who has worked with it for years, beside that
// of one who has just begun.
func fullBook(b *testing.B) []reading {
	b.Helper()
	s := openStall(b)
	br := browser.Open(b, "")
	tab := br.Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	// Used for a while, so that the browser keeps the compiled program.
	tab.Goto(s.url("/?again"))
	tab.Until(readyOffline)
	browser.Eval[float64](tab, stretch+"(300)")
	tab.Until(savedAs("Alto 3"))
	tab.Close()

	var out []reading
	opened := func(what string, budget float64, shown string) {
		stands := reading{what: "interactive, " + what + ", 4×", budget: budget, unit: "ms"}
		listed := reading{what: "  and the list is shown", unit: "ms"}
		for range perfRuns {
			tab := probed(br, 4)
			times{"stands": &stands}.taken(tab, s.url("/?later"))
			tab.Until(shown)
			listed.got = append(listed.got, browser.Eval[float64](tab, `performance.now()`))
			tab.Close()
		}
		out = append(out, stands, listed)
		b.Log(stands.row(), listed.row())
	}
	opened("opened again with one job", 0, `document.querySelector("#open-job:not([hidden])")`)

	tab = br.Tab()
	tab.Goto(s.url("/icon.svg"))
	b.Logf("filled: %.0f MB", browser.Eval[float64](tab, fmt.Sprintf("(%s)(%d, %d, %d)", fill, fullClients, fullJobs, fullPhotos))/1e6)
	tab.Close()
	const listed = `document.querySelectorAll("#jobs .job").length >= 20`
	opened("opened again with a full Book", 0, listed)

	tab = probed(br, 1)
	tab.Goto(s.url("/"))
	tab.Until(listed)
	tab.Until(`document.querySelector("#photos-used")?.textContent.startsWith("` + fmt.Sprint(fullPhotos) + ` photos")`)
	tab.Slow(4)
	measured := func(what string, do func(run int)) {
		worst := reading{what: "slowest answer, full Book, " + what + ", 4×", budget: 100, unit: "ms"}
		longest := reading{what: "  longest task meanwhile", unit: "ms"}
		for run := range perfRuns {
			time.Sleep(500 * time.Millisecond)
			browser.Eval[any](tab, `void (probe.interactions.clear(), probe.tasks.length = 0)`)
			do(run)
			time.Sleep(700 * time.Millisecond)
			worst.got = append(worst.got, browser.Eval[float64](tab, `Math.max(16, ...probe.interactions.values())`))
			longest.got = append(longest.got, browser.Eval[float64](tab, `Math.max(0, ...probe.tasks)`))
		}
		out = append(out, worst, longest)
		b.Log(worst.row())
	}
	measured("a search typed", func(run int) { typeSlowly(tab, "search", fmt.Sprintf("elegance %d", 4+run)) })
	browser.Eval[any](tab, `void (document.getElementById("search").focus(), document.getElementById("search").select())`)
	tab.Do(chromedp.KeyEvent("\b"))
	tab.Until(value("search") + ` === "" && ` + listed)
	measured("more of the list", func(int) {
		browser.Eval[any](tab, `document.querySelector("#book-more").scrollIntoView({ block: "center" })`)
		time.Sleep(200 * time.Millisecond)
		fingers(tab, `[document.querySelector("#book-more")]`, 0)
	})
	measured("clients and jobs in turn", func(int) {
		browser.Eval[any](tab, `window.scrollTo(0, 0)`)
		for i := range 4 {
			fingers(tab, `[...document.querySelectorAll("#book-views .view")].slice(0, 2)`, i+1)
			time.Sleep(400 * time.Millisecond)
		}
	})
	frames := reading{what: "longest frame while the list is scrolled, full Book, 4×", budget: 100, unit: "ms"}
	for range perfRuns {
		browser.Eval[any](tab, `window.scrollTo(0, 0)`)
		frames.got = append(frames.got, browser.Eval[float64](tab, `new Promise((done) => {
			let longest = 0, last = performance.now(), n = 0;
			const frame = (now) => {
				longest = Math.max(longest, now - last);
				last = now;
				scrollBy(0, 120);
				if (n++ < 60) requestAnimationFrame(frame); else done(longest);
			};
			requestAnimationFrame((now) => { last = now; frame(now); });
		})`))
	}
	out = append(out, frames)
	measured("a ticket typed", func(run int) {
		if run == 0 {
			browser.Eval[any](tab, `window.scrollTo(0, 0)`)
			tap(tab, "#details")
			tab.Until(`document.querySelector("#job-ticket")`)
		}
		typeSlowly(tab, "job-ticket", fmt.Sprintf("Alto %d", run))
	})
	return out
}
