//go:build !js

package browser

import (
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/serviceworker"
)

// Slow makes the tab's processor so many times slower. Workers keep their pace.
func (tab *Tab) Slow(times float64) {
	tab.t.Helper()
	Call(tab, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: times})
}

// Unheard has nobody listen to what the tab fetches: to listen takes a slowed page a
// seventh of a second while it starts. What it asks for is not checked then.
func (tab *Tab) Unheard() {
	tab.t.Helper()
	Call(tab, network.Disable, cdp.Empty{})
}

// Morning ends the service workers, as a browser does with those that have nothing to do:
// whoever opens the page the next morning finds none running.
func (tab *Tab) Morning() {
	tab.t.Helper()
	Call(tab, serviceworker.Enable, cdp.Empty{})
	Call(tab, serviceworker.StopAllWorkers, cdp.Empty{})
	Call(tab, serviceworker.Disable, cdp.Empty{})
}

// Line gives the tab a line of so many kilobits in a second, on which an answer
// takes so many milliseconds to begin; the page is told that there is one. What the
// service worker fetches is not slowed down.
func (tab *Tab) Line(kilobits, wait float64) {
	tab.t.Helper()
	bytes := kilobits * 1000 / 8
	tab.network(network.Conditions{Latency: wait, DownloadThroughput: bytes, UploadThroughput: bytes})
}

// Before runs a script in every page before anything of its own.
func (tab *Tab) Before(js string) {
	tab.t.Helper()
	Call(tab, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: js})
}

// Offline takes the tab's network away, or gives it back; the page is told. What the
// service worker fetches still comes.
func (tab *Tab) Offline(away bool) {
	tab.t.Helper()
	tab.network(network.Conditions{Offline: away, DownloadThroughput: -1, UploadThroughput: -1})
}

func (tab *Tab) network(c network.Conditions) {
	tab.t.Helper()
	Call(tab, network.Enable, network.EnableParams{})
	Call(tab, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{MatchedNetworkConditions: []*network.Conditions{&c}})
	Call(tab, network.OverrideNetworkState, network.OverrideNetworkStateParams{
		Offline: c.Offline, Latency: c.Latency, DownloadThroughput: c.DownloadThroughput, UploadThroughput: c.UploadThroughput,
	})
}
