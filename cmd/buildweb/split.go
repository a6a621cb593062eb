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
// module it is in. In the first part each late function that is asked for there
// is replaced by a few instructions that go on at the border:
//
//   - if the rest is there, to what then stands in the function's slot of the
//     table;
//   - if not, to the runtime as a function does whose stack is too small, but
//     with a mark at the goroutine. The runtime has the goroutine wait (see
//     waiting in rest.go) and afterwards begins the same function again.
//
// The rest calls functions of the first part through the table. When it is made
// it puts its functions into their slots, then says that it is there.
func split(all []section, parts division, names []string, mark string) (first, rest []byte, err error) {
	m, err := readModule(all)
	if err != nil {
		return nil, nil, err
	}
	if len(parts.late) != len(m.funcs) || len(parts.asked) != len(m.funcs) || len(names) != len(m.funcs) {
		return nil, nil, fmt.Errorf("%d functions, of which %d are named", len(m.funcs), len(names))
	}
	more := slices.Index(names, "runtime.morestack")
	if more < 0 {
		return nil, nil, errors.New("no function runtime.morestack")
	}
	s := &splitter{module: m, division: parts, mark: mark, enters: slices.IndexFunc(m.types, func(t []byte) bool { return string(t) == enterType })}
	if s.enters < 0 {
		s.enters = len(m.types)
		m.types = append(m.types, []byte(enterType))
	}
	if rest, err = s.rest(); err != nil {
		return nil, nil, err
	}
	begin, err := s.beginning(names)
	if err != nil {
		return nil, nil, err
	}
	first, err = s.first(more, begin)
	return first, rest, err
}

type splitter struct {
	*module
	division
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

// first writes the first part. What of the late functions it does not ask for
// has no function in it, and in the table, until the rest is there, one that
// stops the program. What it begins with is told at its end.
func (s *splitter) first(more int, begin section) ([]byte, error) {
	var funcs []function
	number := make([]int, len(s.funcs)) // of a function, in the first part
	for i := range s.funcs {
		if number[i] = int(s.imported) + len(funcs); !s.late[i] || s.asked[i] {
			funcs = append(funcs, s.funcs[i])
		}
	}
	border := int(s.imported) + len(funcs)
	stop := border + 1
	for i, f := range s.funcs {
		switch {
		case !s.late[i]:
			body, err := s.renumber(f.body, number)
			if err != nil {
				return nil, fmt.Errorf("function %d: %w", i, err)
			}
			funcs[number[i]-int(s.imported)].body = body
		case s.asked[i]:
			b := appendSigned([]byte{0, opI32Const}, int64(s.slot)+int64(i))
			funcs[number[i]-int(s.imported)].body = append(call(append(b, opLocalGet, 0), uint64(border)), opEnd)
		default:
			number[i] = stop
		}
	}
	funcs = append(funcs, s.border(uint64(number[more])), function{0, []byte{0, opUnreachable, opEnd}})
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
			var err error
			if old.body, err = s.exported(old.body, number); err != nil {
				return nil, err
			}
		case sectionElement:
			old = s.row(number)
		case sectionCode:
			old = codeOf(funcs)
		}
		out = append(out, old)
	}
	return writeSections(append(out, begin)), nil
}

// row fills the table of the first part, from the first slot of a function on.
func (s *splitter) row(number []int) section {
	b := append(appendSigned([]byte{0, opI32Const}, int64(s.slot)), opEnd)
	b = binary.AppendUvarint(b, uint64(len(number)))
	for _, n := range number {
		b = binary.AppendUvarint(b, uint64(n))
	}
	return section{sectionElement, list(b)}
}

// exported writes what is exported, by the numbers of functions in the first part.
func (s *splitter) exported(body []byte, number []int) ([]byte, error) {
	r := &reader{rest: body}
	var all [][]byte
	for range r.number() {
		name, kind, n := r.take(r.number()), r.octet(), r.number()
		if kind == kindFunction {
			if n < s.imported || n-s.imported >= uint64(len(number)) {
				return nil, fmt.Errorf("%s is exported and not there", name)
			}
			n = uint64(number[n-s.imported])
		}
		all = append(all, binary.AppendUvarint(append(sized(name), kind), n))
	}
	return list(append(all, s.exports(number)...)...), r.err
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
func (s *splitter) shares(number []int) []shared {
	all := []shared{{exportedTable + s.mark, kindTable, 0, s.table}, {exportedMemory, kindMemory, 0, s.memory}}
	for i, g := range s.globals {
		all = append(all, shared{fmt.Sprint(exportedGlobal, i), kindGlobal, uint64(i), g})
	}
	all = append(all, shared{exportedState, kindGlobal, s.state(), []byte{typeI32, 1}})
	for i, f := range s.helpers {
		all = append(all, shared{fmt.Sprint(exportedHelpers, i), kindFunction, uint64(number[f]), binary.AppendUvarint(nil, s.funcs[f].kind)})
	}
	return all
}

func (s *splitter) exports(number []int) [][]byte {
	var out [][]byte
	for _, e := range s.shares(number) {
		if e.kind != kindMemory { // the linker exports it
			out = append(out, binary.AppendUvarint(append(sized([]byte(e.name)), e.kind), e.number))
		}
	}
	return out
}

func (s *splitter) imports() section {
	var out [][]byte
	for _, e := range s.shares(make([]int, len(s.funcs))) {
		out = append(out, slices.Concat(sized([]byte(partName)), sized([]byte(e.name)), []byte{e.kind}, e.typed))
	}
	return section{sectionImport, list(out...)}
}
