package simtest

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"chalkfold/sync/client"
	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/wire"
)

// What must hold:
//
//   - What a device had saved is on every device in the end: shown, beside what is
//     shown, or in a record kept aside; unless somebody who had seen it replaced or
//     cleared it away, or its device lost it before anybody else had it.
//   - What was replaced or cleared away does not come back, unless whoever knew that a
//     record was cleared away, devices and server, has lost it.
//   - All devices and the ledger have the same docs, byte for byte, and the records
//     show them.
//   - Nothing that a user entered is to be seen on the line or on the server; no
//     nonce comes twice.
//   - Passes come to an end, and so does syncing.
//   - The account of what is where is exact.
//   - Fetching everything again changes nothing.

// texts are all texts that a device has, those of records kept aside too or not.
func (d *device) texts(aside bool) map[string]bool {
	all := map[string]bool{}
	for _, doc := range d.docs() {
		if strings.Contains(doc.ID, "-") && !aside { // see client's asideID
			continue
		}
		for _, values := range doc.Fields {
			for _, v := range values {
				all[string(v.Text)] = true
			}
		}
	}
	return all
}

// where tells the docs that have a text.
func (d *device) where(text string) (in []string) {
	docs := d.docs()
	for _, k := range sortedKeys(docs) {
		for _, name := range slices.Sorted(maps.Keys(docs[k].Fields)) {
			for _, v := range docs[k].Fields[name] {
				if string(v.Text) == text {
					in = append(in, fmt.Sprintf("%s %s %s of %d: %x", k.kind, k.id, name, len(docs[k].Fields[name]), docs[k].Fields[name]))
				}
			}
		}
	}
	return in
}

// docs are the docs of a device.
func (d *device) docs() map[diskKey]*merge.Doc {
	docs := map[diskKey]*merge.Doc{}
	for _, r := range d.disk.list(func(kind string) bool { return kind == client.KindNote }) {
		if doc, err := client.NoteDoc(r); err == nil && !r.Damaged {
			docs[diskKey{doc.Kind, doc.ID}] = doc
		}
	}
	return docs
}

// heads is all that devices and server have, as a text.
func (w *world) heads() string {
	var b strings.Builder
	for _, d := range w.devices {
		if d.gone {
			continue
		}
		docs := d.docs()
		for _, k := range sortedKeys(docs) {
			fmt.Fprintf(&b, "%d %s %x\n", d.number, k.id, docs[k].Encode())
		}
	}
	page, _ := w.ledger.Pull(context.Background(), seal.KeysOf(w.model.key).Workshop, wire.Position{}, 1)
	fmt.Fprintf(&b, "%v", page.To)
	return b.String()
}

func sortedKeys[V any](m map[diskKey]V) []diskKey {
	return slices.SortedFunc(maps.Keys(m), func(a, b diskKey) int { return strings.Compare(a.kind+"/"+a.id, b.kind+"/"+b.id) })
}

// checkDuring checks what holds at any time: what a device saved itself is there,
// unless it was replaced since.
func (w *world) checkDuring() {
	d := w.devices[w.IntN(len(w.devices))]
	if d.gone {
		return
	}
	have := w.haveAnywhere() // what was kept aside elsewhere is on its way
	replaced := w.replaced(false)
	for _, e := range w.model.edits {
		if e.device == d.number && e.text != "" && !e.loose && !replaced[e.text] && !have[e.text] {
			w.fail("%v has lost its own %s of %s %s", d, e.text, e.key.id, e.field)
		}
	}
}

// replaced are the texts that were replaced by somebody who had seen them. sure
// leaves out those of which only an edit that may be lost says so.
func (w *world) replaced(sure bool) map[string]bool {
	all := map[string]bool{}
	for _, e := range w.model.edits {
		if !e.loose || !sure {
			for _, text := range e.replaces {
				all[text] = true
			}
		}
	}
	return all
}

// checkAtRest checks what holds in the end.
func (w *world) checkAtRest() {
	var first *device
	for _, d := range w.devices {
		if d.gone {
			continue
		}
		if first == nil {
			first = d
			w.checkLedger(d)
		}
		w.checkSame(first, d)
		w.checkShown(d)
		w.checkSurvived(d)
		w.checkAccount(d)
	}
	before := w.heads()
	w.again(first)
	if w.headsWithoutServer(before) != w.headsWithoutServer(w.heads()) {
		w.fail("fetching everything again has changed something")
	}
}

