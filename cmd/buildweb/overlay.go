package main

import (
	"encoding/json"
	"fmt"
	"go/version"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// noSettings stands in for the settings by which a program asks the standard
// library to behave as an older one did. They come from the environment, and a
// page has none; reading them, counting their use and searching by halves for
// the call that breaks is 23 kB of the pressed program.
const noSettings = `package godebug

type Setting struct{ name string }

func New(name string) *Setting { return &Setting{name} }

func (s *Setting) Name() string { return s.name }

func (s *Setting) Undocumented() bool { return false }

func (s *Setting) String() string { return s.name + "=" }

func (s *Setting) IncNonDefault() {}

func (s *Setting) Value() string { return "" }
`

// plainLog stands in for a log with dates and files, of which the page's
// database writes three plain lines.
const plainLog = `package log

import "fmt"

func Println(v ...any) { fmt.Println(v...) }
`

// onConsole prints as the runtime does, which in a browser comes out at the same
// place as what is written to a file of the system. The page has no files, and
// what opens, reads and writes them is left out with package os.
const onConsole = `
	print(s)
	return len(s), nil
`

// deflateOnly presses at the levels that the drawings are pressed at.
const deflateOnly = `
	if level < 2 || level > 9 {
		return fmt.Errorf("flate: level %d is left out of this build", level)
	}
	d.w = newHuffmanBitWriter(w)
	d.compressionLevel = levels[level]
	d.initDeflate()
	d.fill = (*compressor).fillDeflate
	d.step = (*compressor).deflate
	return nil
`

// smallSort sorts texts and numbers, of which equal ones are the same, so that
// every way of sorting comes to the same.
const smallSort = `
	if b-a <= 12 {
		insertionSortOrdered(data, a, b)
	} else {
		heapSortOrdered(data, a, b)
	}
`

// smallStable keeps equal ones in their order with a copy of a half at hand. To
// whatever comes of it there is one way only.
const smallStable = `
	const block = 20
	for a := 0; a < n; a += block {
		insertionSortCmpFunc(data, a, min(a+block, n), cmp)
	}
	var left []E
	for size := block; size < n; size *= 2 {
		for a := 0; a+size < n; a += 2 * size {
			left = append(left[:0], data[a:a+size]...)
			i, j, k := 0, a+size, a
			for ; i < size; k++ {
				if j < min(a+2*size, n) && cmp(data[j], left[i]) < 0 {
					data[k] = data[j]
					j++
				} else {
					data[k] = left[i]
					i++
				}
			}
		}
	}
`

// noRule knows no rule for the hours of summer in years to come: the browser
// tells by how much a clock differs from others, and nothing of why.
const noRule = `return "", 0, 0, 0, false, false`

// plainValue prints what a program panicked with that is of a type of its own, as
// the runtime prints any other value.
const plainValue = `
	eface := efaceOf(&i)
	print("(", toRType(eface._type).string(), ") ", eface.data)
`

// plainWrap tells which method of a value was called with none.
const plainWrap = `panic(plainError("value method " + funcname(findfunc(sys.GetCallerPC())) + " called using nil pointer"))`

// noMethod stands in for a method that was looked up by its name and tied to
// whose it is, which is a function made while the program runs: 14 kB.
const noMethod = `panic("methods looked up by name are left out of this build")`

// A layer is what lies over one file of the standard library: a text of ours,
// or the file with cuts made in it. A library that is not what these were read
// against stops the build: a cut is not there, or the text does not compile.
type layer struct {
	file    string
	text    string
	cuts    []cut
	hollows []hollow
}

// layers lists what lies over the standard library. Times have methods that fmt
// looks for in whatever it is given, and these bring all that times can be
// written as. The page keeps times as numbers and tells them in its own words.
func layers() []layer {
	unix := "return \"unix \" + string(appendInt(nil, int(t.Unix()), 0))"
	return append(unwatched(), []layer{
		{file: "compress/flate/deflate.go", hollows: []hollow{{"compressor.init", deflateOnly}}},
		{file: "slices/zsortordered.go", hollows: []hollow{{"pdqsortOrdered", smallSort}}},
		{file: "slices/zsortanyfunc.go", hollows: []hollow{{"stableCmpFunc", smallStable}}},
		{file: "internal/godebug/godebug.go", text: noSettings},
		{file: "fmt/print.go", cuts: []cut{{"\t\"os\"\n", ""}}, hollows: []hollow{
			{"Print", "s := Sprint(a...)" + onConsole},
			{"Printf", "s := Sprintf(format, a...)" + onConsole},
			{"Println", "s := Sprintln(a...)" + onConsole},
		}},
		{file: "fmt/scan.go", text: "package fmt\n"},
		{file: "log/log.go", text: plainLog},
		{file: "runtime/symtab.go", cuts: []cut{
			{"\thdr := datap.pcHeader\n", "\tunfold(datap)\n\thdr := datap.pcHeader\n"},
			{"\tx := uintptr(pcOff) + datap.text", findByNumber + "\tx := uintptr(pcOff) + datap.text"},
			{"\nconst debugPcln = false\n", unfold + nameOfNumber + "\nconst debugPcln = false\n"},
			{"\tif nameOff == 0 {\n", "\tif nameOff < 0 {\n\t\treturn nameOfNumber(^nameOff)\n\t}\n\tif nameOff == 0 {\n"},
		}},
		{file: "runtime/stack.go", cuts: []cut{
			{"\tstackguard0 := atomic.Loaduintptr(&gp.stackguard0)\n", waits + "\tstackguard0 := atomic.Loaduintptr(&gp.stackguard0)\n"},
			{"//go:nosplit\nfunc nilfunc() {\n", waitForRest + "//go:nosplit\nfunc nilfunc() {\n"},
		}},
		{file: "runtime/lock_js.go", cuts: waitingCuts()},
		{file: "time/zoneinfo.go", hollows: []hollow{{"tzset", noRule}}},
		{file: "reflect/makefunc.go", hollows: []hollow{
			{"makeMethodValue", noMethod}, {"methodValueCallCodePtr", noMethod},
		}},
		{file: "time/format.go", hollows: []hollow{{"Time.String", unix}, {"Time.GoString", unix}}},
	}...)
}

// unwatched lists what of the runtime watches it at work: the execution tracer,
// profiles, and what an environment variable would have it print. Nothing in the
// page can ask for these: 35 kB. Nor are its tables as the linker made them gone
// through again at each start, nor memory printed that went wrong: 7 kB. The
// trace of a crash is not among them.
func unwatched() []layer {
	return []layer{
		{file: "runtime/traceruntime.go", hollows: []hollow{
			{"traceLocker.*", ""}, {"traceAcquireEnabled", "return traceLocker{}"}, {"traceThreadDestroy", ""}, {"traceLockInit", ""},
		}},
		{file: "runtime/traceallocfree.go", hollows: []hollow{{"traceLocker.*", ""}}},
		{file: "runtime/trace.go", hollows: []hollow{
			{"traceAdvance", ""}, {"traceReader", "return nil"}, {"traceReaderAvailable", "return nil"},
		}},
		{file: "runtime/tracecpu.go", hollows: []hollow{{"traceCPUSample", ""}}},
		{file: "runtime/proc.go", hollows: []hollow{{"schedtrace", ""}}},
		{file: "runtime/mprof.go", hollows: []hollow{
			{"mProf_NextCycle", ""},
			{"mProf_Flush", ""},
			{"mProf_PostSweep", ""},
			{"mProf_Malloc", ""},
			{"mProf_Free", ""},
			{"blockevent", ""},
			{"mutexevent", ""},
		}},
		{file: "runtime/mcheckmark.go", hollows: []hollow{{"checkFinalizersAndCleanups", ""}}},
		{file: "runtime/mgcmark_nogreenteagc.go", hollows: []hollow{{"dumpScanStats", ""}}},
		{file: "runtime/mgcmark_greenteagc.go", hollows: []hollow{{"dumpScanStats", ""}}},
		{file: "runtime/traceback.go", hollows: []hollow{
			{"tracebackHexdump", ""},
			{"printCgoTraceback", ""},
			{"printOneCgoTraceback", "return false"},
			{"printAncestorTraceback", ""},
			{"printArgs", ""},
		}},
		{file: "runtime/symtab.go", hollows: []hollow{{"moduledataverify1", ""}}},
		{file: "runtime/runtime1.go", cuts: []cut{{"\t\"internal/bytealg\"\n", ""}}, hollows: []hollow{{"check", ""}, {"parsegodebug", ""}}},
		{file: "runtime/mgcmark.go", hollows: []hollow{{"gcDumpObject", ""}}},
		{file: "runtime/mgcsweep.go", hollows: []hollow{{"mspan.reportZombies", `throw("found pointer to free object")`}}},
		{file: "runtime/error.go", hollows: []hollow{{"printanycustomtype", plainValue}, {"panicwrap", plainWrap}}},
		// Types of several modules that are one: there is one module.
		{file: "runtime/type.go", hollows: []hollow{{"typelinksinit", ""}}},
	}
}

// writeOverlay writes into work what go build lays over the standard library,
// and returns the name of the list. It refuses if the project asks for an older
// behaviour, since the program would not have it.
func writeOverlay(root, work string) (string, error) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return "", err
	}
	if err := refuseOlder(string(mod), runtime.Version()); err != nil {
		return "", err
	}
	goroot, err := findGoroot()
	if err != nil {
		return "", err
	}
	folder, err := filepath.Abs(filepath.Join(work, "overlay"))
	if err != nil {
		return "", err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", err
	}
	replace := map[string]string{}
	for _, l := range layers() {
		was := filepath.Join(goroot, "src", filepath.FromSlash(l.file))
		src, err := os.ReadFile(was)
		if err != nil {
			return "", fmt.Errorf("read overlay.go against the new standard library: %w", err)
		}
		if l.text != "" {
			src = []byte(l.text)
		}
		if src, err = applyCuts(src, l.cuts); err == nil {
			src, err = applyHollows(src, l.hollows)
		}
		if err != nil {
			return "", fmt.Errorf("%s of %s is not what the cuts were read against: %w", l.file, runtime.Version(), err)
		}
		now := filepath.Join(folder, strings.ReplaceAll(l.file, "/", "_"))
		if err := os.WriteFile(now, src, 0o644); err != nil {
			return "", err
		}
		replace[was] = now
	}
	list, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return "", err
	}
	name, err := filepath.Abs(filepath.Join(work, "overlay.json"))
	if err != nil {
		return "", err
	}
	return name, os.WriteFile(name, list, 0o644)
}

// refuseOlder returns an error if a go.mod asks for another behaviour than that
// of the compiler: by the version it names, or by a godebug line.
func refuseOlder(mod, compiler string) error {
	asked := ""
	for line := range strings.Lines(mod) {
		fields := strings.Fields(line)
		switch {
		case len(fields) > 0 && fields[0] == "godebug":
			return fmt.Errorf("go.mod says %q, which the page's program would not heed: see overlay.go", strings.TrimSpace(line))
		case len(fields) == 2 && fields[0] == "go":
			asked = "go" + fields[1]
		}
	}
	if asked == "" || version.Lang(asked) != version.Lang(compiler) {
		return fmt.Errorf("go.mod asks for the behaviour of %q, the compiler is %s: let it ask for that", asked, compiler)
	}
	return nil
}
