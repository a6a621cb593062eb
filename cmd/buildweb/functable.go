package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"runtime"
	"strings"
)

// The compiler that the offsets below were read against. From runtime/symtab.go
// and runtime/runtime2.go of its source: the header of the function table, the
// record of one function, and the list of a program's parts.
const (
	tableCompiler = "go1.26"

	headerFuncs     = 8 // the number of functions, then seven more numbers
	headerNames     = 8 + 3*8
	headerFiles     = 8 + 4*8 // for each file of a unit where its name is, then the names
	headerFileNames = 8 + 5*8
	headerPCTable   = 8 + 6*8
	headerFuncTable = 8 + 7*8
	headerSize      = 8 + 8*8

	funcName      = 4
	funcDeferred  = 12 // the place where it goes on after what it had deferred
	funcSPTable   = 16
	funcFileTable = 20
	funcLineTable = 24
	funcTables    = 28 // how many tables are listed after the record
	funcUnit      = 32
	funcFirstLine = 36
	funcFlags     = 41
	funcFacts     = 43 // how many facts are listed after the tables
	funcSize      = 44

	partsNames  = 8      // after the address of the table, that of the names
	partsSearch = 19 * 8 // where the table to search by address is, then the least and the most address
	partsFacts  = 40 * 8 // where the facts of functions begin
	tableUnsafe = 0      // the table of where a function must not be stopped
	factArgs    = 5      // the fact that says where a function's arguments lie
	noFact      = 1<<32 - 1

	flagAssembly = 4
)

// From internal/abi/symtab.go: in the description of arguments, what takes one
// byte; all else is an offset and a size.
const (
	argsEnd     = 0xff
	argsOneByte = 0xfb
)

// tableMagic begins the function table: its version, a gap, the size of the
// smallest instruction and of a pointer.
const tableMagic = "\xf1\xff\xff\xff\x00\x00\x01\x08"

// A funcTable is the function table of a Go program, in its memory.
type funcTable struct {
	head    []byte
	index   []byte // of each function its number and where its record lies
	names   []byte // each ends in a zero
	files   []byte
	tables  []byte   // what goes with which instruction
	records [][]byte // of each function, and all that comes after
	facts   []byte   // what does not change within a function
	search  []byte   // to find a function by an address
	numbers [][]byte // the names that numbers stand for
}

// readFuncTable finds the table in the memory of a program.
func readFuncTable(im image) (*funcTable, error) {
	if v := runtime.Version(); len(v) < len(tableCompiler) || v[:len(tableCompiler)] != tableCompiler {
		return nil, fmt.Errorf("built with %s, the function table was read for %s: read it again in functable.go", v, tableCompiler)
	}
	if n := bytes.Count(im.bytes, []byte(tableMagic)); n != 1 {
		return nil, fmt.Errorf("the head of the function table is there %d times, want once", n)
	}
	begin := bytes.Index(im.bytes, []byte(tableMagic))
	table := im.bytes[begin:]
	if len(table) < headerSize {
		return nil, errors.New("the function table ends in its head")
	}
	at := func(i int) uint64 { return binary.LittleEndian.Uint64(table[i:]) }
	names, files, pcs, start, count := at(headerNames), at(headerFiles), at(headerPCTable), at(headerFuncTable), at(headerFuncs)
	if names > files || files > pcs || pcs > start || start > uint64(len(table)) || count > uint64(len(table))/funcSize {
		return nil, fmt.Errorf("the function table's parts lie at %d, %d, %d and %d of %d", names, files, pcs, start, len(table))
	}
	t := &funcTable{head: table[:headerSize], names: table[names:files], files: table[files:pcs], tables: table[pcs:start]}
	for i := range count {
		f, err := recordAt(table[start:], i)
		if err != nil {
			return nil, err
		}
		t.records = append(t.records, f)
	}
	t.index = table[start:][:8*count]

	address := im.start + uint64(begin)
	list := binary.LittleEndian.AppendUint64(nil, address)
	list = binary.LittleEndian.AppendUint64(list, address+names)
	if n := bytes.Count(im.bytes, list); n != 1 {
		return nil, fmt.Errorf("the list of the program's parts is there %d times, want once", n)
	}
	parts := im.bytes[bytes.Index(im.bytes, list):]
	if len(parts) < partsFacts+8 {
		return nil, errors.New("the list of the program's parts is cut short")
	}
	facts := binary.LittleEndian.Uint64(parts[partsFacts:])
	if facts < im.start || facts-im.start > uint64(len(im.bytes)) {
		return nil, fmt.Errorf("the facts of functions lie at %d", facts)
	}
	t.facts = im.bytes[facts-im.start:]

	number := func(i int) uint64 { return binary.LittleEndian.Uint64(parts[partsSearch+8*i:]) }
	search, size := number(0), searchSize(number(2)-number(1))
	if search < im.start || search-im.start > uint64(len(im.bytes)) || size > uint64(len(im.bytes))-(search-im.start) {
		return nil, fmt.Errorf("the table to search by address lies at %d, of %d bytes", search, size)
	}
	t.search = im.bytes[search-im.start:][:size]
	return t, nil
}

