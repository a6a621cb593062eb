package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/sqlite"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/server"
	"chalkfold/sync/wire"
)

// copiesFile is what make bench-copies writes; testdata/copies.md is a run of it that
// was kept.
const copiesFile = "../../.build/copies.md"

// BenchmarkCopies writes the report of make bench-copies: how many pushes and pulls a
// server answers over loopback while it shares this machine with who asks, and how a
// ledger grows. The figures are of this machine, and mean something only where
// nothing else runs. CHALKFOLD_SECONDS says how long each part is.
func BenchmarkCopies(b *testing.B) {
	length := time.Duration(numbers(b, "CHALKFOLD_SECONDS", "5")[0] * float64(time.Second))
	var report strings.Builder
	fmt.Fprintf(&report, "# Second copies: what one server answers\n\nA push carries five entries of 300 bytes; a pull fetches 64 KiB at the most. 32 ask at once. Every push is on the disk before it is answered. On %s; who asks runs on the same machine, whose load was %s before.\n\n", clock().Format(time.DateOnly), load())
	fmt.Fprintf(&report, "| workshops | pushes/s | p50 ms | p99 ms | pulls/s | p50 ms | p99 ms | memory at its highest, MB |\n| --- | --- | --- | --- | --- | --- | --- | --- |\n")
	for b.Loop() {
		for _, workshops := range []int{10, 100, 1000} {
			s := startServer(b)
			push := s.asked(b, workshops, length, s.push)
			pull := s.asked(b, workshops, length, s.pull)
			fmt.Fprintf(&report, "| %d | %s | %s | %.0f |\n", workshops, push, pull, s.memory(b))
			s.stop(b)
		}
		grown(b, &report)
	}
	fmt.Fprintf(&report, "\nIts load was %s after.\n", load())
	if err := os.WriteFile(copiesFile, []byte(report.String()), 0o644); err != nil {
		b.Fatal(err)
	}
}

// An ownServer is a server in a process of its own.
type ownServer struct {
	cmd  *exec.Cmd
	base string
	// The state of each workshop's one device.
	mu    sync.Mutex
	heads map[int]wire.Position
	next  atomic.Uint64
}

func startServer(b *testing.B) *ownServer {
	b.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Args = []string{"chalkfold", "serve", "-quiet", "-behind-proxy", "-addr", "127.0.0.1:0", "-store", filepath.Join(b.TempDir(), "store.db")}
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		b.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	base := regexp.MustCompile(`http://127\.0\.0\.1:\d+`).FindString(line)
	if err != nil || base == "" {
		b.Fatalf("%q, %v", line, err)
	}
	return &ownServer{cmd: cmd, base: base, heads: map[int]wire.Position{}}
}

func (s *ownServer) stop(b *testing.B) {
	b.Helper()
	if err := s.cmd.Process.Signal(os.Interrupt); err != nil {
		b.Fatal(err)
	}
	if err := s.cmd.Wait(); err != nil {
		b.Fatal(err)
	}
}

// memory is the most that the server had at once, in MB.
func (s *ownServer) memory(b *testing.B) float64 {
	b.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.cmd.Process.Pid))
	if err != nil {
		b.Fatal(err)
	}
	var kB float64
	at := bytes.Index(status, []byte("VmHWM:"))
	if _, err := fmt.Sscan(string(status[at+len("VmHWM:"):]), &kB); err != nil {
		b.Fatal(err)
	}
	return kB / 1000
}

// asked asks for as long as it is told, by 32 at once, and tells how it went.
func (s *ownServer) asked(b *testing.B, workshops int, length time.Duration, ask func(*http.Client, int) error) string {
	b.Helper()
	client := &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 64}}
	defer client.CloseIdleConnections()
	const askers = 32
	took := make([][]time.Duration, askers)
	errs := make(chan error, askers)
	begun := time.Now()
	for i := range askers {
		go func() {
			var err error
			// Each asker has workshops of its own, so that nobody is behind.
			for w := i % workshops; err == nil && time.Since(begun) < length; w += askers {
				if w >= workshops {
					w = i % workshops
				}
				if i >= workshops {
					break
				}
				at := time.Now()
				err = ask(client, w)
				took[i] = append(took[i], time.Since(at))
			}
			errs <- err
		}()
	}
	for range askers {
		if err := <-errs; err != nil {
			b.Fatal(err)
		}
	}
	passed := time.Since(begun)
	all := slices.Sorted(slices.Values(slices.Concat(took...)))
	ms := func(share float64) float64 { return float64(all[int(share*float64(len(all)-1))]) / 1e6 }
	return fmt.Sprintf("%.0f | %.1f | %.1f", float64(len(all))/passed.Seconds(), ms(0.5), ms(0.99))
}

