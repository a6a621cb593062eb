package main

import (
	"bytes"
	"fmt"
	"strconv"
)

// A program is the compiled program: its first part and the rest, as split makes
// them, and the names of its functions, a line for each number that stands for
// one in it; and a list of what is where, for who looks after the size.
type program struct{ wasm, rest, names, list []byte }

// numbered begins what stands for the name of a function, before its number. It
// has a dot, since a trace leaves out what has none.
const numbered = "f."

// number puts numbers in the place of the names that are left, and keeps these
// in the order of the numbers. The page reads them when a trace is to be shown.
// The names of the wrappers that the compiler makes stay, and those of the
// runtime.
func (t *funcTable) number() error {
	done := map[uint32]bool{}
	for _, f := range t.records {
		offset := word(f, funcName)
		if f[funcKind] == kindWrapper || done[offset] {
			continue
		}
		done[offset] = true
		if uint64(offset) >= uint64(len(t.names)) {
			return fmt.Errorf("a name at %d of %d", offset, len(t.names))
		}
		name, _, _ := bytes.Cut(t.names[offset:], []byte{0})
		mark := numbered + strconv.Itoa(len(t.numbers))
		if len(name) < len(mark) || bytes.HasPrefix(name, []byte("runtime.")) || isLibrary(string(name)) {
			continue
		}
		t.numbers = append(t.numbers, bytes.Clone(name))
		clear(name)
		copy(name, mark)
	}
	return nil
}
