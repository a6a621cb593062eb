package wire_test

import (
	"bytes"
	"errors"
	"reflect"
	"strings"
	"testing"

	"chalkfold/sync/wire"
)

// again decodes a message and encodes it again, if it is one of what.
type again func(message []byte) ([]byte, error)

func decode[M interface{ Encode() []byte }](decode func([]byte) (M, error)) again {
	return func(message []byte) ([]byte, error) {
		m, err := decode(message)
		if err != nil {
			return nil, err
		}
		return m.Encode(), nil
	}
}

func empty(decode func([]byte) error, encode func() []byte) again {
	return func(message []byte) ([]byte, error) { return encode(), decode(message) }
}

// decoders are all of them.
func decoders() map[string]again {
	return map[string]again{
		"create": decode(wire.DecodeCreate), "position": decode(wire.DecodePosition), "pull": decode(wire.DecodePull),
		"page": decode(wire.DecodePage), "push": decode(wire.DecodePush), "usage": decode(wire.DecodeUsage),
		"chunk": decode(wire.DecodeChunk), "parcel": decode(wire.DecodeParcel),
		"close": empty(wire.DecodeClose, wire.EncodeClose), "done": empty(wire.DecodeDone, wire.EncodeDone),
		"ask": empty(wire.DecodeAsk, wire.EncodeAsk),
		"names": func(message []byte) ([]byte, error) {
			names, err := wire.DecodeNames(message)
			return wire.EncodeNames(names), err
		},
	}
}

func at(seq uint64, id byte) wire.Position { return wire.Position{Seq: seq, ID: wire.Name{id}} }

func entries(seq uint64) []wire.Entry {
	a := wire.Entry{ID: wire.Name{1}, Slot: wire.Name{2}, Blob: []byte("first")}
	b := wire.Entry{ID: wire.Name{3}, Slot: wire.Name{4}, Blob: []byte("second")}
	if seq > 0 {
		a.Seq, b.Seq = seq, seq+5
	}
	return []wire.Entry{a, b}
}

// messages has one of each at least, by the name of its decoder.
func messages() map[string][][]byte {
	return map[string][][]byte{
		"create":   {wire.Create{}.Encode(), wire.Create{Invite: "come in"}.Encode()},
		"position": {wire.Position{}.Encode(), at(7, 9).Encode(), at(wire.LargestSeq, 1).Encode()},
		"pull":     {wire.Pull{Most: 1<<32 - 1}.Encode(), wire.Pull{After: at(7, 9), Most: 3}.Encode()},
		"page": {
			wire.Page{}.Encode(), wire.Page{To: at(9, 9), Entries: entries(2)}.Encode(),
			wire.Page{To: at(7, 3), More: true, Entries: entries(2)}.Encode(),
		},
		"push":   {wire.Push{Base: at(7, 9), Entries: entries(0)}.Encode(), wire.Push{Entries: entries(0)[:1]}.Encode()},
		"usage":  {wire.Usage{Entries: 1, LogBytes: 2, LogQuota: 3, Chunks: 4, ChunkBytes: 5, ChunkQuota: 6}.Encode()},
		"chunk":  {wire.Chunk{Name: wire.Name{1}, Blob: []byte("blob")}.Encode()},
		"parcel": {wire.Parcel{Name: wire.Name{1}, Blob: []byte("blob")}.Encode()},
		"names":  {wire.EncodeNames(nil), wire.EncodeNames([]wire.Name{{1}, {2}})},
		"close":  {wire.EncodeClose()}, "done": {wire.EncodeDone()}, "ask": {wire.EncodeAsk()},
	}
}

func TestRoundTrip(t *testing.T) {
	push := wire.Push{Base: at(7, 9), Entries: entries(0)}
	if got, err := wire.DecodePush(push.Encode()); err != nil || !reflect.DeepEqual(got, push) {
		t.Errorf("push: %+v, %v", got, err)
	}
	page := wire.Page{To: at(7, 3), More: true, Entries: entries(2)}
	if got, err := wire.DecodePage(page.Encode()); err != nil || !reflect.DeepEqual(got, page) {
		t.Errorf("page: %+v, %v", got, err)
	}
	usage := wire.Usage{Entries: 1, LogBytes: 2, LogQuota: 3, Chunks: 4, ChunkBytes: 5, ChunkQuota: 6}
	if got, err := wire.DecodeUsage(usage.Encode()); err != nil || got != usage {
		t.Errorf("usage: %+v, %v", got, err)
	}
	for of, all := range messages() {
		for _, m := range all {
			if got, err := decoders()[of](m); err != nil || !bytes.Equal(got, m) {
				t.Errorf("%s %x: again %x, %v", of, m, got, err)
			}
		}
	}
}

// TestDamage: each message is refused by every other decoder, cut anywhere, and
// with anything after it.
func TestDamage(t *testing.T) {
	for of, all := range messages() {
		for _, m := range all {
			for other, decode := range decoders() {
				if _, err := decode(m); other != of && !errors.Is(err, wire.ErrMessage) {
					t.Errorf("%s taken for %s: %v", of, other, err)
				}
			}
			for n := range m {
				if _, err := decoders()[of](m[:n]); !errors.Is(err, wire.ErrMessage) {
					t.Errorf("%s cut to %d of %d bytes: %v", of, n, len(m), err)
				}
			}
			if _, err := decoders()[of](append(bytes.Clone(m), 0)); !errors.Is(err, wire.ErrMessage) {
				t.Errorf("%s with a byte after it: %v", of, err)
			}
		}
	}
}

