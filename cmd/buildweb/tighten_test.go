package main

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// busy fills the heap, grows a stack, catches a panic and then crashes, so that
// the collector, the unwinder and the trace all read the function table.
const busy = `package main

import (
	"fmt"
	"os"
	"runtime"
)

type node struct{ next *node; pad [40]byte }

func deep(n int) int {
	var pad [64]int
	if n == 0 {
		runtime.GC()
		return 0
	}
	pad[n%64] = n
	return deep(n-1) + pad[n%64] - n + 1
}

func caught() (what any) {
	defer func() { what = recover() }()
	var none []int
	return none[deep(3)]
}

type tape struct{ long int }

func (t tape) String() string { return fmt.Sprint(t.long) }

func wrapped(s fmt.Stringer) (what any) {
	defer func() { what = recover() }()
	return s.String()
}

func main() {
	var list *node
	for i := range 200_000 {
		list = &node{next: list}
		if i%50_000 == 0 { list = nil }
	}
	n := 0
	for ; list != nil; list = list.next { n++ }
	_, file, line, ok := runtime.Caller(0)
	fmt.Fprintln(os.Stdout, n, deep(5000), caught(), wrapped((*tape)(nil)), file, line, ok)
	crash(nil)
}

func crash(p *node) { p.next = p }
`

// build compiles a program for the browser and returns it.
func build(t *testing.T, main string) []byte {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module busy\n\ngo 1.26\n", "main.go": main} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	overlay, err := writeOverlay(filepath.Join("..", ".."), dir)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w", "-overlay="+overlay, "-o", "busy.wasm")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=-buildvcs=false", "GOWORK=off")
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	wasm, err := os.ReadFile(filepath.Join(dir, "busy.wasm"))
	if err != nil {
		t.Fatal(err)
	}
	return wasm
}

// play runs a program under node and returns what it said and how it crashed.
func play(t *testing.T, wasm []byte) (said, crash string) {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CHALKFOLD_BROWSER") == "need" {
			t.Fatal(err)
		}
		t.Skip("node is not there")
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "busy.wasm")
	if err := os.WriteFile(name, wasm, 0o644); err != nil {
		t.Fatal(err)
	}
	var out, trouble bytes.Buffer
	cmd := exec.Command(node, filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec_node.js"), name)
	cmd.Stdout, cmd.Stderr = &out, &trouble
	if err := cmd.Run(); err == nil {
		t.Error("the program did not crash")
	}
	return out.String(), trouble.String()
}

// named puts names in the place of numbers in a trace, as the page does.
func named(t *testing.T, trace string, p program) string {
	t.Helper()
	names := strings.Split(string(p.names), "\n")
	return regexp.MustCompile(`\bf\.\d+\b`).ReplaceAllStringFunc(trace, func(mark string) string {
		n, err := strconv.Atoi(mark[len(numbered):])
		if err != nil || n >= len(names) {
			t.Fatalf("%s is one of %d names: %v", mark, len(names), err)
		}
		return names[n]
	})
}

func TestTightenedProgramDoesTheSame(t *testing.T) {
	wasm := build(t, busy)
	tight, err := tighten(wasm, nil)
	if err != nil {
		t.Fatal(err)
	}
	pressed := func(b []byte) int {
		var out bytes.Buffer
		w := gzip.NewWriter(&out)
		if _, err := w.Write(b); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		return out.Len()
	}
	if was, now := pressed(wasm), pressed(tight.wasm); now > was*92/100 {
		t.Errorf("pressed %d bytes, %d before: hardly less", now, was)
	}
	said, crash := play(t, wasm)
	tightSaid, tightCrash := play(t, tight.wasm)
	wantSaid := "49999 5000 runtime error: index out of range [3] with length 0 value method main.(*tape).String called using nil pointer "
	if said != wantSaid+"busy/main.go 44 true\n" {
		t.Errorf("before: %q", said)
	}
	if named(t, tightSaid, tight) != wantSaid+"? 0 true\n" {
		t.Errorf("after: %q", tightSaid)
	}
	tightCrash = named(t, tightCrash, tight)
	for _, want := range []string{"nil pointer dereference", "goroutine 1 [running]:", "main.crash(", "main.main("} {
		if !strings.Contains(crash, want) || !strings.Contains(tightCrash, want) {
			t.Errorf("%q is not in both traces:\n%s\n%s", want, crash, tightCrash)
		}
	}
	if !strings.Contains(crash, "main.go:") || strings.Contains(tightCrash, "main.go") {
		t.Errorf("lines before and none after are wanted:\n%s\n%s", crash, tightCrash)
	}
}

// TestHiddenNames goes by isExportedRuntime of runtime/traceback.go.
func TestHiddenNames(t *testing.T) {
	for name, want := range map[string]bool{
		"runtime.mallocgc": true, "runtime.(*mheap).alloc": true, "runtime.gcStart.func2": true,
		"runtime.GC": false, "runtime.(*Func).Name": false, "runtime.gopanic": false, "runtime.runCleanups": false,
		"main.cut": false, "runtimes.cut": false, "internal/runtime/maps.newTable": false, "runtime.": false, "": false,
	} {
		if isHidden(name) != want {
			t.Errorf("%q hidden is %v", name, !want)
		}
	}
}

