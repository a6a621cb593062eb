// Package ui is the page. Run shows it; wasm/ calls Run with the store, the
// clock and the core that it works with.
//
// Each stage of the work has a folder: what it knows is plain Go that tests
// reach without a browser, what it shows is a function from that to nodes. The
// one component with state is the Desk; kit has the few parts that must touch
// the document themselves.
package ui
