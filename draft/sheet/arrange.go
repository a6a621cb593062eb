package sheet

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

const (
	paperInset = 2  // of a piece from the edge of its first sheet, mm
	paperGap   = 4  // between pieces on paper, mm
	paperStep  = 20 // between the places tried for a small piece, mm
)

// OnPaper draws the pieces placed so that they touch few sheets, each once,
// for Tiles with the same paper and options. Paper has no grain: a piece may
// be turned by a quarter.
func OnPaper(pieces []piece.Piece, paper Paper, opt Options, tile TileOptions) (Drawing, error) {
	g, err := newGrid(paper, tile)
	if err != nil {
		return Drawing{}, err
	}
	rings := make([][]geom.Pt, len(pieces))
	for i, p := range pieces {
		rings[i] = p.Cut
	}
	var d Drawing
	at, err := g.arrange(rings, tile)
	if err != nil {
		return Drawing{}, err
	}
	for i, p := range pieces {
		opt.joins = g.joinsOver(geom.BoundsOf(geom.MapPts(p.Cut, at[i])), at[i])
		d.place(Piece(p, opt), at[i])
	}
	var box geom.Rect
	for _, o := range d.Outlines {
		box = box.Union(geom.BoundsOf(o.Ring))
	}
	// Bounds are whole sheets from the origin, so that Tiles keeps the places.
	d.Bounds.Max = geom.Pt{X: float64(count(box.Max.X, g.step.X)) * g.step.X, Y: float64(count(box.Max.Y, g.step.Y)) * g.step.Y}
	return d, nil
}

// joinsOver returns the lines, in the frame of a piece that at places at box,
// along which sheets meet, with the reach of the join marks: where a label
// would be cut in two.
func (g grid) joinsOver(box geom.Rect, at geom.Affine) [][2]geom.Pt {
	back := inverse(at)
	var out [][2]geom.Pt
	add := func(a, b geom.Pt) { out = append(out, [2]geom.Pt{back.Pt(a), back.Pt(b)}) }
	for _, off := range [3]float64{-joinLong, 0, joinLong} {
		for x := g.step.X + off; x < box.Max.X; x += g.step.X {
			add(geom.Pt{X: x, Y: box.Min.Y}, geom.Pt{X: x, Y: box.Max.Y})
		}
		for y := g.step.Y + off; y < box.Max.Y; y += g.step.Y {
			add(geom.Pt{X: box.Min.X, Y: y}, geom.Pt{X: box.Max.X, Y: y})
		}
	}
	return out
}

// inverse returns the map that undoes m, a turn and a move.
func inverse(m geom.Affine) geom.Affine {
	det := m.A*m.D - m.B*m.C
	a, b, c, d := m.D/det, -m.B/det, -m.C/det, m.A/det
	return geom.Affine{A: a, B: b, C: c, D: d, E: -(a*m.E + c*m.F), F: -(b*m.E + d*m.F)}
}

// spread is the state of an arrangement: what lies where, and which sheets
// are touched.
type spread struct {
	step  geom.Vec
	rings [][]geom.Pt
	boxes []geom.Rect
	used  map[[2]int]bool
	size  geom.Pt
	at    []geom.Affine
}

// arrange returns where each ring goes so that few sheets are touched. Where
// it costs no sheet, room is left on the first for the squares and the map.
func (g grid) arrange(rings [][]geom.Pt, opt TileOptions) ([]geom.Affine, error) {
	best, err := newSpread(g.step, rings, opt)
	if err != nil {
		return nil, err
	}
	for _, b := range g.gaugeBoxes() {
		s, err := newSpread(g.step, rings, opt, grow(b, gaugeClear))
		if err != nil || len(s.used) <= len(best.used) {
			return s.at, err
		}
	}
	return best.at, nil
}

// gaugeClear is what the figures around the squares take, mm.
const gaugeClear = 4

// newSpread places the rings, the largest first, each where it touches the
// fewest new cells, clear of what is kept.
func newSpread(step geom.Vec, rings [][]geom.Pt, opt TileOptions, keep ...geom.Rect) (*spread, error) {
	order := make([]int, len(rings))
	for i := range order {
		order[i] = i
	}
	area := func(i int) float64 { b := geom.BoundsOf(rings[i]); return b.W() * b.H() }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(area(b), area(a)) })
	s := &spread{step: step, used: map[[2]int]bool{{0, 0}: true}, at: make([]geom.Affine, len(rings))}
	for _, k := range keep {
		s.rings, s.boxes = append(s.rings, corners(k)), append(s.boxes, k)
	}
	for _, i := range order {
		if err := opt.step(); err != nil {
			return s, err
		}
		s.at[i] = s.add(rings[i])
	}
	return s, nil
}

// choice is one place for one ring.
type choice struct {
	at    geom.Affine
	ring  []geom.Pt
	cells [][2]int
	box   geom.Rect
	fresh int
	reach float64
}

