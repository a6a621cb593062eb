package simtest

import (
	"context"
	"errors"
	"maps"

	"chalkfold/sync/ledger"
	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/wire"
)

// edit is a change that a user saw saved.
type edit struct {
	text   string // empty where a field was emptied or a record cleared away
	device int
	key    diskKey
	field  string
	kills  bool
	// replaces are the texts that its device had of the field, or of the record.
	replaces []string
	// loose: it may be lost, or not.
	loose bool
}

// model is what ought to be.
type model struct {
	key   seal.Key // of the workshop as it is now
	edits []edit
	// loose: something was set back, so that what was replaced may come back beside
	// what replaced it.
	loose bool
}

func (m *model) init() { m.key = seal.Key{1} }

// undo tells that a device put back a record that it had cleared away.
func (m *model) undo(device int, k diskKey) {
	for i, e := range m.edits {
		if e.device == device && e.key == k {
			// Its fields were emptied, those at least that its version showed.
			m.edits[i].kills, m.edits[i].loose = false, e.loose || e.kills
		}
	}
}

// setBack tells that a device lost what it did from that edit on.
func (m *model) setBack(device, from int) {
	m.loose = true
	for i := from; i < len(m.edits); i++ {
		if m.edits[i].device == device {
			m.edits[i].loose = true
		}
	}
}

// damage tells that of a doc only what its record shows is left on a device.
func (m *model) damage(doc *merge.Doc, shown map[string]string) {
	m.loose = true // what was replaced may come back beside what replaced it
	for name, values := range doc.Fields {
		for _, v := range values {
			for i, e := range m.edits {
				if e.text == string(v.Text) && shown[name] != e.text {
					m.edits[i].loose = true
				}
			}
		}
	}
}

// lose tells that a device is gone: what no other has of it may be lost.
func (m *model) lose(w *world, device int) {
	for i, e := range m.edits {
		if e.device == device && e.text == "" {
			m.edits[i].loose = true
		}
	}
	m.missing(w)
}

// missing tells that what no device has any more may be lost: the server, if it has
// it, may be set back.
func (m *model) missing(w *world) {
	have := w.haveAnywhere()
	for i, e := range m.edits {
		if e.text != "" && !have[e.text] {
			m.edits[i].loose = true
		}
	}
	m.forget(w)
}

// forget tells that what was cleared away may be back if nobody knows of it any more.
func (m *model) forget(w *world) {
	dead := w.deadAnywhere()
	for i, e := range m.edits {
		if e.kills && !dead[e.key] {
			m.edits[i].loose = true
		}
	}
}

// deadAnywhere are the records of which the server knows that they were cleared away, or
// any device: by the note, or, whatever the note says, by the record's being deleted.
func (w *world) deadAnywhere() map[diskKey]bool {
	dead := map[diskKey]bool{}
	add := func(docs map[diskKey]*merge.Doc) {
		for k, doc := range docs {
			if doc.Dead {
				dead[k] = true
			}
		}
	}
	docs, err := w.ledgerDocs()
	if err != nil && !errors.Is(err, ledger.ErrUnknown) {
		w.fail("the ledger: %v", err)
	}
	add(docs)
	for _, d := range w.devices {
		if d.gone {
			continue
		}
		add(d.docs())
		for k, row := range d.disk.rows {
			if row.deleted {
				dead[k] = true
			}
		}
	}
	return dead
}

// haveAnywhere are the texts that any device has.
func (w *world) haveAnywhere() map[string]bool {
	have := map[string]bool{}
	for _, d := range w.devices {
		if d.gone {
			continue
		}
		maps.Copy(have, d.texts(true))
		for _, r := range d.disk.list(func(kind string) bool { return kind == oldKind || kind == newKind }) {
			for _, text := range lines(r.Data) {
				have[text] = true
			}
		}
	}
	return have
}

// ledgerDocs are the docs of the live entries that the server has of the workshop.
func (w *world) ledgerDocs() (map[diskKey]*merge.Doc, error) {
	keys := seal.KeysOf(w.model.key)
	docs := map[diskKey]*merge.Doc{}
	var at wire.Position
	for more := true; more; {
		p, err := w.ledger.Pull(context.Background(), keys.Workshop, at, wire.MostPage)
		if err != nil {
			return nil, err
		}
		for _, e := range p.Entries {
			text, err := keys.Open(e.Slot, e.ID, e.Blob)
			if err != nil {
				w.fail("an entry of the ledger: %v", err)
			}
			doc, err := merge.Decode(text)
			if err != nil {
				w.fail("an entry of the ledger: %v", err)
			}
			k := diskKey{doc.Kind, doc.ID}
			if docs[k] != nil {
				w.fail("the ledger has %s %s twice", doc.Kind, doc.ID)
			}
			docs[k] = doc
		}
		at, more = p.To, p.More
	}
	return docs, nil
}
