package ui

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/plain"
	"chalkfold/draft/rules"
	"chalkfold/sync/merge"
)

// docOf is a doc with those fields, all of one change.
func docOf(kind string, fields map[string][]byte) *merge.Doc {
	d := merge.New(kind, "a")
	return d.Edit(d.Next(merge.Device{1}, 1000), fields)
}

func split(t *testing.T, kind string, data []byte) map[string][]byte {
	t.Helper()
	fields, err := carriage{}.Split(kind, data)
	if err != nil {
		t.Fatalf("%.100q: %v", data, err)
	}
	return fields
}

func joined(t *testing.T, d *merge.Doc, here []byte) []byte {
	t.Helper()
	data, err := carriage{}.Join(d, here)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// records are those of every kind and every version that there was.
func records(t *testing.T) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	add := func(kind, name string, data []byte, err error) {
		if err != nil {
			t.Fatal(err)
		}
		all[kind+" "+name] = data
	}
	old, err := filepath.Glob("testdata/*.json")
	if err != nil || len(old) == 0 {
		t.Fatalf("%d old records, %v", len(old), err)
	}
	for _, name := range old {
		data, err := os.ReadFile(name)
		if _, readErr := DecodeJob(data); readErr == nil {
			add(recordKind, filepath.Base(name), data, err)
		}
	}
	sample, err := Sample()
	if err != nil {
		t.Fatal(err)
	}
	sample.Client, sample.Notes = "c/1~2", "lining / silk ~ 2 m"
	sample.Measure("hip_girth", "forty", "2031-05-17")
	data, err := sample.Encode()
	add(recordKind, "sample", data, err)
	data, err = NewJob("trousers").Encode()
	add(recordKind, "blank", data, err)
	data, err = (&Client{Name: "Amina", Note: "“tall”", Rules: rules.Values{"hip_ease": "2 in"}}).Encode()
	add(clientKind, "Amina", data, err)
	h := firstHouse(rules.Values{"hip_ease": "2 in"})
	h.add("zz", "Summer", rules.Values{}, "")
	h.add("aa", "Winter", rules.Values{"seat_tilt": "1 in"}, "")
	data, err = h.encode()
	add(houseKind, "three", data, err)
	add("later", "of a newer version", []byte(`{"version":7,"things":[{"id":"b","x":[1,[]]},{"id":"a","x":{}}],"same":[{"id":"a"},{"id":"a"}],"none":null,"":""}`), nil)
	return all
}

// TestCarriage: what was taken apart is put together again as this version keeps it,
// and nothing of it is told apart from what it was.
func TestCarriage(t *testing.T) {
	for name, data := range records(t) {
		kind, _, _ := strings.Cut(name, " ")
		want, err := asKept(kind, data, data)
		if err != nil {
			t.Fatal(name, err)
		}
		fields := split(t, kind, want)
		again := joined(t, docOf(kind, fields), want)
		if kind != "later" && !bytes.Equal(again, want) {
			t.Errorf("%s: put together it is\n%s\nwas\n%s", name, again, want)
		}
		if got := split(t, kind, again); !maps.EqualFunc(got, fields, bytes.Equal) {
			t.Errorf("%s: taken apart again it is %q, was %q", name, slices.Sorted(maps.Keys(got)), slices.Sorted(maps.Keys(fields)))
		}
		if fresh := joined(t, docOf(kind, fields), nil); !maps.EqualFunc(split(t, kind, fresh), fields, bytes.Equal) {
			t.Errorf("%s: on a new phone it is another", name)
		}
		if kind == recordKind {
			if _, ok := readHead(again); !ok {
				t.Errorf("%s: its head does not stand first", name)
			}
		}
	}
}

// TestCarriedFields: what is changed in one place is one field.
func TestCarriedFields(t *testing.T) {
	job, err := Sample()
	if err != nil {
		t.Fatal(err)
	}
	before, err := job.Encode()
	if err != nil {
		t.Fatal(err)
	}
	was := split(t, recordKind, before)
	changed := func(do func(*Job)) []string {
		j, err := DecodeJob(before)
		if err != nil {
			t.Fatal(err)
		}
		do(j)
		after, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		now := split(t, recordKind, after)
		for name, text := range now {
			if !bytes.Equal(was[name], text) {
				names = append(names, name)
			}
		}
		for name := range was {
			if now[name] == nil {
				names = append(names, name)
			}
		}
		slices.Sort(names)
		return names
	}
	for _, tt := range []struct {
		do   func(*Job)
		want []string
	}{
		{func(j *Job) { j.Measure("hip_girth", "41 in", "2031-05-17") }, []string{"job/measurements/hip_girth", "taken/hip_girth"}},
		{func(j *Job) { j.Measure("hip_girth", "", "") }, []string{"job/measurements/hip_girth"}},
		{func(j *Job) { j.Notes = "silk" }, []string{"note"}},
		{func(j *Job) { j.Due = "2031-05-17" }, []string{"head/due"}},
		{func(j *Job) { j.CutPiece("front") }, []string{"pieces/front"}},
		{func(j *Job) { _ = j.Note("x") }, nil},
	} {
		if got := changed(tt.do); !slices.Equal(got, tt.want) {
			t.Errorf("changed are %q, want %q", got, tt.want)
		}
	}
}

