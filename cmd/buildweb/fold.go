package main

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// headerFolded is a byte of the header of the function table that is otherwise
// nought. It says that the table is folded.
const headerFolded = 4

// follows stands where a function names the table that comes after the one named
// before, for the first time; and where it has a number for a name.
const follows = noFact

// fold takes out of the function table what follows from the rest of it: where
// each function begins, since they are numbered through; where its record lies,
// since they lie one after the other, each at a multiple of eight; where a table
// lies, since they come in the order in which they are first named. The runtime
// puts it all back when it starts: unfold does.
func (t *funcTable) fold() error {
	if err := t.gather(); err != nil {
		return err
	}
	first, offset := word(t.index, 0), word(t.index, 4)
	for i, f := range t.records {
		at := t.index[8*i:][:8]
		if word(at, 0) != first+uint32(i) || word(at, 4) != offset {
			return fmt.Errorf("function %d is number %d and lies at %d, want %d at %d", i, word(at, 0), word(at, 4), first+uint32(i), offset)
		}
		tables, facts := listed(f)
		offset += uint32(funcSize+len(tables)+len(facts)+7) &^ 7
		clear(f[:funcName])
	}
	clear(t.index[8:]) // the first stays
	t.head[headerFolded] = 1
	return nil
}

// gather moves the tables together, in the order in which they are first named,
// and writes there only that they follow. At 0 there is none. What a table tells
// last it tells for all further places, so that more of them are the same.
func (t *funcTable) gather() error {
	gathered, now := []byte{0}, map[string]uint32{}
	for _, f := range t.records {
		tables, _ := listed(f)
		for i := -4; i < len(tables); i += 4 {
			name := f[funcSPTable:][:4]
			if i >= 0 {
				name = tables[i:][:4]
			}
			was := word(name, 0)
			if was == 0 {
				continue
			}
			if uint64(was) >= uint64(len(t.tables)) {
				return fmt.Errorf("a table at %d of %d", was, len(t.tables))
			}
			table, err := endless(t.tables[was:])
			if err != nil {
				return fmt.Errorf("a table at %d: %w", was, err)
			}
			if at, ok := now[string(table)]; ok {
				binary.LittleEndian.PutUint32(name, at)
				continue
			}
			now[string(table)] = uint32(len(gathered))
			gathered = append(gathered, table...)
			binary.LittleEndian.PutUint32(name, follows)
		}
	}
	if len(gathered) > len(t.tables) {
		return fmt.Errorf("%d bytes of tables do not fit into %d", len(gathered), len(t.tables))
	}
	clear(t.tables[copy(t.tables, gathered):])
	return nil
}

// endless returns the table that begins here, its last place the last of any
// function.
func endless(from []byte) ([]byte, error) {
	r := &reader{rest: from}
	last := 0 // where the last distance between places is written
	for first := true; ; first = false {
		if v := r.number(); v == 0 && !first || r.err != nil {
			break
		}
		last = len(from) - len(r.rest)
		r.number()
	}
	if last == 0 {
		return nil, cmp.Or(r.err, errors.New("it is empty"))
	}
	table := binary.AppendUvarint(slices.Clone(from[:last]), funcSpan)
	return append(table, 0), r.err
}

// From internal/abi/symtab.go and runtime/symtab.go: how many addresses the table
// to search by has one entry for, the size of that, and, from the linker's
// wasm/asm.go, how many addresses each function has.
const (
	bucketSpan = 4096
	partSpan   = bucketSpan / 16 // of each there is one byte, behind four for all
	bucketSize = 4 + 16
	funcSpan   = 1 << 16
)

// searchSize is the size of the table for so many addresses; its last entry may
// be cut short.
func searchSize(addresses uint64) uint64 {
	return 4*((addresses+bucketSpan-1)/bucketSpan) + (addresses+partSpan-1)/partSpan
}

// dropSearch empties the table that finds a function by an address, 2 MB of
// memory. Functions are numbered through and all have the same number of
// addresses, so the runtime counts instead: findByNumber.
func (t *funcTable) dropSearch() error {
	i := 0
	for bucket := range slices.Chunk(t.search, bucketSize) {
		if got, want := word(bucket, 0), uint32(i/(funcSpan/bucketSpan)); got != want || len(bytes.Trim(bucket[4:], "\x00")) > 0 {
			return fmt.Errorf("entry %d of the table to search by address tells function %d, want %d", i, got, want)
		}
		i++
	}
	clear(t.search)
	return nil
}

// findByNumber is the head of what the runtime is given to find a function.
const findByNumber = `	if GOARCH == "wasm" {
		at := datap.ftab[pcOff-datap.ftab[0].entryoff]
		return funcInfo{(*_func)(unsafe.Pointer(&datap.pclntable[at.funcoff])), datap}
	}

`

// unfold is what the runtime is given to undo fold, before it looks at the
// table for the first time. Nothing is allocated yet.
const unfold = `
func unfold(datap *moduledata) {
	if datap.pcHeader.pad1 == 0 {
		return
	}
	datap.pcHeader.pad1 = 0
	at, number, table := datap.ftab[0], int32(0), uint32(1)
	for i := range len(datap.ftab) - 1 {
		datap.ftab[i] = at
		f := (*_func)(unsafe.Pointer(&datap.pclntable[at.funcoff]))
		if f.entryOff = at.entryoff; f.nameOff == -1 {
			number--
			f.nameOff = number
		}
		table = unfoldTable(datap, &f.pcsp, table)
		for j := range f.npcdata {
			table = unfoldTable(datap, (*uint32)(add(unsafe.Pointer(f), unsafe.Sizeof(*f)+4*uintptr(j))), table)
		}
		at.entryoff++
		at.funcoff += (uint32(unsafe.Sizeof(*f)) + 4*(f.npcdata+uint32(f.nfuncdata)) + 7) &^ 7
	}
}

// unfoldTable returns where the next table is that is named for the first time.
func unfoldTable(datap *moduledata, name *uint32, next uint32) uint32 {
	if *name != ^uint32(0) {
		return next
	}
	*name = next
	for first := true; ; first = false {
		n, v := readvarint(datap.pctab[next:])
		next += n
		if v == 0 && !first {
			return next
		}
		n, _ = readvarint(datap.pctab[next:])
		next += n
	}
}
`
