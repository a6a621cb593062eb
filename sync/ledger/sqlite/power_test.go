//go:build !js

package sqlite_test

import (
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	sqlite3 "modernc.org/sqlite/lib"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/sqlite"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/wire"
)

// times is how often something is done: more often if the environment says so.
func times(usual int) int {
	if n, err := strconv.Atoi(os.Getenv(crashRounds)); err == nil {
		return n
	}
	return usual
}

// pushesOn writes so many pushes to each of some workshops at once, and has the disk
// note each that was acknowledged. A workshop stops at its first error.
func pushesOn(t *testing.T, d *disk, path string, pushes uint64) {
	t.Helper()
	db, err := sqlite.OpenBy(t.Context(), path, diskVFS)
	if err != nil {
		return // on a disk that fails
	}
	l := tables.New(db, ledger.Common())
	var all sync.WaitGroup
	for i := range byte(crashers) {
		all.Go(func() {
			ctx, w := context.Background(), wire.Workshop{i}
			at, err := l.Create(ctx, w, ledger.Proof{1})
			for n := uint64(1); err == nil && n <= pushes; n++ {
				if at, err = l.Append(ctx, w, at, pushed(n)); err == nil {
					d.acknowledge(i, n)
				}
			}
		})
	}
	all.Wait()
	_ = db.Close() // it may fail, on a disk that does
}

// TestPowerLoss: whenever the power fails, and whatever of what was not synced has
// reached the disk, there is every push that was acknowledged.
func TestPowerLoss(t *testing.T) {
	dir := t.TempDir()
	d := newDisk(t, filepath.Join(dir, "watched"))
	if err := os.Mkdir(d.folder, 0o700); err != nil {
		t.Fatal(err)
	}
	pushesOn(t, d, filepath.Join(d.folder, "store.db"), 120)
	made := 0 // the tables: before that there is nothing to lose
	for d.done[made].kind != acknowledgedPush {
		made++
	}
	for round := range times(30) {
		random := rand.New(rand.NewPCG(uint64(round), 11))
		path := filepath.Join(dir, strconv.Itoa(round)+".db")
		n := made + random.IntN(len(d.done)-made+1)
		last := d.afterPowerLoss(t, path, n, random)
		if soundAfter(t, path, &last); t.Failed() {
			t.Fatalf("round %d, after %d of %d actions", round, n, len(d.done))
		}
	}
	t.Logf("%d actions", len(d.done))
}

// TestPowerLossIsSeen: the test above is one that can fail. On a disk whose syncs do
// nothing, something is lost.
func TestPowerLossIsSeen(t *testing.T) {
	dir := t.TempDir()
	d := newDisk(t, filepath.Join(dir, "watched"))
	if err := os.Mkdir(d.folder, 0o700); err != nil {
		t.Fatal(err)
	}
	pushesOn(t, d, filepath.Join(d.folder, "store.db"), 20)
	for i, a := range d.done {
		if a.kind == synced {
			d.done[i].file = "none"
		}
	}
	for round := range 60 {
		random := rand.New(rand.NewPCG(uint64(round), 13))
		path := filepath.Join(dir, strconv.Itoa(round)+".db")
		last := d.afterPowerLoss(t, path, len(d.done), random)
		db, err := sqlite.Open(t.Context(), path)
		if err != nil {
			return
		}
		page, err := tables.New(db, ledger.Common()).Pull(t.Context(), wire.Workshop{0}, wire.Position{}, wire.MostPage)
		if closed := db.Close(); closed != nil {
			t.Fatal(closed)
		}
		if err != nil || pushOf(page.To.ID) < last[0] {
			return
		}
	}
	t.Error("a disk that forgets what was synced has lost nothing in 60 rounds")
}

// TestFailingDisk: whichever write, sync or cut fails, once or from then on, what was
// acknowledged is there when the disk works again.
func TestFailingDisk(t *testing.T) {
	dir := t.TempDir()
	codes := map[kind][]int32{
		wrote: {sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR_WRITE}, cut: {sqlite3.SQLITE_IOERR_TRUNCATE}, removed: {sqlite3.SQLITE_IOERR_DELETE}, synced: {sqlite3.SQLITE_IOERR_FSYNC},
	}
	for round := range times(20) {
		random := rand.New(rand.NewPCG(uint64(round), 17))
		folder := filepath.Join(dir, strconv.Itoa(round))
		if err := os.Mkdir(folder, 0o700); err != nil {
			t.Fatal(err)
		}
		d := newDisk(t, folder)
		nth, for1, code := 1+random.IntN(200), random.IntN(2) == 0, random.IntN(2)
		failed := 0
		d.fail = func(n int, a action) int32 {
			if n < nth || for1 && failed > 0 {
				return 0
			}
			failed++
			return codes[a.kind][code%len(codes[a.kind])]
		}
		path := filepath.Join(folder, "store.db")
		pushesOn(t, d, path, 30)
		var last [crashers]uint64
		for _, a := range d.done {
			if a.kind == acknowledgedPush {
				last[a.workshop] = a.push
			}
		}
		if soundAfter(t, path, &last); t.Failed() {
			t.Fatalf("round %d: call %d failed, only that %v", round, nth, for1)
		}
		if failed == 0 {
			t.Errorf("round %d: there was no call %d", round, nth)
		}
	}
}