// TestConflictingMeasurements are told; other fields, and those of which both say the
// same, are not.
func TestConflictingMeasurements(t *testing.T) {
	job, err := Sample()
	if err != nil {
		t.Fatal(err)
	}
	data, err := job.Encode()
	if err != nil {
		t.Fatal(err)
	}
	d := docOf(recordKind, split(t, recordKind, data))
	change := func(device byte, hip, waist, note string) *merge.Doc {
		return d.Edit(d.Next(merge.Device{device}, 2000), map[string][]byte{
			"job/measurements/hip_girth": []byte(hip), "job/measurements/waist_girth": []byte(waist), "note": []byte(note),
		})
	}
	both := merge.Join(change(2, `"40 in"`, `"33 in"`, `"a"`), change(3, `"41 in"`, `"33 in"`, `"b"`))
	if got := inConflict(both); !slices.Equal(got, []string{"job/measurements/hip_girth"}) {
		t.Errorf("in conflict are %q", got)
	}
	j, err := DecodeJob(joined(t, both, data))
	if err != nil || j.Measured("hip_girth") != "41" || j.Measured("waist_girth") != "33" {
		t.Errorf("shown are %q and %q, %v", j.Measured("hip_girth"), j.Measured("waist_girth"), err)
	}
}

// TestMeasuredOfGarment: one phone measured the body and the other a garment; the figure
// stays with what it was taken of, on either side.
func TestMeasuredOfGarment(t *testing.T) {
	at := func(of body.Of, hip string) map[string][]byte {
		j := NewJob("trousers")
		j.Measure(body.HipGirth, hip, "2031-05-17")
		j.SetOf(body.HipGirth, of)
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		return split(t, recordKind, data)
	}
	const field = "job/measurements/hip_girth"
	d := docOf(recordKind, at(body.OfBody, "42"))
	change := func(device byte, of body.Of, hip string) *merge.Doc {
		return d.Edit(d.Next(merge.Device{device}, 2000), map[string][]byte{field: at(of, hip)[field]})
	}
	both := merge.Join(change(2, body.OfBody, "43"), change(3, body.OfGarment, "46"))
	if got := inConflict(both); !slices.Equal(got, []string{field}) {
		t.Fatalf("in conflict are %q", got)
	}
	for _, v := range both.Fields[field] {
		taking, figure := takingOf(v.Text)
		want := map[body.Of]string{body.OfBody: "43 in", body.OfGarment: "46 in"}[taking.Of]
		if figure != want || taking.Value.String() != want {
			t.Errorf("%s is read as %q, %+v", v.Text, figure, taking)
		}
	}
	for _, odd := range []string{`[1]`, `{"value":"long"}`, `{"value":3}`, `"?"`, `{`} {
		if taking, figure := takingOf([]byte(odd)); taking.Value.Set() || figure != odd {
			t.Errorf("%s is read as %q, %+v", odd, figure, taking)
		}
	}
}

// TestMeetingVersions: the highest version of a record counts; a rule set that one
// phone put in force stays though another has deleted it.
func TestMeetingVersions(t *testing.T) {
	d := docOf(clientKind, map[string][]byte{"version": []byte("1"), "name": []byte(`"Amina"`)})
	newer := d.Edit(d.Next(merge.Device{2}, 2000), map[string][]byte{"version": []byte("9")})
	older := d.Edit(d.Next(merge.Device{3}, 3000), map[string][]byte{"version": []byte("1")})
	if data, err := (carriage{}).Join(merge.Join(newer, older), nil); err == nil {
		t.Errorf("a client of a newer version is shown as %s", data)
	}
	h := firstHouse(nil)
	h.add("summer", "Summer", nil, "")
	data, err := h.encode()
	if err != nil {
		t.Fatal(err)
	}
	d = docOf(houseKind, split(t, houseKind, data))
	deleted := d.Edit(d.Next(merge.Device{2}, 2000), map[string][]byte{"sets/summer/deleted": []byte("5")})
	forced := d.Edit(d.Next(merge.Device{3}, 2000), map[string][]byte{"in_force": []byte(`"summer"`)})
	if got, err := decodeHouse(joined(t, merge.Join(deleted, forced), nil)); err != nil || got.InForce != "summer" || got.inForce().Deleted != 0 {
		t.Errorf("in force is %+v, %v", got, err)
	}
}

func TestCarriedKinds(t *testing.T) {
	for kind, want := range map[string]bool{
		recordKind: true, clientKind: true, clothKind: true, houseKind: true, "later": true,
		deviceKind: false, backupKind: false, "sync": false, "sync.note": false,
	} {
		if got := (carriage{}).Carries(kind); got != want {
			t.Errorf("%s is carried: %v", kind, got)
		}
	}
	if at := deletedAt((carriage{}).Aside(clientKind, []byte(`{"version":1}`), 77)); at != 77 {
		t.Errorf("what is kept aside was deleted at %d", at)
	}
}

// FuzzSplit: no text is taken apart into something that does not go together again.
func FuzzSplit(f *testing.F) {
	f.Add([]byte(`{"a":{"b":[{"id":"x","c":1},{"id":"y"}],"~1/":{}},"":[]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		fields, err := carriage{}.Split("later", data)
		if err != nil || len(fields) == 0 {
			return
		}
		again, err := carriage{}.Join(docOf("later", fields), nil)
		if err != nil || plain.Check(again) != nil {
			t.Fatalf("%q: %v", data, err)
		}
	})
}
