//go:build !js

package ui

import (
	"bytes"
	"context"
	"errors"
	"os"
	"slices"
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
	records, err := s.List(context.Background(), recordKind)
	if err != nil {
		t.Fatal(err)
	}
	file, err := writeBackup(records)
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// on tells the jobs of a store by name, the deleted ones in brackets.
func on(t *testing.T, s store.Store) string {
	t.Helper()
	all, err := shelve(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, r := range all {
		name := r.job.File.Name
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
				jobs, err := readBackup(file)
				if err != nil {
					t.Fatal(err)
				}
				here, err := shelve(ctx, s)
				if err != nil {
					t.Fatal(err)
				}
				r := look(jobs, here)
				if got := [2]int{r.fresh, r.differing}; round == 0 && got != tt.found {
					t.Errorf("%s: new and differing %v, want %v", tt.what, got, tt.found)
				}
				if err := restoreInto(ctx, s, r, replace, clock()); err != nil {
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
		jobs, err := readBackup(file)
		if err != nil {
			t.Fatal(err)
		}
		here, err := shelve(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		if err := restoreInto(ctx, s, look(jobs, here), false, clock()); err != nil {
			t.Fatal(err)
		}
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

// TestEarlierBackup opens the file that version 1 wrote. It is never changed.
func TestEarlierBackup(t *testing.T) {
	const name = "testdata/backup-1.json"
	file, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	jobs, err := readBackup(file)
	if err != nil || len(jobs) != 2 || jobs[0].job.File.Name != "Alto 3 “<&>”" || jobs[1].ID != "b" {
		t.Errorf("read as %+v, %v", jobs, err)
	}
	for i, name := range []string{"Alto 3 “<&>”", "Ẹlẹ́ṣin"} {
		j := NewJob("trousers")
		j.SetName(name)
		if got, want := contentOf(t, jobs[i].job), contentOf(t, j); got != want {
			t.Errorf("read as\n%s\nwant\n%s", got, want)
		}
	}
}

func TestDamagedBackups(t *testing.T) {
	file := string(backupOf(t, shelfOf(t, "a, Alto 3, 1", "b, Bass 1, 2")))
	for n := range len(file) { // cut off anywhere
		if _, err := readBackup([]byte(file[:n])); !errors.Is(err, errNoBackup) {
			t.Fatalf("%d of %d bytes: %v, want it refused", n, len(file), err)
		}
	}
	start := strings.Index(file, `"jobs":[`) + len(`"jobs":[`)
	for n := start; n < len(file)-2; n++ { // one bit
		bad := []byte(file)
		bad[n] ^= 1
		if _, err := readBackup(bad); err == nil {
			t.Fatalf("a flipped bit at byte %d was not seen", n)
		}
	}
	sealed := func(jobs string) string {
		return `{"chalkfold_backup":1,"sum":"` + sumOf([]byte(jobs)) + `","jobs":` + jobs + `}`
	}
	for _, tt := range []struct {
		what, file string
		want       error
	}{
		{"nothing", "", errNoBackup},
		{"another file", `{"chalkfold": 1}`, errNoBackup},
		{"a list", `[]`, errNoBackup},
		{"newer", strings.Replace(file, `"chalkfold_backup":1`, `"chalkfold_backup":2`, 1), errTooNew},
		{"a newer job", sealed(`[{"id":"a","changed":1,"job":{"version":99}}]`), errTooNew},
		{"no job", sealed(`[{"id":"a","changed":1,"job":{}}]`), errDamaged},
		{"jobs of another kind", sealed(`7`), errDamaged},
		{"no id", strings.Replace(file, `"id":"a"`, `"id":""`, 1), errDamaged},
	} {
		if _, err := readBackup([]byte(tt.file)); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", tt.what, err, tt.want)
		}
	}
	if jobs, err := readBackup([]byte(strings.ReplaceAll(strings.ReplaceAll(file, `,"`, `, "`), "{", "{\n"))); err != nil || len(jobs) != 2 {
		t.Errorf("laid out anew by an editor: %d jobs, %v", len(jobs), err)
	}
}

func TestDeskBackup(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.stage = stageBook
	if got := b.backupNudge(0); got != "" {
		t.Errorf("with no job it says %q", got)
	}
	b.openSample()
	b.settle()
	b.stage = stageBook
	b.listJobs()
	b.settle()
	b.shows("No backup yet")
	var name string
	var file []byte
	b.download = func(n string, f []byte) { name, file = n, f }
	b.bookView().OnBackup()
	b.settle()
	b.shows("Handed over as chalkfold-backup-2031-05-17.json")
	if name != "chalkfold-backup-2031-05-17.json" || b.backupNudge(1) != "" {
		t.Errorf("named %q, and then it says %q", name, b.backupNudge(1))
	}
	was := b.deps.Now
	b.deps.Now = func() time.Time { return was().Add(backupAge + time.Hour) }
	b.shows("The last backup is of 17 May 2031")

	// In a window of an empty phone: refused, looked at, merged.
	other := open(t, &mem.Store{}, nil)
	other.stage = stageBook
	other.bookView().OnFile(string(file[:len(file)-9]))
	other.shows("Nothing was restored and nothing is changed", "choose another")
	other.bookView().OnFile(string(file))
	other.shows("The file has 1 job: 1 is new, 0 differ from what is here, 0 are the same")
	other.bookView().OnMerge()
	other.settle()
	other.shows("Restored 1 job")
	if got := backupOf(t, other.store); !bytes.Equal(got, file) {
		t.Errorf("a backup of what was restored is\n%s\nwas\n%s", got, file)
	}
	if other.job.File.Name != "Alto 3" {
		t.Errorf("%q lies on the desk", other.job.File.Name)
	}
	if next := open(t, s, nil); next.backed.Rev != 1 {
		t.Errorf("the next window does not know of the backup: %+v", next.backed)
	}
}
