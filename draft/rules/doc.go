// Package rules keeps the constants of drafting as data that the maker can
// change: seam allowances, dart widths, how far the fork reaches.
//
// A garment supplies the definitions ([]Def), each with the house's first value
// and a sane range. Resolve lays the maker's own values over them, level by
// level (house, then client, then job), and answers with a Set that gives each
// value and tells which level it came from. A Set is never changed; Set.With
// makes another, for trying something out.
//
// Values are text as makers write it: "1/2 in", "1/16", "5", "on".
package rules
