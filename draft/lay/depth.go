package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// depths tells how deep a piece runs into another: how far it must at least be
// moved to get out of it.
//
// A grid is laid over the places of a nofit. Where the
// edge of the nofit runs through a cell, the cell lists the convex regions and
// the stretches of that edge which matter in it, and the answer is exact. Where
// a cell lies inside it is read between the corners of the cell.
type depths struct {
	*depthGrid
	// signX and signY take a place to where it is in the grid: it may be that of
	// two other pieces, turned or turned over alike.
	signX, signY float64
}

// depthGrid is the grid of depths.
type depthGrid struct {
	box        geom.Rect
	perX, perY float64 // cells for each mm
	cells      []depthCell
	corners    []float32 // of all cells, row by row, where a cell inside needs them
	edges      []half
	rim        []seg
	lists      []int32
}

// depthCell says what matters in a cell: of lists, from..rim for each convex
// region how many edges, then their numbers; rim..to the stretches of the edge.
type depthCell struct{ from, rim, to int32 }

// insideCell is the from of a cell inside; a cell outside has no lists.
const insideCell = -1

const (
	depthCells   = 32 // each way
	depthCorners = depthCells + 1
)

// leastDepth is how deep, in mm, two pieces that run into each other do so at
// least, however the sums are rounded.
const leastDepth = 1e-9

// at returns how deep, in mm, a piece whose origin is at x, y runs into the
// other; nought when it only touches.
func (d *depths) at(x, y float64) float64 {
	t := d.depthGrid
	x, y = d.signX*x, d.signY*y
	if x <= t.box.Min.X || x >= t.box.Max.X || y <= t.box.Min.Y || y >= t.box.Max.Y {
		return 0
	}
	u, v := (x-t.box.Min.X)*t.perX, (y-t.box.Min.Y)*t.perY
	i, j := int(u), int(v)
	if i >= depthCells {
		i = depthCells - 1
	}
	if j >= depthCells {
		j = depthCells - 1
	}
	c := &t.cells[j*depthCells+i]
	if c.from == insideCell {
		u, v = u-float64(i), v-float64(j)
		k := j*depthCorners + i
		near, far := t.corners[k:k+2], t.corners[k+depthCorners:k+depthCorners+2]
		a := float64(near[0]) + u*float64(near[1]-near[0])
		b := float64(far[0]) + u*float64(far[1]-far[0])
		return a + v*(b-a)
	}
	if !t.inside(t.lists[c.from:c.rim], x, y) {
		return 0
	}
	d2 := math.Inf(1)
	for _, k := range t.lists[c.rim:c.to] {
		if away := t.rim[k].away(x, y); away < d2 {
			d2 = away
		}
	}
	if d2 < leastDepth*leastDepth {
		return leastDepth
	}
	return math.Sqrt(d2)
}

// inside reports whether a place is in one of the listed regions.
func (t *depthGrid) inside(list []int32, x, y float64) bool {
regions:
	for len(list) > 0 {
		n := int(list[0]) + 1
		edges := list[1:n]
		list = list[n:]
		for _, k := range edges {
			e := &t.edges[k]
			if e.nx*x+e.ny*y >= e.d {
				continue regions
			}
		}
		return true
	}
	return false
}

// away returns the distance of a point from the stretch, squared.
func (s *seg) away(x, y float64) float64 {
	dx, dy, px, py := s.b.X-s.a.X, s.b.Y-s.a.Y, x-s.a.X, y-s.a.Y
	if t := px*dx + py*dy; t > 0 {
		n := dx*dx + dy*dy
		if t >= n {
			px, py = px-dx, py-dy
		} else {
			t /= n
			px, py = px-t*dx, py-t*dy
		}
	}
	return px*px + py*py
}

// newDepthGrid works out the depths for the places of a nofit.
func newDepthGrid(f *nofit) *depthGrid {
	t := &depthGrid{
		box: f.box, perX: depthCells / f.box.W(), perY: depthCells / f.box.H(), rim: f.rim,
		cells: make([]depthCell, depthCells*depthCells), corners: make([]float32, depthCorners*depthCorners),
	}
	b := depthBuild{depthGrid: t, hulls: f.hulls}
	for i := range f.hulls {
		b.first = append(b.first, len(t.edges))
		t.edges = append(t.edges, f.hulls[i].edges...)
		b.some = append(b.some, int32(i))
	}
	for i := range f.rim {
		b.near = append(b.near, int32(i))
	}
	b.square(0, 0, depthCells, b.some, b.near)
	return t
}

