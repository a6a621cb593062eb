package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// Remnant is what a lay leaves of the end of the cloth: cloth for a later job.
type Remnant struct {
	// Outline is its edge, in steps along and across, measured from its own left
	// side and near edge.
	Outline []geom.Pt
	// Rect is the largest rectangle in it.
	Rect geom.Rect
	// Flaws are the boxes of the flaws of the cloth that lie in it.
	Flaws []geom.Rect
}

// Leftover returns the largest remnant that a lay leaves past its pieces, with
// the bites that they take out of its near edge; false when nothing is left
// that is a hand's breadth each way. A cloth with an outline leaves its largest
// clear rectangle; the bolt leaves nothing.
func Leftover(c Cloth, items []Item, r Result) (Remnant, bool) {
	if len(c.Outline) > 0 {
		if len(r.Left) == 0 {
			return Remnant{}, false
		}
		b := r.Left[0].Rect
		return remnant(c, b.Min, []float64{b.Min.Y}, b.W(), b.Max.Y), true
	}
	end := c.Length.MM()
	if end == 0 {
		return Remnant{}, false
	}
	used := usedBy(c, items, r)
	bridge(used, int(offcutLeast/offcutGrid))
	// The run of columns that hold most cloth past a hand's breadth.
	from, to, best := 0, 0, 0.0
	for i := 0; i < len(used); i++ {
		area, j := 0.0, i
		for ; j < len(used) && end-used[j] >= offcutLeast; j++ {
			area += end - used[j]
		}
		if area > best && j-i >= int(offcutLeast/offcutGrid) {
			from, to, best = i, j, area
		}
		i = j
	}
	if best == 0 {
		return Remnant{}, false
	}
	used = used[from:to]
	fewerSteps(used)
	return remnant(c, geom.Pt{X: float64(from) * offcutGrid}, used, offcutGrid, end), true
}

// usedBy returns how far along the unfolded cloth each column of it is used.
func usedBy(c Cloth, items []Item, r Result) []float64 {
	used := make([]float64, int(c.Width.MM()/offcutGrid))
	for _, p := range r.Placements {
		ring := p.Ring(items)
		for _, view := range unfolded(c, p.Opened, r.FoldedTo.MM(), ring) {
			b := geom.BoundsOf(view)
			first, last := int(b.Min.X/offcutGrid), int(math.Ceil(b.Max.X/offcutGrid-1e-9))-1
			for i := max(0, first); i <= min(last, len(used)-1); i++ {
				used[i] = math.Max(used[i], reach(view, float64(i)*offcutGrid, float64(i+1)*offcutGrid))
			}
		}
	}
	// The layers are cut off square where the folded part ends.
	if c.Fold == Crosswise {
		for i := range used {
			used[i] = math.Max(used[i], 2*r.FoldedTo.MM())
		}
	}
	for i, y := range used {
		used[i] = math.Ceil(y/offcutGrid-1e-9) * offcutGrid
	}
	return used
}

// unfolded returns a ring of the table as it lies on the unfolded cloth, once
// for each layer that it may be cut from.
func unfolded(c Cloth, opened bool, foldedTo float64, ring []geom.Pt) [][]geom.Pt {
	mid := c.Width.MM() / 2
	switch {
	case c.Fold == Lengthwise && !opened:
		right := geom.MapPts(ring, geom.Translate(geom.Vec{X: mid}))
		return [][]geom.Pt{right, geom.MapPts(right, geom.MirrorX(mid))}
	case c.Fold == Crosswise:
		return [][]geom.Pt{geom.MapPts(ring, geom.Translate(geom.Vec{Y: foldedTo}))}
	}
	return [][]geom.Pt{ring}
}

