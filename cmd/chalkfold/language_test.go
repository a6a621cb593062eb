package main

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"chalkfold/static/words"
	"chalkfold/wasm/browser"
)

// TestFrench opens the page in a browser that speaks French, with a network and
// then without, and finds the draft told in it.
func TestFrench(t *testing.T) {
	s := openStall(t)
	fr, err := words.Of("fr")
	if err != nil {
		t.Fatal(err)
	}
	b := browser.Open(t, "")
	tab := b.Tab()
	tab.Do(func(ctx context.Context, _ *chromedp.Target) (chromedp.Void, error) {
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
			Source: `Object.defineProperty(navigator, "language", {value: "fr-SN"})`,
		})
		return chromedp.Void{}, err
	})
	const inFrench = `document.documentElement.lang === "fr"`
	tab.Goto(s.url("/"))
	tab.Until(inFrench)
	sample := []string{"Open the sample", fr.T("Open the sample")}
	tab.Until(`((b) => b && (b.click(), true))([...document.querySelectorAll("button")].find((b) => ["` + strings.Join(sample, `", "`) + `"].includes(b.textContent)))`)
	tab.Until(`document.querySelector("#verdict")`)
	tap(tab, "#fine")
	told := func() string {
		tab.Until(`document.querySelectorAll(".finding").length > 9`)
		return browser.Eval[string](tab, `[...document.querySelectorAll(".finding")].map((f) => f.textContent).join("\n")`)
	}
	for _, want := range []string{fr.F("%s girth", fr.T("hip")), fr.T("both sides of the seam agree")} {
		if got := told(); !strings.Contains(got, want) {
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
