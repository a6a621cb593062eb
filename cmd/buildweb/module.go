package main

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// The sections of a wasm file that the split reads besides those of wasm.go,
// and what may be imported. From the WebAssembly core specification 2.0, 5.5.
const (
	sectionType     = 1
	sectionImport   = 2
	sectionFunction = 3
	sectionTable    = 4
	sectionMemory   = 5
	sectionGlobal   = 6
	sectionExport   = 7
	sectionStart    = 8
	sectionElement  = 9

	kindFunction, kindTable, kindMemory, kindGlobal = 0, 1, 2, 3

	typeFunction = 0x60
	typeI32      = 0x7f
)

// A module is a linked program, taken apart as far as splitting it needs.
type module struct {
	sections []section
	types    [][]byte // each as it is written
	imported uint64   // how many functions come from outside: these have the first numbers
	funcs    []function
	table    []byte   // the type of the one table, as it is written
	memory   []byte   // of the one memory
	globals  [][]byte // of each, the type and whether it changes
	slot     uint64   // where in the table the first of funcs stands; the others follow
}

// A function is one function of a module.
type function struct {
	kind uint64 // which of the types
	body []byte
}

// goType is the type of every function that goes by Go's own way of calling: it
// takes the block to begin at, and answers whether the stack is to be unwound.
// The linker writes it first.
const goType = "\x60\x01\x7f\x01\x7f"

func readModule(all []section) (*module, error) {
	m := &module{sections: all}
	for _, s := range all {
		read := map[byte]func(*reader){
			sectionType: m.readTypes, sectionImport: m.readImports, sectionFunction: m.readKinds, sectionTable: m.readTable,
			sectionMemory: m.readMemory, sectionGlobal: m.readGlobals, sectionElement: m.readElements, sectionCode: m.readBodies,
		}[s.id]
		if read == nil {
			continue
		}
		r := &reader{rest: s.body}
		if read(r); r.err == nil && len(r.rest) > 0 {
			r.fail("more than was announced")
		}
		if r.err != nil {
			return nil, fmt.Errorf("section %d: %w", s.id, r.err)
		}
	}
	if len(m.types) == 0 || string(m.types[0]) != goType || m.table == nil || m.memory == nil || m.slot == 0 {
		return nil, errors.New("the program is not laid out as Go's linker does it")
	}
	return m, nil
}

// since returns what r has read since before.
func (r *reader) since(before []byte) []byte { return before[:len(before)-len(r.rest)] }

func (m *module) readTypes(r *reader) {
	for range r.number() {
		before := r.rest
		if r.octet() != typeFunction {
			r.fail("not the type of a function")
		}
		r.take(r.number())
		r.take(r.number())
		m.types = append(m.types, r.since(before))
	}
}

func (m *module) readImports(r *reader) {
	m.imported = r.number()
	for range m.imported {
		r.take(r.number())
		r.take(r.number())
		if r.octet() != kindFunction {
			r.fail("something other than a function is imported")
		}
		r.number()
	}
}

func (m *module) readKinds(r *reader) {
	for range r.number() {
		m.funcs = append(m.funcs, function{kind: r.number()})
	}
}

// one reads the type of the one table or memory there is.
func (r *reader) one(head uint64) []byte {
	if r.number() != 1 {
		r.fail("there is not one")
	}
	before := r.rest
	r.take(head)
	if limits := r.octet(); limits > 1 {
		r.fail("limits of another kind")
	} else if r.number(); limits == 1 {
		r.number()
	}
	return r.since(before)
}

func (m *module) readTable(r *reader)  { m.table = r.one(1) }
func (m *module) readMemory(r *reader) { m.memory = r.one(0) }

func (m *module) readGlobals(r *reader) {
	for range r.number() {
		m.globals = append(m.globals, r.take(2))
		for r.err == nil {
			if op, _ := r.instruction(); op == opEnd {
				break
			}
		}
	}
}

// readElements holds that all functions stand in the table, in their order.
func (m *module) readElements(r *reader) {
	if one, table, op := r.number(), r.octet(), r.octet(); one != 1 || table != 0 || op != opI32Const {
		r.fail("not one row of functions")
	}
	m.slot = uint64(r.signed())
	if r.octet() != opEnd || r.number() != uint64(len(m.funcs)) {
		r.fail("not a row of all functions")
	}
	for i := range m.funcs {
		if r.number() != m.imported+uint64(i) {
			r.fail("functions in another order")
		}
	}
}

func (m *module) readBodies(r *reader) {
	if r.number() != uint64(len(m.funcs)) {
		r.fail("not a body for each function")
	}
	for i := range m.funcs {
		m.funcs[i].body = r.take(r.number())
	}
}

// list writes a count and then the items.
func list(items ...[]byte) []byte {
	out := binary.AppendUvarint(nil, uint64(len(items)))
	for _, i := range items {
		out = append(out, i...)
	}
	return out
}

// sized writes the length of b before it.
func sized(b []byte) []byte {
	return append(binary.AppendUvarint(nil, uint64(len(b))), b...)
}

// codeOf writes the bodies of functions, and kindsOf their types.
func codeOf(funcs []function) section {
	out := binary.AppendUvarint(nil, uint64(len(funcs)))
	for _, f := range funcs {
		out = append(out, sized(f.body)...)
	}
	return section{sectionCode, out}
}

func kindsOf(funcs []function) section {
	out := binary.AppendUvarint(nil, uint64(len(funcs)))
	for _, f := range funcs {
		out = binary.AppendUvarint(out, f.kind)
	}
	return section{sectionFunction, out}
}
