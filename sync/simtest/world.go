package simtest

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"maps"
	"math/rand/v2"
	"net/http"
	"slices"
	"strings"
	"time"

	"chalkfold/sync/client"
	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/mem"
	"chalkfold/sync/merge"
	"chalkfold/sync/server"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// Setup is what a run begins with.
type Setup struct {
	Seed uint64
	// Steps is how long things go wrong; nought is the usual.
	Steps int
	// Keep keeps the trace in words, and not only its sum.
	Keep bool
	// Lazy disks say that they have what was put before they do.
	Lazy bool
}

// Report is how a run went.
type Report struct {
	Seed uint64
	// Fault says what did not hold; empty if all did.
	Fault string
	// Sum is a sum of the trace, Trace the trace if it was kept.
	Sum   uint64
	Trace string
	// Counts say how often what happened.
	Counts map[string]int
}

// Run runs a world from a seed until it is at rest, and checks what must hold.
func Run(s Setup) (report Report) {
	w := newWorld(s)
	defer func() {
		if r := recover(); r != nil {
			fault, ok := r.(broken)
			if !ok {
				panic(r)
			}
			w.fault = string(fault)
		}
		for _, d := range w.devices {
			d.stop()
		}
		report = Report{s.Seed, w.fault, w.sum, w.trace.String(), w.counts}
	}()
	w.run()
	return report
}

// broken is what did not hold: a panic with it ends the run.
type broken string

// world is everything.
type world struct {
	Setup
	*rand.Rand
	now     int64 // the true time, ms since 1970
	ledger  *mem.Ledger
	handler http.Handler
	backups []*mem.Ledger
	late    []request // that are still on their way
	calm    bool      // nothing goes wrong any more
	devices []*device
	model   model
	nonces  map[string]wire.Name // of every blob that was ever pushed
	fault   string
	sum     uint64
	trace   strings.Builder
	counts  map[string]int
}

// request is a request that may come later than its answer was given up.
type request struct {
	path, bearer string
	message      []byte
}

const usualSteps = 260

func newWorld(s Setup) *world {
	if s.Steps == 0 {
		s.Steps = usualSteps
	}
	w := &world{
		Setup: s, Rand: rand.New(rand.NewPCG(s.Seed, 0x5eed)), now: 1_900_000_000_000,
		nonces: map[string]wire.Name{}, counts: map[string]int{},
	}
	w.serve(mem.New(ledger.Common()))
	w.model.init()
	for i := range 2 + w.IntN(5) {
		w.devices = append(w.devices, newDevice(w, i))
	}
	return w
}

// serve has the server answer from a ledger.
func (w *world) serve(l *mem.Ledger) {
	w.ledger = l
	w.handler = server.New(server.Config{Ledger: l, Boxes: l, Now: func() time.Time { return time.UnixMilli(w.now) }})
}

// setBack has the server answer from a backup.
func (w *world) setBack(to *mem.Ledger) {
	w.serve(to.Clone())
	w.model.forget(w)
}

// say notes an event.
func (w *world) say(format string, args ...any) {
	line := fmt.Sprintf(format, args...)
	h := fnv.New64a()
	var was [8]byte
	binary.BigEndian.PutUint64(was[:], w.sum)
	_, _ = h.Write(was[:])
	_, _ = h.Write([]byte(line)) // it never fails
	w.sum = h.Sum64()
	if w.Keep {
		w.trace.WriteString(line + "\n")
	}
}

// sayNote tells a note in the trace. It is no part of its sum.
func (w *world) sayNote(d *device, r store.Record) {
	doc, err := client.NoteDoc(r)
	if r.Kind != client.KindNote || err != nil {
		return
	}
	fmt.Fprintf(&w.trace, "\t%v notes %s %s, rev %d, dead %v, seen", d, doc.Kind, doc.ID, r.Rev, doc.Dead)
	for _, device := range slices.SortedFunc(maps.Keys(doc.Seen), func(a, b merge.Device) int { return bytes.Compare(a[:], b[:]) }) {
		fmt.Fprintf(&w.trace, " %x@%x", device[:2], doc.Seen[device])
	}
	for _, name := range slices.Sorted(maps.Keys(doc.Fields)) {
		for _, v := range doc.Fields[name] {
			fmt.Fprintf(&w.trace, ", %s=%s by %x@%x", name, strings.TrimPrefix(string(v.Text), marker), v.Device[:2], v.Stamp)
		}
	}
	w.trace.WriteString("\n")
}

func (w *world) count(what string) { w.counts[what]++ }

// Troubles are what must have happened, by their names in Counts, before a run of many
// seeds says anything.
func Troubles() []string {
	return []string{
		"answer cut short", "answer lost", "arrived late", "came twice", "cleared away", "clock jumped",
		"conflicts settled", "disk full", "disk set back", "files carried", "no network", "note damaged",
		"request cut short", "request lost", "server busy", "server set back", "stopped",
		"stopped after a put", "taken off", "two windows", "updated",
	}
}

