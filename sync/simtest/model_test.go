package simtest

import (
	"testing"

	"chalkfold/sync/client"
)

// TestDeathForgotten: a device clears a record away, notes it, and puts the record back;
// then the note is damaged, so that all that this device has is a record. Whether the
// record must be dead in the end is told by whether anybody else knows.
func TestDeathForgotten(t *testing.T) {
	tests := []struct {
		name                 string
		server, other, again bool // who has heard of it; whether the server is set back
		mayBeBack            bool
	}{
		{name: "nobody knows", mayBeBack: true},
		{name: "the server knows", server: true},
		{name: "the server has forgotten", server: true, again: true, mayBeBack: true},
		{name: "another device knows", server: true, other: true, again: true},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			w := newWorld(Setup{Seed: 1})
			w.calm = true
			a, b := w.devices[0], w.devices[1]
			defer func() {
				a.stop()
				b.stop()
				if fault := recover(); fault != nil {
					t.Errorf("%v", fault)
				}
			}()
			k := diskKey{oldKind, "j0"}
			row := func() diskRow { return a.disk.rows[k] }

			a.edit(k, row().Record, "f0")
			a.wholePass()
			b.wholePass()
			before := w.ledger.Clone()
			a.clear(k, row().Record)
			if test.server {
				a.wholePass()
			} else {
				a.begin(&a.windows[0])
				for !a.doc(k).Dead {
					a.resume(&a.windows[0])
				}
				a.crash("before anything is sent")
			}
			if test.other {
				b.wholePass()
			}
			a.edit(k, row().Record, "restored")
			a.damageNote(a.disk.rows[diskKey{client.KindNote, "3/job/j0"}].Record)
			if test.again {
				w.setBack(before)
			}

			if loose := w.model.edits[1].loose; loose != test.mayBeBack {
				t.Errorf("it may be back: %v, want %v", loose, test.mayBeBack)
			}
			w.rest()
			w.checkAtRest()
			if dead := b.doc(k).Dead; dead == test.mayBeBack {
				t.Errorf("it is dead: %v", dead)
			}
		})
	}
}
