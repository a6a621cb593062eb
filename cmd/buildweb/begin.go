package main

import (
	_ "embed"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
)

// beginNames are the functions that run until the first stage stands, in the order in
// which they do, a line each. A browser compiles each when it is first called, which
// was a third of the time until the page stood at the first visit: so a worker has
// them compiled beside it (static/page/fetcher.js). A name that is not there does no
// harm, and what is missing is compiled in the page: make begin takes the list anew.
//
//go:embed begin.txt
var beginNames string

// beginSection is the name of the section that holds the slots of these functions in
// the table, each in two bytes.
const beginSection = "begin"

// beginning writes that section.
func (s *splitter) beginning(names []string) (section, error) {
	at := map[string]int{}
	for i, name := range names {
		if s.funcs[i].kind == 0 && !s.late[i] {
			at[name] = i
		}
	}
	body := sized([]byte(beginSection))
	for name := range strings.Lines(beginNames) {
		i, ok := at[strings.TrimSuffix(name, "\n")]
		if !ok {
			continue
		}
		slot := s.slot + uint64(i)
		if slot > math.MaxUint16 {
			return section{}, fmt.Errorf("the slot %d of %s is over two bytes", slot, name)
		}
		body = binary.LittleEndian.AppendUint16(body, uint16(slot))
	}
	return section{sectionCustom, body}, nil
}
