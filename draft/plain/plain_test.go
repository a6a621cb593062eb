package plain_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"chalkfold/draft/plain"
)

// samples are texts that are JSON, nearly JSON, and nothing of the kind:
// encoding/json says which.
func samples() []string {
	return []string{
		``, ` `, `null`, ` null `, `nul`, `nulll`, `true`, `tru`, `false`, `False`, `TRUE`, `n`,
		`0`, `-0`, `-`, `+1`, `01`, `1.`, `.5`, `1.5`, `1e5`, `1E+5`, `1e-05`, `1e`, `1e+`, `-1.25e2`, `1 2`, `0x1`, `1_0`, `9223372036854775807`, `9223372036854775808`,
		`""`, `"`, `"a`, `"a"b`, `"\"\\\/\b\f\n\r\t"`, `"\a"`, `"\`, `"\"`, `"\u00e9\u2028"`, `"\u00E9"`, `"\u00g9"`, `"\u12"`, `"\u12`,
		`"\ud83d\ude00"`, `"\ud83d"`, `"\ud83dx"`, `"\ud83d\u0041"`, `"\ude00\ud83d"`, `"\ud83d\ud83d\ude00"`, `"\ufffd"`,
		"\"\xff\"", "\"\xc3\"", "\"\xe2\x80\"", "\"\xed\xa0\x80\"", "\"\u2028\u2029 <b>&\"", "\"\x7f\"", "\"\x1f\"", "\"\n\"", "\"\x00\"", "\x00", "1\x00", "\xef\xbb\xbf1",
		`[]`, `[ ]`, `[1]`, `[1,]`, `[,]`, `[1 2]`, `[1,2`, `[`, `]`, `[}`, `[[]]`, `[[],[[1]],{}]`, `[null, null]`,
		`{}`, `{ }`, `{"a":1}`, `{"a":1,}`, `{"a"}`, `{"a":}`, `{a:1}`, `{1:1}`, `{"a":1 "b":2}`, `{"a":1,"b":{"a":[{}]}}`, `{"a":1`, `{"a"`, `{`, `}`, `{]`,
		`{"a":1,"a":2}`, `{"\u0061":1,"a":2,"A":3}`, `{"":""}`, "{\"\xff\":1}", ` { "a" : [ 1 , "b c" , { "d" : null } ] } `, "\t[\r\n1\n]\t",
		`{} {}`, `{},`, `[1]]`, `{"a":<}`, "\v1", "\u00a01",
	}
}

// value reads any value as encoding/json does that of an any, with UseNumber.
func value(r *plain.Reader) any {
	switch r.Kind() {
	case plain.Text:
		return r.Text()
	case plain.Number:
		return json.Number(r.Number())
	case plain.Truth:
		return r.Truth()
	case plain.Object:
		m := map[string]any{}
		for key := range r.Object() {
			m[key] = value(r)
		}
		return m
	case plain.List:
		l := []any{}
		for range r.List() {
			l = append(l, value(r))
		}
		return l
	case plain.Null:
		r.Skip()
	}
	return nil
}

// sameAsEncodingJSON reads data both ways, and writes it both ways.
func sameAsEncodingJSON(t *testing.T, data []byte) {
	t.Helper()
	valid := json.Valid(data)
	err := plain.Check(data)
	if (err == nil) != valid {
		t.Fatalf("%.200q: checked with %v, encoding/json says %v", data, err, valid)
	}
	r := plain.Read(data)
	got := value(r)
	if err := r.End(); (err == nil) != valid {
		t.Fatalf("%.200q: read with %v, encoding/json says %v", data, err, valid)
	}
	var bare bytes.Buffer
	compact, err := plain.Compact(data)
	w := &plain.Writer{}
	w.Raw(data)
	raw, rawErr := w.Done()
	if (err == nil) != valid || (rawErr == nil) != valid {
		t.Fatalf("%.200q: written with %v, %v, encoding/json says %v", data, err, rawErr, valid)
	}
	if !valid {
		return
	}
	var want any
	d := json.NewDecoder(bytes.NewReader(data))
	d.UseNumber()
	if err := d.Decode(&want); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("%.200q is read as\n%#v, encoding/json reads\n%#v", data, got, want)
	}
	if err := json.Compact(&bare, data); err != nil || !bytes.Equal(compact, bare.Bytes()) {
		t.Fatalf("%.200q: compact it is\n%q, encoding/json writes\n%q, %v", data, compact, bare.Bytes(), err)
	}
	if wrote, err := json.Marshal(json.RawMessage(data)); err != nil || !bytes.Equal(raw, wrote) {
		t.Fatalf("%.200q: within another it is\n%q, encoding/json writes\n%q, %v", data, raw, wrote, err)
	}
}

func TestAgainstEncodingJSON(t *testing.T) {
	for _, s := range samples() {
		sameAsEncodingJSON(t, []byte(s))
	}
	for _, n := range []int{9_999, 10_000, 10_001} {
		sameAsEncodingJSON(t, []byte(strings.Repeat("[", n)+strings.Repeat("]", n)))
		sameAsEncodingJSON(t, []byte(strings.Repeat(`{"a":`, n)+"1"+strings.Repeat("}", n)))
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range samples() {
		f.Add([]byte(s))
	}
	f.Fuzz(sameAsEncodingJSON)
}

// written is what fill writes.
func written(t *testing.T, w *plain.Writer, fill func(*plain.Writer)) string {
	t.Helper()
	fill(w)
	data, err := w.Done()
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// sameText writes a text both ways, for a page and for people.
func sameText(t *testing.T, s string) {
	t.Helper()
	want, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	if got := written(t, &plain.Writer{}, func(w *plain.Writer) { w.Text(s) }); got != string(want) {
		t.Errorf("%q is written %s, encoding/json writes %s", s, got, want)
	}
	var unescaped bytes.Buffer
	e := json.NewEncoder(&unescaped)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		t.Fatal(err)
	}
	if got := written(t, &plain.Writer{Lines: true}, func(w *plain.Writer) { w.Text(s) }); got+"\n" != unescaped.String() {
		t.Errorf("%q is written %s in lines, encoding/json writes %s", s, got, unescaped.String())
	}
}

func TestTexts(t *testing.T) {
	for _, s := range samples() {
		sameText(t, s)
	}
	for r := range rune(0x3000) {
		sameText(t, "a"+string(r)+"b")
	}
}

func FuzzText(f *testing.F) {
	for _, s := range samples() {
		f.Add(s)
	}
	f.Fuzz(sameText)
}

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

func TestLines(t *testing.T) {
	got := written(t, &plain.Writer{Lines: true}, func(w *plain.Writer) {
		w.Open('{')
		w.Key("list").Open('[')
		w.Next().Int(1)
		w.Next().Open('{')
		w.Shut('}')
		w.Next().Open('[')
		w.Shut(']')
		w.Shut(']')
		w.Key("<").Truth(false)
		w.Shut('}')
	})
	var want bytes.Buffer
	if err := json.Indent(&want, []byte(`{"list":[1,{},[]],"<":false}`), "", "  "); err != nil || got != want.String() {
		t.Errorf("written\n%s\nwant\n%s", got, want.String())
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

// After a break the rest is left alone.
func TestBreak(t *testing.T) {
	r := plain.Read([]byte(`{"version":3,"head":{"due":"x"},"torn`))
	var keys []string
	for key := range r.Object() {
		keys = append(keys, key)
		if key == "head" {
			break
		}
	}
	if err := r.Err(); err != nil || fmt.Sprint(keys) != "[version head]" {
		t.Errorf("read %q, %v", keys, err)
	}
}

// What is told of a value without reading it does not count as reading it.
func TestLookingIsNotReading(t *testing.T) {
	var kinds []plain.Kind
	r := plain.Read([]byte(`{"a": null, "b" : [ 1 ], "c": "x", "d": [ {} , true]}`))
	for range r.Object() {
		if kinds = append(kinds, r.Kind()); len(kinds) < 4 {
			continue
		}
		for range r.List() {
			kinds = append(kinds, r.Kind())
		}
	}
	want := []plain.Kind{plain.Null, plain.List, plain.Text, plain.List, plain.Object, plain.Truth}
	if err := r.End(); err != nil || !reflect.DeepEqual(kinds, want) {
		t.Errorf("%v, %v, want %v", kinds, err, want)
	}
}

// A value handed on is not written over by who appends to it.
func TestRawIsClosed(t *testing.T) {
	data := []byte(`[1,2]`)
	r := plain.Read(data)
	for range r.List() {
		_ = append(r.Raw(), "xxx"...)
	}
	if string(data) != "[1,2]" {
		t.Errorf("now it is %s", data)
	}
}

func TestWriterKeepsTheFirstError(t *testing.T) {
	w := &plain.Writer{}
	w.Open('[')
	w.Next().Raw([]byte("1]"))
	w.Next().Raw(nil)
	w.Shut(']')
	if _, err := w.Done(); err == nil || !strings.Contains(err.Error(), "after top-level value") {
		t.Errorf("%v, want that of the first", err)
	}
}

func ExampleWriter() {
	w := &plain.Writer{Lines: true}
	w.Open('{')
	w.Key("version").Int(1)
	w.TextIf("note", "")
	plain.WritePairs(w, "rules", map[string]string{"hip_ease": "2 in", "belt_loops": "7"})
	w.Shut('}')
	data, err := w.Done()
	fmt.Println(string(data), err)
	// Output:
	// {
	//   "version": 1,
	//   "rules": {
	//     "belt_loops": "7",
	//     "hip_ease": "2 in"
	//   }
	// } <nil>
}

func ExampleReader() {
	r := plain.Read([]byte(`{"version":1,"later":[],"rules":{"belt_loops":7}}`))
	rules := map[string]string{}
	for key := range r.Object() {
		if key == "rules" {
			plain.ReadPairs(r, &rules)
		}
	}
	fmt.Println(r.End(), len(rules))
	// Output: rules.belt_loops: must be a text, not a number 1
}
