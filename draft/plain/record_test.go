package plain_test

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"testing"

	"chalkfold/draft/plain"
)

// record is one of every kind of entry, for encoding/json as well.
type record struct {
	Version int64             `json:"version"`
	Name    string            `json:"name,omitempty"`
	Changed int64             `json:"changed,omitempty"`
	Singly  bool              `json:"singly,omitempty"`
	Rules   map[string]string `json:"rules,omitempty"`
	File    json.RawMessage   `json:"file"`
	Bytes   []byte            `json:"bytes"`
	Share   float64           `json:"share"`
	Marks   []string          `json:"marks"`
}

// write leaves the share out: there is none to be written anywhere.
func (r *record) write(w *plain.Writer) {
	w.Open('{')
	w.Key("version").Int(r.Version)
	w.TextIf("name", r.Name)
	w.IntIf("changed", r.Changed)
	w.TruthIf("singly", r.Singly)
	plain.WritePairs(w, "rules", r.Rules)
	w.Key("file").Raw(r.File)
	w.Key("bytes").Bytes(r.Bytes)
	w.Key("share").Int(int64(r.Share))
	w.Key("marks").Open('[')
	for _, m := range r.Marks {
		w.Next().Text(m)
	}
	w.Shut(']')
	w.Shut('}')
}

func readRecord(data []byte) (out record, err error) {
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			out.Version = r.Int()
		case "name":
			out.Name = r.Text()
		case "changed":
			out.Changed = r.Int()
		case "singly":
			out.Singly = r.Truth()
		case "rules":
			plain.ReadPairs(r, &out.Rules)
		case "file":
			out.File = r.Raw()
		case "bytes":
			out.Bytes = r.Bytes()
		case "share":
			out.Share = r.Float()
		case "marks":
			out.Marks = nil
			for range r.List() {
				out.Marks = append(out.Marks, r.Text())
			}
		}
	}
	return out, r.End()
}

func TestRecords(t *testing.T) {
	for _, was := range []record{
		{Version: 1, File: json.RawMessage("null"), Bytes: []byte{}, Marks: []string{}},
		{
			Version: math.MinInt64, Name: "Alto 3 “<&>”", Changed: math.MaxInt64, Singly: true,
			Rules: map[string]string{"z": "", "a": "1 1/2 in", "<": "\xff", "": "\u2028"},
			File:  json.RawMessage(`{"chalkfold":1,"name":"a b"}`), Bytes: []byte("\x00any\xff"),
			Share: 3, Marks: []string{"one", ""},
		},
	} {
		want, err := json.Marshal(was)
		if err != nil {
			t.Fatal(err)
		}
		got := written(t, &plain.Writer{}, was.write)
		if got != string(want) {
			t.Errorf("written\n%s\nencoding/json writes\n%s", got, want)
		}
		var both record
		if err := json.Unmarshal(want, &both); err != nil {
			t.Fatal(err)
		}
		again, err := readRecord(want)
		if err != nil {
			t.Fatal(err)
		}
		// Nothing at all and nothing in it are the same here.
		if len(again.Marks)+len(both.Marks) == 0 {
			again.Marks, both.Marks = nil, nil
		}
		if !reflect.DeepEqual(again, both) {
			t.Errorf("%s\nis read as\n%+v\nencoding/json reads\n%+v", want, again, both)
		}
	}
}

// What is null, unknown or given twice is taken as encoding/json takes it.
func TestReading(t *testing.T) {
	for _, text := range []string{
		`null`,
		`{}`,
		` { "version" : 2 , "later" : { "a" : [ 1 , { } ] } , "name" : "a" } `,
		`{"version":1,"version":2,"name":"a","name":"b"}`,
		`{"rules":{"a":"1","b":"2"},"rules":{"b":"3","c":null}}`,
		`{"version": null, "name": null, "singly": null, "rules": null, "bytes": null, "share": null, "marks": null}`,
		`{"marks":["a", null, "b"]}`,
		`{"share":1.5e-3,"bytes":"AP8="}`,
		`{"file": {"a" : 1 } , "singly":false}`,
	} {
		var want record
		if err := json.Unmarshal([]byte(text), &want); err != nil {
			t.Fatal(err)
		}
		if got, err := readRecord([]byte(text)); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s\nis read as\n%+v, %v\nencoding/json reads\n%+v", text, got, err, want)
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, tt := range []struct {
		text string
		at   int
		says string
	}{
		{``, 0, `ends too early`},
		{`{"version":1`, 12, `ends too early`},
		{`{"version":1} x`, 14, `unexpected "x" after top-level value`},
		{`{"version":é}`, 11, `version: unexpected "é"`},
		{`{"version":1;}`, 12, `unexpected ";"`},
		{`[1]`, 0, `must be an object, not a list`},
		{`{"version":"1"}`, 11, `version: must be a number, not a text`},
		{`{"version":1.5}`, 11, `version: 1.5 is no number that can stand here`},
		{`{"version":9223372036854775808}`, 11, `version: 9223372036854775808 is no number that can stand here`},
		{`{"share":1e999}`, 9, `share: 1e999 is no number that can stand here`},
		{`{"name":true}`, 8, `name: must be a text, not true or false`},
		{`{"singly": 1}`, 11, `singly: must be true or false, not a number`},
		{`{"rules":{"a":{}}}`, 14, `rules.a: must be a text, not an object`},
		{`{"marks":["a",2]}`, 14, `marks[1]: must be a text, not a number`},
		{`{"marks":{}}`, 9, `marks: must be a list, not an object`},
		{`{"bytes":"?"}`, 9, `bytes: must be bytes in base 64`},
		{`{"file":[1,}`, 11, `file: unexpected "}"`},
		{`{"name":1,"version":"2"} x`, 8, `name: must be a text, not a number`},
	} {
		if json.Unmarshal([]byte(tt.text), &record{}) == nil {
			t.Errorf("%s: encoding/json takes it", tt.text)
		}
		_, err := readRecord([]byte(tt.text))
		var bad *plain.Error
		if !errors.As(err, &bad) || bad.At != tt.at || bad.Error() != tt.says {
			t.Errorf("%s: %v (%+v), want %s at %d", tt.text, err, bad, tt.says, tt.at)
		}
	}
}
