package rules_test

import (
	"bytes"
	"encoding/hex"
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/rules"
)

func lendable() rules.Lent {
	return rules.Lent{Name: "Ẹgbẹ́, Mother's", Values: rules.Values{"seat_tilt": "1 1/2 in", "belt_loops": "7", "fork_fullness": "0.5"}}
}

func TestLentIsReadAgain(t *testing.T) {
	for _, l := range []rules.Lent{{Values: rules.Values{}}, lendable()} {
		data, err := l.Encode()
		if err != nil {
			t.Fatal(err)
		}
		got, err := rules.DecodeLent(data)
		if err != nil || got.Name != l.Name || !maps.Equal(got.Values, l.Values) {
			t.Errorf("%+v is read as %+v, %v", l, got, err)
		}
	}
	long := rules.Lent{Name: strings.Repeat("ẹ", 50), Values: rules.Values{}}
	data, err := long.Encode()
	if err != nil {
		t.Fatal(err)
	}
	if got, err := rules.DecodeLent(data); err != nil || got.Name != strings.Repeat("ẹ", 26) {
		t.Errorf("a long name is read as %q, %v", got.Name, err)
	}
	for _, bad := range []rules.Values{{"seat_tilt": ""}, {"seat_tilt": strings.Repeat("1", 41)}, {"": "1"}, {"seat\n": "1"}} {
		if _, err := (rules.Lent{Values: bad}).Encode(); err == nil {
			t.Errorf("%q was written", bad)
		}
	}
}

// A set of the first version, byte by byte as the format is told. It must open
// for ever.
func TestFirstVersionOpens(t *testing.T) {
	data, err := hex.DecodeString("01" + "08" + hex.EncodeToString([]byte("Mother's")) + "02" +
		"0a" + hex.EncodeToString([]byte("belt_loops")) + "01" + hex.EncodeToString([]byte("7")) +
		"09" + hex.EncodeToString([]byte("seat_tilt")) + "08" + hex.EncodeToString([]byte("1 1/2 in")))
	if err != nil {
		t.Fatal(err)
	}
	want := rules.Lent{Name: "Mother's", Values: rules.Values{"belt_loops": "7", "seat_tilt": "1 1/2 in"}}
	got, err := rules.DecodeLent(data)
	if err != nil || got.Name != want.Name || !maps.Equal(got.Values, want.Values) {
		t.Fatalf("%+v, %v", got, err)
	}
	if again, err := got.Encode(); err != nil || !bytes.Equal(again, data) {
		t.Errorf("written again as %x, %v", again, err)
	}
}

func TestDamagedSetIsRefused(t *testing.T) {
	data, err := lendable().Encode()
	if err != nil {
		t.Fatal(err)
	}
	for i := range data {
		if _, err := rules.DecodeLent(data[:i]); !errors.Is(err, rules.ErrLentDamaged) {
			t.Errorf("cut at %d: %v", i, err)
		}
	}
	for what, bad := range map[string]string{
		"nothing":             "",
		"version nought":      "00" + "00" + "00",
		"more behind":         "01" + "00" + "00" + "00",
		"a long varint":       "01" + "8000" + "00",
		"too many rules":      "01" + "00" + "c901",
		"a name out of order": "01" + "00" + "02" + "0162" + "0131" + "0161" + "0131",
		"a rule twice":        "01" + "00" + "02" + "0161" + "0131" + "0161" + "0131",
		"no value":            "01" + "00" + "01" + "0161" + "00",
		"no UTF-8":            "01" + "01ff" + "00",
		"a line end":          "01" + "010a" + "00",
		"a space before":      "01" + "022061" + "00",
	} {
		raw, err := hex.DecodeString(bad)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := rules.DecodeLent(raw); !errors.Is(err, rules.ErrLentDamaged) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if _, err := rules.DecodeLent([]byte{2, 0, 0}); !errors.Is(err, rules.ErrLentNewer) {
		t.Errorf("version 2: %v", err)
	}
}

// Unknown rules are told apart, and a value out of its range is refused.
func TestJudge(t *testing.T) {
	defs := []rules.Def{
		{ID: "seat_tilt", Name: "seat tilt", Kind: rules.Length, Default: "2 in", Min: "1/2 in", Max: "3 in"},
		{ID: "belt_loops", Name: "belt loops", Kind: rules.Count, Default: "5", Min: "0", Max: "8"},
	}
	known, unknown, err := lendable().Judge(defs)
	if err != nil || !maps.Equal(known, rules.Values{"seat_tilt": "1 1/2 in", "belt_loops": "7"}) || !slices.Equal(unknown, []rules.ID{"fork_fullness"}) {
		t.Errorf("%v, %v, %v", known, unknown, err)
	}
	var bad *rules.BadRule
	if _, _, err := (rules.Lent{Values: rules.Values{"belt_loops": "70"}}).Judge(defs); !errors.As(err, &bad) || bad.ID != "belt_loops" {
		t.Errorf("70 loops: %v", err)
	}
}

// What is read is written again the same.
func FuzzDecodeLent(f *testing.F) {
	data, err := lendable().Encode()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte{1, 0, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := rules.DecodeLent(data)
		if err != nil {
			return
		}
		if again, err := l.Encode(); err != nil || !bytes.Equal(again, data) {
			t.Errorf("%x is written again as %x, %v", data, again, err)
		}
	})
}
