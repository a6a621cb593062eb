package main

import (
	"bytes"
	"errors"
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
//     the page fetches after its first screen: 13.
//   - Where the arguments lie that a trace tells as numbers is taken away: 7.
//   - What the runtime can work out again of the function table is taken
//     away: 50.
//   - The table to find a function by is emptied: 15.
//   - A function whose callee wants the stack unwound returns there and then: 51.
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
	var kept []section
	var names []string
	var late []bool
	for _, s := range all {
		switch s.id {
		case sectionCustom:
			continue
		case sectionCode:
			if s.body, err = leaveAtOnce(s.body); err != nil {
				return p, err
			}
		case sectionData:
			im, err := readImage(s.body)
			if err != nil {
				return p, err
			}
			t, err := readFuncTable(im)
			if err != nil {
				return p, err
			}
			if names, err = t.functionNames(); err != nil {
				return p, err
			}
			files, err := t.functionFiles()
			if err != nil {
				return p, err
			}
			if late, p.list, err = findLate(all, im, names, files, lateNames); err != nil {
				return p, err
			}
			for _, drop := range []func() error{t.dropLines, t.dropArguments, t.dropNames, t.number, t.dropSearch, t.fold} {
				if err := drop(); err != nil {
					return p, err
				}
			}
			p.names = bytes.Join(t.numbers, []byte("\n"))
			s = im.section()
		}
		kept = append(kept, s)
	}
	if late == nil {
		return p, errors.New("the program holds no data")
	}
	p.wasm, p.rest, err = split(kept, late, names, hashOf(wasm)[:markSize])
	return p, err
}
