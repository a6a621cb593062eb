package main

import (
	"encoding/binary"
	"fmt"
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
