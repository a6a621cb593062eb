package main

// waits is what the runtime is given to have a goroutine wait for the rest of
// the program, where it would have its stack grown: see split.
const waits = `	if gp.stackguard0 == uintptrMask&-998 {
		waitForRest(gp)
	}

`

// waitForRest is what it is given to keep goroutines that wait for the rest, on
// the stack of the scheduler.
const waitForRest = `var waiting gList

func waitForRest(gp *g) {
	if gp.lockedm != 0 {
		throw("the rest of the program is wanted before it has started")
	}
	gp.stackguard0 = gp.stack.lo + stackGuard
	gp.waitreason = waitReasonZero
	casgstatus(gp, _Grunning, _Gwaiting)
	dropg()
	waiting.push(gp)
	schedule()
}

`

// wakeWaiting has those that wait try again, with every event: the loader makes
// one when the rest has come.
const wakeWaiting = `func wakeWaiting() {
	all := waiting
	waiting = gList{}
	for !all.empty() {
		goready(all.pop(), 1)
	}
}

// resting is the goroutine on which the next event will be handled, if nothing
// of Go's stands below it.
var resting *g

`

// waitingCuts changes how the runtime cares for events. One of the browser is
// answered when all goroutines are idle. Where its handler waits for the rest, or
// for something that waits for it, it is answered without it, and the handler
// goes on later as a goroutine like others. That can be where nothing of Go's
// stands below the event on the browser's stack: within a call that Go made, the
// program would wait for itself, and stops.
func waitingCuts() []cut {
	return []cut{
		{"// events is a stack of calls from JavaScript into Go.\n", wakeWaiting + "// events is a stack of calls from JavaScript into Go.\n"},
		{"\treturned bool\n}\n", "\treturned bool\n\touter, left bool\n}\n"},
		{"\te := events[len(events)-1]\n\tif e.returned {\n\t\treturn e.gp, false\n\t}\n", `	e := events[len(events)-1]
	if e.returned {
		return e.gp, false
	}
	if e.outer && len(events) == 1 && !waiting.empty() {
		e.left = true
		events[0] = nil
		events = events[:0]
		go handleAsyncEvent()
		return nil, true
	}
`},
		{"func handleAsyncEvent() {\n", "func handleAsyncEvent() {\n\tresting = getg()\n"},
		{"\t\treturned: false,\n\t}\n\tevents = append(events, e)\n", `		returned: false,
		outer:    resting == getg(),
	}
	resting = nil
	events = append(events, e)
	wakeWaiting()
`},
		{"\t// wait until all goroutines are idle\n", "\tif e.left {\n\t\treturn\n\t}\n\n\t// wait until all goroutines are idle\n"},
		{"\t// return execution to JavaScript\n", "\tif e.outer {\n\t\tresting = getg()\n\t}\n\n\t// return execution to JavaScript\n"},
	}
}