// reach returns the largest y of a ring between two x.
func reach(ring []geom.Pt, x0, x1 float64) float64 {
	y := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if p.X > q.X {
			p, q = q, p
		}
		a, b := math.Max(p.X, x0), math.Min(q.X, x1)
		if a > b {
			continue
		}
		for _, x := range [2]float64{a, b} {
			t := 0.0
			if q.X > p.X {
				t = (x - p.X) / (q.X - p.X)
			}
			y = math.Max(y, p.Lerp(q, t).Y)
		}
		if q.X == p.X {
			y = math.Max(y, math.Max(p.Y, q.Y))
		}
	}
	return y
}

// bridge fills slots that are narrower than so many columns: a strip that is no
// use by itself.
func bridge(used []float64, least int) {
	n := len(used)
	least = min(least, n)
	over := make([]float64, n) // by the first column of a window: the furthest in it
	for i := 0; i+least <= n; i++ {
		for _, y := range used[i : i+least] {
			over[i] = math.Max(over[i], y)
		}
	}
	for i := range used {
		low := math.Inf(1)
		for k := max(0, i-least+1); k <= min(i, n-least); k++ {
			low = math.Min(low, over[k])
		}
		used[i] = low
	}
}

// mostSteps is how many steps the near edge of a remnant has at most: so many
// straight cuts can be described, and made.
const mostSteps = 8

// fewerSteps makes no more than mostSteps steps of the columns, by giving up the
// least cloth, step after step.
func fewerSteps(used []float64) {
	for {
		starts := []int{0} // of the runs of equal columns
		for i := 1; i < len(used); i++ {
			if used[i] != used[i-1] {
				starts = append(starts, i)
			}
		}
		if len(starts) <= mostSteps {
			return
		}
		starts = append(starts, len(used))
		from, to, up, least := 0, 0, 0.0, math.Inf(1)
		for i := 1; i+1 < len(starts); i++ {
			a, b := used[starts[i]-1], used[starts[i]]
			low, high := starts[i-1], starts[i] // the run that is raised
			if b < a {
				low, high = starts[i], starts[i+1]
			}
			if lost := math.Abs(a-b) * float64(high-low); lost < least {
				from, to, up, least = low, high, math.Max(a, b), lost
			}
		}
		for i := from; i < to; i++ {
			used[i] = up
		}
	}
}

// remnant makes one of columns that begin at from, each so wide, used so far;
// it ends at end.
func remnant(c Cloth, from geom.Pt, used []float64, wide, end float64) Remnant {
	near := used[0]
	for _, y := range used {
		near = math.Min(near, y)
	}
	var r Remnant
	for i, y := range used {
		x := float64(i) * wide
		if i > 0 && y == used[i-1] {
			r.Outline[len(r.Outline)-1].X = x + wide
			continue
		}
		r.Outline = append(r.Outline, geom.Pt{X: x, Y: y - near}, geom.Pt{X: x + wide, Y: y - near})
	}
	right := float64(len(used)) * wide
	r.Outline = append(r.Outline, geom.Pt{X: right, Y: end - near}, geom.Pt{Y: end - near})
	for i := range used {
		top := used[i]
		for j := i; j < len(used); j++ {
			top = math.Max(top, used[j])
			b := geom.Rect{Min: geom.Pt{X: float64(i) * wide, Y: top - near}, Max: geom.Pt{X: float64(j+1) * wide, Y: end - near}}
			if b.W()*b.H() > r.Rect.W()*r.Rect.H() {
				r.Rect = b
			}
		}
	}
	whole := geom.Rect{Max: geom.Pt{X: right, Y: end - near}}
	for _, f := range c.Flaws {
		b := geom.BoundsOf(geom.MapPts(f, geom.Translate(geom.Vec{X: -from.X, Y: -near})))
		b.Min = geom.Pt{X: math.Max(b.Min.X, 0), Y: math.Max(b.Min.Y, 0)}
		b.Max = geom.Pt{X: math.Min(b.Max.X, whole.Max.X), Y: math.Min(b.Max.Y, whole.Max.Y)}
		if b.W() > 0 && b.H() > 0 {
			r.Flaws = append(r.Flaws, b)
		}
	}
	return r
}
