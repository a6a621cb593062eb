package seal_test

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"

	"chalkfold/sync/seal"
	"chalkfold/sync/wire"
)

func wrong(t *testing.T, text string) *seal.WordsError {
	t.Helper()
	_, err := seal.ReadWords(text)
	var e *seal.WordsError
	if !errors.As(err, &e) {
		t.Fatalf("%q: %v", text, err)
	}
	return e
}

// TestSlips: a slip of the pen is found, and what was meant is told.
func TestSlips(t *testing.T) {
	words := seal.NewKey(random(5)).Words()
	for i, w := range words {
		for _, other := range []string{"ba" + w[2:], w[:2] + "zu"} {
			if other == w {
				continue
			}
			slip := slices.Clone(words)
			slip[i] = other
			if e := wrong(t, strings.Join(slip, " ")); e.Word != i+1 || e.Written != other || e.Perhaps != w {
				t.Errorf("%q for %q: %+v", other, w, e)
			}
		}
		if i > 0 && words[i-1] != w {
			slip := slices.Clone(words)
			slip[i-1], slip[i] = w, words[i-1]
			if e := wrong(t, strings.Join(slip, " ")); e.Word != i || !e.Swapped {
				t.Errorf("%d and %d swapped: %+v", i, i+1, e)
			}
		}
		slip := slices.Clone(words)
		slip[i] = "chalk"
		if e := wrong(t, strings.Join(slip, " ")); e.Word != i+1 || e.Written != "chalk" {
			t.Errorf("chalk for word %d: %+v", i+1, e)
		}
	}
	if e := wrong(t, strings.Join(words[1:], " ")); e.Have != 23 || e.Want != 24 {
		t.Errorf("a word missing: %+v", e)
	}
	if e := wrong(t, ""); e.Have != 0 {
		t.Errorf("nothing: %+v", e)
	}
	if e := wrong(t, strings.Repeat("bado ", 24)); e.Word != 0 || e.Perhaps != "" {
		t.Errorf("other words: %+v", e)
	}
	for _, e := range []*seal.WordsError{{Have: 1, Want: 2}, {Word: 1}, {Word: 1, Swapped: true}, {}} {
		if e.Error() == "" {
			t.Errorf("%+v says nothing", e)
		}
	}
}

func TestNoCoarseWords(t *testing.T) {
	draw := random(6)
	first := true
	// puta begins 0x983: the key that is drawn first is not taken.
	k := seal.NewKey(func(b []byte) {
		draw(b)
		if first {
			first = false
			copy(b, coarseBits(t))
		}
	})
	if words := k.Words(); slices.Contains(words, "puta") {
		t.Errorf("the words are %q", words)
	}
}

// coarseBits begin a key with a coarse word.
func coarseBits(t *testing.T) []byte {
	t.Helper()
	for a := range 256 {
		for b := range 16 {
			k := seal.Key{byte(a), byte(b << 4)}
			if k.Words()[0] == "puta" {
				return k[:2]
			}
		}
	}
	t.Fatal("no such word")
	return nil
}

func TestCode(t *testing.T) {
	draw := random(7)
	for range 200 {
		c := seal.NewCode(draw)
		words := c.Words()
		if got, err := seal.ReadCode(strings.ToUpper(strings.Join(words, "-"))); err != nil || got != c || len(words) != seal.CodeWords {
			t.Fatalf("%q: %v", words, err)
		}
		slip := slices.Clone(words)
		slip[3] = "ba" + slip[3][2:]
		if slip[3] != words[3] {
			if got, err := seal.ReadCode(strings.Join(slip, " ")); err == nil && got == c {
				t.Errorf("%q is %q", slip, words)
			}
		}
	}
	if _, err := seal.ReadCode("bado kifu"); err == nil {
		t.Error("two words are a code")
	}
}

func TestParcel(t *testing.T) {
	draw := random(8)
	k, c := seal.NewKey(draw), seal.NewCode(draw)
	p := c.Parcel(k, seal.NewNonce(draw))
	if got, err := c.Unpack(p); err != nil || got != k || p.Name != c.Box() || len(p.Blob) > wire.MostParcel || bytes.Contains(p.Blob, k[:8]) {
		t.Errorf("unpacked %v, %v", got == k, err)
	}
	if _, err := seal.NewCode(draw).Unpack(p); !errors.Is(err, seal.ErrOpen) {
		t.Errorf("with another code: %v", err)
	}
	p.Blob[40] ^= 1
	if _, err := c.Unpack(p); !errors.Is(err, seal.ErrOpen) {
		t.Errorf("changed: %v", err)
	}
}

func TestHandover(t *testing.T) {
	const minute = 60_000
	k, now := seal.NewKey(random(9)), int64(1_936_000_000_000)
	text := seal.Handover(k, now)
	for at, want := range map[int64]error{
		now: nil, now + 9*minute: nil, now - 59*minute: nil, now + 69*minute: nil,
		now + 71*minute: seal.ErrLate, now - 61*minute: seal.ErrLate, 0: seal.ErrLate,
	} {
		if got, err := seal.ReadHandover(text, at); !errors.Is(err, want) || got != k {
			t.Errorf("%d min later: %v, want %v", (at-now)/minute, err, want)
		}
	}
	for i := range text {
		changed := []byte(text)
		changed[i] ^= 1
		if _, err := seal.ReadHandover(string(changed), now); !errors.Is(err, seal.ErrHandover) {
			t.Errorf("letter %d changed: %v", i, err)
		}
		if _, err := seal.ReadHandover(text[:i], now); !errors.Is(err, seal.ErrHandover) {
			t.Errorf("cut to %d: %v", i, err)
		}
	}
}

// FuzzRead: no text is taken for what it is not.
func FuzzRead(f *testing.F) {
	k := seal.NewKey(random(10))
	f.Add(strings.Join(k.Words(), " "))
	f.Add(strings.Join(seal.NewCode(random(11)).Words(), " "))
	whole := seal.Handover(k, 0)
	f.Add(whole)
	f.Add(whole[:18] + "\r\n" + whole[18:]) // as a message may break it
	f.Fuzz(func(t *testing.T, text string) {
		if k, err := seal.ReadWords(text); err == nil && !sameWords(text, k.Words()) {
			t.Errorf("%q is a key", text)
		}
		if c, err := seal.ReadCode(text); err == nil && !sameWords(text, c.Words()) {
			t.Errorf("%q is a code", text)
		}
		line := strings.NewReplacer("\r", "", "\n", "").Replace(text)
		if k, err := seal.ReadHandover(text, 0); err == nil && seal.Handover(k, 0)[10:50] != line[10:50] {
			t.Errorf("%q is a handover", text)
		}
	})
}

func sameWords(text string, words []string) bool {
	text = strings.ToLower(text)
	for _, w := range words {
		_, rest, ok := strings.Cut(text, w)
		if !ok {
			return false
		}
		text = rest
	}
	return true
}
