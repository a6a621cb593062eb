package plain_test

import (
	"bytes"
	"encoding/json"
	"fmt"
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
