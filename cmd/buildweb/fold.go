package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"slices"
)

// headerFolded is a byte of the header of the function table that is otherwise
// nought. It says that the table is folded.
const headerFolded = 4

// fold takes out of the function table what follows from the rest of it: where
// each function begins, since they are numbered through, and where its record
// lies, since they lie one after the other,
// each at a multiple of eight. What each function is called becomes
// the distance from the name before. The runtime puts it all back when it
// starts: unfold does.
func (t *funcTable) fold() error {
	first, offset := word(t.index, 0), word(t.index, 4)
	name := uint32(0)
	for i, f := range t.records {
		at := t.index[8*i:][:8]
		if word(at, 0) != first+uint32(i) || word(at, 4) != offset {
			return fmt.Errorf("function %d is number %d and lies at %d, want %d at %d", i, word(at, 0), word(at, 4), first+uint32(i), offset)
		}
		tables, facts := listed(f)
		offset += uint32(funcSize+len(tables)+len(facts)+7) &^ 7
		next := word(f, funcName)
		binary.LittleEndian.PutUint32(f[funcName:], next-name)
		name = next
		clear(f[:funcName])
	}
	clear(t.index[8:]) // the first stays
	t.head[headerFolded] = 1
	return nil
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
	at, name := datap.ftab[0], int32(0)
	for i := range len(datap.ftab) - 1 {
		datap.ftab[i] = at
		f := (*_func)(unsafe.Pointer(&datap.pclntable[at.funcoff]))
		name += f.nameOff
		f.entryOff, f.nameOff = at.entryoff, name
		at.entryoff++
		at.funcoff += (uint32(unsafe.Sizeof(*f)) + 4*(f.npcdata+uint32(f.nfuncdata)) + 7) &^ 7
	}
}
`
