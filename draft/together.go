package draft

import (
	"slices"
	"strings"

	"chalkfold/draft/unit"
)

// together finds gifts that together make the job fit: one after the other,
// least harm first, as long as each makes more of the cloth; then those that
// turn out not to be needed are taken back; then one gift by itself, or two
// that promise to save enough, if they do less harm.
func (a *advising) together(each []Try) Try {
	best := a.spared(a.grown())
	for _, t := range each {
		if !best.Fits() && t.better(best) || t.Fits() && t.Harm() < best.Harm() {
			best = t
		}
	}
	if !best.Fits() {
		return best
	}
	if a.base.Laid == nil {
		return best
	}
	for i, x := range each {
		for _, y := range each[:i] {
			if x.Harm()+y.Harm() >= best.Harm() || x.Gifts[0].covers(y.Gifts[0]) || y.Gifts[0].covers(x.Gifts[0]) || x.Saves+y.Saves < a.base.Laid.ShortBy {
				continue
			}
			t, ok := a.try(y.set + x.set)
			if !ok {
				return best
			}
			if t.Why == "" && t.Fits() {
				best = t
			}
		}
	}
	return best
}

// grown adds gifts until the job fits or none helps any more.
func (a *advising) grown() Try {
	best := a.base
	for more := true; more; {
		more = false
		for i := range a.gifts {
			if best.Fits() {
				return best
			}
			set, ok := a.with(best.set, i)
			if !ok {
				continue
			}
			t, ok := a.try(set)
			if !ok {
				return best
			}
			if t.Why == "" && t.better(best) {
				best, more = t, true
			}
		}
		more = more && !best.over() // a second round would be for little
	}
	return best
}

// over reports whether the pieces are more than there is cloth, however they lie.
func (t Try) over() bool {
	return t.Laid != nil && t.Laid.Cloth.Length > 0 && t.Laid.Length*unit.Length(t.Laid.Density/100) > t.Laid.Cloth.Length
}

// with is a set with one gift more, which stands in for a smaller one of its
// kind that it covers; false when it is there, or a larger one is.
func (a *advising) with(set string, i int) (string, bool) {
	var out strings.Builder
	put := false
	for _, k := range set {
		switch {
		case a.gifts[k].covers(a.gifts[i]) && int(k) >= i:
			return "", false
		case int(k) < i && a.gifts[i].covers(a.gifts[k]):
			continue
		case int(k) > i && !put:
			out.WriteRune(rune(i))
			put = true
		}
		out.WriteRune(k)
	}
	if !put {
		out.WriteRune(rune(i))
	}
	return out.String(), true
}

// spared takes gifts back, the most harmful first, or makes do with a smaller
// one of the kind, as long as no more cloth is wanted for it than there is; and
// again, until none can be.
func (a *advising) spared(best Try) Try {
	for again := true; again; {
		again = false
		for _, one := range backwards(best.set) {
			t, ok := a.without(best, one)
			if !ok {
				return best
			}
			again = again || t.set != best.set
			best = t
		}
	}
	return best
}

// without is the set less one gift or with a smaller one for it, or as it is
// when the gift is needed; false when that was not found out.
func (a *advising) without(best Try, one rune) (Try, bool) {
	less := strings.Replace(best.set, string(one), "", 1)
	sets := []string{less}
	if !best.over() {
		sets = append(sets, a.smaller(less, one)...)
	}
	for _, set := range sets {
		t, ok := a.try(set)
		if !ok {
			return best, false
		}
		if t.Why == "" && (t.Fits() || !best.Fits() && !best.better(t)) {
			return t, true
		}
	}
	return best, true
}

func backwards(set string) []rune {
	out := []rune(set)
	slices.Reverse(out)
	return out
}

// smaller are the sets with a lesser gift of the kind in place of one.
func (a *advising) smaller(without string, one rune) []string {
	var out []string
	for i, g := range a.gifts[:one] {
		if a.gifts[one].covers(g) && g.Harm < a.gifts[one].Harm {
			if set, ok := a.with(without, i); ok {
				out = append(out, set)
			}
		}
	}
	return out
}
