package ui

import (
	"bytes"
	"maps"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/sync/merge"
)

// carriage takes records apart for the second copy, and puts them together; see
// sync/client. A field is a path into the record, and its text the JSON there: an
// object is taken apart, a list is one field, unless all in it are objects with an id
// of their own. A measurement is one field, figure and what it was taken of.
//
// What was done in a job, to be undone, stays on the device where it was done.
type carriage struct{}

// Carries reports whether records of a kind are carried to other devices.
func (carriage) Carries(kind string) bool { return carried(kind) }

// syncKind begins the kinds that sync/client keeps beside the records.
const syncKind = "sync"

// The fields of a job that stay on the device.
const (
	fieldSteps = "steps"
	fieldDone  = "done"
)

// placeField is where, in a list of objects, one of them stands.
const placeField = "~at"

// Split takes a record apart.
func (carriage) Split(kind string, data []byte) (map[string][]byte, error) {
	fields := map[string][]byte{}
	r := plain.Read(data)
	if r.Kind() != plain.Object {
		return nil, say.Errorf("the record is no object")
	}
	splitObject(r, "", fields)
	if err := r.End(); err != nil {
		return nil, err
	}
	if asJob(kind) {
		for name := range fields {
			if head, _, _ := strings.Cut(name, "/"); head == fieldSteps || head == fieldDone {
				delete(fields, name)
			}
		}
	}
	return fields, nil
}

// escaped is a key as a part of a path (RFC 6901, JSON Pointer).
func escaped(key string) string {
	return strings.ReplaceAll(strings.ReplaceAll(key, "~", "~0"), "/", "~1")
}

func unescaped(part string) string {
	return strings.ReplaceAll(strings.ReplaceAll(part, "~1", "/"), "~0", "~")
}

func splitObject(r *plain.Reader, path string, fields map[string][]byte) {
	empty := true
	for key := range r.Object() {
		empty = false
		splitValue(r, path+escaped(key), fields)
	}
	if empty && path != "" {
		fields[strings.TrimSuffix(path, "/")] = []byte("{}")
	}
}

// measurementsField begins the fields of measurements, asideField those of what was set
// aside; see Job.Aside.
const (
	measurementsField = "job/measurements/"
	takenField        = "taken/"
	asideField        = "aside/"
)

func splitValue(r *plain.Reader, path string, fields map[string][]byte) {
	if strings.HasPrefix(path, measurementsField) {
		fields[path] = r.Raw()
		return
	}
	switch r.Kind() {
	case plain.Object:
		splitObject(r, path+"/", fields)
	case plain.List:
		text := r.Raw()
		ids := idsOf(text)
		if len(ids) == 0 {
			fields[path] = text
			return
		}
		list, i := plain.Read(text), 0
		for range list.List() {
			of := path + "/" + escaped(ids[i])
			splitObject(list, of+"/", fields)
			fields[of+"/"+placeField] = strconv.AppendInt(nil, int64(i), 10)
			i++
		}
	case plain.Null, plain.Text, plain.Number, plain.Truth:
		fields[path] = r.Raw()
	}
}

// idsOf are the ids of the objects in a list; none where not every one has an id of
// its own.
func idsOf(text []byte) []string {
	var ids []string
	list := plain.Read(text)
	for range list.List() {
		id := ""
		if list.Kind() != plain.Object {
			return nil
		}
		for key := range list.Object() {
			if key == "id" && list.Kind() == plain.Text {
				id = list.Text()
			}
		}
		if id == "" || slices.Contains(ids, id) {
			return nil
		}
		ids = append(ids, id)
	}
	return ids
}

// Join puts a record together, as this version writes it.
func (carriage) Join(d *merge.Doc, here []byte) ([]byte, error) {
	root := &node{}
	for name, text := range d.All() {
		path, isPlace := strings.CutSuffix(name, "/"+placeField)
		n := root.within(path)
		if isPlace {
			n.at, _ = strconv.Atoi(string(text)) // nought where it cannot be read
			list, _, _ := cutLast(path)
			root.within(list).list = true
			continue
		}
		n.text = text
	}
	highest(d, root)
	if d.Kind == houseKind {
		forced(root)
	}
	w := &plain.Writer{}
	root.write(w)
	data, err := w.Done()
	if err != nil {
		return nil, err
	}
	return asKept(d.Kind, data, here)
}

// highest takes the highest of several versions: what a newer version of the program
// wrote is not taken for what an older one did.
func highest(d *merge.Doc, root *node) {
	best := int64(-1)
	for _, v := range d.Fields["version"] {
		r := plain.Read(v.Text)
		if n := r.Int(); r.End() == nil && n > best {
			best, root.within("version").text = n, v.Text
		}
	}
}

// forced keeps the rule set that one phone has put in force and another has deleted.
func forced(root *node) {
	r := plain.Read(root.within("in_force").text)
	if set := root.within("sets").in[r.Text()]; set != nil {
		delete(set.in, "deleted")
	}
}

// asKept is a record as this version keeps it. What can be undone of a job stays where
// the job is as it was.
func asKept(kind string, data, here []byte) ([]byte, error) {
	switch kind {
	case recordKind, orderKind:
		j, err := DecodeJob(data)
		if err != nil {
			return nil, err
		}
		if was, err := DecodeJob(here); err == nil {
			a, errA := was.Content()
			b, errB := j.Content()
			if errA == nil && errB == nil && bytes.Equal(a, b) {
				j.past = was.past
			}
		}
		return j.Encode()
	case clientKind:
		c, err := DecodeClient(data)
		if err != nil {
			return nil, err
		}
		return c.Encode()
	case photoKind:
		p, err := DecodePhoto(data)
		if err != nil {
			return nil, err
		}
		return p.Encode()
	case clothKind:
		r, err := DecodeRemnant(data, job.Units{})
		if err != nil {
			return nil, err
		}
		return r.Encode()
	case houseKind:
		h, err := decodeHouse(data)
		if err != nil {
			return nil, err
		}
		return h.encode()
	}
	return data, nil
}

// Aside is a record that was cleared away for good on another phone, by one that did
// not know what was changed of it here: it goes to the deleted ones.
func (carriage) Aside(_ string, data []byte, ms int64) []byte {
	if deleted, ok := marked(data, ms); ok {
		return deleted
	}
	return data
}

// inConflict are the fields of a doc that are shown side by side where two phones
// changed them: measurements. Those of which both phones say the same are none.
func inConflict(d *merge.Doc) []string {
	var out []string
	for _, name := range slices.Sorted(maps.Keys(d.Fields)) {
		values := d.Fields[name]
		if strings.HasPrefix(name, measurementsField) && slices.ContainsFunc(values, func(v merge.Value) bool { return !bytes.Equal(v.Text, values[0].Text) }) {
			out = append(out, name)
		}
	}
	return out
}
