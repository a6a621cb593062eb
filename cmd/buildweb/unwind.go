package main

import (
	"encoding/binary"
	"fmt"
)

// What of the instructions is read here. From the WebAssembly core
// specification 2.0, 5.4 "Instructions".
const (
	sectionCode = 10

	opBlock, opLoop, opIf              = 0x02, 0x03, 0x04
	opBr, opBrIf, opBrTable            = 0x0c, 0x0d, 0x0e
	opReturn                           = 0x0f
	opCall, opCallIndirect             = 0x10, 0x11
	opLocalGet, opLocalSet, opTableSet = 0x20, 0x21, 0x26 // from the first to the last each with one number
	opFirstLoad, opLastStore           = 0x28, 0x3e       // with two
	opMemorySize, opMemoryGrow         = 0x3f, 0x40
	opI64Const, opF32Const, opF64Const = 0x42, 0x43, 0x44
	opFirstPlain, opLastPlain          = 0x45, 0xc4
	opMore                             = 0xfc // a number says which
	noResult                           = 0x40
)

// leaves is how a function of Go's ends whose callee wants the stack unwound,
// as the compiler writes it once: the end of a block around all the rest, and
// one for an answer.
const leaves = "\x41\x01\x0b"

// leaveAtOnce has a function return where its callee wants the stack unwound.
// The compiler has it branch to the end instead, by the number of blocks that
// it is in; that number is another at each call, and keeps apart what would be
// alike.
func leaveAtOnce(code []byte) ([]byte, error) { return rewrite(code, leave) }

// rewrite does something to each function of a section of code.
func rewrite(code []byte, each func(body []byte) ([]byte, error)) ([]byte, error) {
	r := &reader{rest: code}
	count := r.number()
	out := binary.AppendUvarint(nil, count)
	for i := range count {
		body, err := each(r.take(r.number()))
		if err != nil {
			return nil, fmt.Errorf("function %d of the code: %w", i, err)
		}
		out = binary.AppendUvarint(out, uint64(len(body)))
		out = append(out, body...)
	}
	return out, r.err
}

// leave does so in one function.
func leave(body []byte) ([]byte, error) {
	r := &reader{rest: body}
	for range r.number() {
		r.number()
		r.octet()
	}
	at := func() int { return len(body) - len(r.rest) }
	var out []byte
	done := 0
	depth := 0 // of blocks; 1 is the one around all the rest
	for r.err == nil {
		begin := at()
		op, n := r.instruction()
		switch op {
		case opBlock, opLoop, opIf:
			if depth++; depth == 1 && op != opBlock {
				return body, r.err
			}
		case opBrIf:
			if n == uint64(depth-1) {
				out = append(out, body[done:begin]...)
				out = append(out, opIf, noResult, opI32Const, 1, opReturn, opEnd)
				done = at()
			}
		case opEnd:
			if depth--; depth <= 0 {
				if string(r.rest) != leaves {
					return body, r.err // it ends in some other way
				}
				return append(out, body[done:]...), r.err
			}
		}
	}
	return nil, r.err
}

// instruction reads one instruction. Of a branch it returns how many blocks it
// leaves besides the innermost, of a call which function it calls, of a variable
// which, of a whole number that is written out, that number.
func (r *reader) instruction() (op byte, n uint64) {
	op = r.octet()
	switch {
	case op == opBlock, op == opLoop, op == opIf, op == opI32Const, op == opI64Const:
		n = uint64(r.signed())
	case op == opBr, op == opBrIf, op == opCall:
		n = r.number()
	case op == opBrTable:
		for range r.number() {
			r.number()
		}
		r.number()
	case op >= opLocalGet && op <= opTableSet:
		n = r.number()
	case op == opCallIndirect, op >= opFirstLoad && op <= opLastStore:
		r.number()
		r.number()
	case op == opMemorySize, op == opMemoryGrow:
		r.octet()
	case op == opF32Const:
		r.take(4)
	case op == opF64Const:
		r.take(8)
	case op <= 0x01, op == 0x05, op == opEnd, op == opReturn, op == 0x1a, op == 0x1b, op >= opFirstPlain && op <= opLastPlain:
	case op == opMore:
		switch which := r.number(); which {
		case 0, 1, 2, 3, 4, 5, 6, 7: // saturating conversions
		case 10: // memory.copy
			r.take(2)
		case 11: // memory.fill
			r.take(1)
		default:
			r.fail(fmt.Sprintf("an instruction %#x %d", op, which))
		}
	default:
		r.fail(fmt.Sprintf("an instruction %#x", op))
	}
	return op, n
}
