package lay

import "chalkfold/draft/geom"

// finder finds the movers whose boxes may meet a given one. The cloth is cut
// into stripes each way; for each stripe it holds, as sets of bits, who begins
// in it or before, and who ends in it or after. What four such sets have in
// common is a short list.
type finder struct {
	words int // in a set
	x, y  ends
}

// stripes is the number of stripes each way.
const stripes = 64

// ends are the beginnings and ends of all movers along one axis.
type ends struct {
	from, per     float64
	begun, yet    []uint64 // by stripe: who has begun, who has yet to end
	first, latest []int    // by mover: the stripes of its ends
}

func newFinder(n int, all geom.Rect) *finder {
	f := &finder{words: (n + 63) / 64}
	axis := func(from, size float64) ends {
		return ends{
			from: from, per: stripes / size,
			begun: make([]uint64, stripes*f.words), yet: make([]uint64, stripes*f.words),
			first: make([]int, n), latest: make([]int, n),
		}
	}
	f.x, f.y = axis(all.Min.X, all.W()), axis(all.Min.Y, all.H())
	for i := range n {
		f.x.first[i], f.x.latest[i] = stripes, -1
		f.y.first[i], f.y.latest[i] = stripes, -1
	}
	return f
}

func (e *ends) stripe(v float64) int {
	return int(clamp((v-e.from)*e.per, 0, stripes-1))
}

// put takes note of where mover i lies now.
func (f *finder) put(i int, b geom.Rect) {
	f.x.put(i, f.words, b.Min.X, b.Max.X)
	f.y.put(i, f.words, b.Min.Y, b.Max.Y)
}

func (e *ends) put(i, words int, lo, hi float64) {
	at, bit := i/64, uint64(1)<<(i%64)
	first, latest := e.stripe(lo), e.stripe(hi)
	for k := e.first[i]; k < first; k++ {
		e.begun[k*words+at] &^= bit
	}
	for k := first; k < e.first[i]; k++ {
		e.begun[k*words+at] |= bit
	}
	for k := latest + 1; k <= e.latest[i]; k++ {
		e.yet[k*words+at] &^= bit
	}
	for k := e.latest[i] + 1; k <= latest; k++ {
		e.yet[k*words+at] |= bit
	}
	e.first[i], e.latest[i] = first, latest
}

// nearby is a box as the finder sees it: where its four sets begin.
type nearby struct{ begunX, yetX, begunY, yetY []uint64 }

func (f *finder) near(x0, x1, y0, y1 float64) nearby {
	w := f.words
	a, b, c, d := f.x.stripe(x1)*w, f.x.stripe(x0)*w, f.y.stripe(y1)*w, f.y.stripe(y0)*w
	return nearby{f.x.begun[a : a+w], f.x.yet[b : b+w], f.y.begun[c : c+w], f.y.yet[d : d+w]}
}

// word returns 64 of the movers that may meet the box.
func (n *nearby) word(k int) uint64 { return n.begunX[k] & n.yetX[k] & n.begunY[k] & n.yetY[k] }
