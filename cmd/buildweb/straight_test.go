package main

import (
	"bytes"
	"slices"
	"testing"
)

// laidOut is a function of three parts, as the compiler lays it out: places 0 and
// 1 are in part 0, place 2 in part 1, all others in part 2.
func laidOut(loop bool, parts ...[]byte) []byte {
	b := []byte{0, opGlobalGet, 0, opLocalSet, 1, opBlock, noResult}
	if loop {
		b = append(b, opLoop, noResult)
	}
	b = append(b, opBlock, noResult, opBlock, noResult, opBlock, noResult, opLocalGet, localPC, opBrTable, 3, 0, 0, 1, 2)
	for _, p := range parts {
		b = append(append(b, opEnd), p...)
	}
	if loop {
		b = append(b, opEnd)
	}
	return append(b, opUnreachable, opEnd, opI32Const, 1, opEnd)
}

func jump(place, depth byte) []byte {
	return []byte{opI32Const, place, opLocalSet, localPC, opBr, depth}
}

func jumpIf(place, depth byte) []byte {
	return slices.Concat([]byte{opLocalGet, 2, opIf, noResult}, jump(place, depth), []byte{opEnd})
}

func TestGoStraight(t *testing.T) {
	work, back := []byte{opLocalGet, 2, 0x1a}, []byte{opReturn}
	within := func(b []byte) []byte { return slices.Concat([]byte{opBlock, noResult}, b, []byte{opEnd}) }
	for name, tt := range map[string]struct{ is, want []byte }{
		"to the last part, and no loop is left": {
			laidOut(true, slices.Concat(work, jump(3, 2)), work, back),
			laidOut(false, slices.Concat(work, []byte{opBr, 1}), work, back),
		},
		"if": {
			laidOut(true, jumpIf(2, 3), slices.Concat(jumpIf(3, 2), work), back),
			laidOut(false, []byte{opLocalGet, 2, opBrIf, 0}, slices.Concat([]byte{opLocalGet, 2, opBrIf, 0}, work), back),
		},
		"out of a block": {
			laidOut(true, within(slices.Concat(jumpIf(3, 4), work)), work, back),
			laidOut(false, within([]byte{opLocalGet, 2, opBrIf, 2, opLocalGet, 2, 0x1a}), work, back),
		},
		"back, and on": {
			laidOut(true, jump(3, 2), jump(1, 1), jumpIf(2, 1)),
			laidOut(true, []byte{opBr, 1}, jump(1, 1), jumpIf(2, 1)),
		},
		"out of all, which is no place": {
			laidOut(true, jump(3, 2), []byte{opLocalGet, 2, opBrIf, 2}, back),
			laidOut(true, []byte{opBr, 1}, []byte{opLocalGet, 2, opBrIf, 2}, back),
		},
		"the place is read": {
			laidOut(true, jump(3, 2), []byte{opLocalGet, localPC, 0x1a}, back),
			laidOut(true, jump(3, 2), []byte{opLocalGet, localPC, 0x1a}, back),
		},
		"no parts": {[]byte{0, opGlobalGet, 0, opLocalSet, 1, opEnd}, []byte{0, opGlobalGet, 0, opLocalSet, 1, opEnd}},
	} {
		if got, err := goStraight(tt.is); err != nil || !bytes.Equal(got, tt.want) {
			t.Errorf("%s: %v\n% x, want\n% x", name, err, got, tt.want)
		}
	}
	whole := laidOut(true, work, work, back)
	if _, err := goStraight(whole[:len(whole)-6]); err == nil { // before the end of the loop
		t.Error("a function that is cut short is rewritten")
	}
}

func TestCountReturns(t *testing.T) {
	const slot = 0x1001
	calls := func(how ...byte) []byte {
		return slices.Concat([]byte{opLocalGet, 1}, how, []byte{opI64Store, 3, 0, opI32Const, 0, opCall, 7, opIf, noResult, opI32Const, 1, opReturn, opEnd})
	}
	full := func(place int64) []byte { return calls(appendSigned([]byte{opI64Const}, slot<<placeBits+place)...) }
	anew := func(place int64) []byte {
		return calls(append(appendSigned([]byte{opI32Const}, slot<<placeBits+place), opLocalTee, localPC, opI64ExtendI32U)...)
	}
	on := func(by byte) []byte {
		return calls(opLocalGet, localPC, opI32Const, by, opI32Add, opLocalTee, localPC, opI64ExtendI32U)
	}
	stays := calls(opLocalGet, localPC, opI64ExtendI32U)
	condition := func(b []byte) []byte { return slices.Concat([]byte{opLocalGet, 2, opIf, noResult}, b, []byte{opEnd}) }
	through := func(of byte) []byte {
		return []byte{opLocalSet, of, opI32Const, 0, opLocalGet, of, opCallIndirect, 0, 0}
	}
	counted := func(parts ...[]byte) []byte {
		b := laidOut(false, parts...)
		b = slices.Replace(b, 0, 1, 1, 1, typeI32)
		i := bytes.Index(b, []byte{opLocalGet, localPC, opBrTable})
		head := append(appendSigned([]byte{opLocalGet, localPC, opLocalGet, localPC, opI32Const}, slot<<placeBits), opI32Or, opLocalSet, localPC)
		return slices.Replace(b, i, i+2, head...)
	}
	leave := []byte{opReturn}
	for name, tt := range map[string]struct {
		is, want []byte
		deferred uint64
	}{
		"one after the other": {laidOut(false, full(2), full(3), leave), counted(on(2), on(1), leave), 0},
		"ways meet that differ": {
			laidOut(false, slices.Concat([]byte{opLocalGet, 2, opBrIf, 1}, full(2)), nil, full(0)),
			counted(slices.Concat([]byte{opLocalGet, 2, opBrIf, 1}, on(2)), nil, anew(0)), 0,
		},
		"ways meet that do not": {
			laidOut(false, []byte{opLocalGet, 2, opBrIf, 0}, full(3), full(0)),
			counted([]byte{opLocalGet, 2, opBrIf, 0}, on(3), on(0x7d)), 0, // three less
		},
		"an if in between": {
			laidOut(false, slices.Concat(condition(full(2)), full(3)), leave, leave),
			counted(slices.Concat(condition(on(2)), anew(3)), leave, leave), 0,
		},
		"gone on with after what was deferred": {laidOut(false, full(2), full(3), leave), counted(anew(2), on(1), leave), 1},
		"through the table": {
			laidOut(false, slices.Concat(full(2), through(localPC)), full(3), leave),
			counted(slices.Concat(on(2), through(1)), on(1), leave), 0,
		},
		"at its begin": {laidOut(false, slices.Concat(full(0), full(2)), leave, leave), counted(slices.Concat(stays, on(2)), leave, leave), 0},
		"one call":     {laidOut(false, full(2), leave, leave), laidOut(false, full(2), leave, leave), 0},
		"the address of another": {
			laidOut(false, full(1<<placeBits), full(1<<placeBits), full(2)), laidOut(false, full(1<<placeBits), full(1<<placeBits), full(2)), 0,
		},
	} {
		got, err := countReturns(tt.is, slot, tt.deferred)
		if err != nil || !bytes.Equal(got, tt.want) {
			t.Errorf("%s: %v\n% x, want\n% x", name, err, got, tt.want)
		}
	}
}
