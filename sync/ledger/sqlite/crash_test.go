//go:build !js

package sqlite_test

import (
	"bufio"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/sqlite"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/wire"
)

// crashStore tells this program, started as a child, to write to that store until it
// is killed, and crashRounds how often it is killed.
const (
	crashStore  = "CHALKFOLD_CRASH_STORE"
	crashRounds = "CHALKFOLD_CRASH_ROUNDS"
	crashers    = 4 // workshops that are written to at once
)

func TestMain(m *testing.M) {
	if path := os.Getenv(crashStore); path != "" {
		fmt.Fprintln(os.Stderr, crash(path, os.Stdout))
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// crash writes to a store for ever, and a line for each push that was acknowledged:
// the workshop and the number of its push. Each goes on where it stopped.
func crash(path string, acknowledged io.Writer) error {
	db, err := sqlite.Open(context.Background(), path)
	if err != nil {
		return err
	}
	l := tables.New(db, ledger.Common())
	errs := make(chan error)
	var mu sync.Mutex
	for i := range byte(crashers) {
		go func() { errs <- crashOne(l, wire.Workshop{i}, acknowledged, &mu) }()
	}
	return <-errs
}

func crashOne(l tables.Ledger, w wire.Workshop, acknowledged io.Writer, mu *sync.Mutex) error {
	ctx := context.Background()
	at, err := l.Create(ctx, w, ledger.Proof{1})
	if err != nil {
		return err
	}
	for n := pushOf(at.ID) + 1; ; n++ {
		entries := pushed(n)
		if at, err = l.Append(ctx, w, at, entries); err != nil {
			return err
		}
		mu.Lock()
		_, err = fmt.Fprintln(acknowledged, w[0], n)
		mu.Unlock()
		if err != nil {
			return err
		}
	}
}

// pushed is the nth push: three entries of fifty slots, one of them large now and
// then.
func pushed(n uint64) []wire.Entry {
	var entries []wire.Entry
	for i := range uint64(3) {
		size := 300
		if (n+i)%16 == 0 {
			size = 20_000
		}
		e := wire.Entry{Slot: wire.Name{byte((3*n + i) % 50)}, Blob: make([]byte, size)}
		binary.BigEndian.PutUint64(e.ID[:], n)
		e.ID[15] = byte(i + 1)
		binary.BigEndian.PutUint64(e.Blob, n)
		entries = append(entries, e)
	}
	return entries
}

func pushOf(id wire.Name) uint64 { return binary.BigEndian.Uint64(id[:]) }

// TestKilled: a program that is killed while it writes leaves a store in which there
// is every push that was acknowledged, each whole, and none but one beyond it.
func TestKilled(t *testing.T) {
	rounds := times(12)
	path := filepath.Join(t.TempDir(), "store.db")
	var last [crashers]uint64
	for round := range rounds {
		killed(t, path, &last, rand.New(rand.NewPCG(uint64(round), 7)))
		if t.Failed() {
			return
		}
		soundAfter(t, path, &last)
	}
	if last[0] == 0 {
		t.Error("nothing was written in all the rounds")
	}
	t.Logf("%d rounds, %v pushes", rounds, last)
}

// killed starts a child, kills it after some acknowledgements, and notes the last.
func killed(t *testing.T, path string, last *[crashers]uint64, random *rand.Rand) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), crashStore+"="+path)
	child.Stderr = os.Stderr
	out, err := child.StdoutPipe()
	if err == nil {
		err = child.Start()
	}
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	kill := 1 + random.IntN(200)
	for n := 0; lines.Scan(); n++ {
		var w int
		var push uint64
		if _, err := fmt.Sscan(lines.Text(), &w, &push); err != nil {
			continue // the last line was cut
		}
		last[w] = max(last[w], push)
		if n == kill {
			time.Sleep(time.Duration(random.IntN(3000)) * time.Microsecond) // within a push
			if err := child.Process.Kill(); err != nil {
				t.Fatal(err)
			}
		}
	}
	var exit *exec.ExitError
	if err := child.Wait(); !errors.As(err, &exit) || exit.ExitCode() != -1 {
		t.Fatalf("the child was not killed, it ended: %v", err)
	}
}

// soundAfter opens the store and looks for what was acknowledged.
func soundAfter(t *testing.T, path string, last *[crashers]uint64) {
	t.Helper()
	db, err := sqlite.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}()
	l := tables.New(db, ledger.Common())
	for i, want := range last {
		if want == 0 {
			continue
		}
		page, err := l.Pull(t.Context(), wire.Workshop{byte(i)}, wire.Position{}, wire.MostPage)
		if err != nil || page.More {
			t.Fatal(page.More, err)
		}
		got := pushOf(page.To.ID)
		if got < want || got > want+1 {
			t.Fatalf("workshop %d ends with push %d, acknowledged was %d", i, got, want)
		}
		last[i] = got
		// The newest state of each slot is there, and whole.
		newest := map[wire.Name]wire.Entry{}
		for n := max(1, int64(got)-60); n <= int64(got); n++ {
			for _, e := range pushed(uint64(n)) {
				newest[e.Slot] = e
			}
		}
		for _, e := range page.Entries {
			w := newest[e.Slot]
			if e.ID != w.ID || string(e.Blob) != string(w.Blob) {
				t.Fatalf("workshop %d, slot %d: push %d of %d bytes, want %d of %d", i, e.Slot[0], pushOf(e.ID), len(e.Blob), pushOf(w.ID), len(w.Blob))
			}
			delete(newest, e.Slot)
		}
		if len(newest) > 0 {
			t.Fatalf("workshop %d lacks %d slots", i, len(newest))
		}
	}
}
