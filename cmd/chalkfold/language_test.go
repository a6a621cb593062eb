package main

import (
	"context"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"chalkfold/static/words"
	"chalkfold/wasm/browser"
	"chalkfold/wasm/browser/audit"
)

// speaksFrench opens a tab whose browser is set to French.
func speaksFrench(t *testing.T) *browser.Tab {
	t.Helper()
	tab := browser.Open(t, "").Tab()
	tab.Do(func(ctx context.Context, _ *chromedp.Target) (chromedp.Void, error) {
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
			Source: `Object.defineProperty(navigator, "language", {value: "fr-SN"})`,
		})
		return chromedp.Void{}, err
	})
	return tab
}

// TestFrench opens the page in a browser that speaks French, with a network and
// then without: its first words and the draft are told in French.
func TestFrench(t *testing.T) {
	s := openStall(t)
	fr, err := words.Of("fr")
	if err != nil {
		t.Fatal(err)
	}
	tab := speaksFrench(t)
	inFrench := `document.documentElement.lang === "fr" && document.querySelector(".bar")?.textContent.includes("` + fr.T("Book") + `")`
	built, list := builtPage(t)
	s.instead("/app.wasm", func(w http.ResponseWriter, _ *http.Request) { http.Error(w, "none", http.StatusServiceUnavailable) })
	tab.Goto(s.url("/"))
	tab.Until(mayRetry + ` && ` + firstSays + `.includes("n'a pas pu être reçu")`)
	shot(t, tab, "french-first")
	s.put(built, list)
	tap(tab, "#first-again")
	tab.Until(inFrench)
	press(tab, fr.T("Open the sample"))
	tab.Until(`document.querySelector("#verdict")`)
	tap(tab, "#fine")
	told := func() string {
		tab.Until(`document.querySelectorAll(".finding").length > 9`)
		return browser.Eval[string](tab, `[...document.querySelectorAll(".finding")].map((f) => f.textContent).join("\n")`)
	}
	for _, want := range []string{fr.F("%s girth", fr.T("hip")), fr.T("both sides of the seam agree")} {
		if got := told(); !strings.Contains(strings.ToLower(got), want) {
			t.Errorf("the findings lack %q:\n%s", want, got)
		}
	}
	shot(t, tab, "french")
	tab.Until(`window.chalkfold && (({have, want}) => have === want && want > 0)(JSON.parse(window.chalkfold.files()))`)
	s.shut()
	tab.Goto(s.url("/"))
	tab.Until(inFrench)
	if fault := browser.Eval[string](tab, `document.body.textContent`); strings.Contains(fault, "stays in English") {
		t.Error("without a network the words do not come")
	}
}

// TestLanguageChosen chooses French in a browser of another language. Its words are
// kept from then on, by the next version as well; before, they were not.
func TestLanguageChosen(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	tab.Goto(s.url("/#book"))
	tab.Until(readyOffline)
	keeps := func(version string) string {
		return `caches.open("chalkfold-` + version + `").then((c) => c.match("/words/fr.txt")).then(Boolean)`
	}
	built, list := builtPage(t)
	if browser.Eval[bool](tab, keeps(list.Version)) {
		t.Error("words are kept that nobody speaks")
	}
	speaksFrench := `document.documentElement.lang === "fr" && document.querySelector(".bar")?.textContent.includes("Carnet")`
	browser.Eval[any](tab, `[...document.querySelectorAll("#choose-language button")].find((b) => b.textContent === "français").click()`)
	tab.Until(speaksFrench)
	waitFor(t, tab, keeps(list.Version))

	nextBuilt, nextList := nextVersion(t, built, list)
	s.put(nextBuilt, nextList)
	if fault := browser.Eval[string](tab, lookForUpdate); fault != "" {
		t.Fatal(fault)
	}
	waitFor(t, tab, updateWaits)
	if !browser.Eval[bool](tab, keeps(nextList.Version)) {
		t.Error("the next version has let go of the words that are spoken")
	}
	s.shut()
	tab.Goto(s.url("/?again#book"))
	tab.Until(speaksFrench)
	noProblems(t, tab)
}

// TestFrenchFits looks at every stage in French, whose words are longer, without
// a job and with the sample.
func TestFrenchFits(t *testing.T) {
	t.Parallel()
	fr, err := words.Of("fr")
	if err != nil {
		t.Fatal(err)
	}
	tab := speaksFrench(t)
	look := audit.Of(t, tab)
	tab.Goto(openStall(t).url("/#tape"))
	tab.Until(deskStands)
	every := func(job string) {
		for _, stage := range []string{"tape", "style", "draft", "cloth", "chalk", "bench", "fitting", "share", "house", "book"} {
			turnTo(tab, stage)
			tab.Still()
			for _, f := range look.Look() {
				t.Errorf("%s, %s: %s", stage, job, f)
			}
			if dir := os.Getenv("CHALKFOLD_SHOTS"); dir != "" {
				tab.Shot(filepath.Join(dir, "french-"+stage+"-"+job+".png"), true)
			}
		}
	}
	every("empty")
	press(tab, fr.T("Open the sample"))
	tab.Until(`document.querySelector("h1").textContent === "Alto 3" && document.querySelector("#saving").textContent === "` + fr.T("Saved") + `"`)
	every("sample")
}
