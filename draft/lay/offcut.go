package lay

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// The offcuts named are those worth keeping: a hand's breadth at least each
// way, on a grid that is fine enough for the eye, and only a few of them.
const (
	offcutLeast = 100.0 // mm
	offcutGrid  = 10.0  // mm
	offcutCount = 6
)

// offcuts returns the clear end of the cloth at hand, and the largest free
// rectangles between the pieces, largest first.
func offcuts(s *Search, t *trial) []Offcut {
	var out []Offcut
	layers := s.cloth.Layers()
	end := t.main.end
	if len(s.cloth.Outline) > 0 {
		end = t.main.length
	}
	out = appendFree(out, &t.main, end, 0, false, layers)
	if t.rest != nil {
		out = appendFree(out, t.rest, t.rest.end, t.main.end, true, 1)
	}
	if clear, ok := t.clearEnd(); ok {
		out = append(out, clear)
	}
	slices.SortStableFunc(out, func(a, b Offcut) int { return cmp.Compare(b.Area(), a.Area()) })
	return out[:min(len(out), offcutCount)]
}

// clearEnd returns the full width past the last piece, up to the length at
// hand or to the first flaw.
func (t *trial) clearEnd() (Offcut, bool) {
	c := t.s.cloth
	over := c.Length.MM() - t.length()
	if c.Length == 0 || len(c.Outline) > 0 || over < offcutLeast {
		return Offcut{}, false
	}
	y := t.main.end
	if t.rest != nil {
		y += t.rest.end
	}
	r := geom.Rect{Min: geom.Pt{Y: y}, Max: geom.Pt{X: c.Width.MM(), Y: y + over}}
	for _, f := range c.Flaws {
		if b := geom.BoundsOf(f); b.Max.Y > r.Min.Y {
			r.Max.Y = math.Min(r.Max.Y, math.Max(b.Min.Y, r.Min.Y))
		}
	}
	return Offcut{Rect: r, Opened: c.Fold != Open, Layers: 1}, r.H() >= offcutLeast
}

// appendFree adds the free rectangles of the region down to end; shift is
// where the region begins on the table.
func appendFree(out []Offcut, r *region, end, shift float64, opened bool, layers int) []Offcut {
	g := newGrid(r, end)
	for range offcutCount {
		x0, y0, x1, y1 := g.largest()
		if x1 == x0 {
			break
		}
		g.fill(x0, y0, x1, y1)
		at := func(i, j int) geom.Pt {
			return geom.Pt{X: r.lo + float64(i)*offcutGrid, Y: shift + float64(j)*offcutGrid}
		}
		out = append(out, Offcut{Rect: geom.Rect{Min: at(x0, y0), Max: at(x1, y1)}, Opened: opened, Layers: layers})
	}
	return out
}

// grid says which cells of a region no piece touches.
type grid struct {
	w, h int
	used []bool
}

func newGrid(r *region, end float64) *grid {
	g := &grid{w: max(0, int((r.hi-r.lo)/offcutGrid)), h: max(0, int(end/offcutGrid))}
	g.used = make([]bool, g.w*g.h)
	for _, l := range r.laid {
		for _, part := range r.s.facings[l.facing].parts {
			g.mark(part, l.at.Plus(geom.Vec{X: -r.lo}))
		}
	}
	return g
}

// mark takes every cell that a convex part touches.
func (g *grid) mark(part []geom.Pt, at geom.Vec) {
	b := geom.BoundsOf(part)
	cell := func(v float64) int { return int(math.Floor(v / offcutGrid)) }
	for j := max(0, cell(b.Min.Y+at.Y)); j <= min(g.h-1, cell(b.Max.Y+at.Y)); j++ {
		lo, hi := band(part, float64(j)*offcutGrid-at.Y, float64(j+1)*offcutGrid-at.Y)
		if lo <= hi {
			g.fill(max(0, cell(lo+at.X)), j, min(g.w, cell(hi+at.X)+1), j+1)
		}
	}
}

// band returns the range of x of a convex ring between y0 and y1.
func band(ring []geom.Pt, y0, y1 float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	add := func(x float64) { lo, hi = math.Min(lo, x), math.Max(hi, x) }
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		if p.Y >= y0 && p.Y <= y1 {
			add(p.X)
		}
		for _, y := range [2]float64{y0, y1} {
			if (p.Y < y) != (q.Y < y) {
				add(p.X + (q.X-p.X)*(y-p.Y)/(q.Y-p.Y))
			}
		}
	}
	return lo, hi
}

func (g *grid) fill(x0, y0, x1, y1 int) {
	for j := y0; j < y1; j++ {
		for i := x0; i < x1; i++ {
			g.used[j*g.w+i] = true
		}
	}
}

// largest returns the largest free rectangle with sides of at least
// offcutLeast; an empty one when there is none. Row by row it looks at the
// free cells above as at a row of columns, and at each run of columns whose
// lowest has just come to its end.
func (g *grid) largest() (x0, y0, x1, y1 int) {
	least, best := int(math.Ceil(offcutLeast/offcutGrid)), 0
	high := make([]int, g.w+1) // free cells up from this row; the last stays 0
	var open []int             // columns of growing height, not yet ended
	for j := range g.h {
		open = open[:0]
		for i := range g.w + 1 {
			if i < g.w {
				if high[i]++; g.used[j*g.w+i] {
					high[i] = 0
				}
			}
			for len(open) > 0 && high[open[len(open)-1]] >= high[i] {
				h := high[open[len(open)-1]]
				open = open[:len(open)-1]
				from := 0
				if len(open) > 0 {
					from = open[len(open)-1] + 1
				}
				if a := h * (i - from); h >= least && i-from >= least && a > best {
					best, x0, y0, x1, y1 = a, from, j+1-h, i, j+1
				}
			}
			open = append(open, i)
		}
	}
	return x0, y0, x1, y1
}