// fail ends the run.
func (w *world) fail(format string, args ...any) { panic(broken(fmt.Sprintf(format, args...))) }

// one reports true once in n, while things go wrong.
func (w *world) one(n int) bool { return !w.calm && w.IntN(n) == 0 }

// random draws bytes.
func (w *world) random(b []byte) {
	for i := range b {
		b[i] = byte(w.Uint32())
	}
}

// answer is what the server answers.
type answer struct {
	status int
	body   []byte
	head   http.Header
}

func (a *answer) Header() http.Header { return a.head }
func (a *answer) WriteHeader(s int)   { a.status = s }
func (a *answer) Write(b []byte) (int, error) {
	a.body = append(a.body, b...)
	return len(b), nil
}

// deliver has the server answer a request.
func (w *world) deliver(r request) (int, []byte) {
	w.looksSealed(r)
	// Nothing of the request depends on its address.
	req, err := http.NewRequestWithContext(context.Background(), http.MethodPost, server.Path+r.path, strings.NewReader(string(r.message)))
	if err != nil {
		w.fail("%v", err)
	}
	if r.bearer != "" {
		req.Header.Set("Authorization", r.bearer)
	}
	a := &answer{status: http.StatusOK, head: http.Header{}}
	w.handler.ServeHTTP(a, req)
	w.say("server: %s%s of %d bytes: %d, %d bytes", r.path, from(r), len(r.message), a.status, len(a.body))
	if strings.Contains(string(a.body), marker) {
		w.fail("the server tells %q", a.body)
	}
	return a.status, a.body
}

// from tells from where a request goes on.
func from(r request) string {
	at := wire.Position{}
	if p, err := wire.DecodePull(r.message); err == nil {
		at = p.After
	} else if p, err := wire.DecodePush(r.message); err == nil {
		at = p.Base
	} else {
		return ""
	}
	return fmt.Sprintf(" after %d %x", at.Seq, at.ID[:2])
}

// looksSealed checks what anybody on the line sees.
func (w *world) looksSealed(r request) {
	if strings.Contains(string(r.message), marker) {
		w.fail("a %s holds what a user entered: %q", r.path, r.message)
	}
	if r.path != "push" {
		return
	}
	p, err := wire.DecodePush(r.message)
	if err != nil {
		return // it was cut short
	}
	for _, e := range p.Entries {
		nonce := string(e.Blob[1:25])
		if was, twice := w.nonces[nonce]; twice && was != e.ID {
			w.fail("a nonce was used twice")
		}
		w.nonces[nonce] = e.ID
	}
}

// run lets things go wrong, then lets them rest, and checks.
func (w *world) run() {
	for step := range w.Steps {
		w.now += int64(w.IntN(20_000))
		w.happen(step)
		if w.IntN(8) == 0 {
			w.checkDuring()
		}
	}
	w.rest()
	w.checkAtRest()
}

// happen lets one thing happen.
func (w *world) happen(step int) {
	switch n := w.IntN(100); {
	case n < 62:
		w.devices[w.IntN(len(w.devices))].step()
	case n < 84:
		w.devices[w.IntN(len(w.devices))].use()
	case n < 92:
		w.devices[w.IntN(len(w.devices))].suffer()
	case n < 96:
		w.serverEvent()
	case n < 98:
		w.arrive()
	case step > w.Steps/3:
		w.workshopEvent()
	}
}

// serverEvent is something that befalls the server.
func (w *world) serverEvent() {
	switch w.IntN(6) {
	case 0:
		if n := len(w.backups); n > 0 {
			i := w.IntN(n)
			w.say("server: set back to backup %d", i)
			w.count("server set back")
			w.setBack(w.backups[i])
		}
	case 1, 2:
		w.backups = append(w.backups, w.ledger.Clone())
		w.say("server: backup %d", len(w.backups)-1)
	default:
		w.now += int64(w.IntN(30 * 24 * 3600 * 1000)) // a quiet month
	}
}

// arrive lets a request arrive that its sender has given up.
func (w *world) arrive() {
	if len(w.late) == 0 {
		return
	}
	i := w.IntN(len(w.late))
	r := w.late[i]
	w.late = append(w.late[:i], w.late[i+1:]...)
	w.count("arrived late")
	w.deliver(r)
}

// rest lets everything come to rest: late requests arrive, every device has a
// network, and syncs until nothing changes any more.
func (w *world) rest() {
	for _, d := range w.devices {
		d.crash("the end of trouble")
	}
	for len(w.late) > 0 {
		w.arrive()
	}
	w.calm = true
	const mostRounds = 8
	for round := range mostRounds {
		before := w.heads()
		for _, d := range w.devices {
			d.wholePass()
		}
		if w.heads() == before && round > 1 {
			return
		}
	}
	w.fail("%d rounds of syncing did not come to rest", mostRounds)
}
