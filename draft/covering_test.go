package draft_test

import (
	"slices"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/garment"
)

// covering gives rows with one choice of each factor, which has so many, such
// that any deep factors come up with every combination of their choices. mend
// makes a row possible and leaves the choices of the factors it is given; it
// reports whether it could, and a combination with which it could not is left
// out. Each row is begun with what did not come up yet, and goes on with the
// choices that bring most (the greedy way of Cohen, Dalal, Fredman and Patton,
// 1997).
func covering(choices []int, deep int, mend func(row, keep []int) bool) [][]int {
	came := map[uint64]bool{}
	var rows [][]int
	for _, factors := range subsets(len(choices), deep) {
		seed := make([]int, deep)
		for {
			if row := slices.Repeat([]int{-1}, len(choices)); !came[key(factors, seed)] {
				for i, f := range factors {
					row[f] = seed[i]
				}
				fill(row, choices, deep, came, len(rows))
				if mend(row, factors) {
					rows = append(rows, row)
					for _, set := range subsets(len(row), deep) {
						came[key(set, at(row, set))] = true
					}
				}
				came[key(factors, seed)] = true
			}
			i := 0
			for ; i < deep; i++ { // the next combination
				if seed[i]++; seed[i] < choices[factors[i]] {
					break
				}
				seed[i] = 0
			}
			if i == deep {
				break
			}
		}
	}
	return rows
}

// fill chooses what a row leaves open; of choices that bring as much, turn says
// which comes first.
func fill(row, choices []int, deep int, came map[uint64]bool, turn int) {
	var chosen []int
	for f, c := range row {
		if c >= 0 {
			chosen = append(chosen, f)
		}
	}
	for f := range row {
		if row[f] >= 0 {
			continue
		}
		best, most := 0, -1
		for k := range choices[f] {
			c, brings := (k+turn)%choices[f], 0
			for _, s := range subsets(len(chosen), deep-1) {
				set := at(chosen, s)
				if !came[key(append(set, f), append(at(row, set), c))] {
					brings++
				}
			}
			if brings > most {
				best, most = c, brings
			}
		}
		row[f] = best
		chosen = append(chosen, f)
	}
}

// key stands for these choices of these factors, in whatever order.
func key(factors, choices []int) uint64 {
	pairs := make([]uint64, len(factors))
	for i, f := range factors {
		pairs[i] = uint64(f)<<4 | uint64(choices[i])
	}
	slices.Sort(pairs)
	out := uint64(1)
	for _, p := range pairs {
		out = out<<10 | p
	}
	return out
}

func at(row, set []int) []int {
	out := make([]int, len(set))
	for i, f := range set {
		out[i] = row[f]
	}
	return out
}

// subsets are those of n that have so many, each in order.
func subsets(n, many int) [][]int {
	if many == 0 {
		return [][]int{nil}
	}
	var out [][]int
	for last := many - 1; last < n; last++ {
		for _, s := range subsets(last, many-1) {
			out = append(out, append(slices.Clone(s), last))
		}
	}
	return out
}

// sewnHow is a style with what else changes the order of work.
type sewnHow struct {
	style                  garment.Style
	house, machine, weight int  // which of those of orderOf
	uneven                 bool // one hip is higher
}

// coveringStyles are styles, sewn by any machine in any cloth, by any of the
// rules, on even hips and others, in which any deep answers come up together that
// go together.
func coveringStyles(g garment.Garment, deep int) []sewnHow {
	var choices []int
	for _, o := range g.Options {
		choices = append(choices, len(o.Choices))
	}
	n := len(choices)
	choices = append(choices, len(houses()), 3, 3, 2)
	styleOf := func(row []int) garment.Style {
		s := garment.Style{}
		for i, o := range g.Options {
			s[o.ID] = o.Choices[row[i]].ID
		}
		return s
	}
	find := func(id string) int {
		return slices.IndexFunc(g.Options, func(o garment.Option) bool { return o.ID == id })
	}
	mend := func(row, keep []int) bool {
		for range g.Options {
			s := styleOf(row)
			if g.Check(s) == nil {
				return true
			}
			for _, c := range g.Clashes(s) {
				give := find(c.Option)
				if slices.Contains(keep, give) {
					give = find(c.With)
				}
				if slices.Contains(keep, give) {
					return false
				}
				o := g.Options[give]
				row[give] = max(0, slices.IndexFunc(o.Choices, func(c garment.Choice) bool { return c.ID == "none" }))
			}
		}
		return false
	}
	var out []sewnHow
	for _, row := range covering(choices, deep, mend) {
		out = append(out, sewnHow{styleOf(row), row[n], row[n+1], row[n+2], row[n+3] == 1})
	}
	return out
}

// Any two answers come up together that do not clash, and clashing ones never.
func TestCovering(t *testing.T) {
	for _, g := range draft.Garments() {
		type pair struct{ a, x, b, y string }
		together := map[pair]int{}
		rows := coveringStyles(g, 2)
		for _, how := range rows {
			if g.Check(how.style) != nil {
				t.Errorf("%s: %v cannot be chosen", g.ID, how.style)
			}
			for _, a := range g.Options {
				for _, b := range g.Options {
					together[pair{a.ID, how.style[a.ID], b.ID, how.style[b.ID]}]++
				}
			}
		}
		missing := 0
		for i, a := range g.Options {
			for _, b := range g.Options[:i] {
				for _, x := range a.Choices {
					for _, y := range b.Choices {
						if together[pair{a.ID, x.ID, b.ID, y.ID}] > 0 {
							continue
						}
						missing++
						s, _ := g.Complete(garment.Style{a.ID: x.ID, b.ID: y.ID})
						clash := g.Clashes != nil && slices.ContainsFunc(g.Clashes(s), func(c garment.Clash) bool {
							return c.Option == a.ID && c.With == b.ID || c.Option == b.ID && c.With == a.ID
						})
						if !clash {
							t.Errorf("%s: %s %s never comes with %s %s", g.ID, a.ID, x.ID, b.ID, y.ID)
						}
					}
				}
			}
		}
		t.Logf("%s: %d rows, %d pairs clash", g.ID, len(rows), missing)
	}
}
