package main

import (
	"encoding/binary"
	"fmt"
	"strings"
)

// lateNames says what the page does without until its first screens stand: what
// only the later stages, files and workers use. Each begins the names of some
// functions, or of the files in which they stand. With them goes what is reached
// through them alone.
//
// A function that is left out of here costs bytes of the first part. One that
// stands here and is wanted at once costs a wait, which TestFirstPart finds: name
// it in soonNames.
func lateNames() []string {
	return []string{
		"compress/", "hash/", // of PDFs and links
		"chalkfold/draft.(*Laid)", "chalkfold/draft.(*Maker).Advise", "chalkfold/draft.(*advising)", "chalkfold/draft.(*clothReader)",
		"chalkfold/draft/balance", "chalkfold/draft/garment/trouser/balanced", "chalkfold/draft/garment/trouser.(*shape).mendBalance", // and balancedproof.go
		"chalkfold/draft/body/say.go",
		"chalkfold/draft/buy.go", "chalkfold/draft/clothof.go", "chalkfold/draft/gifts.go", "chalkfold/draft/join.go", "chalkfold/draft/leftover.go",
		"chalkfold/draft/bench",
		"chalkfold/draft/chalk",
		"chalkfold/draft/garment/work", // and workband.go
		"chalkfold/draft/garment/trouser/work.go",
		"chalkfold/draft/garment/bodice", "chalkfold/draft/garment/skirt", // the sample is a pair of trousers
		"chalkfold/draft/construct/beside.go", "chalkfold/draft/garment.(*halves)", "chalkfold/draft/garment/sideclaims.go", "chalkfold/draft/garment/whole.go", "chalkfold/draft/garment.Fellows", "chalkfold/draft/garment.EdgeOf", // where one side differs
		"chalkfold/draft/garment/trouser.Gifts", "chalkfold/draft/garment/trouser/gifts.go", "chalkfold/draft/garment/trouser.(*shape).pieced",
		"chalkfold/draft/lay", // and layall.go, layguide.go
		"chalkfold/draft/mend.go", "chalkfold/draft/recut.go", "chalkfold/draft/resew.go",
		"chalkfold/draft/garment/trouser/alterations.go", "chalkfold/draft/garment/trouser/signs.go", "chalkfold/draft/garment/trouser/signsback.go",
		"chalkfold/draft/garment/skirt/alterations.go", "chalkfold/draft/garment/skirt/signs.go",
		"chalkfold/draft/garment/bodice/alterations.go", "chalkfold/draft/garment/bodice/signs.go",
		"chalkfold/draft/sketch/places.go",
		"chalkfold/draft/paper.go", "chalkfold/draft/cards.go", "chalkfold/draft/handover.go", "chalkfold/draft/madeup.go", "chalkfold/draft/nopaper.go", "chalkfold/draft/notions.go", "chalkfold/draft/order.go", "chalkfold/draft/teach.go",
		"chalkfold/draft/rules/lend.go", "chalkfold/draft/rules/metric.go", "chalkfold/draft/rules/step.go",
		"chalkfold/draft/bill.go", "chalkfold/draft/charges.go",
		"chalkfold/draft/qr",
		"chalkfold/draft/sheet", // and all below it
		"chalkfold/draft/proof.(*prover).curvedHem",
		"chalkfold/draft/slip",
		"chalkfold/draft/sketch.trunk", "chalkfold/draft/sketch.newTrunk",
		"chalkfold/sync/client", "chalkfold/sync/merge", "chalkfold/sync/seal", "chalkfold/sync/wire",
		"chalkfold/ui.(*Desk).benchView", "chalkfold/ui.(*Desk).chalkView", "chalkfold/ui.(*Desk).fittingView", "chalkfold/ui.(*Desk).houseView",
		"chalkfold/ui/album",
		"chalkfold/ui/backup.go", "chalkfold/ui/backup_pictures.go",
		"chalkfold/ui/bench",
		"chalkfold/ui/book.(*Card).client", "chalkfold/ui/book.(*Card).details", "chalkfold/ui/book.(*Card).note", "chalkfold/ui/book.(*Card).order", "chalkfold/ui/book/order.go", "chalkfold/ui/book/client.go", "chalkfold/ui/day/ical.go", "chalkfold/draft/roster", "encoding/csv", "chalkfold/ui/desk_table.go", "chalkfold/ui/book/cloth.go",
		"chalkfold/ui/bill",
		"chalkfold/ui/calendar",
		"chalkfold/ui/carry.go", "chalkfold/ui/carry_tree.go",
		"chalkfold/ui/chalk",
		"chalkfold/ui/cloth",
		"chalkfold/ui/desk_advice.go",
		"chalkfold/ui/desk_buy.go",
		"chalkfold/ui.(*Desk).oneClient",
		"chalkfold/ui/desk_cloth.go",
		"chalkfold/ui/desk_copy.go", "chalkfold/ui/desk_copyview.go", "chalkfold/ui/desk_listen.go", "chalkfold/ui/differ.go", "chalkfold/ui/tape/differ.go", "chalkfold/ui/tape.View.differ",
		"chalkfold/ui/desk_fitting.go", "chalkfold/ui/desk_lesson.go", "chalkfold/ui/desk_trial.go",
		"chalkfold/ui/desk_forms.go",
		"chalkfold/ui/desk_hand.go",
		"chalkfold/ui/desk_link.go",
		"chalkfold/ui/how", "chalkfold/ui/desk_how.go", "chalkfold/draft/lesson", "chalkfold/draft/construct/slip.go", "chalkfold/draft/construct/work.go", "chalkfold/draft/marks.go", "chalkfold/ui/lesson", "chalkfold/ui/desk_sitting.go", "chalkfold/ui/sittings.go",
		"chalkfold/ui/desk_look.go",
		"chalkfold/ui/desk_order.go", "chalkfold/ui/desk_orders.go", "chalkfold/ui.(*Desk).join", "chalkfold/ui.(*Desk).again", "chalkfold/ui.likeIt", "chalkfold/ui.newOrder", "chalkfold/ui.offTheBolt",
		"chalkfold/ui/desk_photos.go", "chalkfold/ui/photocare.go", "chalkfold/ui/photos.go", "chalkfold/ui/keep.(*View).withPhotos", "chalkfold/ui.(*Desk).saveWithPictures",
		"chalkfold/ui/desk_printer.go",
		"chalkfold/ui.(*Desk).cure", "chalkfold/ui.(*Desk).houseRows", "chalkfold/ui.(*Desk).inputs", "chalkfold/ui.(*Desk).listDeleted", "chalkfold/ui.(*Desk).mend", "chalkfold/ui.(*Desk).sayFound", "chalkfold/ui.(*Desk).stepAt",
		"chalkfold/ui/desk_remnants.go",
		"chalkfold/ui/desk_reprint.go", "chalkfold/ui/desk_several.go",
		"chalkfold/ui/desk_reprint.go",
		"chalkfold/ui/desk_quote.go",
		"chalkfold/ui/desk_sent.go",
		"chalkfold/ui/desk_share.go",
		"chalkfold/ui/desk_weave.go",
		"chalkfold/ui/drafting/card.go", "chalkfold/ui/drafting/changes.go", "chalkfold/ui/drafting/lines.go", "chalkfold/ui/drafting/overlay.go", "chalkfold/ui/drafting/replay.go", "chalkfold/ui/drafting/scene.go",
		"chalkfold/ui/drafting.View.finding", "chalkfold/ui/drafting.View.girths", "chalkfold/ui/drafting.View.fractions", "chalkfold/ui/drafting.View.input", "chalkfold/ui/drafting.View.lines", "chalkfold/ui/drafting.View.opened", "chalkfold/ui/drafting.View.replay", "chalkfold/ui/drafting.View.sums",
		"chalkfold/ui/engine/advise.go", "chalkfold/ui/engine/bench.go", "chalkfold/ui/engine/best.go", "chalkfold/ui/engine/buy.go", "chalkfold/ui/engine/forms.go", "chalkfold/ui/engine/reprint.go", "chalkfold/ui/engine/sketched.go", "chalkfold/ui.(*Desk).askSketches",
		"chalkfold/ui/engine.(*Pool).Ask", // a worker is started when both parts are there
		"chalkfold/ui/fitting",
		"chalkfold/ui/house", // and house_effect.go
		"chalkfold/ui/laying.go",
		"chalkfold/ui/kit/hand.go",
		"chalkfold/ui/restore.go",
		"chalkfold/ui/second",
		"chalkfold/ui/share",
		"chalkfold/ui/style/entry.go", "chalkfold/ui/style/rule.go",
		"chalkfold/ui/tape/drawing.go", "chalkfold/ui/tape/outline.go", "chalkfold/ui/tape/place.go", "chalkfold/ui/tape/seated.go", // where to measure, drawn
		"chalkfold/ui/tape/form.go", "chalkfold/ui/tape/fractions.go", "chalkfold/ui/tape/single.go",
		"chalkfold/wasm.line", "chalkfold/wasm.listen", "chalkfold/wasm/line.go",
		"chalkfold/wasm/worker.go",
		"type:.eq.chalkfold/ui", "type:.eq.[", // whether two of a type are equal
	}
}