func TestLibraryNames(t *testing.T) {
	for name, want := range map[string]bool{
		"slices.Insert[...]": true, "fmt.(*pp).printArg": true, "github.com/hack-pad/safejs.Value.Get": true, "type:.eq.[2]string": true,
		"main.cut": false, "chalkfold/draft.Make": false, "runtime.GC": false, "github.com/maxence-charriere/go-app/v10/pkg/app.Run": false,
	} {
		if isLibrary(name) != want {
			t.Errorf("%q of a library is %v", name, !want)
		}
	}
}

func TestImageKeepsEveryByte(t *testing.T) {
	body := []byte{3}
	put := func(at int64, text string) {
		body = append(appendSigned(append(body, 0, opI32Const), at), opEnd, byte(len(text)))
		body = append(body, text...)
	}
	put(70_000, "cloth")
	put(69_990, "chalk")
	put(70_002, "AY") // over the first
	im, err := readImage(body)
	if err != nil {
		t.Fatal(err)
	}
	const want = "chalk\x00\x00\x00\x00\x00clAYh"
	if im.start != 69_990 || string(im.bytes) != want {
		t.Errorf("%d %q", im.start, im.bytes)
	}
	again, err := readImage(im.section().body)
	if err != nil || again.start != im.start || string(again.bytes) != want {
		t.Errorf("written and read: %d %q %v", again.start, again.bytes, err)
	}

	gapped := image{1024, slices.Concat([]byte("cloth"), make([]byte, longGap+9), []byte("chalk"), make([]byte, longGap))}
	written := gapped.section().body
	if again, err = readImage(written); err != nil || len(written) > 100 || again.start != 1024 || !bytes.Equal(again.bytes, gapped.bytes[:longGap+19]) {
		t.Errorf("%d bytes with gaps, read %d from %d, %v", len(written), len(again.bytes), again.start, err)
	}

	for n := range body { // cut short anywhere
		if _, err := readImage(body[:n]); err == nil {
			t.Errorf("%d of %d bytes are read as a data section", n, len(body))
		}
	}
	for name, bad := range map[string][]byte{
		"passive":      {1, 1, 1, 'x'},
		"more":         append(bytes.Clone(body), 0),
		"not constant": {1, 0, 0x23, 0, opEnd, 0},
		"far away":     append(appendSigned([]byte{1, 0, opI32Const}, maxImage), opEnd, 1, 'x'),
		"below nought": append(appendSigned([]byte{1, 0, opI32Const}, -4), opEnd, 1, 'x'),
	} {
		if _, err := readImage(bad); err == nil {
			t.Errorf("%s: read as a data section", name)
		}
	}
}

func TestSignedNumbers(t *testing.T) {
	values := []int64{0, 1, -1, 63, 64, -64, -65, 8191, 8192, math.MaxInt64, math.MinInt64}
	random := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		values = append(values, int64(random.Uint64())>>random.IntN(64))
	}
	for _, v := range values {
		r := &reader{rest: appendSigned(nil, v)}
		if got := r.signed(); got != v || r.err != nil || len(r.rest) > 0 {
			t.Errorf("%d reads back as %d, %v", v, got, r.err)
		}
	}
}

func TestTightenRefuses(t *testing.T) {
	data := func(memory []byte) []byte {
		return writeSections([]section{image{1024, memory}.section()})
	}
	head := func(files, pcs, funcs uint64) []byte {
		b := append([]byte(tableMagic), make([]byte, 200)...)
		binary.LittleEndian.PutUint64(b[headerFuncs:], 1)
		binary.LittleEndian.PutUint64(b[headerNames:], files)
		binary.LittleEndian.PutUint64(b[headerFiles:], files)
		binary.LittleEndian.PutUint64(b[headerPCTable:], pcs)
		binary.LittleEndian.PutUint64(b[headerFuncTable:], funcs)
		return b
	}
	heap := head(72, 80, 88)
	binary.LittleEndian.PutUint32(heap[88+4:], 8)
	astray := head(72, 80, 88)
	binary.LittleEndian.PutUint32(astray[88+4:], 8)
	binary.LittleEndian.PutUint32(astray[88:], 5) // the record says 0
	for _, tt := range []struct {
		name string
		wasm []byte
		want string
	}{
		{"not wasm", []byte("MZ"), "not a wasm file"},
		{"cut short", append([]byte(wasmHeader), sectionData, 9, 1), "wanted"},
		{"no data", []byte(wasmHeader), "holds no data"},
		{"another linker", data(bytes.Repeat([]byte("wool"), 9)), "0 times"},
		{"two tables", data(append(head(72, 80, 88), head(72, 80, 88)...)), "2 times"},
		{"short head", data([]byte(tableMagic + "...")), "ends in its head"},
		{"parts out of order", data(head(96, 80, 88)), "parts lie"},
		{"parts outside", data(head(72, 80, 9999)), "parts lie"},
		{"no entry", data(head(72, 80, 204)), "no entry"},
		{"no parts", data(heap), "parts is there 0 times"},
		{"elsewhere", data(astray), "not where"},
	} {
		if _, err := tighten(tt.wasm, nil); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want it to say %q", tt.name, err, tt.want)
		}
	}
}
