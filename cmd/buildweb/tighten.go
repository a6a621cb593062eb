package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"runtime"
)

// tighten rewrites a program that the Go linker made, so that it presses
// better; it computes the same. Three things go, in kB of the pressed program:
//
//   - The linker leaves zeros out of the data by cutting it into as many
//     segments as a browser allows, 100,000, each with an address. Brotli
//     writes zeros for nothing, but not addresses: one segment saves 108.
//   - The table of source lines, which only the trace of a crash uses, is
//     emptied: 79. A trace still names its functions.
//   - Sections that nothing reads: 0.2.
func tighten(wasm []byte) ([]byte, error) {
	all, err := readSections(wasm)
	if err != nil {
		return nil, err
	}
	var kept []section
	done := false
	for _, s := range all {
		switch s.id {
		case sectionCustom:
			continue
		case sectionData:
			im, err := readImage(s.body)
			if err != nil {
				return nil, err
			}
			if err := dropLines(im.bytes); err != nil {
				return nil, err
			}
			s, done = im.section(), true
		}
		kept = append(kept, s)
	}
	if !done {
		return nil, errors.New("the program holds no data")
	}
	return writeSections(kept), nil
}

// The compiler that the offsets below were read against. From runtime/symtab.go
// and runtime/runtime2.go of its source: the header of the function table, and
// the record of one function.
const (
	linesCompiler = "go1.26"

	headerFuncs     = 8 // the number of functions, then eight numbers of 8 bytes
	headerCuTable   = 8 + 4*8
	headerPCTable   = 8 + 6*8
	headerFuncTable = 8 + 7*8
	headerSize      = 8 + 8*8

	funcSPTable   = 16
	funcFileTable = 20
	funcLineTable = 24
	funcTables    = 28 // how many tables come after the record
	funcUnit      = 32
	funcFirstLine = 36
	funcSize      = 44
)

// tableMagic begins the function table: its version, a gap, the size of the
// smallest instruction and of a pointer.
const tableMagic = "\xf1\xff\xff\xff\x00\x00\x01\x08"

// dropLines empties, in the memory of a Go program, the tables that tell which
// line of which file an instruction comes from. The runtime reads a table at
// offset 0 as "not known", and tells "?" for the file.
func dropLines(data []byte) error {
	if v := runtime.Version(); len(v) < len(linesCompiler) || v[:len(linesCompiler)] != linesCompiler {
		return fmt.Errorf("built with %s, the layout of its function table was read for %s: read it again in tighten.go", v, linesCompiler)
	}
	if n := bytes.Count(data, []byte(tableMagic)); n != 1 {
		return fmt.Errorf("the head of the function table is there %d times, want once", n)
	}
	table := data[bytes.Index(data, []byte(tableMagic)):]
	if len(table) < headerSize {
		return errors.New("the function table ends in its head")
	}
	at := func(i int) uint64 { return binary.LittleEndian.Uint64(table[i:]) }
	files, pcs, start, count := at(headerCuTable), at(headerPCTable), at(headerFuncTable), at(headerFuncs)
	if files > pcs || pcs > start || start > uint64(len(table)) || count > uint64(len(table))/funcSize {
		return fmt.Errorf("the function table's parts lie at %d, %d and %d of %d", files, pcs, start, len(table))
	}
	records, tables := table[start:], table[pcs:start]

	used, lines := map[uint32]bool{0: true}, map[uint32]bool{}
	for i := range count {
		f, err := functionAt(records, i)
		if err != nil {
			return err
		}
		lines[word(f, funcFileTable)], lines[word(f, funcLineTable)] = true, true
		used[word(f, funcSPTable)] = true
		n := uint64(word(f, funcTables))
		if n > uint64(len(f)-funcSize)/4 {
			return fmt.Errorf("function %d has %d tables", i, n)
		}
		for k := range n {
			used[word(f, int(funcSize+4*k))] = true
		}
		clear(f[funcFileTable:funcTables])
		clear(f[funcUnit : funcFirstLine+4])
	}
	for offset := range lines {
		if used[offset] {
			continue
		}
		if uint64(offset) >= uint64(len(tables)) {
			return fmt.Errorf("a table of lines at %d of %d", offset, len(tables))
		}
		n, err := tableLength(tables[offset:])
		if err != nil {
			return err
		}
		clear(tables[offset:][:n])
	}
	clear(table[files:pcs]) // the names of the files
	return nil
}

func word(b []byte, i int) uint32 { return binary.LittleEndian.Uint32(b[i:]) }

// functionAt returns the record of the i-th function and what comes after it.
// At the head of the records stands for each its entry and its offset.
func functionAt(records []byte, i uint64) ([]byte, error) {
	if 8*(i+1) > uint64(len(records)) {
		return nil, fmt.Errorf("no entry for function %d", i)
	}
	offset := uint64(word(records, int(8*i+4)))
	if offset+funcSize > uint64(len(records)) {
		return nil, fmt.Errorf("function %d lies at %d of %d", i, offset, len(records))
	}
	if f := records[offset:]; word(f, 0) == word(records, int(8*i)) {
		return f, nil
	}
	return nil, fmt.Errorf("function %d is not where the table says", i)
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
