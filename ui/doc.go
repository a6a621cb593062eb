// Package ui is the page. Run shows it; wasm/ calls Run with the store and the
// clock that it works with.
//
// Each stage of the work has a folder: what it knows is plain Go that tests
// reach without a browser, what it shows is a function from that to nodes. The
// one component with state is the Desk, a file of its own for each thing that it
// cares for; kit has the few parts that must touch the document themselves.
//
// A change goes one way: a view tells the Desk, the Desk changes its Job, the
// Job is saved as it stands and drafted once before the next frame, and the
// Work is shown. The Job is the job file of draft/job with what cannot be read
// beside it.
//
// A record has one Keeper, which puts its newest state until the store has it and
// stops where another window was first. Long work is done beside the page by the
// engine. What is asked of either is answered later, when the job, the draft or
// the language may be others: whoever hears it looks first whether it is still
// wanted.
//
// Three habits keep the page right. A handler tells what was done ("one step
// on"), not what is to be shown, since two taps may come before the page is
// drawn; whatever else it holds on to goes into its EventScope. What stands
// before a field is hidden and never left out, or the field would become
// another one under the hand that types. Elements are made by kit, all of one
// type of the library, which the first load needs.
//
// A Book may have thousands of jobs, and the page is drawn several times for a
// key. What is made of all of them is worked out when one of them has changed
// (see listing); a long list is a component of its own, which is drawn only
// where its entries have changed; and what nobody waits for comes when the hand
// rests. Photos are read last.
package ui
