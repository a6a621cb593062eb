//go:build !js

package audit

import (
	"html/template"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"chalkfold/wasm/browser"
)

// soundPage is a page with nothing wrong; a case puts its snippet into it.
const soundPage = `<!doctype html><html lang="en"><head><title>Bench</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<style>
	body { margin: 0; font: 17px/1.4 sans-serif; color: #1c1a15; background: #fbf7ee }
	button, .key { min-width: 48px; min-height: 48px; color: #1c1a15; background: #fffdf8; border: 1px solid #857a63 }
	input { width: 200px; height: 48px; color: #1c1a15; background: #fff; border: 1px solid #857a63 }
	:focus-visible { outline: 3px solid #1d3552 }
	svg text { fill: #1c1a15 }
</style></head>
<body><main><h1>Bench</h1><p>Press the seams <a href="#open">open</a> before the hem.</p>{{.}}</main></body></html>`

// bench shows a snippet on the sound page, on a small phone.
func bench(t *testing.T, tab *browser.Tab, snippet string) {
	t.Helper()
	page := template.Must(template.New("").Parse(soundPage))
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'")
		_ = page.Execute(w, template.HTML(snippet)) //nolint:gosec // the snippets are below
	}))
	defer s.Close()
	tab.Goto(s.URL)
	browser.Eval[any](tab, `document.querySelector(".holds")?.addEventListener("keydown", (e) => e.preventDefault())`)
}

