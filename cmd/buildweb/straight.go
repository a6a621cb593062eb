package main

import (
	"encoding/binary"
	"fmt"
	"slices"
)

// localPC is the variable of a function that says at which of its parts it goes
// on: where it is begun, its parameter.
const localPC = 0

// A layout is how the compiler lays out a function of Go's that can be gone on
// with in its midst. It is cut in parts, each of which begins at the end of a
// block, and goes on into the next:
//
//	global.get 0, local.set 1    the pointer to the stack
//	block                        to leave by, when the stack is unwound
//	  loop                       where there are jumps
//	    block ... block          one for each part
//	      local.get 0
//	      br_table               to the part that the number of a place lies in
//	    end
//	    part 0
//	    end
//	    part 1
//	    ...
type layout struct {
	head  int // where the loop begins
	table int // where localPC is read for the table
	begin int // where part 0 begins
	loop  bool
	last  uint64   // the last part
	parts []uint64 // of each place the part that it lies in; of all further ones, the last
}

// part returns the part that a place lies in.
func (l layout) part(place uint64) uint64 {
	return l.parts[min(place, uint64(len(l.parts)-1))]
}

// layoutOf reads the head of a function; ok says whether it is laid out so.
func layoutOf(body []byte) (l layout, ok bool) {
	r := &reader{rest: body}
	for range r.number() {
		r.number()
		r.octet()
	}
	at := func() int { return len(body) - len(r.rest) }
	opens := func(op byte) bool {
		if len(r.rest) < 2 || r.rest[0] != op || r.rest[1] != noResult {
			return false
		}
		r.take(2)
		return true
	}
	if op, _ := r.instruction(); op != opGlobalGet { // the pointer to the stack, kept in a variable
		return l, false
	}
	if op, _ := r.instruction(); op != opLocalSet {
		return l, false
	}
	blocks := uint64(0)
	for opens(opBlock) {
		blocks++
	}
	l.head = at()
	if opens(opLoop) {
		l.loop, blocks = true, 0
		for opens(opBlock) {
			blocks++
		}
	}
	l.table = at()
	if r.octet() != opLocalGet || r.number() != localPC || r.octet() != opBrTable {
		return l, false
	}
	for range r.number() + 1 {
		l.parts = append(l.parts, r.number())
	}
	l.last = l.parts[len(l.parts)-1]
	ok = r.octet() == opEnd && blocks > l.last
	l.begin = at()
	return l, ok && r.err == nil
}

// A step is an instruction of a function, and where it begins and ends.
type step struct {
	op         byte
	n          uint64
	begin, end int
}

func (s step) is(op byte, n uint64) bool { return s.op == op && s.n == n }

// goStraight has a function go straight on to what comes later in it. The
// compiler jumps to any part by its number, from the head of the loop; where
// that part is still to come, to leave the blocks up to it does the same. If no
// jump goes back then, there is no loop.
func goStraight(body []byte) ([]byte, error) {
	l, ok := layoutOf(body)
	if !ok || !l.loop {
		return body, nil
	}
	r := &reader{rest: body[l.begin:]}
	at := func() int { return len(body) - len(r.rest) }
	out, done := []byte(nil), l.head+2 // of the loop's beginning
	var last [3]step
	part, inner, back := uint64(0), uint64(0), false
	for r.err == nil {
		now := step{begin: at()}
		now.op, now.n = r.instruction()
		now.end = at()
		jump := inner + l.last - part // to the head of the loop
		switch now.op {
		case opBlock, opLoop, opIf:
			inner++
		case opEnd:
			if inner > 0 {
				inner--
				break
			}
			if part == l.last {
				if !back {
					out, done = append(out, body[done:now.begin]...), now.end
				}
				return straightened(body, l, append(out, body[done:]...), back), nil
			}
			part++
		case opBrTable:
			return body, nil
		case opLocalGet:
			if now.n == localPC && (len(r.rest) == 0 || r.rest[0] != opCallIndirect) {
				return body, nil // it is used for something else
			}
		case opBrIf:
			back = back || now.n >= jump
		case opBr:
			to := uint64(0)
			if now.n == jump && last[2].is(opLocalSet, localPC) && last[1].op == opI32Const {
				to = l.part(last[1].n)
			}
			if to <= part {
				back = back || now.n >= jump
				break
			}
			from, op := last[1].begin, byte(opBr)
			if last[0].op == opIf && len(r.rest) > 0 && r.rest[0] == opEnd {
				from, op = last[0].begin, opBrIf
				r.take(1)
				inner--
			}
			out = append(out, body[done:from]...)
			out = binary.AppendUvarint(append(out, op), to-part-1+inner)
			done = at()
		}
		last = [3]step{last[1], last[2], now}
	}
	return nil, fmt.Errorf("parts of a function: %w", r.err)
}

// straightened puts the head before what comes after it, without the loop if
// nothing goes back.
func straightened(body []byte, l layout, after []byte, back bool) []byte {
	head := slices.Clone(body[:l.head])
	if back {
		head = append(head, opLoop, noResult)
	}
	return append(head, after...)
}
