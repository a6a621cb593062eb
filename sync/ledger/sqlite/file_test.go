//go:build !js

package sqlite_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/sqlite"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/wire"
)

// filled makes a store with one workshop of n entries.
func filled(t *testing.T, path string, n int) wire.Position {
	t.Helper()
	db := open(t, path)
	l := tables.New(db, ledger.Common())
	head, err := l.Create(t.Context(), wire.Workshop{1}, ledger.Proof{2})
	for i := range n {
		if err == nil {
			head, err = l.Append(t.Context(), wire.Workshop{1}, head, []wire.Entry{{ID: wire.Name{byte(i), 1}, Slot: wire.Name{byte(i)}, Blob: bytes.Repeat([]byte{byte(i)}, 5000)}})
		}
	}
	if err = errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	return head
}

// holds fails unless the store has the workshop of filled.
func holds(t *testing.T, path string, want wire.Position, n int) {
	t.Helper()
	db := open(t, path)
	defer db.Close()
	page, err := tables.New(db, ledger.Common()).Pull(t.Context(), wire.Workshop{1}, wire.Position{}, wire.MostPage)
	if err != nil || page.To != want || len(page.Entries) != n {
		t.Errorf("%s: %d entries up to %d, %v; want %d up to %d", path, len(page.Entries), page.To.Seq, err, n, want.Seq)
	}
}

func TestOpenedAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a folder of 100 %, or #2?", "store.db")
	if _, err := sqlite.Open(t.Context(), path); err == nil || !strings.Contains(err.Error(), "make it first") {
		t.Errorf("without its folder: %v", err)
	}
	if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
		t.Fatal(err)
	}
	holds(t, path, filled(t, path, 40), 40)
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file is %v, %v: others can read it", info.Mode(), err)
	}
}

// TestUnfit: a file that is damaged, newer or another's is not opened, and stays as
// it is.
func TestUnfit(t *testing.T) {
	tests := map[string]struct {
		harm func(t *testing.T, path string)
		want error
	}{
		"no database": {func(t *testing.T, path string) { write(t, path, []byte(strings.Repeat("not a database. ", 400))) }, sqlite.ErrDamaged},
		"cut short": {func(t *testing.T, path string) {
			b := read(t, path)
			write(t, path, b[:len(b)/2])
		}, sqlite.ErrDamaged},
		"a page of noughts": {func(t *testing.T, path string) {
			b := read(t, path)
			clear(b[8192:12288])
			write(t, path, b)
		}, sqlite.ErrDamaged},
		"newer":     {func(t *testing.T, path string) { run(t, path, "PRAGMA user_version = 1000") }, sqlite.ErrNewer},
		"another's": {func(t *testing.T, path string) { run(t, path, "PRAGMA application_id = 7") }, sqlite.ErrForeign},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "store.db")
			filled(t, path, 40)
			tt.harm(t, path)
			was := read(t, path)
			if _, err := sqlite.Open(t.Context(), path); !errors.Is(err, tt.want) || !strings.Contains(err.Error(), path) {
				t.Errorf("opened: %v", err)
			}
			if err := sqlite.Check(t.Context(), path); !errors.Is(err, tt.want) {
				t.Errorf("checked: %v", err)
			}
			if !bytes.Equal(read(t, path), was) {
				t.Error("the file is not as it was")
			}
		})
	}
}

func TestBackupAndRestore(t *testing.T) {
	dir := t.TempDir()
	store, backup := filepath.Join(dir, "store.db"), filepath.Join(dir, "backup.db")
	head := filled(t, store, 20)
	db := open(t, store)
	l := tables.New(db, ledger.Common())
	stop := make(chan struct{})
	writing := make(chan error, 1)
	go func() { // the store is in use meanwhile
		other, at, err := wire.Workshop{9}, wire.Position{}, error(nil)
		_, err = l.Create(context.Background(), other, ledger.Proof{9})
		for i := 0; err == nil; i++ {
			select {
			case <-stop:
				writing <- nil
				return
			default:
				at, err = l.Append(context.Background(), other, at, []wire.Entry{{ID: wire.Name{byte(i), byte(i >> 8), 1}, Slot: wire.Name{byte(i)}, Blob: []byte("x")}})
			}
		}
		writing <- err
	}()
	if err := db.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	close(stop)
	if err := errors.Join(<-writing, db.Backup(t.Context(), filepath.Join(dir, "second.db"))); err != nil {
		t.Fatal(err)
	}
	if err := db.Backup(t.Context(), backup); err == nil {
		t.Error("a backup was written over another")
	}
	// Then more comes, and the disk is lost.
	later, err := l.Append(t.Context(), wire.Workshop{1}, head, []wire.Entry{{ID: wire.Name{99}, Slot: wire.Name{99}, Blob: []byte("later")}})
	if err = errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	noon := time.Date(2031, 5, 17, 12, 0, 0, 0, time.UTC)
	kept, err := sqlite.Restore(t.Context(), backup, store, noon)
	if err != nil || kept != store+".before-20310517-120000" {
		t.Fatalf("kept %s, %v", kept, err)
	}
	holds(t, store, head, 20)
	holds(t, kept, later, 21)
	if left, err := filepath.Glob(filepath.Join(dir, "*.part")); err != nil || left != nil {
		t.Errorf("left over: %v, %v", left, err)
	}
	// A backup that is no good changes nothing.
	write(t, backup, read(t, backup)[:9000])
	if _, err := sqlite.Restore(t.Context(), backup, store, noon.Add(time.Hour)); !errors.Is(err, sqlite.ErrDamaged) {
		t.Errorf("restored a damaged backup: %v", err)
	}
	holds(t, store, head, 20)
	// Where there is nothing, there is nothing to keep.
	elsewhere := filepath.Join(dir, "elsewhere.db")
	if kept, err := sqlite.Restore(t.Context(), filepath.Join(dir, "second.db"), elsewhere, noon); err != nil || kept != "" {
		t.Errorf("kept %q, %v", kept, err)
	}
	holds(t, elsewhere, head, 20)
}

func TestClosedWhileWriting(t *testing.T) {
	path := filepath.Join(t.TempDir(), "store.db")
	db, err := sqlite.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	l := tables.New(db, ledger.Common())
	const many = 50
	done := make(chan error, many)
	for i := range many {
		go func() {
			_, err := l.Create(context.Background(), wire.Workshop{byte(i)}, ledger.Proof{1})
			done <- err
		}()
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	made := 0
	for range many {
		if err := <-done; err == nil {
			made++
		}
	}
	db = open(t, path)
	rows, err := db.Read(t.Context(), "SELECT count(*) FROM workshop")
	if err != nil || rows[0][0].(int64) < int64(made) {
		t.Errorf("%d were made, there are %v, %v", made, rows, err)
	}
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func write(t *testing.T, path string, b []byte) {
	t.Helper()
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
}

func run(t *testing.T, path, statement string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err == nil {
		_, err = db.Exec(statement)
	}
	if err = errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
}