// soonNames are exceptions to these: what looks, at every stage, whether there is
// something to do for a later one.
func soonNames() []string {
	return []string{
		"chalkfold/draft/garment/bodice.Defs", "chalkfold/draft/garment/bodice.Garment", "chalkfold/draft/garment/skirt.Defs", "chalkfold/draft/garment/skirt.Garment", "chalkfold/draft/garment/skirt.builds",
		"chalkfold/draft/garment/trouser.(*drafter).rebalance", "chalkfold/draft/garment/trouser.(*shape).balancedBounds", "chalkfold/draft/garment/trouser.(*shape).piecedBounds", "chalkfold/draft/garment/trouser.(*shape).piecedSeams",
		"chalkfold/ui/drafting.pieceID",
		"type:.eq.chalkfold/ui.listingOf", "type:.eq.chalkfold/ui.bookViewed", // what the book compares
		"chalkfold/ui.(*Desk).copyDo", "chalkfold/ui.(*Desk).copyRun", "chalkfold/ui.(*yielding).takeUp", "chalkfold/ui.(*Desk).differing", "chalkfold/ui.(*Desk).lookWhetherBehind", "chalkfold/ui.(*Desk).copyLater", "chalkfold/ui.(*Desk).copySettled", "chalkfold/ui.(*Desk).hearPairing", "chalkfold/ui.pairingIn", "chalkfold/ui.(*Desk).noting", "chalkfold/ui.(*Desk).openCopy", "chalkfold/ui.(*Desk).sayCopied", "chalkfold/ui.noting", "chalkfold/ui.(*Desk).copyTouched",
		"chalkfold/sync/client.(*Client).Account", "chalkfold/sync/client.(*Client).Begun", "chalkfold/sync/client.Open", "chalkfold/sync/client.newGauge",
		"chalkfold/ui.(*Desk).hearLink", "chalkfold/ui.(*Desk).leave", "chalkfold/ui.(*Desk).stop", "chalkfold/ui.(*Desk).want", "chalkfold/ui.(*Job).owed",
	}
}

