package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"slices"
)

// What of the instructions is looked at for returns.
const (
	opUnreachable     = 0x00
	opElse            = 0x05
	opLocalTee        = 0x22
	opI32Add, opI32Or = 0x6a, 0x72
)

// An address of code is the slot of a function and, in its low bits, the place
// in it.
const placeBits = 16

// fewReturns is how many calls a function has at least for whose returns it is
// worth to count.
const fewReturns = 2

// What localPC holds where it is not one place.
const unknown, unreached = -1, -2

// A counter has a function count on to where its callees return. Before each
// call the compiler writes the address to return to, in full. Mostly it is the
// one after that of the call before: localPC, which is of no use between two
// jumps, holds that.
//
// An address is written as before where localPC is not known to hold any one,
// since ways meet there that made different calls.
type counter struct {
	layout
	body  []byte
	slot  uint64
	spare uint64 // a variable for what the compiler used localPC for besides
	out   []byte
	done  int     // how much of body is in out
	holds int64   // the place in localPC
	comes []int64 // for each part, the place in localPC of those who come there
	inner []innerBlock
}

// An innerBlock is a block within a part: the places in localPC at its begin, and
// of those who leave it.
type innerBlock struct{ begin, leave int64 }

// meet is what is known where two ways meet.
func meet(a, b int64) int64 {
	switch {
	case a == b, b == unreached:
		return a
	case a == unreached:
		return b
	}
	return unknown
}

// countReturns does so in the function of a slot. deferred is the place where it
// goes on after what it had deferred, 0 if it defers nothing. Besides that the
// runtime lets a function go on only where it is begun and where a callee
// returns to; those written in assembly may differ.
func countReturns(body []byte, slot, deferred uint64) ([]byte, error) {
	l, ok := layoutOf(body)
	if !ok || slot >= 1<<(32-placeBits) {
		return body, nil
	}
	entries, returns := map[uint64]bool{0: true, deferred: true}, 0
	var last step
	err := function{body: body}.each(func(op byte, n uint64) {
		switch {
		case op == opI64Const && n>>placeBits == slot:
			entries[n&(1<<placeBits-1)] = true
			returns++
		case op == opLocalSet && n == localPC && last.op == opI32Const:
			entries[last.n] = true
		}
		last = step{op: op, n: n}
	})
	if err != nil || returns < fewReturns {
		return body, err
	}
	c := &counter{layout: l, body: body, slot: slot, spare: spareOf(body), comes: make([]int64, l.last+1)}
	for i := range c.comes {
		c.comes[i] = unreached
	}
	for place := range entries {
		p := l.part(place)
		c.comes[p] = meet(c.comes[p], int64(place))
	}
	if err := c.run(); err != nil {
		return nil, fmt.Errorf("count returns: %w", err)
	}
	return c.whole(), nil
}

// spareOf is the number of a variable after all those of a function.
func spareOf(body []byte) uint64 {
	r := &reader{rest: body}
	n := uint64(1) // the parameter
	for range r.number() {
		n += r.number()
		r.octet()
	}
	return n
}

// run goes through the parts of the function. Who comes to a part from another
// comes from one before, or through the table.
func (c *counter) run() error {
	r := &reader{rest: c.body[c.begin:]}
	at := func() int { return len(c.body) - len(r.rest) }
	c.holds, c.done = c.comes[0], c.begin
	var last [2]step
	for part := uint64(0); r.err == nil; {
		now := step{begin: at()}
		now.op, now.n = r.instruction()
		now.end = at()
		if now.op == opEnd && len(c.inner) == 0 {
			if part == c.last {
				c.out = append(c.out, c.body[c.done:]...)
				return nil
			}
			part++
			c.holds = meet(c.holds, c.comes[part])
		} else if now.op == opI64Store && last[0].op == opLocalGet && last[1].op == opI64Const && last[1].n>>placeBits == c.slot {
			c.count(last[1])
		} else {
			c.follow(part, now)
		}
		last = [2]step{last[1], now}
	}
	return r.err
}

// follow looks what an instruction does to localPC, and who comes where.
func (c *counter) follow(part uint64, now step) {
	depth := uint64(len(c.inner))
	switch now.op {
	case opIf:
		c.inner = append(c.inner, innerBlock{c.holds, c.holds})
	case opBlock, opLoop:
		c.holds = unknown
		c.inner = append(c.inner, innerBlock{unknown, unknown})
	case opElse:
		b := &c.inner[depth-1]
		b.leave, c.holds = c.holds, b.begin
	case opEnd:
		c.holds = meet(c.holds, c.inner[depth-1].leave)
		c.inner = c.inner[:depth-1]
	case opBr, opBrIf:
		if now.n < depth {
			c.inner[depth-1-now.n].leave = unknown
		} else if to := part + 1 + now.n - depth; to <= c.last {
			c.comes[to] = meet(c.comes[to], c.holds)
		}
		if now.op == opBr {
			c.holds = unreached
		}
	case opReturn, opUnreachable:
		c.holds = unreached
	case opLocalSet, opLocalGet:
		if now.n != localPC {
			break
		}
		if call := []byte{opI32Const, 0, opLocalGet, localPC, opCallIndirect}; now.op == opLocalSet && !bytes.HasPrefix(c.body[now.end:], call) {
			c.holds = unknown // it jumps
			break
		}
		c.out = binary.AppendUvarint(append(append(c.out, c.body[c.done:now.begin]...), now.op), c.spare)
		c.done = now.end
	}
}

// count writes how an address follows from what localPC holds.
func (c *counter) count(address step) {
	c.out = append(c.out, c.body[c.done:address.begin]...)
	place := int64(address.n & (1<<placeBits - 1))
	switch {
	case c.holds < 0:
		c.out = appendSigned(append(c.out, opI32Const), int64(int32(address.n)))
		c.out = append(c.out, opLocalTee, localPC)
	case c.holds == place:
		c.out = append(c.out, opLocalGet, localPC)
	default:
		c.out = appendSigned(append(c.out, opLocalGet, localPC, opI32Const), place-c.holds)
		c.out = append(c.out, opI32Add, opLocalTee, localPC)
	}
	c.out = append(c.out, opI64ExtendI32U)
	c.holds, c.done = place, address.end
}

// whole is the function with the spare variable, and with the slot put to the
// place in localPC where the table is looked up.
func (c *counter) whole() []byte {
	r := &reader{rest: c.body}
	kinds := r.number()
	rest := r.rest
	for range kinds {
		r.number()
		r.octet()
	}
	b := append(binary.AppendUvarint(nil, kinds+1), r.since(rest)...)
	b = append(b, 1, typeI32)
	b = append(b, c.body[len(c.body)-len(r.rest):c.table]...)
	b = append(b, opLocalGet, localPC, opLocalGet, localPC)
	b = appendSigned(append(b, opI32Const), int64(int32(c.slot<<placeBits)))
	b = append(b, opI32Or, opLocalSet, localPC)
	return slices.Concat(b, c.body[c.table+2:c.begin], c.out)
}
