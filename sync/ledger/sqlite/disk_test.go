//go:build !js

package sqlite_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"
	"unsafe"

	"modernc.org/libc"
	sqlite3 "modernc.org/sqlite/lib"
)

// diskVFS is the name of a way to files for SQLite, beside its own, on which the
// disk that a test has put into disks notes what is done, and may fail.
const diskVFS = "disk"

// A disk notes writes and syncs of files whose path begins with its folder.
type disk struct {
	folder string
	mu     sync.Mutex
	done   []action
	// fail, if it is not nil, is asked before each write, sync or cut, by its number;
	// what it returns is SQLite's result code, nought to let it through.
	fail  func(n int, a action) int32
	calls int
}

// An action is something that was done to a file, or was told to who asked for it.
type action struct {
	kind kind
	file string // its suffix after the store's path: "" or "-wal"
	at   int64
	data []byte
	// Of an acknowledgement: the workshop and its push.
	workshop byte
	push     uint64
}

type kind int

// journal is the file that SQLite has before it writes ahead. Open syncs the folder
// once it has gone, before it returns. Any other may come back.
const journal = "-journal"

const (
	wrote kind = iota
	cut
	synced
	removed
	acknowledgedPush
)

// SQLite calls functions by their address, which carry nothing of a test.
//
//nolint:gochecknoglobals // so they are found by these
var (
	register sync.Once
	disks    sync.Map             // *disk by its folder
	files    sync.Map             // openFile by its address
	whole    sqlite3.Tsqlite3_vfs // SQLite's own
)

// An openFile is what a disk knows of a file that is open.
type openFile struct {
	disk    *disk
	suffix  string
	methods *sqlite3.Tsqlite3_io_methods // SQLite's own
}

// newDisk watches a folder until the test ends.
func newDisk(t *testing.T, folder string) *disk {
	t.Helper()
	register.Do(registerDisk)
	d := &disk{folder: folder}
	disks.Store(folder, d)
	t.Cleanup(func() { disks.Delete(folder) })
	return d
}

func registerDisk() {
	tls := libc.NewTLS()
	own := sqlite3.Xsqlite3_vfs_find(tls, 0)
	whole = *at[sqlite3.Tsqlite3_vfs](own)
	ours := libc.Xmalloc(tls, libc.Tsize_t(unsafe.Sizeof(whole)))
	v := at[sqlite3.Tsqlite3_vfs](ours)
	*v = whole
	v.FpNext = 0
	v.FzName, _ = libc.CString(diskVFS)
	v.FxOpen, v.FxDelete = pointer(openOnDisk), pointer(removeOnDisk)
	sqlite3.Xsqlite3_vfs_register(tls, ours, 0)
}

// pointer is the address of a function, as the translated C has it.
func pointer[F any](f F) uintptr { return *(*uintptr)(unsafe.Pointer(&struct{ f F }{f})) }

// at is what is at an address of the translated C.
func at[T any](p uintptr) *T { return *(**T)(unsafe.Pointer(&p)) }

// function is the other way round.
func function[F any](p uintptr) F { return *(*F)(unsafe.Pointer(&struct{ uintptr }{p})) }

func openOnDisk(tls *libc.TLS, vfs, name, file uintptr, flags int32, out uintptr) int32 {
	rc := function[func(*libc.TLS, uintptr, uintptr, uintptr, int32, uintptr) int32](whole.FxOpen)(tls, vfs, name, file, flags, out)
	f := at[sqlite3.Tsqlite3_file](file)
	if rc != sqlite3.SQLITE_OK || name == 0 || f.FpMethods == 0 {
		return rc
	}
	d, suffix := diskOf(name)
	if d == nil {
		return rc
	}
	o := openFile{disk: d, suffix: suffix, methods: at[sqlite3.Tsqlite3_io_methods](f.FpMethods)}
	files.Store(file, o)
	ours := libc.Xmalloc(tls, libc.Tsize_t(unsafe.Sizeof(*o.methods)))
	m := at[sqlite3.Tsqlite3_io_methods](ours)
	*m = *o.methods
	m.FxWrite, m.FxTruncate, m.FxSync, m.FxClose = pointer(writeOnDisk), pointer(cutOnDisk), pointer(syncOnDisk), pointer(closeOnDisk)
	f.FpMethods = ours
	return rc
}

// diskOf returns the disk that a file is on, if it is watched, and its suffix.
func diskOf(name uintptr) (on *disk, suffix string) {
	path := libc.GoString(name)
	disks.Range(func(folder, d any) bool {
		if strings.HasPrefix(path, folder.(string)+"/") {
			on, suffix = d.(*disk), path[strings.LastIndex(path, ".db")+len(".db"):]
		}
		return on == nil
	})
	return on, suffix
}