// alwaysFirst begins the names of what is never left for later: the runtime and
// what it calls where no goroutine may wait.
func alwaysFirst() []string {
	return []string{"runtime.", "runtime/", "internal/", "sync", "syscall", "reflect.", "go:", "gcWriteBarrier", "wasm_", "_rt0_"}
}

func beginsWith(name string, any []string) bool {
	for _, head := range any {
		if strings.HasPrefix(name, head) {
			return true
		}
	}
	return false
}

// isInit reports whether a function prepares a package when the program starts,
// which waits for nothing.
func isInit(name string) bool {
	base := name[strings.LastIndexByte(name, '/')+1:]
	_, base, _ = strings.Cut(base, ".")
	return base == "init" || strings.HasPrefix(base, "init.") || strings.HasPrefix(base, "map.init.")
}

// references are what functions of a program name: by a call, or as a value.
type references struct {
	calls  [][]int // of each function, the functions that it calls
	values [][]int // and those whose address it takes
	kept   []int   // what is not to be found by these: its address lies in the data
}

func (m *module) references(im image, names []string) (references, error) {
	refs := references{make([][]int, len(m.funcs)), make([][]int, len(m.funcs)), nil}
	taken := map[uint64]bool{} // addresses of data that code names, where a function's address lies
	for i, f := range m.funcs {
		err := f.each(func(op byte, n uint64) {
			switch op {
			case opCall:
				if n < m.imported {
					refs.kept = append(refs.kept, i) // it calls what only the first part can
				} else {
					refs.calls[i] = append(refs.calls[i], int(n-m.imported))
				}
			case opI64Const, opI32Const:
				if g, ok := m.entry(n); ok {
					refs.values[i] = append(refs.values[i], g)
				} else if g, ok := m.entry(im.at(n)); ok {
					refs.values[i] = append(refs.values[i], g)
					taken[n] = true
				}
			}
		})
		if err != nil {
			return refs, fmt.Errorf("function %d: %w", i, err)
		}
	}
	for at := (im.start + 7) &^ 7; at+8 <= im.start+uint64(len(im.bytes)); at += 8 {
		w := im.at(at)
		if g, ok := m.entry(w); ok && !taken[at] {
			refs.kept = append(refs.kept, g)
		} else if g, ok := m.entry(im.at(w)); ok {
			refs.kept = append(refs.kept, g)
		}
	}
	for at := (im.start + 3) &^ 3; at+8 <= im.start+uint64(len(im.bytes)); at += 4 {
		w := im.bytes[at-im.start:]
		if g, ok := m.method(word(w, 0), word(w, 4), names); ok {
			refs.kept = append(refs.kept, g...)
		}
	}
	return refs, nil
}

