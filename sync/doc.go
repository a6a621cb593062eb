// Package sync is prose only: its name would shadow the standard library's, so
// nothing is declared here.
//
// The folders below it keep a workshop's records and, when there is a
// connection, carry copies of them to its other devices. A record is opaque to
// all of them: it has a kind, an id, a revision and bytes. What the bytes mean
// is known to the core alone, and sync never imports it. store says how records
// are kept on a device, and store/mem, store/idb are two ways to keep them; one
// conformance suite, store/storetest, runs against each. link carries something
// small from one device to another in the fragment of an address.
package sync