func removeOnDisk(tls *libc.TLS, vfs, name uintptr, syncFolder int32) int32 {
	really := func() int32 {
		return function[func(*libc.TLS, uintptr, uintptr, int32) int32](whole.FxDelete)(tls, vfs, name, syncFolder)
	}
	d, suffix := diskOf(name)
	if d == nil {
		return really()
	}
	return d.do(action{kind: removed, file: suffix}, really)
}

func of(file uintptr) openFile {
	o, _ := files.Load(file)
	return o.(openFile)
}

func closeOnDisk(tls *libc.TLS, file uintptr) int32 {
	o := of(file)
	files.Delete(file)
	f := at[sqlite3.Tsqlite3_file](file)
	libc.Xfree(tls, f.FpMethods)
	f.FpMethods = uintptr(unsafe.Pointer(o.methods))
	return function[func(*libc.TLS, uintptr) int32](o.methods.FxClose)(tls, file)
}

func writeOnDisk(tls *libc.TLS, file, from uintptr, n int32, place sqlite3.Tsqlite3_int64) int32 {
	o := of(file)
	data := slices.Clone(unsafe.Slice(at[byte](from), n))
	return o.disk.do(action{kind: wrote, file: o.suffix, at: place, data: data}, func() int32 {
		return function[func(*libc.TLS, uintptr, uintptr, int32, sqlite3.Tsqlite3_int64) int32](o.methods.FxWrite)(tls, file, from, n, place)
	})
}

func cutOnDisk(tls *libc.TLS, file uintptr, at sqlite3.Tsqlite3_int64) int32 {
	o := of(file)
	return o.disk.do(action{kind: cut, file: o.suffix, at: at}, func() int32 {
		return function[func(*libc.TLS, uintptr, sqlite3.Tsqlite3_int64) int32](o.methods.FxTruncate)(tls, file, at)
	})
}

func syncOnDisk(tls *libc.TLS, file uintptr, flags int32) int32 {
	o := of(file)
	// The disk itself is not asked: what is on it is what was noted.
	return o.disk.do(action{kind: synced, file: o.suffix}, func() int32 { return sqlite3.SQLITE_OK })
}

// do does something and notes it, unless it is to fail.
func (d *disk) do(a action, really func() int32) int32 {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.calls++
	if d.fail != nil {
		if rc := d.fail(d.calls, a); rc != 0 {
			return rc
		}
	}
	rc := really()
	if rc == sqlite3.SQLITE_OK {
		d.done = append(d.done, a)
	}
	return rc
}

func (d *disk) acknowledge(workshop byte, push uint64) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.done = append(d.done, action{kind: acknowledgedPush, workshop: workshop, push: push})
}

// afterPowerLoss writes, as a store at path, what may be on a disk that lost its
// power after the nth action: all that was synced, and of the rest any part, down to
// sectors of 512 bytes. It returns the last acknowledged push of each workshop.
func (d *disk) afterPowerLoss(t *testing.T, path string, n int, random *rand.Rand) (last [crashers]uint64) {
	t.Helper()
	done := d.done[:n]
	lastSync := map[string]int{}
	for i, a := range done {
		if a.kind == synced {
			lastSync[a.file] = i
		}
	}
	kept := map[string][]byte{"": nil, "-wal": nil}
	for i, a := range done {
		safe := i < lastSync[a.file]
		switch {
		case a.kind == acknowledgedPush:
			last[a.workshop] = a.push
		case a.kind == removed && (a.file == journal || random.IntN(2) == 0):
			delete(kept, a.file)
		case a.kind == cut && (safe || random.IntN(2) == 0):
			kept[a.file] = kept[a.file][:min(int(a.at), len(kept[a.file]))]
		case a.kind == wrote:
			for at := 0; at < len(a.data); at += 512 {
				if sector := a.data[at:min(at+512, len(a.data))]; safe || random.IntN(4) > 0 {
					kept[a.file] = put(kept[a.file], int(a.at)+at, sector)
				}
			}
		}
	}
	for suffix, content := range kept {
		if content == nil && suffix != "" {
			continue
		}
		if err := os.WriteFile(path+suffix, content, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return last
}

// put writes into a file's content, which grows as it must.
func put(content []byte, at int, data []byte) []byte {
	if missing := at + len(data) - len(content); missing > 0 {
		content = append(content, make([]byte, missing)...)
	}
	copy(content[at:], data)
	return content
}
