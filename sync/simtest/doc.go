// Package simtest is devices, a server, users and everything that goes wrong between
// them, all in one goroutine at a time and drawn from a seed: the same seed, the same
// trace.
//
//	report := simtest.Run(simtest.Setup{Seed: 7})
//	if report.Fault != "" { fmt.Println(report.Fault, report.Trace) }
//
// The devices run package client as the page does, over a disk that is held to the
// conformance suite of stores; the server is package server over ledger/mem. At each
// call of the disk or the line a device stops, and others go on.
//
// What goes wrong: requests are lost, cut short, delayed until after later ones, and
// come twice; so are answers; the server fails before and after it has done what was
// asked, is set back to a backup, runs full; devices are cut off for long, stop at any
// call, before and after the disk has what was put, lose what the disk had taken,
// have full disks, clocks that are years off and jump, two windows, and older versions
// of the program; a phone is taken off, and the others are paired anew.
//
// What must hold: see check.go.
package simtest