// headsWithoutServer leaves the last line away.
func (w *world) headsWithoutServer(heads string) string {
	return heads[:strings.LastIndexByte(heads, '\n')+1]
}

// again has a device fetch everything again.
func (w *world) again(d *device) {
	c := d.windows[0].client
	if c == nil {
		w.fail("%v is not open", d)
	}
	if err := c.Begin(context.Background(), w.model.key); err != nil {
		w.fail("%v: %v", d, err)
	}
	d.wholePass()
}

// checkLedger: the live entries are the docs.
func (w *world) checkLedger(d *device) {
	docs := d.docs()
	theirs, err := w.ledgerDocs()
	if err != nil {
		w.fail("the ledger: %v", err)
	}
	for _, k := range sortedKeys(theirs) {
		if docs[k] == nil || !merge.Same(docs[k], theirs[k]) {
			w.fail("the ledger has another %s %s than %v", k.kind, k.id, d)
		}
		delete(docs, k)
	}
	if len(docs) > 0 {
		w.fail("the ledger lacks %d docs of %v", len(docs), d)
	}
}

// checkSame: two devices have the same docs.
func (w *world) checkSame(a, b *device) {
	x, y := a.docs(), b.docs()
	for _, k := range sortedKeys(x) {
		if y[k] == nil || !bytes.Equal(x[k].Encode(), y[k].Encode()) {
			w.fail("%v and %v differ in %s %s", a, b, k.kind, k.id)
		}
	}
	if len(x) != len(y) {
		w.fail("%v has %d docs, %v has %d", a, len(x), b, len(y))
	}
}

// checkShown: the records show the docs, and there are no others.
func (w *world) checkShown(d *device) {
	s := shape{d.newer}
	docs := d.docs()
	for _, k := range sortedKeys(docs) {
		r, err := d.disk.get(k.kind, k.id)
		if docs[k].Dead || !s.Carries(k.kind) {
			if err == nil && docs[k].Dead {
				w.fail("%v: %s %s came back", d, k.kind, k.id)
			}
			continue
		}
		if err != nil {
			w.fail("%v: %s %s: %v", d, k.kind, k.id, err)
		}
		want, err := s.Join(docs[k], r.Data)
		if err != nil {
			continue
		}
		if !bytes.Equal(want, r.Data) {
			w.fail("%v: %s %s is %q, and not %q", d, k.kind, k.id, r.Data, want)
		}
	}
	for _, r := range d.disk.list(s.Carries) {
		if docs[diskKey{r.Kind, r.ID}] == nil {
			w.fail("%v: %s %s was not carried", d, r.Kind, r.ID)
		}
	}
}

// checkSurvived: what was saved is there, what was replaced or cleared away is not.
func (w *world) checkSurvived(d *device) {
	replaced, surely := w.replaced(false), w.replaced(true)
	have, haveBeside := d.texts(true), d.texts(false)
	docs := d.docs()
	for _, e := range w.model.edits {
		switch doc := docs[e.key]; {
		case e.kills && !e.loose && doc != nil && !doc.Dead:
			w.fail("%v: %s %s was cleared away and is there", d, e.key.kind, e.key.id)
		case e.text == "":
		case !e.loose && !replaced[e.text] && !have[e.text]:
			w.fail("%v has lost %s of %s %s", d, e.text, e.key.id, e.field)
		case !w.model.loose && surely[e.text] && haveBeside[e.text]:
			w.fail("%v: %s of %s %s was replaced and is there, in %q", d, e.text, e.key.id, e.field, d.where(e.text))
		}
	}
}

// checkAccount: at rest all is on the server too.
func (w *world) checkAccount(d *device) {
	live := len(d.disk.list(shape{d.newer}.Carries))
	a := d.windows[0].client.Account()
	if a.Here != 0 || a.Both != live || a.Unread+a.TooLarge+a.Later+a.Strange > 0 && !w.model.loose || a.Leaving || a.Even == 0 && d.now() != 0 {
		w.fail("%v: the account is %+v, with %d records", d, a, live)
	}
}
