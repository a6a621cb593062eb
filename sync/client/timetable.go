package client

// Timetable says when a pass is due. It reads no clock: every method is told the
// time, in ms since 1970. The zero value is due at once.
type Timetable struct {
	due    int64 // the next pass, if none of the below is sooner
	edited int64 // the first edit since the last pass; nought if there is none
	quiet  int64 // when there will have been no edit for a while
	failed int   // passes in a row
	soon   bool  // something happened after which a pass is worth trying
	hears  bool  // of changes elsewhere
}

// Times, in ms.
const (
	quietFor    = 4_000      // after an edit, before it is sent
	longestEdit = 30_000     // for quiet, while edits go on
	pollEvery   = 5 * 60_000 // where nothing tells of changes elsewhere
	lookEvery   = 30 * 60_000
	firstBack   = 5_000
	mostBack    = 30 * 60_000
)

// Edited tells that a record was changed.
func (t *Timetable) Edited(now int64) {
	if t.edited == 0 {
		t.edited = now
	}
	t.quiet = now + quietFor
}

// Woken tells that the page was opened or shown, that there is a network again, or
// that the server has told of a change.
func (t *Timetable) Woken() { t.soon = true }

// Hears tells whether the server tells of changes elsewhere, so that it need not be asked
// so often.
func (t *Timetable) Hears(does bool) { t.hears = does }

// Due reports whether a pass is due.
func (t *Timetable) Due(now int64) bool { return now >= t.Next() }

// Next is when the next pass is due, if nothing happens before.
func (t *Timetable) Next() int64 {
	if t.soon {
		return 0
	}
	if t.edited > 0 && t.failed == 0 {
		return min(t.due, t.quiet, t.edited+longestEdit)
	}
	return t.due
}

// Begun tells that a pass begins: edits from here on are for the next.
func (t *Timetable) Begun() { t.soon, t.edited = false, 0 }

// Done tells how a pass went. After failures it waits, longer each time and by a
// chance between nought and one, so that many do not come back at once; a pass is
// tried before that when the page is woken.
func (t *Timetable) Done(now int64, ok bool, chance float64) {
	if ok {
		t.failed, t.due = 0, now+pollEvery
		if t.hears {
			t.due = now + lookEvery
		}
		return
	}
	back := int64(mostBack)
	if t.failed < 9 {
		back = min(mostBack, int64(firstBack)<<t.failed)
	}
	t.failed++
	t.due = now + back/2 + int64(chance*float64(back/2))
	if t.edited == 0 {
		t.edited = now // what was to be sent still is
	}
}
