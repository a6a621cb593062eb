package main

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"slices"
)

// rest writes the rest. Its functions are, in this order: the helpers that it
// imports, its own, copies of small ones of the first part, those that go on
// through the table to others there, and the one that is called when it is made.
func (s *splitter) rest() ([]byte, error) {
	var own, copies, through []int
	for i, l := range s.late {
		if l {
			own = append(own, i)
		}
	}
	used := map[int]bool{}
	look := func(i int) (outside error) {
		err := s.funcs[i].each(func(op byte, n uint64) {
			f := int(n - s.imported)
			if op == opCall && n < s.imported {
				outside = fmt.Errorf("calls what is outside, number %d", n)
			}
			if op != opCall || n < s.imported || s.late[f] || used[f] {
				return
			}
			used[f] = true
			switch {
			case s.funcs[f].kind != 0:
				s.helpers = append(s.helpers, f)
			case s.isSmall(f, true):
				copies = append(copies, f)
			default:
				through = append(through, f)
			}
		})
		return cmp.Or(err, outside)
	}
	for _, i := range own {
		if err := look(i); err != nil {
			return nil, fmt.Errorf("function %d: %w", i, err)
		}
	}
	for n := 0; n < len(copies); n++ { // it grows
		if err := look(copies[n]); err != nil {
			return nil, fmt.Errorf("function %d: %w", copies[n], err)
		}
	}
	number := make([]int, len(s.funcs)) // of a function, in the rest
	slices.Sort(through)
	slices.Sort(copies)
	slices.Sort(s.helpers)
	all := slices.Concat(s.helpers, own, copies, through)
	for n, f := range all {
		number[f] = n
	}
	var funcs []function
	for _, i := range slices.Concat(own, copies) {
		body, err := s.renumber(s.funcs[i].body, number)
		if err != nil {
			return nil, fmt.Errorf("function %d: %w", i, err)
		}
		funcs = append(funcs, function{s.funcs[i].kind, body})
	}
	for _, f := range through {
		b := appendSigned([]byte{0, opLocalGet, 0, opI32Const}, int64(s.slot)+int64(f))
		funcs = append(funcs, function{0, append(b, opCallIndirect, 0, 0, opEnd)})
	}
	s.types = append(s.types, []byte{typeFunction, 0, 0})
	b := binary.AppendUvarint([]byte{0, opI32Const, restHere, opGlobalSet}, s.state())
	funcs = append(funcs, function{uint64(len(s.types) - 1), append(b, opEnd)})
	return writeSections([]section{
		{sectionType, list(s.types...)},
		s.imports(),
		kindsOf(funcs),
		{sectionStart, binary.AppendUvarint(nil, uint64(len(all)))},
		s.rows(own),
		codeOf(funcs),
	}), nil
}

// isSmall reports whether a function is small and calls no other, but for such
// as call none, if it may: those that sums are made of. It runs as well from a
// copy, since what it knows is not in its module, and the nester is 10 % faster.
func (s *splitter) isSmall(f int, mayCall bool) bool {
	const small = 512
	if s.late[f] || s.funcs[f].kind != 0 || len(s.funcs[f].body) > small {
		return false
	}
	is := true
	err := s.funcs[f].each(func(op byte, n uint64) {
		switch {
		case op == opCallIndirect, op == opCall && n < s.imported:
			is = false
		case op == opCall:
			is = is && mayCall && s.isSmall(int(n-s.imported), false)
		}
	})
	return err == nil && is
}

// renumber writes into a body the numbers by which a part knows functions. What
// is imported from outside keeps its number.
func (s *splitter) renumber(body []byte, number []int) ([]byte, error) {
	r := &reader{rest: body}
	for range r.number() {
		r.number()
		r.octet()
	}
	out := slices.Clone(r.since(body))
	for r.err == nil && len(r.rest) > 0 {
		before := r.rest
		op, n := r.instruction()
		if op == opCall && n >= s.imported {
			out = call(out, uint64(number[n-s.imported]))
			continue
		}
		out = append(out, r.since(before)...)
	}
	return out, r.err
}

// rows puts the functions of the rest into their slots of the table, a row for
// each run of slots.
func (s *splitter) rows(own []int) section {
	var rows [][]byte
	for at := 0; at < len(own); {
		end := at + 1
		for end < len(own) && own[end] == own[end-1]+1 {
			end++
		}
		row := appendSigned([]byte{0, opI32Const}, int64(s.slot)+int64(own[at]))
		row = binary.AppendUvarint(append(row, opEnd), uint64(end-at))
		for n := at; n < end; n++ {
			row = binary.AppendUvarint(row, uint64(len(s.helpers)+n))
		}
		rows = append(rows, row)
		at = end
	}
	return section{sectionElement, list(rows...)}
}
