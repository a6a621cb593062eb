package draft

import (
	"slices"
	"strings"
)

// together finds gifts that together make the job fit: one after the other,
// least harm first, as long as each makes more of the cloth; then those that
// turn out not to be needed are taken back; then one gift by itself, or two
// that promise to save enough, if they do less harm.
func (a *advising) together(each []Try) Try {
	best := a.grown()
	best = a.spared(best)
	if !best.Fits() {
		return best
	}
	for _, t := range each {
		if t.Fits() && t.Harm() < best.Harm() {
			best = t
		}
	}
	if a.base.Laid == nil {
		return best
	}
	for i, x := range each {
		for _, y := range each[:i] {
			if x.Harm()+y.Harm() >= best.Harm() || x.Gifts[0].Path == y.Gifts[0].Path || x.Saves+y.Saves < a.base.Laid.ShortBy {
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
	}
	return best
}

// with is a set with one gift more, which stands in for a smaller one of its
// kind; false when it is there, or a larger one is.
func (a *advising) with(set string, i int) (string, bool) {
	var out strings.Builder
	put := false
	for _, k := range set {
		switch {
		case a.gifts[k].Path == a.gifts[i].Path && int(k) >= i:
			return "", false
		case a.gifts[k].Path == a.gifts[i].Path:
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
	for _, set := range append([]string{less}, a.smaller(less, one)...) {
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
		if g.Path == a.gifts[one].Path && g.Harm < a.gifts[one].Harm {
			if set, ok := a.with(without, i); ok {
				out = append(out, set)
			}
		}
	}
	return out
}
