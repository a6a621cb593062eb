package main

import (
	"bytes"
	"errors"
	"fmt"
)

// tighten rewrites a program that the Go linker made, so that it presses
// better; it computes the same. In kB of the pressed program:
//
//   - The linker leaves zeros out of the data by cutting it into as many
//     segments as a browser allows, 100,000, each with an address. Brotli
//     writes zeros for nothing, but not addresses: a few segments save 108.
//   - The table of source lines, which only the trace of a crash uses, is
//     emptied: 79.
//   - The names of functions that a trace leaves out are one name: 12. Those of
//     library functions are another: 15. The others are numbers, whose names
//     the page fetches for a crash, told by the runtime: 38.
//   - Where a signal must not stop a function, of which there are none, is taken
//     away, and tables that differ in where their function ends are one: 24.
//   - Where the arguments lie that a trace tells as numbers is taken away: 7.
//   - What the runtime can work out again of the function table is taken
//     away: 50.
//   - The table to find a function by is emptied: 15.
//   - A function whose callee wants the stack unwound returns there and then: 51.
//   - A jump to what comes later goes there, past the table that all jumps went
//     through: 92. It is faster, too.
//   - An address to return to is counted on from the one before: 57.
//   - What the first part does not ask for of the rest has no function there: 10.
//   - Sections that nothing reads: 0.2.
//
// Then it is split in a first part and the rest, to which belong the functions
// whose names begin with one of lateNames.
//
// A trace still names the functions of the page. The program as it was linked,
// which tells lines too, stays in the scratch folder.
func tighten(wasm []byte, lateNames []string) (program, error) {
	var p program
	all, err := readSections(wasm)
	if err != nil {
		return p, err
	}
	im, t, err := readData(all)
	if err != nil {
		return p, err
	}
	m, err := readModule(all)
	if err != nil {
		return p, err
	}
	names, err := t.functionNames()
	if err != nil {
		return p, err
	}
	files, err := t.functionFiles()
	if err != nil {
		return p, err
	}
	parts, list, err := m.findLate(im, names, files, lateNames)
	if err != nil {
		return p, err
	}
	var kept []section
	for _, s := range all {
		switch s.id {
		case sectionCustom:
			continue
		case sectionCode:
			if s.body, err = shorten(s.body, m, t); err != nil {
				return p, err
			}
		case sectionData:
			for _, drop := range []func() error{t.dropLines, t.dropArguments, t.dropNames, t.number, t.dropSearch, t.fold} {
				if err := drop(); err != nil {
					return p, err
				}
			}
			s = im.section()
		}
		kept = append(kept, s)
	}
	p.names, p.list = bytes.Join(t.numbers, []byte("\n")), list
	p.wasm, p.rest, err = split(kept, parts, names, hashOf(wasm)[:markSize])
	return p, err
}

// readData returns a program's data, and the function table in it.
func readData(all []section) (image, *funcTable, error) {
	for _, s := range all {
		if s.id == sectionData {
			im, err := readImage(s.body)
			if err != nil {
				return im, nil, err
			}
			t, err := readFuncTable(im)
			return im, t, err
		}
	}
	return image{}, nil, errors.New("the program holds no data")
}

// shorten rewrites each function of Go's.
func shorten(code []byte, m *module, t *funcTable) ([]byte, error) {
	i := -1
	return rewrite(code, func(body []byte) ([]byte, error) {
		i++
		if i >= len(m.funcs) || len(t.records) < len(m.funcs) {
			return nil, fmt.Errorf("%d functions have %d records", len(m.funcs), len(t.records))
		}
		body, err := leave(body)
		if err != nil || m.funcs[i].kind != 0 {
			return body, err
		}
		if body, err = goStraight(body); err != nil || t.records[i][funcFlags]&flagAssembly != 0 {
			return body, err
		}
		return countReturns(body, m.slot+uint64(i), uint64(word(t.records[i], funcDeferred)))
	})
}