// depthBuild fills a grid, square by square.
type depthBuild struct {
	*depthGrid
	hulls      []hull
	first      []int   // edge of each hull in edges
	some, near []int32 // stacks of the hulls and stretches that matter in a square
}

// square fills a square of so many cells each way. Of the hulls and the
// stretches of the edge, those given alone may matter in it.
func (b *depthBuild) square(i, j, size int, hulls, rim []int32) {
	cell := geom.Vec{X: b.box.W() / depthCells, Y: b.box.H() / depthCells}
	whole := cell.Scale(float64(size))
	mid := b.box.Min.Add(geom.Vec{X: float64(i) * cell.X, Y: float64(j) * cell.Y}).Add(whole.Scale(0.5))
	someWas, nearWas := len(b.some), len(b.near)
	defer func() { b.some, b.near = b.some[:someWas], b.near[:nearWas] }()

	inside := false
	for _, k := range hulls {
		least, most := b.hulls[k].within(mid, whole)
		if most > 0 {
			b.some = append(b.some, k)
		}
		inside = inside || least > 0
	}
	hulls = b.some[someWas:]
	if len(hulls) == 0 {
		return
	}
	// Nearest to the middle, and what may be nearer elsewhere in the square.
	nearest := math.Inf(1)
	for _, k := range rim {
		nearest = math.Min(nearest, b.rim[k].away(mid.X, mid.Y))
	}
	reach := math.Sqrt(nearest) + whole.Len()
	for _, k := range rim {
		if b.rim[k].away(mid.X, mid.Y) <= reach*reach {
			b.near = append(b.near, k)
		}
	}
	rim = b.near[nearWas:]
	switch {
	case size == 1 && !inside:
		b.onEdge(&b.cells[j*depthCells+i], mid, whole, hulls, rim)
	case size == 1:
		b.cells[j*depthCells+i].from = insideCell
		for _, n := range [4]int{0, 1, depthCorners, depthCorners + 1} {
			b.corner(j*depthCorners+i+n, rim)
		}
	default:
		h := size / 2
		for _, at := range [4][2]int{{i, j}, {i + h, j}, {i, j + h}, {i + h, j + h}} {
			b.square(at[0], at[1], h, hulls, rim)
		}
	}
}

// corner works out the depth at a corner of a cell.
func (b *depthBuild) corner(k int, rim []int32) {
	if b.corners[k] != 0 {
		return
	}
	x := b.box.Min.X + float64(k%depthCorners)/b.perX
	y := b.box.Min.Y + float64(k/depthCorners)/b.perY
	d2 := math.Inf(1)
	for _, r := range rim {
		d2 = math.Min(d2, b.rim[r].away(x, y))
	}
	b.corners[k] = float32(math.Max(math.Sqrt(d2), leastDepth))
}

// onEdge lists what matters in a cell that the edge may run through.
func (b *depthBuild) onEdge(c *depthCell, mid geom.Pt, size geom.Vec, hulls, rim []int32) {
	c.from = int32(len(b.lists))
	for _, k := range hulls {
		head := len(b.lists)
		b.lists = append(b.lists, 0)
		for i, e := range b.hulls[k].edges {
			if v, r := e.over(mid, size); v-r <= 0 {
				b.lists = append(b.lists, int32(b.first[k]+i))
			}
		}
		b.lists[head] = int32(len(b.lists) - head - 1)
	}
	c.rim = int32(len(b.lists))
	b.lists = append(b.lists, rim...)
	c.to = int32(len(b.lists))
}

// over returns how far the middle of a cell lies on the near side of the edge,
// and how far the rest of the cell may differ from that.
func (e half) over(mid geom.Pt, size geom.Vec) (v, r float64) {
	return e.d - e.nx*mid.X - e.ny*mid.Y, (math.Abs(e.nx)*size.X + math.Abs(e.ny)*size.Y) / 2
}

// within returns bounds of how deep the places of a cell lie in h.
func (h *hull) within(mid geom.Pt, size geom.Vec) (least, most float64) {
	least, most = math.Inf(1), math.Inf(1)
	for _, e := range h.edges {
		v, r := e.over(mid, size)
		least, most = min(least, v-r), min(most, v+r)
		if most <= 0 {
			break
		}
	}
	return least, most
}
