package simtest

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"chalkfold/sync/merge"
)

// marker is in every text that a user enters: no byte of it may be seen outside.
const marker = "PLAINTEXT"

// The kinds of records. Those of the second are known to the newer version alone.
const (
	oldKind = "job"
	newKind = "client"
)

// newField is a field that the older version does not know.
const newField = "new.note"

// shape takes records apart as a version of the program does: a line for each field,
// "name=text". The field "local" stays on the device.
type shape struct{ newer bool }

var errShape = errors.New("no such record")

func (s shape) Carries(kind string) bool { return kind == oldKind || kind == newKind && s.newer }

func (s shape) Split(_ string, data []byte) (map[string][]byte, error) {
	fields := map[string][]byte{}
	for name, text := range lines(data) {
		if name != "local" {
			fields[name] = []byte(text)
		}
	}
	if fields["broken"] != nil {
		return nil, errShape
	}
	return fields, nil
}

func (s shape) Join(d *merge.Doc, here []byte) ([]byte, error) {
	if _, ok := d.Shown("new.only"); ok && !s.newer {
		return nil, errShape
	}
	fields := map[string]string{}
	if local, ok := lines(here)["local"]; ok {
		fields["local"] = local
	}
	for name, text := range d.All() {
		if s.newer || !strings.HasPrefix(name, "new.") {
			fields[name] = string(text)
		}
	}
	return written(fields), nil
}

func (s shape) Aside(_ string, data []byte, _ int64) []byte {
	fields := lines(data)
	fields["aside"] = "yes"
	return written(fields)
}

// lines reads the fields of a record.
func lines(data []byte) map[string]string {
	fields := map[string]string{}
	for line := range strings.Lines(string(data)) {
		name, text, _ := strings.Cut(strings.TrimSuffix(line, "\n"), "=")
		fields[name] = text
	}
	return fields
}

func written(fields map[string]string) []byte {
	var b strings.Builder
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		b.WriteString(name + "=" + fields[name] + "\n")
	}
	return []byte(b.String())
}
