package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
)

// A program is the compiled program: its first part and the rest, as split makes
// them, and the names of its functions, a line for each number that stands for
// one in it; and a list of what is where, for who looks after the size.
type program struct{ wasm, rest, names, list []byte }

// numbered begins what stands for the name of a function, before its number. It
// has a dot, since a trace leaves out what has none.
const numbered = "f."

// number takes away the names that are left, and keeps them in the order of the
// functions: the runtime tells of the first one without a name the number 0, of
// the next 1, and so on. The page reads them when a trace is to be shown. Those
// of the runtime stay.
func (t *funcTable) number() error {
	gone := map[uint32][]byte{}
	for _, f := range t.records {
		offset := word(f, funcName)
		if uint64(offset) >= uint64(len(t.names)) {
			return fmt.Errorf("a name at %d of %d", offset, len(t.names))
		}
		name, _, _ := bytes.Cut(t.names[offset:], []byte{0})
		if len(name) == 0 || bytes.HasPrefix(name, []byte("runtime.")) || isLibrary(string(name)) {
			continue
		}
		gone[offset] = name
		t.numbers = append(t.numbers, bytes.Clone(name))
		binary.LittleEndian.PutUint32(f[funcName:], follows)
	}
	for _, name := range gone {
		clear(name)
	}
	return nil
}

// nameOfNumber is what the runtime is given to tell a number as a name. Nothing
// can be allocated in a crash: the next one takes its place.
const nameOfNumber = `
var numbered [16]byte

func nameOfNumber(n int32) string {
	at := len(numbered) - 2 // it ends in a zero
	for ; n > 9; n /= 10 {
		numbered[at] = byte('0' + n%10)
		at--
	}
	numbered[at], numbered[at-1], numbered[at-2] = byte('0'+n), '.', 'f'
	return gostringnocopy(&numbered[at-2])
}
`