// method reads two words as a type keeps a method: how it is called through an
// interface, and how it is called as it is.
func (m *module) method(through, plain uint32, names []string) ([]int, bool) {
	a, b := uint64(through)-m.slot, uint64(plain)-m.slot
	if a >= uint64(len(names)) || b >= uint64(len(names)) {
		return nil, false
	}
	one, other := names[a], names[b]
	i, j := strings.LastIndexByte(one, '.'), strings.LastIndexByte(other, '.')
	return []int{int(a), int(b)}, i >= 0 && j >= 0 && one[i:] == other[j:]
}

// entry returns the function that begins at an address of code.
func (m *module) entry(address uint64) (int, bool) {
	slot := address >> 16
	return int(slot - m.slot), address&0xffff == 0 && slot >= m.slot && slot-m.slot < uint64(len(m.funcs))
}

// at returns the word at an address, 0 where there is none.
func (im image) at(address uint64) uint64 {
	if address%8 != 0 || address < im.start || address-im.start+8 > uint64(len(im.bytes)) {
		return 0
	}
	return binary.LittleEndian.Uint64(im.bytes[address-im.start:])
}

// each goes through the instructions of a function.
func (f function) each(do func(op byte, n uint64)) error {
	r := &reader{rest: f.body}
	for range r.number() {
		r.number()
		r.octet()
	}
	for r.err == nil && len(r.rest) > 0 {
		do(r.instruction())
	}
	return r.err
}

// A division tells which functions of a program come late, and which of these
// the others or the data ask for by themselves.
type division struct{ late, asked []bool }

// findLate returns which functions of a program can come late: those whose names
// begin so, and those that are reached through these alone. im is the program's
// data as it was linked. The list tells of every function where it is, how many
// bytes it has, and its name.
func (m *module) findLate(im image, names, files, late []string) (parts division, list []byte, err error) {
	if len(names) != len(m.funcs) {
		return parts, nil, fmt.Errorf("%d functions have %d names", len(m.funcs), len(names))
	}
	refs, err := m.references(im, names)
	if err != nil {
		return parts, nil, err
	}
	// What prepares a package has it done with all that it calls.
	start := make(marks, len(names))
	for i, name := range names {
		if isInit(name) {
			start.reach(i, nil, refs.calls)
		}
	}
	stays := func(i int) bool { return start[i] || m.funcs[i].kind != 0 || beginsWith(names[i], alwaysFirst()) }
	named := func(i int) bool {
		return !stays(i) && (beginsWith(names[i], late) || beginsWith(files[i], late)) && !beginsWith(names[i], soonNames())
	}
	first, rest := make(marks, len(names)), make(marks, len(names))
	for i := range names {
		if stays(i) {
			first.reach(i, named, refs.calls, refs.values)
		}
	}
	for _, i := range refs.kept {
		first.reach(i, named, refs.calls, refs.values)
	}
	for i := range names {
		if named(i) {
			rest.reach(i, func(i int) bool { return first[i] }, refs.calls, refs.values)
		}
	}
	for i, name := range names {
		part := "first"
		if rest[i] {
			part = "rest"
		}
		list = fmt.Appendf(list, "%s\t%d\t%s\t%s\n", part, len(m.funcs[i].body), name, files[i])
	}
	asked := make(marks, len(names))
	for i := range names {
		if !rest[i] {
			asked.set(rest, refs.calls[i], refs.values[i])
		}
	}
	asked.set(rest, refs.kept)
	return division{rest, asked}, list, nil
}

// marks tells some functions of a program from the others.
type marks []bool

// reach marks a function and all that is reached from it, but for what is barred.
func (m marks) reach(from int, barred func(int) bool, by ...[][]int) {
	if m[from] || barred != nil && barred(from) {
		return
	}
	m[from] = true
	for _, b := range by {
		for _, to := range b[from] {
			m.reach(to, barred, by...)
		}
	}
}

// set marks those of all that are among these.
func (m marks) set(among marks, all ...[]int) {
	for _, is := range all {
		for _, i := range is {
			m[i] = m[i] || among[i]
		}
	}
}
