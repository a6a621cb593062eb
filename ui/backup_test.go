//go:build !js

package ui

import (
	"bytes"
	"context"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// shelfOf is a store with jobs, each told as "id, name, day of May 2031".
func shelfOf(t *testing.T, jobs ...string) *mem.Store {
	t.Helper()
	s := &mem.Store{}
	for _, told := range jobs {
		parts := strings.Split(told, ", ")
		j := NewJob("trousers")
		j.SetName(parts[1])
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		at, err := time.Parse("2 Jan 2006", parts[2]+" May 2031")
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Put(context.Background(), store.Record{Kind: recordKind, ID: parts[0], Rev: 3, Data: data, Updated: at}); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

func backupOf(t *testing.T, s store.Store) []byte {
	t.Helper()
	records, err := s.All(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	file, err := writeBackup(records)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// textFile is a text as a file.
func textFile(text string) chosenFile {
	return chosenFile{len(text), func(from, to int) ([]byte, error) { return []byte(text[from:to]), nil }}
}

// backupWithPictures has them as well.
func backupWithPictures(t *testing.T, s *mem.Store) []byte {
	t.Helper()
	records, err := s.All(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	next, err := backupLines(context.Background(), records, s, true)
	if err != nil {
		t.Fatal(err)
	}
	var file []byte
	for line, err := next(); line != nil || err != nil; line, err = next() {
		if err != nil {
			t.Fatal(err)
		}
		file = append(file, line...)
	}
	return file
}

// restore restores a file into a store.
func restore(t *testing.T, s store.Store, file []byte, replace bool) {
	t.Helper()
	r, err := readBackup(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := r.into(context.Background(), s, replace, clock(), nil); err != nil {
		t.Fatal(err)
	}
}

// on tells the jobs of a store by name, the deleted ones in brackets.
func on(t *testing.T, s store.Store) string {
	t.Helper()
	all, err := shelve(context.Background(), s, recordKind, nil)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, r := range all {
		name := r.Ticket
		if r.deleted() {
			name = "[" + name + "]"
		}
		names = append(names, name)
	}
	slices.Sort(names)
	return strings.Join(names, "; ")
}

func TestRestore(t *testing.T) {
	for _, tt := range []struct {
		what       string
		file, here []string
		found      [2]int // new, differing
		merged     string
		replaced   string
	}{
		{"an empty phone", []string{"a, Alto 3, 1", "b, Bass 1, 2"}, nil, [2]int{2, 0}, "Alto 3; Bass 1", "Alto 3; Bass 1"},
		{"an empty file", nil, []string{"a, Alto 3, 1"}, [2]int{}, "Alto 3", "[Alto 3]"},
		{"the same", []string{"a, Alto 3, 1"}, []string{"a, Alto 3, 9"}, [2]int{}, "Alto 3", "Alto 3"},
		{"older in the file", []string{"a, Alto 3, 1"}, []string{"a, Alto 4, 9"}, [2]int{0, 1}, "Alto 3 (from backup); Alto 4", "Alto 3; [Alto 4]"},
		{"newer in the file", []string{"a, Alto 3, 9"}, []string{"a, Alto 4, 1"}, [2]int{0, 1}, "Alto 3; Alto 4 (before restoring)", "Alto 3; [Alto 4]"},
		{"at once", []string{"a, Alto 3, 1"}, []string{"a, Alto 4, 1"}, [2]int{0, 1}, "Alto 3 (from backup); Alto 4", "Alto 3; [Alto 4]"},
		{"others", []string{"a, Alto 3, 1"}, []string{"b, Bass 1, 1"}, [2]int{1, 0}, "Alto 3; Bass 1", "Alto 3; [Bass 1]"},
	} {
		for _, replace := range []bool{false, true} {
			want := tt.merged
			if replace {
				want = tt.replaced
			}
			ctx, s := context.Background(), shelfOf(t, tt.here...)
			file := backupOf(t, shelfOf(t, tt.file...))
			for round := range 2 { // the second adds nothing
				r, err := readBackup(file)
				if err != nil {
					t.Fatal(err)
				}
				here, err := s.All(ctx)
				if err != nil {
					t.Fatal(err)
				}
				var got [2]int
				for _, f := range r.look(here) {
					got = [2]int{f.fresh, f.differs}
				}
				if round == 0 && got != tt.found {
					t.Errorf("%s: new and differing %v, want %v", tt.what, got, tt.found)
				}
				if err := r.into(ctx, s, replace, clock(), nil); err != nil {
					t.Fatalf("%s: %v", tt.what, err)
				}
				if got := on(t, s); got != want {
					t.Errorf("%s, replace %v: %q, want %q", tt.what, replace, got, want)
				}
			}
		}
	}
}

// TestRestoreDeleted: what was deleted meanwhile is not lost, and not forced
// back over a newer one.
func TestRestoreDeleted(t *testing.T) {
	ctx := context.Background()
	s := shelfOf(t, "a, Alto 3, 1", "b, Bass 1, 1")
	file := backupOf(t, s)
	restored := func() {
		t.Helper()
		restore(t, s, file, false)
		if got := on(t, s); got != "Alto 3; Bass 1" {
			t.Errorf("restored: %q", got)
		}
	}
	if err := s.Delete(ctx, recordKind, "a", 3); err != nil { // for good
		t.Fatal(err)
	}
	restored()
	if r, err := s.Get(ctx, recordKind, "a"); err != nil || r.Rev != 5 {
		t.Errorf("back over its tombstone at rev %d, %v; want 5", r.Rev, err)
	}
	r, err := s.Get(ctx, recordKind, "b")
	if err != nil {
		t.Fatal(err)
	}
	j, err := DecodeJob(r.Data)
	if err != nil {
		t.Fatal(err)
	}
	j.Deleted = clock().UnixMilli()
	if r.Data, err = j.Encode(); err != nil {
		t.Fatal(err)
	}
	r.Rev, r.Updated = r.Rev+1, clock()
	if err := s.Put(ctx, r); err != nil {
		t.Fatal(err)
	}
	if got := on(t, s); got != "Alto 3; [Bass 1]" || bytes.Contains(backupOf(t, s), []byte("Bass 1")) {
		t.Errorf("deleted: %q, or still in a backup", got)
	}
	restored()
}

// TestEarlierBackups opens the files that earlier versions wrote, and this one.
// They are never changed.
func TestEarlierBackups(t *testing.T) {
	for version := 1; version <= backupVersion; version++ {
		file, err := os.ReadFile("testdata/backup-" + strconv.Itoa(version) + ".json")
		if err != nil {
			t.Fatal(err)
		}
		r, err := readBackupFile(textFile(string(file)))
		if err != nil {
			t.Fatalf("version %d: %v", version, err)
		}
		jobs := 0
		for i, f := range r.records {
			if f.Kind != recordKind {
				continue
			}
			name := []string{"Alto 3 “<&>”", "Ẹlẹ́ṣin"}[jobs]
			jobs++
			want := NewJob("trousers")
			want.SetName(name)
			got, err := DecodeJob(f.Data)
			if err != nil {
				t.Fatalf("version %d, record %d: %v", version, i, err)
			}
			if got, want := contentOf(t, got), contentOf(t, want); got != want {
				t.Errorf("version %d: read as\n%s\nwant\n%s", version, got, want)
			}
			if jobs == 2 {
				break // what follows is of no job
			}
		}
		if jobs != 2 {
			t.Errorf("version %d: %d jobs, want 2", version, jobs)
		}
		s := &mem.Store{}
		restore(t, s, file, false)
		if _, err := r.restorePictures(context.Background(), s, s); err != nil {
			t.Error(err)
		}
		if again := backupWithPictures(t, s); version > 1 && !bytes.Equal(again, file) {
			t.Errorf("restored and saved again it is\n%s\nwas\n%s", again, file)
		}
	}
}
