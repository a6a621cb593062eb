package lay

import (
	"math"

	"chalkfold/draft/geom"
)

// depths tells how deep a piece runs into another, from a grid laid over the
// places of a nofit: each cell lists the convex regions that are deepest
// somewhere in it, and of each the edges that are nearest somewhere in it. The
// answer is exact; what can never matter in the cell is not looked at.
type depths struct {
	box      geom.Rect
	perX     float64 // cells for each mm
	perY     float64
	edges    []half
	from     []int32  // by cell: where its list begins; one more for the end
	relevant []uint32 // for each region: how many edges, then their numbers
}

// depthCells is the number of cells each way.
const depthCells = 16

// at returns how deep, in mm, a piece whose origin is at x, y runs into the
// other: how far it must at least be moved to get out of the one of the convex
// regions that it is deepest in; nought when it only touches.
func (t *depths) at(x, y float64) float64 {
	if x <= t.box.Min.X || x >= t.box.Max.X || y <= t.box.Min.Y || y >= t.box.Max.Y {
		return 0
	}
	i, j := int((x-t.box.Min.X)*t.perX), int((y-t.box.Min.Y)*t.perY)
	cell := min(j, depthCells-1)*depthCells + min(i, depthCells-1)
	deepest := 0.0
	for list := t.relevant[t.from[cell]:t.from[cell+1]]; len(list) > 0; {
		n := int(list[0]) + 1
		d := math.Inf(1)
		for _, k := range list[1:n] {
			e := &t.edges[k]
			if in := e.d - e.nx*x - e.ny*y; in < d {
				if d = in; d <= deepest {
					break
				}
			}
		}
		if d > deepest {
			deepest = d
		}
		list = list[n:]
	}
	return deepest
}

// newDepths works out the depths of parts b in parts a, as newNofit does the
// places.
func newDepths(a, b [][]geom.Pt, gap float64) *depths {
	hulls, box := newHulls(sums(a, b, gap))
	t := &depths{box: box, perX: depthCells / box.W(), perY: depthCells / box.H()}
	first := make([]int, len(hulls))
	for i := range hulls {
		first[i] = len(t.edges)
		t.edges = append(t.edges, hulls[i].edges...)
	}
	size := geom.Vec{X: box.W() / depthCells, Y: box.H() / depthCells}
	least, most := make([]float64, len(hulls)), make([]float64, len(hulls))
	for j := range depthCells {
		for i := range depthCells {
			t.from = append(t.from, int32(len(t.relevant)))
			mid := box.Min.Add(geom.Vec{X: (float64(i) + 0.5) * size.X, Y: (float64(j) + 0.5) * size.Y})
			sure := 0.0 // how deep it is everywhere in the cell
			for k := range hulls {
				least[k], most[k] = hulls[k].within(mid, size)
				sure = max(sure, least[k])
			}
			for k := range hulls {
				if most[k] > 0 && (most[k] > sure || least[k] == sure) {
					t.list(&hulls[k], first[k], mid, size, most[k])
				}
			}
		}
	}
	t.from = append(t.from, int32(len(t.relevant)))
	return t
}

// list adds the edges of a region that may be nearest somewhere in a cell.
func (t *depths) list(h *hull, first int, mid geom.Pt, size geom.Vec, most float64) {
	head := len(t.relevant)
	t.relevant = append(t.relevant, 0)
	for i, e := range h.edges {
		if v, r := e.over(mid, size); v-r <= most {
			t.relevant = append(t.relevant, uint32(first+i))
		}
	}
	t.relevant[head] = uint32(len(t.relevant) - head - 1)
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
