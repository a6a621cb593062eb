//go:build !js

// Package audit looks at a page as it stands in a browser, and tells what
// keeps a hand, an eye, a keyboard or a screen reader from it.
//
// An Audit is taken on a tab. Axe runs the published rules of axe-core; Look,
// Names and Focus are the checks of this project, which asks for more: keys of
// 48 px (WCAG 2.5.8 asks for 24, 2.5.5 for 44), text at 7:1 (1.4.6; 1.4.3 asks
// for 4.5:1), nothing cut off or wider than the screen (1.4.10), each control
// named (4.1.2), reached by the Tab key (2.1.1) with its focus in sight and not
// covered (2.4.7, 2.4.11). Each returns one line for each fault; none is none.
//
// Focus goes through the whole page with the Tab key, which may change what is
// open in it: take it last.
package audit

import (
	_ "embed"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/dom"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"chalkfold/wasm/browser"
)

// axeFile is where make tools puts axe-core, below the root of the repository.
const axeFile = ".build/axe-core-4.14.1/axe.min.js"

// The scripts. Each is the body of a function, with paint.js before it.
var (
	//go:embed paint.js
	paint string
	//go:embed look.js
	look string
	//go:embed focus.js
	focus string
)

// script is a call of what a script is the body of.
func script(body string) string { return "(() => {" + paint + body + "})()" }

// An Audit is of the page that is open in a tab.
type Audit struct {
	tab *browser.Tab
	axe string // the script
}

// Of takes an audit of what a tab shows, now or later. Where axe-core is not
// installed the test is skipped, or fails where the browser is needed.
func Of(t testing.TB, tab *browser.Tab) *Audit {
	t.Helper()
	axe, err := os.ReadFile(filepath.Join(root(t), axeFile))
	if err != nil {
		browser.Skip(t, "axe-core is not installed: run make tools ("+err.Error()+")")
	}
	return &Audit{tab: tab, axe: string(axe)}
}

// root returns the root of the repository.
func root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	for err == nil {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		if dir == filepath.Dir(dir) {
			break
		}
		dir = filepath.Dir(dir)
	}
	t.Fatalf("no go.mod above the folder of the test: run it in the repository (%v)", err)
	return ""
}

// Axe runs the rules of axe-core for WCAG 2.0 to 2.2 at A and AA, and those it
// calls best practice. It is put into the page by the browser's own tools: the
// page's content policy forbids it any other way in.
func (a *Audit) Axe() []string {
	if !browser.Eval[bool](a.tab, `typeof axe === "object"`) {
		browser.Eval[any](a.tab, a.axe+"\n;null")
	}
	return browser.Eval[[]string](a.tab, `axe.run(document, {
		runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"],
		resultTypes: ["violations"],
		preload: false,
	}).then((r) => r.violations.flatMap((v) => v.nodes.map((n) =>
		"axe " + v.id + ": " + n.target.join(" ") + ": " + n.failureSummary.replace(/\s+/g, " "))))`)
}

// Look measures what is shown: targets, contrast, widths, what is cut off.
func (a *Audit) Look() []string { return browser.Eval[[]string](a.tab, script(look)) }

// Names returns the controls that have no name for a screen reader, as the
// browser itself works names out.
func (a *Audit) Names() []string {
	var found []string
	tree := browser.Call(a.tab, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	for _, n := range tree.Nodes {
		if n.Ignored || !slices.Contains(controls(), text(n.Role)) || strings.TrimSpace(text(n.Name)) != "" {
			continue
		}
		d := browser.Call(a.tab, dom.DescribeNode, dom.DescribeNodeParams{BackendNodeID: n.BackendDOMNodeID})
		found = append(found, fmt.Sprintf("no name: %s: <%s %s>", text(n.Role), d.Node.LocalName, strings.Join(d.Node.Attributes, " ")))
	}
	return found
}

// controls are the roles of what can be worked.
func controls() []string {
	return []string{
		"button", "link", "textbox", "searchbox", "checkbox", "radio", "switch", "slider", "spinbutton", "combobox",
		"listbox", "option", "tab", "menuitem", "DisclosureTriangle", "image", "dialog",
	}
}

func text(v *accessibility.Value) string {
	if v == nil {
		return ""
	}
	return strings.Trim(string(v.Value), `"`)
}

// mostKeys is more than the controls of any page here.
const mostKeys = 600

// Focus presses the Tab key through the whole page.
func (a *Audit) Focus() []string {
	browser.Eval[any](a.tab, "window.focusWalk = "+script(focus)+"; null")
	for range mostKeys {
		a.tab.Do(chromedp.KeyEvent(kb.Tab))
		if browser.Eval[bool](a.tab, `focusWalk.step()`) {
			return browser.Eval[[]string](a.tab, `focusWalk.end()`)
		}
	}
	return []string{fmt.Sprintf("focus: not round the page after %d keys", mostKeys)}
}
