//go:build !js

// Package browser drives a headless Chromium for tests. Start it with Open,
// open tabs with Tab, and read what went wrong in a page with Tab.Problems.
//
// Two things fail every test by themselves, on whatever page they happen: a
// request to another origin than one the test has opened, and a violation of
// the content policy.
//
// Where there is no Chromium a test is skipped, unless the environment has
// CHALKFOLD_BROWSER=need, as under make test: then it fails.
package browser

import (
	"context"
	"net/url"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Patience is how long a page may take for anything; this machine may be busy.
const Patience = 3 * time.Minute

// Needed reports whether a test must fail, rather than be skipped, when what
// it needs is missing.
func Needed() bool { return os.Getenv("CHALKFOLD_BROWSER") == "need" }

// Skip skips the test, or fails it where the browser is needed.
func Skip(t testing.TB, why string) {
	t.Helper()
	if Needed() {
		t.Fatal(why)
	}
	t.Skip(why)
}

// Browser is one running Chromium, as a test has it.
type Browser struct {
	*process
	t    testing.TB
	own  bool // it ends with the test
	tabs []*Tab
}

// Open starts a Chromium that ends with the test. profile is the folder of its
// profile; empty is a new one. See Sharing. What it is started with besides is not
// shared.
func Open(t testing.TB, profile string, besides ...chromedp.ExecAllocatorOption) *Browser {
	t.Helper()
	b := &Browser{t: t, own: profile != "" || len(besides) > 0}
	if !b.own {
		b.process = take()
	}
	if b.process == nil {
		b.process = start(t, profile, besides...)
	}
	t.Cleanup(b.giveBack)
	return b
}

func start(t testing.TB, profile string, besides ...chromedp.ExecAllocatorOption) *process {
	t.Helper()
	path := ""
	for _, name := range []string{"chromium", "chromium-browser"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		Skip(t, "no chromium on this machine: install it, or run make test")
	}
	opts := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path),
		chromedp.NoSandbox,
		chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-extensions", true),
	)
	if profile != "" {
		opts = append(opts, chromedp.UserDataDir(profile))
	}
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), append(opts, besides...)...)
	ctx, cancel := chromedp.NewContext(allocator)
	p := &process{ctx: ctx, end: func() {
		cancel()
		cancelAllocator()
	}}
	if err := chromedp.Do(ctx); err != nil {
		p.end()
		t.Fatalf("start chromium: %v", err)
	}
	return p
}

// Close ends the browser before the test ends, as closing all its windows does.
func (b *Browser) Close() {
	b.t.Helper()
	b.own = true
	if err := chromedp.Cancel(b.ctx); err != nil {
		b.t.Fatalf("close chromium: %v", err)
	}
}

// Kill ends the browser at once, as a phone does that needs the memory.
func (b *Browser) Kill() {
	b.t.Helper()
	b.own = true
	process := chromedp.FromContext(b.ctx).Browser.Process()
	if err := process.Kill(); err != nil {
		b.t.Fatalf("kill chromium: %v", err)
	}
	chromedp.FromContext(b.ctx).Allocator.Wait()
}

// Tab is one tab of a browser.
type Tab struct {
	t      testing.TB
	ctx    context.Context
	cancel context.CancelFunc

	mu      sync.Mutex
	lines   []chromedp.ConsoleMessage
	origins []string // those that the test has opened
	asked   []string // every address that a page has asked for
}

// violation begins the line that a page writes when its content policy was
// violated. The log of the browser has it too, in words that may change.
const violation = "content policy violated: "

// Tab opens a tab of the size of a small phone, 360 by 640, with touch.
func (b *Browser) Tab() *Tab {
	b.t.Helper()
	ctx, cancel := chromedp.NewContext(b.ctx)
	tab := &Tab{t: b.t, ctx: ctx, cancel: cancel}
	b.tabs = append(b.tabs, tab)
	console := chromedp.Console(ctx)
	go func() {
		for m, err := range console {
			if err != nil {
				return
			}
			tab.mu.Lock()
			tab.lines = append(tab.lines, m)
			tab.mu.Unlock()
		}
	}()
	hear := func(ev any) {
		if r, ok := ev.(*network.EventRequestWillBeSent); ok {
			tab.mu.Lock()
			tab.asked = append(tab.asked, r.Request.URL)
			tab.mu.Unlock()
		}
	}
	if err := chromedp.Listen(ctx, hear); err != nil {
		b.t.Fatalf("open a tab: %v", err)
	}
	phone := chromedp.EmulateViewport(360, 640, chromedp.EmulateScale(2), chromedp.EmulateMobile, chromedp.EmulateTouch)
	note := func(ctx context.Context, _ *chromedp.Target) (chromedp.Void, error) {
		if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
			return chromedp.Void{}, err
		}
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
			Source: `addEventListener("securitypolicyviolation", (e) =>
				console.error("` + violation + `" + e.effectiveDirective + " " + e.blockedURI + " " + e.sample));`,
		})
		return chromedp.Void{}, err
	}
	if err := chromedp.Do(ctx, phone, note); err != nil {
		b.t.Fatalf("open a tab: %v", err)
	}
	b.t.Cleanup(func() {
		for _, fault := range tab.strayed() {
			b.t.Error(fault)
		}
	})
	return tab
}

