package lay

import (
	"math"
	"slices"

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

// depthGrid is the grid of depths. It is small, since hundreds of them are read
// in turn.
type depthGrid struct {
	from       geom.Pt               // the first corner
	perX, perY float64               // cells for each mm
	unit       float64               // of the corners, in mm
	kinds      [depthCells2]int16    // of the cells, row by row
	corners    [depthCorners2]uint16 // of all cells, row by row, where a cell inside needs them
	cells      []depthCell           // on the edge; the first is none
	edges      []half
	rim        []seg
	lists      []int32
}

// depthCell says what matters in a cell on the edge: of lists, from..rim for each
// convex region how many edges, then their numbers; rim..to the stretches of the
// edge. Where there are no regions, rim..to are edges of the one that matters
// there, and the nearest of them tells the depth.
type depthCell struct{ from, rim, to int32 }

// What a cell is that has no place in cells.
const (
	outsideCell = 0
	insideCell  = -1
)

const (
	boxCells      = 32           // each way; a power of two
	depthCells    = boxCells + 2 // those all round the box of the places are outside
	depthCells2   = depthCells * depthCells
	depthCorners  = depthCells + 1
	depthCorners2 = depthCorners * depthCorners
)

// leastDepth is how deep, in mm, two pieces that run into each other do so at
// least, however the sums are rounded.
const leastDepth = 1e-9

// at returns how deep, in mm, a piece whose origin is at x, y runs into the
// other; nought when it only touches.
func (d *depths) at(x, y float64) float64 {
	t := d.depthGrid
	x, y = d.signX*x, d.signY*y
	u, v := (x-t.from.X)*t.perX, (y-t.from.Y)*t.perY
	i, j := int(u), int(v)
	if uint(i) >= depthCells || uint(j) >= depthCells {
		return 0
	}
	kind := t.kinds[j*depthCells+i]
	switch {
	case kind == outsideCell:
		return 0
	case kind > 0:
		return t.onEdge(&t.cells[kind], x, y)
	}
	u, v = u-float64(i), v-float64(j)
	k := j*depthCorners + i
	near, far := t.corners[k:k+2], t.corners[k+depthCorners:k+depthCorners+2]
	a, b := float64(near[0]), float64(far[0])
	a += u * (float64(near[1]) - a)
	b += u * (float64(far[1]) - b)
	return t.unit * (a + v*(b-a))
}

// onEdge is the depth at a place in a cell on the edge.
func (t *depthGrid) onEdge(c *depthCell, x, y float64) float64 {
	if c.from == c.rim {
		deep := math.Inf(1)
		for _, k := range t.lists[c.rim:c.to] {
			e := &t.edges[k]
			if v := e.d - e.nx*x - e.ny*y; v < deep {
				if v <= 0 {
					return 0
				}
				deep = v
			}
		}
		return deep
	}
	if !t.inside(t.lists[c.from:c.rim], x, y) {
		return 0
	}
	if d := t.toRim(t.lists[c.rim:c.to], x, y); d > leastDepth {
		return d
	}
	return leastDepth
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
	const most = math.MaxUint16
	t := &depthGrid{
		perX: boxCells / f.box.W(), perY: boxCells / f.box.H(),
		unit: min(f.box.W(), f.box.H()) / 2 / most, // no place is deeper than half way
		rim:  f.rim, cells: make([]depthCell, 1),
	}
	t.from = f.box.Min.Add(geom.Vec{X: -1 / t.perX, Y: -1 / t.perY})
	b := depthBuild{depthGrid: t, nofit: f}
	for i := range f.hulls {
		b.first = append(b.first, len(t.edges))
		for range f.hulls[i].edges {
			b.hullOf = append(b.hullOf, i)
		}
		t.edges = append(t.edges, f.hulls[i].edges...)
		b.some = append(b.some, int32(i))
	}
	for i := range f.rim {
		b.near = append(b.near, int32(i))
	}
	b.square(1, 1, boxCells, b.some, b.near)
	return t
}

// depthBuild fills a grid, square by square.
type depthBuild struct {
	*depthGrid
	*nofit
	first      []int   // edge of each hull in edges
	hullOf     []int   // of each of those
	some, near []int32 // stacks of the hulls and stretches that matter in a square
}

// square fills a square of so many cells each way. Of the hulls and the
// stretches of the edge, those given alone may matter in it.
func (b *depthBuild) square(i, j, size int, hulls, rim []int32) {
	cell := geom.Vec{X: 1 / b.perX, Y: 1 / b.perY}
	whole := cell.Scale(float64(size))
	mid := b.from.Add(geom.Vec{X: float64(i) * cell.X, Y: float64(j) * cell.Y}).Add(whole.Scale(0.5))
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
		nearest = math.Min(nearest, b.depthGrid.rim[k].away(mid.X, mid.Y))
	}
	reach := math.Sqrt(nearest) + whole.Len()
	for _, k := range rim {
		if b.depthGrid.rim[k].away(mid.X, mid.Y) <= reach*reach {
			b.near = append(b.near, k)
		}
	}
	rim = b.near[nearWas:]
	switch {
	case size == 1 && !inside:
		b.kinds[j*depthCells+i] = int16(len(b.cells))
		b.cells = append(b.cells, b.cellOnEdge(mid, whole, hulls, rim))
	case size == 1:
		b.kinds[j*depthCells+i] = insideCell
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
	x := b.from.X + float64(k%depthCorners)/b.perX
	y := b.from.Y + float64(k/depthCorners)/b.perY
	d := b.toRim(rim, x, y)
	b.corners[k] = uint16(clamp(math.Round(d/b.unit), 1, math.MaxUint16))
}

// toRim is how far a place is from the nearest of the stretches of the edge.
func (t *depthGrid) toRim(rim []int32, x, y float64) float64 {
	d2 := math.Inf(1)
	for _, k := range rim {
		if away := t.rim[k].away(x, y); away < d2 {
			d2 = away
		}
	}
	return math.Sqrt(d2)
}

// cellOnEdge lists what matters in a cell that the edge may run through.
func (b *depthBuild) cellOnEdge(mid geom.Pt, size geom.Vec, hulls, rim []int32) depthCell {
	if c, ok := b.cellOfOne(mid, size, hulls, rim); ok {
		return c
	}
	c := depthCell{from: int32(len(b.lists))}
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
	return c
}

// cellOfOne lists what matters in a cell where all of the edge of the nofit that
// is near is that of one convex region: then the others do not matter.
func (b *depthBuild) cellOfOne(mid geom.Pt, size geom.Vec, hulls, rim []int32) (depthCell, bool) {
	head := int32(len(b.lists))
	c := depthCell{head, head, head}
	one := true
	for _, k := range rim {
		e := b.rimOf[k]
		one = one && b.hullOf[e] == b.hullOf[b.rimOf[rim[0]]]
		if !slices.Contains(b.lists[head:], e) {
			b.lists = append(b.lists, e)
		}
	}
	c.to = int32(len(b.lists))
	const some = 0.4
	for _, v := range [5]geom.Vec{{}, {X: some, Y: some}, {X: -some, Y: some}, {X: some, Y: -some}, {X: -some, Y: -some}} {
		one = one && b.tells(&c, mid.Add(geom.Vec{X: v.X * size.X, Y: v.Y * size.Y}), hulls, rim)
	}
	if !one {
		b.lists = b.lists[:head]
	}
	return c, one
}

// tells reports whether a cell tells the depth at a place as the hulls and the
// stretches of the edge do.
func (b *depthBuild) tells(c *depthCell, at geom.Pt, hulls, rim []int32) bool {
	want := 0.0
	for _, k := range hulls {
		if least, _ := b.hulls[k].within(at, geom.Vec{}); least > 0 {
			want = b.toRim(rim, at.X, at.Y)
			break
		}
	}
	return math.Abs(b.onEdge(c, at.X, at.Y)-want) < 10*touchTol
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