func TestLimits(t *testing.T) {
	large := func(n int) []byte { return bytes.Repeat([]byte{1}, n) }
	many := func(n int) []wire.Entry {
		all := make([]wire.Entry, n)
		for i := range all {
			all[i] = wire.Entry{ID: wire.Name{1, byte(i), byte(i >> 8)}, Slot: wire.Name{byte(i), byte(i >> 8)}, Blob: []byte("x")}
		}
		return all
	}
	twice := entries(0)
	twice[1].ID = twice[0].ID
	oneSlot := entries(0)
	oneSlot[1].Slot = oneSlot[0].Slot
	falling := entries(2)
	falling[1].Seq = falling[0].Seq
	for _, tt := range []struct {
		what, of string
		message  []byte
		ok       bool
	}{
		{"the largest blob", "push", wire.Push{Entries: []wire.Entry{{ID: wire.Name{1}, Blob: large(wire.MostBlob)}}}.Encode(), true},
		{"a larger blob", "push", wire.Push{Entries: []wire.Entry{{ID: wire.Name{1}, Blob: large(wire.MostBlob + 1)}}}.Encode(), false},
		{"an empty blob", "push", wire.Push{Entries: []wire.Entry{{ID: wire.Name{1}}}}.Encode(), false},
		{"the most entries", "push", wire.Push{Entries: many(wire.MostEntries)}.Encode(), true},
		{"more entries", "push", wire.Push{Entries: many(wire.MostEntries + 1)}.Encode(), false},
		{"no entries", "push", wire.Push{}.Encode(), false},
		{"an id twice", "push", wire.Push{Entries: twice}.Encode(), false},
		{"a slot twice", "push", wire.Push{Entries: oneSlot}.Encode(), false},
		{"no id", "push", wire.Push{Entries: []wire.Entry{{Blob: large(1)}}}.Encode(), false},
		{"a base beyond doubles", "push", wire.Push{Base: at(wire.LargestSeq+1, 1), Entries: entries(0)}.Encode(), false},
		{"entries of one number", "page", wire.Page{To: at(9, 9), Entries: falling}.Encode(), false},
		{"entries beyond the page", "page", wire.Page{To: at(6, 9), Entries: entries(2)}.Encode(), false},
		{"more after no entry", "page", wire.Page{To: at(9, 9), More: true}.Encode(), false},
		{"more after another entry", "page", wire.Page{To: at(9, 9), More: true, Entries: entries(2)}.Encode(), false},
		{"an id without a number", "position", at(0, 1).Encode(), false},
		{"a number without an id", "position", at(1, 0).Encode(), false},
		{"the longest invitation", "create", wire.Create{Invite: strings.Repeat("x", wire.MostInvite)}.Encode(), true},
		{"a longer one", "create", wire.Create{Invite: strings.Repeat("x", wire.MostInvite+1)}.Encode(), false},
		{"the largest chunk", "chunk", wire.Chunk{Blob: large(wire.MostChunk)}.Encode(), true},
		{"a larger chunk", "chunk", wire.Chunk{Blob: large(wire.MostChunk + 1)}.Encode(), false},
		{"a larger parcel", "parcel", wire.Parcel{Blob: large(wire.MostParcel + 1)}.Encode(), false},
		{"the most names", "names", wire.EncodeNames(make([]wire.Name, wire.MostNames)), true},
		{"more names", "names", wire.EncodeNames(make([]wire.Name, wire.MostNames+1)), false},
	} {
		if _, err := decoders()[tt.of](tt.message); (err == nil) != tt.ok {
			t.Errorf("%s: %v", tt.what, err)
		}
	}
	full := make([]wire.Entry, 4)
	for i := range full {
		full[i] = wire.Entry{ID: wire.Name{byte(i + 1)}, Slot: wire.Name{byte(i)}, Blob: large(wire.MostBlob - 100)}
	}
	if n := len(wire.Push{Entries: full}.Encode()); n > wire.MostMessage {
		t.Errorf("a push of a mebibyte has %d bytes", n)
	}
}

func TestBearer(t *testing.T) {
	w, token := wire.Workshop{1, 2, 3}, wire.Token{31: 0xfe}
	s := wire.Bearer(w, token)
	if gotW, gotT, err := wire.ReadBearer(s); err != nil || gotW != w || gotT != token || strings.Contains(s, ",") {
		t.Errorf("%q: %v, %v", s, gotW, err)
	}
	for _, bad := range []string{"", "Bearer ", s + "0", s[:len(s)-1], strings.ToUpper(s), "Basic  " + s[7:], "Bearer " + strings.ToUpper(s[7:]), s[:20] + "g" + s[21:]} {
		if _, _, err := wire.ReadBearer(bad); !errors.Is(err, wire.ErrCredentials) {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

// FuzzDecode: whatever a decoder takes encodes to the same bytes.
func FuzzDecode(f *testing.F) {
	for _, all := range messages() {
		for _, m := range all {
			f.Add(m)
		}
	}
	f.Fuzz(func(t *testing.T, message []byte) {
		taken := 0
		for of, decode := range decoders() {
			got, err := decode(message)
			if err != nil {
				continue
			}
			if taken++; !bytes.Equal(got, message) {
				t.Errorf("%s: %x is written %x", of, message, got)
			}
		}
		if taken > 1 {
			t.Errorf("%x is several messages", message)
		}
	})
}
