package main

import (
	"bytes"
	"strings"
	"testing"
)

// code is a section of one function, of no locals.
func code(body ...byte) []byte {
	body = append([]byte{0}, body...)
	return append([]byte{1, byte(len(body))}, body...)
}

func TestLeaveAtOnce(t *testing.T) {
	const call, callee = opCall, 7
	inner := []byte{opBlock, noResult, call, callee, opBrIf, 1, call, callee, opBrIf, 0, opEnd}
	around := func(inner []byte, after ...byte) []byte {
		return code(append(append(append([]byte{0x23, 0, 0x21, 1, opBlock, noResult}, inner...), opEnd), after...)...)
	}
	atOnce := []byte{
		opBlock, noResult, call, callee, opIf, noResult, opI32Const, 1, opReturn, opEnd, call, callee, opBrIf, 0, opEnd,
	}
	for name, tt := range map[string]struct{ is, want []byte }{
		"out of all":         {around(inner, opI32Const, 1, opEnd), around(atOnce, opI32Const, 1, opEnd)},
		"another answer":     {around(inner, opI32Const, 0, opEnd), around(inner, opI32Const, 0, opEnd)},
		"more after":         {around(inner, opI32Const, 1, 0x1a, opEnd), around(inner, opI32Const, 1, 0x1a, opEnd)},
		"again, not out":     {code(opLoop, noResult, opBrIf, 0, opEnd, opI32Const, 1, opEnd), code(opLoop, noResult, opBrIf, 0, opEnd, opI32Const, 1, opEnd)},
		"a number like that": {around([]byte{opI32Const, opBrIf, 0x1a}, opI32Const, 1, opEnd), around([]byte{opI32Const, opBrIf, 0x1a}, opI32Const, 1, opEnd)},
		"nothing to leave":   {code(opI32Const, 0, opEnd), code(opI32Const, 0, opEnd)},
	} {
		if got, err := leaveAtOnce(tt.is); err != nil || !bytes.Equal(got, tt.want) {
			t.Errorf("%s: % x, %v, want % x", name, got, err, tt.want)
		}
	}
	for name, is := range map[string][]byte{
		"an instruction 0x6": code(0x06, opEnd),
		"0xfc 9":             code(opMore, 9, opEnd),
		"wanted":             code(opBlock, noResult),
		"not a number":       {},
	} {
		if _, err := leaveAtOnce(is); err == nil || !strings.Contains(err.Error(), name) {
			t.Errorf("% x: %v, want it to say %q", is, err, name)
		}
	}
}