func (c choice) better(than choice) bool {
	return cmp.Or(cmp.Compare(c.fresh, than.fresh), cmp.Compare(c.reach, than.reach)) < 0
}

func (s *spread) add(ring []geom.Pt) geom.Affine {
	best := choice{fresh: math.MaxInt}
	for quarter := range 2 {
		turn := geom.RotateAbout(geom.Pt{}, float64(quarter)*math.Pi/2)
		r := geom.MapPts(ring, turn)
		b := geom.BoundsOf(r)
		home := turn.Then(geom.Translate(geom.Pt{}.Sub(b.Min)))
		r = geom.MapPts(ring, home)
		seen := map[[2]float64][][2]int{} // cells by the place within a cell
		for _, p := range s.places(b) {
			box := geom.Rect{Min: p, Max: p.Add(geom.Vec{X: b.W(), Y: b.H()})}
			if !s.free(box, r) {
				continue
			}
			c := choice{at: home.Then(geom.Translate(p.Sub(geom.Pt{}))), ring: r, box: box}
			c.cells = s.cells(r, p, box, seen)
			for _, k := range c.cells {
				if !s.used[k] {
					c.fresh++
				}
			}
			// Among equals the whole stays compact and near the first sheet.
			c.reach = math.Max(s.size.X, box.Max.X) + math.Max(s.size.Y, box.Max.Y) + (box.Min.X+box.Min.Y)/1000
			if c.better(best) {
				best = c
			}
		}
	}
	s.rings = append(s.rings, geom.MapPts(ring, best.at))
	s.boxes = append(s.boxes, best.box)
	for _, k := range best.cells {
		s.used[k] = true
	}
	s.size = geom.Pt{X: math.Max(s.size.X, best.box.Max.X), Y: math.Max(s.size.Y, best.box.Max.Y)}
	return best.at
}

// places returns the upper left corners to try for a box: the sheets'
// corners, beside what lies already, and for a small box a lattice.
func (s *spread) places(b geom.Rect) []geom.Pt {
	var xs, ys []float64
	for i := 0; i <= count(s.size.X, s.step.X); i++ {
		xs = append(xs, float64(i)*s.step.X+paperInset)
	}
	for i := 0; i <= count(s.size.Y, s.step.Y); i++ {
		ys = append(ys, float64(i)*s.step.Y+paperInset)
	}
	for _, o := range s.boxes {
		xs, ys = append(xs, o.Max.X+paperGap), append(ys, o.Max.Y+paperGap)
	}
	if b.W() < s.step.X && b.H() < s.step.Y {
		for x := paperInset + 0.0; x < s.size.X; x += paperStep {
			xs = append(xs, x)
		}
		for y := paperInset + 0.0; y < s.size.Y; y += paperStep {
			ys = append(ys, y)
		}
	}
	out := make([]geom.Pt, 0, len(xs)*len(ys))
	for _, y := range ys {
		for _, x := range xs {
			out = append(out, geom.Pt{X: x, Y: y})
		}
	}
	return out
}

// free reports whether the ring, its box moved to box, keeps the gap from all
// that lies: one of two is clear of the other's box, or their boxes are.
func (s *spread) free(box geom.Rect, ring []geom.Pt) bool {
	wide := grow(box, paperGap)
	back := geom.Translate(geom.Pt{}.Sub(box.Min))
	for i, o := range s.boxes {
		if o.Overlaps(wide) && reachesInto(s.rings[i], wide) && reachesInto(ring, mapRect(grow(o, paperGap), back)) {
			return false
		}
	}
	return true
}

// reachesInto reports whether the ring and b share any area.
func reachesInto(ring []geom.Pt, b geom.Rect) bool {
	return ringMeets(ring, b) || geom.Contains(ring, b.Min.Lerp(b.Max, 0.5))
}

// cells returns the cells that the ring touches when its box starts at p.
func (s *spread) cells(ring []geom.Pt, p geom.Pt, box geom.Rect, seen map[[2]float64][][2]int) [][2]int {
	col, row := math.Floor(p.X/s.step.X), math.Floor(p.Y/s.step.Y)
	in := geom.Pt{X: p.X - col*s.step.X, Y: p.Y - row*s.step.Y}
	key := [2]float64{in.X, in.Y}
	rel, ok := seen[key]
	if !ok {
		cols, rows := count(in.X+box.W(), s.step.X), count(in.Y+box.H(), s.step.Y)
		for r := range rows {
			for c := range cols {
				o := geom.Pt{X: float64(c)*s.step.X - in.X, Y: float64(r)*s.step.Y - in.Y}
				cell := geom.Rect{Min: o, Max: o.Add(s.step)}
				if reachesInto(ring, cell) {
					rel = append(rel, [2]int{r, c})
				}
			}
		}
		seen[key] = rel
	}
	out := make([][2]int, len(rel))
	for i, k := range rel {
		out[i] = [2]int{k[0] + int(row), k[1] + int(col)}
	}
	return out
}