func (s *ownServer) post(client *http.Client, w int, path string, message []byte) ([]byte, error) {
	r, err := http.NewRequestWithContext(context.Background(), http.MethodPost, s.base+server.Path+path, bytes.NewReader(message))
	if err != nil {
		return nil, err
	}
	var name wire.Workshop
	binary.BigEndian.PutUint64(name[:], uint64(w))
	r.Header.Set("Authorization", wire.Bearer(name, wire.Token{1}))
	r.Header.Set("X-Forwarded-For", fmt.Sprintf("10.%d.%d.%d", w>>16, s.next.Load()>>8&255, s.next.Add(1)&255)) // each is one of many phones
	answer, err := client.Do(r)
	if err != nil {
		return nil, err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err == nil && answer.StatusCode != http.StatusOK {
		err = fmt.Errorf("%s: %s %s", path, answer.Status, body)
	}
	return body, err
}

// entry is one of 200 records of a workshop, in a new state.
func (s *ownServer) entry() wire.Entry {
	n := s.next.Add(1)
	e := wire.Entry{Slot: wire.Name{byte(n % 200)}, Blob: make([]byte, 300)}
	sum := sha256.Sum256(binary.BigEndian.AppendUint64(nil, n))
	copy(e.ID[:], sum[:])
	for i := range e.Blob { // sealed bytes look like this
		e.Blob[i] = sum[i%len(sum)] + byte(i)
	}
	return e
}

func (s *ownServer) head(w int) (wire.Position, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	head, there := s.heads[w]
	return head, there
}

func (s *ownServer) push(client *http.Client, w int) error {
	base, there := s.head(w)
	if !there {
		if _, err := s.post(client, w, "create", wire.Create{}.Encode()); err != nil {
			return err
		}
	}
	p := wire.Push{Base: base}
	for range 5 {
		p.Entries = append(p.Entries, s.entry())
		for i := range p.Entries[:len(p.Entries)-1] {
			if p.Entries[i].Slot == p.Entries[len(p.Entries)-1].Slot {
				p.Entries = p.Entries[:len(p.Entries)-1]
				break
			}
		}
	}
	body, err := s.post(client, w, "push", p.Encode())
	if err != nil {
		return err
	}
	head, err := wire.DecodePosition(body)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.heads[w] = head
	return err
}

func (s *ownServer) pull(client *http.Client, w int) error {
	if _, there := s.head(w); !there {
		return s.push(client, w)
	}
	body, err := s.post(client, w, "pull", wire.Pull{Most: 64 << 10}.Encode())
	if err == nil {
		_, err = wire.DecodePage(body)
	}
	return err
}

// grown appends a million records to one ledger.
func grown(b *testing.B, report *strings.Builder) {
	b.Helper()
	ctx, path := context.Background(), filepath.Join(b.TempDir(), "store.db")
	db, err := sqlite.Open(ctx, path)
	if err != nil {
		b.Fatal(err)
	}
	l := tables.New(db, ledger.Quota{Log: 1 << 40})
	w, s := wire.Workshop{1}, new(ownServer)
	at, err := l.Create(ctx, w, ledger.Proof{1})
	if err != nil {
		b.Fatal(err)
	}
	fmt.Fprintf(report, "\nOne ledger that grows, by pushes of 250 records of 300 bytes:\n\n| records | ms a push | ms a page of 64 KiB | file, MB |\n| --- | --- | --- | --- |\n")
	begun, last := time.Now(), 0
	for n := 0; n <= 1_000_000; n += 250 {
		if n == 1_000 || n == 10_000 || n == 100_000 || n == 1_000_000 {
			perPush := float64(time.Since(begun).Milliseconds()) / (float64(n-last) / 250)
			from := time.Now()
			for range 20 {
				if _, err := l.Pull(ctx, w, wire.Position{}, 64<<10); err != nil {
					b.Fatal(err)
				}
			}
			fmt.Fprintf(report, "| %d | %.1f | %.1f | %.0f |\n", n, perPush, time.Since(from).Seconds()*1000/20, db.Size()/1e6)
			begun, last = time.Now(), n
		}
		var entries []wire.Entry
		for i := range 250 {
			e := s.entry()
			binary.BigEndian.PutUint64(e.Slot[:], uint64(n+i))
			entries = append(entries, e)
		}
		if at, err = l.Append(ctx, w, at, entries); err != nil {
			b.Fatal(err)
		}
	}
	if err := db.Close(); err != nil {
		b.Fatal(err)
	}
}

// numbers reads the numbers in a variable of the environment.
func numbers(b *testing.B, name, otherwise string) []float64 {
	b.Helper()
	text := os.Getenv(name)
	if text == "" {
		text = otherwise
	}
	var out []float64
	for _, t := range strings.Split(text, ",") {
		v, err := strconv.ParseFloat(t, 64)
		if err != nil || v <= 0 {
			b.Fatalf("%s=%s: give numbers above 0", name, text)
		}
		out = append(out, v)
	}
	return out
}
