package main

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// What of the instructions is written here, besides what is read.
const (
	opGlobalGet, opGlobalSet        = 0x23, 0x24
	opI32Store, opI64Store          = 0x36, 0x37
	opI32Eq, opI32Sub, opI64Shl     = 0x46, 0x6b, 0x86
	opI32WrapI64, opI64ExtendI32U   = 0xa7, 0xad
	wordAligned                     = 3 // of a store, as a power of two
	globalSP, globalG               = 0, 2
	offsetOfGuard                   = 16 // in a goroutine: where its stack would overflow
	waitsForRest                    = -998
	partName                        = "first" // the module that the rest imports from
	exportedTable, exportedMemory   = "t", "mem"
	exportedGlobal, exportedHelpers = "g", "f"
	exportedState                   = "rest" // start.js looks at it
)

// restHere is what the global for the state of the rest then says. At first it is
// nought; and the slot of a late function, once one was wanted too early.
const restHere = 1

// markSize is how much of the hash of the program it was marks its parts.
const markSize = 8

// enterType is the type of what stands at the border: it takes a slot of the table
// and the block to begin at.
const enterType = "\x60\x02\x7f\x7f\x01\x7f"

// split divides a program in two modules that share memory, table and globals.
// What is late is in the second, the rest; the first runs without it.
//
// Every Go function is called in one way, stands in the table, and keeps what it
// knows in memory and globals. So it is one to the rest of the program which
// module it is in. In the first part each late function is replaced by a few
// instructions that go on at the border:
//
//   - if the rest is there, to what then stands in the function's slot of the
//     table;
//   - if not, to the runtime as a function does whose stack is too small, but
//     with a mark at the goroutine. The runtime has the goroutine wait (see
//     waiting in rest.go) and afterwards begins the same function again.
//
// The rest calls functions of the first part through the table. When it is made
// it puts its functions into their slots, then says that it is there.
func split(all []section, late []bool, names []string, mark string) (first, rest []byte, err error) {
	m, err := readModule(all)
	if err != nil {
		return nil, nil, err
	}
	if len(late) != len(m.funcs) || len(names) != len(m.funcs) {
		return nil, nil, fmt.Errorf("%d functions, of which %d are named", len(m.funcs), len(names))
	}
	more := slices.Index(names, "runtime.morestack")
	if more < 0 {
		return nil, nil, errors.New("no function runtime.morestack")
	}
	s := &splitter{module: m, late: late, mark: mark, enters: slices.IndexFunc(m.types, func(t []byte) bool { return string(t) == enterType })}
	if s.enters < 0 {
		s.enters = len(m.types)
		m.types = append(m.types, []byte(enterType))
	}
	if rest, err = s.rest(); err != nil {
		return nil, nil, err
	}
	return s.first(uint64(more) + m.imported), rest, nil
}

type splitter struct {
	*module
	late    []bool
	mark    string // what both parts of one program are marked with
	enters  int    // the type of the border
	helpers []int  // functions of the first part with types of their own, that the rest calls
}

// state is the global that says whether the rest is there; it comes after all
// others.
func (s *splitter) state() uint64 { return uint64(len(s.globals)) }

func call(b []byte, f uint64) []byte { return binary.AppendUvarint(append(b, opCall), f) }

// border is the function that all calls of late functions come to: with the slot
// and the block, as enterType says.
func (s *splitter) border(more uint64) function {
	b := []byte{0} // no variables of its own
	b = binary.AppendUvarint(append(b, opGlobalGet), s.state())
	b = append(b, opI32Const, restHere, opI32Eq, opIf, noResult, opLocalGet, 1, opLocalGet, 0, opCallIndirect, 0, 0, opReturn, opEnd)
	// Where to go on is put on the stack: the begin of the late function.
	b = append(b, opGlobalGet, globalSP, opI32Const, 8, opI32Sub, opGlobalSet, globalSP)
	b = append(b, opGlobalGet, globalSP, opLocalGet, 0, opI64ExtendI32U, opI64Const, 16, opI64Shl, opI64Store, wordAligned, 0)
	b = binary.AppendUvarint(append(b, opLocalGet, 0, opGlobalSet), s.state())
	// The goroutine is marked.
	b = append(b, opGlobalGet, globalG, opI32WrapI64)
	b = append(appendSigned(append(b, opI64Const), waitsForRest), opI64Store, wordAligned, offsetOfGuard)
	return function{uint64(s.enters), append(call(append(b, opI32Const, 0), more), opEnd)}
}

// first writes the first part.
func (s *splitter) first(more uint64) []byte {
	funcs := slices.Clone(s.funcs)
	border := s.imported + uint64(len(funcs))
	for i := range funcs {
		if s.late[i] {
			b := appendSigned([]byte{0, opI32Const}, int64(s.slot)+int64(i))
			funcs[i].body = append(call(append(b, opLocalGet, 0), border), opEnd)
		}
	}
	funcs = append(funcs, s.border(more))
	var out []section
	for _, old := range s.sections {
		switch old.id {
		case sectionType:
			old.body = list(s.types...)
		case sectionFunction:
			old = kindsOf(funcs)
		case sectionGlobal:
			old.body = added(old.body, []byte{typeI32, 1, opI32Const, 0, opEnd})
		case sectionExport:
			old.body = added(old.body, s.exports()...)
		case sectionCode:
			old = codeOf(funcs)
		}
		out = append(out, old)
	}
	return writeSections(out)
}

// added adds items to the body of a section that is a list.
func added(body []byte, items ...[]byte) []byte {
	r := &reader{rest: body}
	n := r.number() + uint64(len(items))
	return slices.Concat(append([][]byte{binary.AppendUvarint(nil, n), r.rest}, items...)...)
}

// A shared thing is what the first part exports and the rest imports.
type shared struct {
	name   string
	kind   byte
	number uint64
	typed  []byte
}

// shares lists it all. The name of the table holds the mark: parts of different
// programs do not fit together.
func (s *splitter) shares() []shared {
	all := []shared{{exportedTable + s.mark, kindTable, 0, s.table}, {exportedMemory, kindMemory, 0, s.memory}}
	for i, g := range s.globals {
		all = append(all, shared{fmt.Sprint(exportedGlobal, i), kindGlobal, uint64(i), g})
	}
	all = append(all, shared{exportedState, kindGlobal, s.state(), []byte{typeI32, 1}})
	for i, f := range s.helpers {
		all = append(all, shared{fmt.Sprint(exportedHelpers, i), kindFunction, s.imported + uint64(f), binary.AppendUvarint(nil, s.funcs[f].kind)})
	}
	return all
}

func (s *splitter) exports() [][]byte {
	var out [][]byte
	for _, e := range s.shares() {
		if e.kind != kindMemory { // the linker exports it
			out = append(out, binary.AppendUvarint(append(sized([]byte(e.name)), e.kind), e.number))
		}
	}
	return out
}

func (s *splitter) imports() section {
	var out [][]byte
	for _, e := range s.shares() {
		out = append(out, slices.Concat(sized([]byte(partName)), sized([]byte(e.name)), []byte{e.kind}, e.typed))
	}
	return section{sectionImport, list(out...)}
}