// strayed returns the violations of the content policy and the requests to
// origins that the test has not opened.
func (tab *Tab) strayed() []string {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	var faults []string
	for _, m := range tab.lines {
		if strings.HasPrefix(m.Text, violation) {
			faults = append(faults, m.Text)
		}
	}
	for _, address := range tab.asked {
		origin := originOf(strings.TrimPrefix(address, "blob:"))
		if !strings.HasPrefix(address, "data:") && !slices.Contains(tab.origins, origin) {
			faults = append(faults, "a request left the origin: "+address)
		}
	}
	return faults
}

// originOf returns the scheme, host and port of an address.
func originOf(address string) string {
	u, err := url.Parse(address)
	if err != nil {
		return address
	}
	return u.Scheme + "://" + u.Host
}

// Close closes the tab.
func (tab *Tab) Close() { tab.cancel() }

// Do runs actions in the tab.
func (tab *Tab) Do(actions ...chromedp.Action[chromedp.Void]) {
	tab.t.Helper()
	ctx, cancel := context.WithTimeout(tab.ctx, Patience)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		tab.t.Fatalf("in the tab: %v\n%s", err, tab.heard())
	}
}

// Goto opens an address and waits until the page has loaded.
func (tab *Tab) Goto(address string) {
	tab.t.Helper()
	tab.mu.Lock()
	tab.origins = append(tab.origins, originOf(address))
	tab.mu.Unlock()
	tab.Do(chromedp.Navigate(address))
}

// Eval runs an expression in the page, waits if it is a promise, and returns
// its value.
func Eval[T any](tab *Tab, js string) T {
	tab.t.Helper()
	v, err := try[T](tab, js)
	if err != nil {
		tab.t.Fatalf("%s: %v\n%s", js, err, tab.heard())
	}
	return v
}

func try[T any](tab *Tab, js string) (T, error) {
	ctx, cancel := context.WithTimeout(tab.ctx, Patience)
	defer cancel()
	return chromedp.Run(ctx, chromedp.Evaluate[T](js, chromedp.EvalAwaitPromise))
}

// Until waits until the expression is true in the page that the program shows. It is
// asked again and again, also across a reload.
func (tab *Tab) Until(js string) {
	tab.t.Helper()
	tab.UntilSeen(`!document.querySelector("#first.desk") && !!(` + js + `)`)
}

// UntilSeen is like Until, and also takes what is shown before the program runs.
func (tab *Tab) UntilSeen(js string) {
	tab.t.Helper()
	for deadline := time.Now().Add(Patience); ; time.Sleep(30 * time.Millisecond) {
		ok, err := try[bool](tab, "!!("+js+")")
		if ok && err == nil {
			return
		}
		if time.Now().After(deadline) {
			text, _ := try[string](tab, "document.body.innerText")
			tab.t.Fatalf("still not so: %s (%v)\npage: %s\n%s", js, err, text, tab.heard())
		}
	}
}

// Shot writes a picture of the screen to a file, or of the whole page.
func (tab *Tab) Shot(name string, whole bool) {
	tab.t.Helper()
	shoot := chromedp.CaptureScreenshot()
	if whole {
		shoot = chromedp.FullScreenshot(100)
	}
	ctx, cancel := context.WithTimeout(tab.ctx, Patience)
	defer cancel()
	picture, err := chromedp.Run(ctx, shoot)
	if err != nil {
		tab.t.Fatalf("picture: %v", err)
	}
	if err := os.WriteFile(name, picture, 0o644); err != nil {
		tab.t.Fatal(err)
	}
}

// Lines returns what the page has written to its console so far.
func (tab *Tab) Lines() []string {
	tab.mu.Lock()
	defer tab.mu.Unlock()
	lines := make([]string, len(tab.lines))
	for i, m := range tab.lines {
		lines[i] = m.Text
	}
	return lines
}

// Problems returns the errors and warnings on the console so far, uncaught
// exceptions, and what Tab tells of by itself.
func (tab *Tab) Problems() []string {
	problems := tab.strayed()
	tab.mu.Lock()
	defer tab.mu.Unlock()
	for _, m := range tab.lines {
		if m.IsException() || m.Type == "error" || m.Type == "warning" || m.Type == "assert" {
			problems = append(problems, m.String()+" "+m.URL)
		}
	}
	return problems
}

func (tab *Tab) heard() string {
	return "console:\n" + strings.Join(tab.Lines(), "\n")
}