// recordAt returns the record of the i-th function and what comes after it.
// At the head of the records stands for each its entry and its offset.
func recordAt(records []byte, i uint64) ([]byte, error) {
	if 8*(i+1) > uint64(len(records)) {
		return nil, fmt.Errorf("no entry for function %d", i)
	}
	offset := uint64(word(records, int(8*i+4)))
	if offset+funcSize > uint64(len(records)) {
		return nil, fmt.Errorf("function %d lies at %d of %d", i, offset, len(records))
	}
	f := records[offset:]
	if word(f, 0) != word(records, int(8*i)) {
		return nil, fmt.Errorf("function %d is not where the table says", i)
	}
	if n := 4 * (uint64(word(f, funcTables)) + uint64(f[funcFacts])); n > uint64(len(f)-funcSize) {
		return nil, fmt.Errorf("function %d has %d bytes of tables and facts", i, n)
	}
	return f, nil
}

func word(b []byte, i int) uint32 { return binary.LittleEndian.Uint32(b[i:]) }

// listed returns the offsets of a function's tables and of its facts, as they
// stand behind its record.
func listed(f []byte) (tables, facts []byte) {
	n, m := 4*int(word(f, funcTables)), 4*int(f[funcFacts])
	return f[funcSize:][:n], f[funcSize+n:][:m]
}

// functionNames returns what each function is called.
func (t *funcTable) functionNames() ([]string, error) {
	names := make([]string, len(t.records))
	for i, f := range t.records {
		offset := word(f, funcName)
		if uint64(offset) >= uint64(len(t.names)) {
			return nil, fmt.Errorf("a name at %d of %d", offset, len(t.names))
		}
		name, _, _ := bytes.Cut(t.names[offset:], []byte{0})
		names[i] = string(name)
	}
	return names, nil
}

// functionFiles returns which file each function stands in; "" where the compiler
// made it.
func (t *funcTable) functionFiles() ([]string, error) {
	names := int(binary.LittleEndian.Uint64(t.head[headerFileNames:]) - binary.LittleEndian.Uint64(t.head[headerFiles:]))
	if names > len(t.files) {
		return nil, fmt.Errorf("the names of files begin at %d of %d", names, len(t.files))
	}
	files := make([]string, len(t.records))
	for i, f := range t.records {
		table := word(f, funcFileTable)
		if table == 0 || uint64(table) >= uint64(len(t.tables)) {
			continue
		}
		r := &reader{rest: t.tables[table:]}
		v := r.number() // the first value, which is one more than what stands there, its sign last
		at := 4 * (int(word(f, funcUnit)) + int(v>>1) - 1)
		if v&1 != 0 || at < 0 || at+4 > names {
			return nil, fmt.Errorf("function %d stands in no file", i)
		}
		offset := uint64(names) + uint64(word(t.files, at))
		if r.err != nil || offset >= uint64(len(t.files)) {
			return nil, fmt.Errorf("function %d stands in a file at %d of %d", i, offset, len(t.files))
		}
		name, _, _ := bytes.Cut(t.files[offset:], []byte{0})
		if string(name) != "<autogenerated>" {
			files[i] = string(name)
		}
	}
	return files, nil
}

// dropLines empties the tables that tell which line of which file an
// instruction comes from, and where a function must not be stopped by a signal,
// of which there are none. The runtime reads a table at offset 0 as "not known",
// and tells "?" for the file.
func (t *funcTable) dropLines() error {
	used, lines := map[uint32]bool{0: true}, map[uint32]bool{}
	for _, f := range t.records {
		lines[word(f, funcFileTable)], lines[word(f, funcLineTable)] = true, true
		used[word(f, funcSPTable)] = true
		tables, _ := listed(f)
		for i := 0; i < len(tables); i += 4 {
			if i != 4*tableUnsafe {
				used[word(tables, i)] = true
				continue
			}
			lines[word(tables, i)] = true
			clear(tables[i : i+4])
		}
		clear(f[funcFileTable:funcTables])
		clear(f[funcUnit : funcFirstLine+4])
	}
	for offset := range lines {
		if used[offset] {
			continue
		}
		if uint64(offset) >= uint64(len(t.tables)) {
			return fmt.Errorf("a table of lines at %d of %d", offset, len(t.tables))
		}
		n, err := tableLength(t.tables[offset:])
		if err != nil {
			return fmt.Errorf("a table of lines at %d: %w", offset, err)
		}
		clear(t.tables[offset:][:n])
	}
	clear(t.files)
	return nil
}

