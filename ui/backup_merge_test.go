//go:build !js

package ui

import (
	"bytes"
	"context"
	"errors"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// others are records of other kinds than jobs, one of them on its way out, and
// jobs that nobody can read.
func others() []store.Record {
	at := time.Date(2031, 5, 3, 0, 0, 0, 0, time.UTC)
	return []store.Record{
		{Kind: "client", ID: "c", Rev: 2, Data: []byte(`{"version":1,"ticket":"Alto 3"}`), Updated: at},
		{Kind: "client", ID: "gone", Rev: 2, Data: []byte(`{"version":1,"ticket":"Bass 9","deleted":1935360000000}`), Updated: at},
		{Kind: "device", ID: "screen", Rev: 1, Data: []byte(`{"awake":true}`), Updated: at},
		{Kind: "house", ID: "first", Rev: 7, Data: []byte(`{ "laid out":  "by hand" }`), Updated: at},
		{Kind: "job", ID: "newer", Rev: 1, Data: []byte(`{"version":99,"what":"only a later one knows"}`), Updated: at},
		{Kind: "job", ID: "torn", Rev: 1, Data: []byte("{\"version\":2,\xff\x00"), Updated: at},
		{Kind: "job", ID: "void", Rev: 1, Data: []byte{}, Updated: at},
		{Kind: "later", ID: "null", Rev: 1, Data: []byte(`null`), Updated: at},
	}
}

// TestEveryKind: a backup carries every record but those of this device and the
// deleted ones, and gives each back byte for byte.
func TestEveryKind(t *testing.T) {
	ctx := context.Background()
	s := shelfOf(t, "a, Alto 3, 1")
	if err := s.Put(ctx, others()...); err != nil {
		t.Fatal(err)
	}
	file := backupOf(t, s)
	for _, left := range []string{"Bass 9", "awake"} {
		if bytes.Contains(file, []byte(left)) {
			t.Errorf("%q is in the file", left)
		}
	}
	wiped := &mem.Store{}
	restore(t, wiped, file, true)
	was, err := s.All(ctx)
	if err != nil {
		t.Fatal(err)
	}
	back, err := wiped.All(ctx)
	if err != nil {
		t.Fatal(err)
	}
	was = slices.DeleteFunc(was, func(r store.Record) bool { return r.Kind == "device" || r.ID == "gone" })
	if len(back) != len(was) {
		t.Fatalf("%d records came back of %d", len(back), len(was))
	}
	for i := range was {
		if back[i].Kind != was[i].Kind || back[i].ID != was[i].ID || !bytes.Equal(back[i].Data, was[i].Data) || !back[i].Updated.Equal(was[i].Updated) {
			t.Errorf("came back as %+v\nwas %+v", back[i], was[i])
		}
	}
}

// TestMergeOfKinds: of two clients one is kept under the name, the other where
// it can be recovered; what cannot be read is never touched.
func TestMergeOfKinds(t *testing.T) {
	ctx := context.Background()
	client := func(day int, ticket string) store.Record {
		return store.Record{
			Kind: "client", ID: "c", Rev: 4, Data: []byte(`{"ticket":"` + ticket + `"}`),
			Updated: time.Date(2031, 5, day, 0, 0, 0, 0, time.UTC),
		}
	}
	tell := func(s store.Store) string {
		t.Helper()
		all, err := s.All(ctx)
		if err != nil {
			t.Fatal(err)
		}
		var told []string
		for _, r := range all {
			text := string(r.Data)
			if at := deletedAt(r.Data); at > 0 {
				text = "[" + strings.Replace(text, `"deleted":`+strconv.FormatInt(at, 10)+",", "", 1) + "]"
			}
			if r.ID != "c" {
				text += "*"
			}
			told = append(told, text)
		}
		return strings.Join(told, " ")
	}
	for _, tt := range []struct {
		what             string
		file, here       store.Record
		merged, replaced string
	}{
		{"newer in the file", client(9, "new"), client(1, "old"), `{"ticket":"new"} [{"ticket":"old"}]*`, `{"ticket":"new"} [{"ticket":"old"}]*`},
		{"older in the file", client(1, "old"), client(9, "new"), `{"ticket":"new"} [{"ticket":"old"}]*`, `{"ticket":"old"} [{"ticket":"new"}]*`},
		{"the same", client(1, "x"), client(9, "x"), `{"ticket":"x"}`, `{"ticket":"x"}`},
	} {
		for _, replace := range []bool{false, true} {
			from, s := &mem.Store{}, &mem.Store{}
			if err := errors.Join(from.Put(ctx, tt.file), s.Put(ctx, tt.here)); err != nil {
				t.Fatal(err)
			}
			want := tt.merged
			if replace {
				want = tt.replaced
			}
			for range 2 { // the second adds nothing
				restore(t, s, backupOf(t, from), replace)
				if got := tell(s); got != want {
					t.Errorf("%s, replace %v: %s, want %s", tt.what, replace, got, want)
				}
			}
		}
	}

	s := shelfOf(t, "torn, Alto 3, 1", "left, Bass 1, 1")
	if err := s.Put(ctx, others()...); !errors.Is(err, store.ErrStale) {
		t.Fatal("the torn job was to stand at a higher rev")
	}
	torn := &mem.Store{}
	if err := torn.Put(ctx, others()...); err != nil {
		t.Fatal(err)
	}
	restore(t, s, backupOf(t, torn), true)
	all, err := s.All(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range all {
		if r.Kind == recordKind {
			got = append(got, r.ID+" "+strconv.FormatBool(readable(r))+" "+strconv.FormatBool(deletedAt(r.Data) > 0))
		}
	}
	want := []string{"left true true", "newer false false", "torn true false", "torn-" + sumOf([]byte("{\"version\":2,\xff\x00")) + " false false", "void false false"}
	if !slices.Equal(got, want) {
		t.Errorf("of the jobs there are\n%q, want\n%q", got, want)
	}
}

// TestFirstVersionReplaces: a file of before other kinds were kept replaces the
// jobs alone.
func TestFirstVersionReplaces(t *testing.T) {
	ctx := context.Background()
	s := shelfOf(t, "z, Bass 1, 1")
	if err := s.Put(ctx, others()...); err != nil {
		t.Fatal(err)
	}
	file, err := os.ReadFile("testdata/backup-1.json")
	if err != nil {
		t.Fatal(err)
	}
	restore(t, s, file, true)
	for _, tt := range []struct {
		kind, id string
		deleted  bool
	}{{"client", "c", false}, {"house", "first", false}, {recordKind, "z", true}, {recordKind, "a", false}} {
		r, err := s.Get(ctx, tt.kind, tt.id)
		if err != nil || (deletedAt(r.Data) > 0) != tt.deleted {
			t.Errorf("%s %s: %s, %v; want deleted %v", tt.kind, tt.id, r.Data, err, tt.deleted)
		}
	}
}