// TestChecks shows every check finding its fault, and nothing else.
func TestChecks(t *testing.T) {
	tab := browser.Open(t, "").Tab()
	tab.On(browser.Screens()[0])
	a := Of(t, tab)
	checks := map[string]func() []string{"axe": a.Axe, "look": a.Look, "names": a.Names, "focus": a.Focus}

	tests := []struct {
		name, snippet string
		check         string
		want          string // in every fault found; empty is none
	}{
		{"axe, sound", `<button>Cut</button>`, "axe", ""},
		{"axe, a key without a name", `<button></button>`, "axe", "button-name"},
		{"axe, a list entry outside a list", `<li>Hem</li>`, "axe", "listitem"},

		{"target, sound", `<button>Cut</button>`, "look", ""},
		{"target, too low", `<button style="min-height: 47px; height: 47px; padding: 0">Cut</button>`, "look", "target: button"},
		{"target, too narrow", `<a class="key" href="#x" style="display: block; width: 40px; min-width: 0">Hem</a>`, "look", "target: a.key"},
		{"target, a box with its label", `<label style="display: block; height: 48px; width: 200px"><input type="checkbox" style="width: 20px; height: 20px"> nap</label>`, "look", ""},
		{"target, a box alone", `<input type="checkbox" aria-label="nap" style="width: 20px; height: 20px">`, "look", "target: input"},
		{"target, a link that is all of its line", `<p><a href="#x">open</a></p>`, "look", "target: a"},

		// #666 on #fbf7ee is 5.4:1, #767676 on white 4.5:1, by the formula of
		// WCAG 2.2.
		{"contrast, too pale", `<p style="color: #666">Press</p>`, "look", "contrast: p"},
		{"contrast, pale by its opacity", `<p style="opacity: 0.6">Press</p>`, "look", "contrast: p"},
		{"contrast, pale by its ground", `<div style="background: rgb(29 53 82 / 60%)"><p>Press</p></div>`, "look", "contrast: p"},
		{"contrast, on a picture", `<div style="background: linear-gradient(#fff, #eee)"><p>Press</p></div>`, "look", "a picture lies behind"},
		{"contrast, not shown", `<p style="color: #666; visibility: hidden">Press</p>`, "look", ""},
		{"contrast, what is typed", `<input aria-label="Waist" value="34" style="color: #767676">`, "look", "what is typed"},
		{"contrast, the hint", `<style>::placeholder { color: #767676 }</style><input aria-label="Waist" placeholder="34">`, "look", "the hint 34"},
		{"contrast, a drawing", `<svg width="200" height="60"><rect width="200" height="60" fill="#fff"/><text x="9" y="40">Front</text></svg>`, "look", ""},
		{"contrast, pale in a drawing", `<svg width="200" height="60"><rect width="200" height="60" fill="#666"/><text x="9" y="40">Front</text></svg>`, "look", "contrast: text"},
		{"contrast, drawn over half of it", `<svg width="90" height="60"><path d="M40 0H90V60H40Z" fill="#1d3552"/><text x="9" y="40">Front panel</text></svg>`, "look", "contrast: text"},
		{"contrast, in a pale colour", `<svg width="200" height="60"><text x="9" y="40" style="fill: #857a63">Front</text></svg>`, "look", "contrast: text"},

		{"wide, a box", `<div style="width: 400px; height: 9px"></div>`, "look", "wider than the screen: div"},
		{"wide, off to the left", `<div style="position: relative; left: -20px">Front</div>`, "look", "wider than the screen: div"},
		{"wide, in a box that scrolls", `<div style="overflow: auto"><div style="width: 400px">Front</div></div>`, "look", ""},

		{"cut off, sideways", `<div style="width: 60px; overflow: hidden; white-space: nowrap">Waistband facing</div>`, "look", "cut off: div"},
		{"cut off, below", `<div style="height: 30px; overflow: hidden">Waistband<br>facing</div>`, "look", "cut off: div"},
		{"cut off, by a box further out", `<div style="height: 30px; overflow: hidden"><p>Waistband</p></div>`, "look", "cut off: p"},
		{"cut off, as is meant", `<div style="width: 60px; overflow: hidden; white-space: nowrap; text-overflow: ellipsis">Waistband facing</div>`, "look", ""},
		{"cut off, for a screen reader alone", `<div style="position: absolute; width: 1px; height: 1px; overflow: hidden">Waistband</div>`, "look", ""},
		{"cut off, out of its key", `<button style="width: 60px; padding: 0; white-space: nowrap">Waistband facing</button>`, "look", "reaches out of its key"},
		{"cut off, a picture in its key", `<button style="height: 48px; width: 48px; padding: 0" aria-label="Undo"><svg width="60" height="24"></svg></button>`, "look", "its picture reaches out"},
		{"cut off, the hint", `<style>::placeholder { color: #1c1a15 }</style><input aria-label="Width" placeholder="as wide as the cloth is between its selvedges">`, "look", "px too long"},

		{"names, sound", `<button aria-label="Undo"></button><label>Waist <input></label>`, "names", ""},
		{"names, a key", `<button id="undo"></button>`, "names", "no name: button: <button id undo>"},
		{"names, a field with a hint alone is named by it", `<input placeholder="34">`, "names", ""},
		{"names, a field", `<input id="waist">`, "names", "no name: textbox"},
		{"names, a drawing", `<div role="img" tabindex="0"></div>`, "names", "no name: image"},

		{"focus, sound", `<button>Cut</button><input aria-label="Waist"><div tabindex="0">Front</div>`, "focus", ""},
		{"focus, no mark", `<style>#cut:focus { outline: none }</style><button id="cut">Cut</button>`, "focus", "button#cut \"Cut\": nothing shows"},
		{"focus, a mark that cannot be told", `<style>#cut:focus { outline: 3px solid #eee }</style><button id="cut">Cut</button>`, "focus", "button#cut \"Cut\": nothing shows"},
		{"focus, marked by its border", `<style>#cut:focus { outline: none; border-width: 4px }</style><button id="cut">Cut</button>`, "focus", ""},
		{"focus, what is inert", `<button>Cut</button><div inert><button>Hem</button></div>`, "focus", ""},
		{"focus, a key that holds it fast", `<button class="holds">Cut</button><button id="hem">Hem</button>`, "focus", "button#hem \"Hem\": the Tab key does not reach it"},
		{"focus, under a bar", `<button id="cut">Cut</button><div style="position: fixed; inset: 0; background: #fff">Bar</div>`, "focus", "lies under div"},
		{"focus, under a clear key", `<style>#over { position: absolute; inset: 0; background: none; border: 0 }</style><div style="position: relative; width: 200px; height: 100px"><div tabindex="0" style="height: 100px">Front</div><button id="over" aria-label="on"></button></div>`, "focus", ""},
		{"focus, out of sight", `<button id="cut" style="position: fixed; top: -99px">Cut</button>`, "focus", "out of sight"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			bench(t, tab, tt.snippet)
			found := checks[tt.check]()
			if tt.want == "" {
				if len(found) > 0 {
					t.Errorf("found %q, want nothing", found)
				}
				return
			}
			if len(found) == 0 {
				t.Errorf("found nothing, want %q", tt.want)
			}
			for _, f := range found {
				if !strings.Contains(f, tt.want) {
					t.Errorf("found %q, want %q alone", f, tt.want)
				}
			}
		})
	}
}