// tableLength is the length of one table: pairs of differences, of the value
// and of the place, until a difference of value that is 0 and not the first.
func tableLength(table []byte) (int, error) {
	r := &reader{rest: table}
	for first := true; ; first = false {
		if v := r.number(); v == 0 && !first || r.err != nil {
			break
		}
		r.number()
	}
	return len(table) - len(r.rest), r.err
}

// dropArguments takes away where the arguments of functions lie. The runtime
// uses it for the hexadecimal numbers in a trace, and leaves them out without.
func (t *funcTable) dropArguments() error {
	used, args := map[uint32]bool{}, map[uint32]bool{}
	for _, f := range t.records {
		_, facts := listed(f)
		for i := 0; 4*i < len(facts); i++ {
			if i != factArgs {
				used[word(facts, 4*i)] = true
				continue
			}
			args[word(facts, 4*i)] = true
			binary.LittleEndian.PutUint32(facts[4*i:], noFact)
		}
	}
	for offset := range args {
		if used[offset] || offset == noFact {
			continue
		}
		for i := int(offset); ; {
			if i+1 >= len(t.facts) {
				return fmt.Errorf("arguments at %d of %d", offset, len(t.facts))
			}
			op := t.facts[i]
			clear(t.facts[i : i+1])
			if i++; op == argsEnd {
				break
			}
			if op < argsOneByte {
				clear(t.facts[i : i+1])
				i++
			}
		}
	}
	return nil
}

// What all functions are called that a trace leaves out, and what all those of
// libraries: a trace tells which function of ours, or of the ui module, called
// them, and in the message what went wrong.
const (
	hiddenName  = "runtime._"
	libraryName = "library._"
)

// isHidden reports whether a trace leaves a function of this name out: those of
// the runtime that are not exported, but for three.
func isHidden(name string) bool {
	inner, ok := strings.CutPrefix(name, "runtime.")
	inner = strings.TrimPrefix(inner, "(*")
	if !ok || inner == "" || inner[0] < 'a' || inner[0] > 'z' {
		return false
	}
	return inner != "gopanic" && inner != "runFinalizers" && inner != "runCleanups"
}

// isLibrary reports whether a function of this name is of the standard library,
// the runtime aside, or of a module other than that of the ui.
func isLibrary(name string) bool {
	for _, ours := range []string{"main.", "runtime.", "chalkfold/", uiModule + "/"} {
		if strings.HasPrefix(name, ours) {
			return false
		}
	}
	return true
}

// dropNames gives one name to all functions that a trace leaves out, and one to
// all of libraries. The runtime asks for one other thing, whether a name begins
// with its own.
func (t *funcTable) dropNames() error {
	for name, is := range map[string]func(string) bool{hiddenName: isHidden, libraryName: isLibrary} {
		if err := t.share(name, is); err != nil {
			return err
		}
	}
	return nil
}

// share gives one name to all functions whose names are such.
func (t *funcTable) share(shared string, such func(string) bool) error {
	were := map[uint32][]byte{}
	for _, f := range t.records {
		offset := word(f, funcName)
		if uint64(offset) >= uint64(len(t.names)) {
			return fmt.Errorf("a name at %d of %d", offset, len(t.names))
		}
		name, _, _ := bytes.Cut(t.names[offset:], []byte{0})
		if such(string(name)) {
			were[offset] = name
		}
	}
	if len(were) == 0 {
		return nil
	}
	place := uint32(noFact)
	for offset, name := range were {
		if len(name) >= len(shared) {
			place = min(place, offset)
		}
	}
	if place == noFact {
		return fmt.Errorf("no name is long enough to become %q", shared)
	}
	for _, name := range were {
		clear(name)
	}
	copy(were[place], shared)
	for _, f := range t.records {
		if were[word(f, funcName)] != nil {
			binary.LittleEndian.PutUint32(f[funcName:], place)
		}
	}
	return nil
}
