package sheet

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// stackCell is the raster, mm, that rings are kept apart on.
const stackCell = 2.0

// stackTurns is how many ways round a ring is tried.
const stackTurns = 24

// stacked is where a ring lies: on which sheet, and how.
type stacked struct {
	sheet int
	at    geom.Affine
}

// stack places rings on few sheets of w by h, at any turn, none touching
// another or what is kept of every sheet. It is not ok when one fits on no sheet.
func stack(rings [][]geom.Pt, w, h float64, keep ...geom.Rect) (at []stacked, sheets int, ok bool) {
	for _, by := range []func(geom.Rect, float64) float64{
		func(_ geom.Rect, area float64) float64 { return area },
		func(b geom.Rect, _ float64) float64 { return b.W() },
	} {
		order := make([]int, len(rings))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			worth := func(i int) float64 { return by(geom.BoundsOf(rings[i]), math.Abs(geom.Area(rings[i]))) }
			return cmp.Compare(worth(b), worth(a))
		})
		s := newPile(w, h, keep)
		placed := make([]stacked, len(rings))
		for _, i := range order {
			if placed[i], ok = s.put(rings[i]); !ok {
				return nil, 0, false
			}
		}
		if at == nil || len(s.sheets) < sheets {
			at, sheets = placed, len(s.sheets)
		}
	}
	return at, sheets, true
}

// pile is sheets with what lies on them.
type pile struct {
	w, h   int // of a sheet, in cells
	bare   mask
	sheets []mask
}

func newPile(w, h float64, keep []geom.Rect) pile {
	s := pile{w: int(w / stackCell), h: int(h / stackCell)}
	s.bare = newMask(s.w, s.h)
	for _, b := range keep {
		for y := int(b.Min.Y / stackCell); y <= int(b.Max.Y/stackCell); y++ {
			for x := int(b.Min.X / stackCell); x <= int(b.Max.X/stackCell); x++ {
				s.bare.set(x, y)
			}
		}
	}
	return s
}

func (m mask) clone() mask {
	c := mask{m.w, m.h, make([][]uint64, m.h)}
	for i, row := range m.row {
		c.row[i] = slices.Clone(row)
	}
	return c
}

// mask is cells, row by row, one bit each.
type mask struct {
	w, h int
	row  [][]uint64
}

func newMask(w, h int) mask {
	m := mask{w, h, make([][]uint64, h)}
	for i := range m.row {
		m.row[i] = make([]uint64, w/64+1)
	}
	return m
}

func (m mask) set(x, y int) {
	if x >= 0 && y >= 0 && x < m.w && y < m.h {
		m.row[y][x/64] |= 1 << (x % 64)
	}
}

// shifted is word i of a row moved x cells to the right.
func shifted(row []uint64, x, i int) uint64 {
	i -= x / 64
	var v uint64
	if i >= 0 && i < len(row) {
		v = row[i] << (x % 64)
	}
	if i--; i >= 0 && i < len(row) {
		v |= row[i] >> (64 - x%64)
	}
	return v
}

// clear reports whether o, moved to x, y, meets nothing.
func (m mask) clear(o mask, x, y int) bool {
	for j, row := range o.row {
		under := m.row[y+j]
		for i := range under {
			if under[i]&shifted(row, x, i) != 0 {
				return false
			}
		}
	}
	return true
}

func (m mask) add(o mask, x, y int) {
	for j, row := range o.row {
		under := m.row[y+j]
		for i := range under {
			under[i] |= shifted(row, x, i)
		}
	}
}

// maskOf is the cells that a ring reaches into and those beside them; the ring
// lies from the origin on.
func maskOf(ring []geom.Pt) mask {
	b := geom.BoundsOf(ring)
	m := newMask(int(b.W()/stackCell)+2, int(b.H()/stackCell)+2)
	near := func(p geom.Pt) {
		x, y := int(p.X/stackCell), int(p.Y/stackCell)
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				m.set(x+dx, y+dy)
			}
		}
	}
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		n := int(p.Dist(q)/stackCell*2) + 1
		for k := range n {
			near(p.Lerp(q, float64(k)/float64(n)))
		}
	}
	for y := range m.h {
		mid := (float64(y) + 0.5) * stackCell
		var cross []float64
		for i, p := range ring {
			if q := ring[(i+1)%len(ring)]; (p.Y > mid) != (q.Y > mid) {
				cross = append(cross, p.X+(mid-p.Y)/(q.Y-p.Y)*(q.X-p.X))
			}
		}
		slices.Sort(cross)
		for i := 1; i < len(cross); i += 2 {
			for x := int(cross[i-1] / stackCell); x <= int(cross[i]/stackCell); x++ {
				m.set(x, y)
			}
		}
	}
	return m
}

// put places a ring on the first sheet that has room for it, as high up as it
// goes; on a new one when none has.
func (s *pile) put(ring []geom.Pt) (stacked, bool) {
	ring = geom.Tidy(ring, stackCell/4)
	type turn struct {
		m  mask
		at geom.Affine
	}
	var turns []turn
	for k := range stackTurns {
		at := geom.RotateAbout(geom.Pt{}, 2*math.Pi*float64(k)/stackTurns)
		b := geom.BoundsOf(geom.MapPts(ring, at))
		at = at.Then(geom.Translate(geom.Pt{}.Sub(b.Min)))
		if m := maskOf(geom.MapPts(ring, at)); m.w <= s.w && m.h <= s.h {
			turns = append(turns, turn{m, at})
		}
	}
	if len(turns) == 0 {
		return stacked{}, false
	}
	for i := 0; ; i++ {
		fresh := i == len(s.sheets)
		if fresh {
			s.sheets = append(s.sheets, s.bare.clone())
		}
		sheet := s.sheets[i]
		bestX, bestY, low, best := 0, 0, s.h+1, -1
		for k, t := range turns {
			if x, y, ok := sheet.place(t.m, low); ok {
				bestX, bestY, low, best = x, y, y+t.m.h, k
			}
		}
		if best < 0 && fresh {
			return stacked{}, false
		}
		if best < 0 {
			continue
		}
		sheet.add(turns[best].m, bestX, bestY)
		move := geom.Vec{X: float64(bestX) * stackCell, Y: float64(bestY) * stackCell}
		return stacked{i, turns[best].at.Then(geom.Translate(move))}, true
	}
}

// place is the highest place for o whose foot lies above low.
func (m mask) place(o mask, low int) (x, y int, ok bool) {
	for y := 0; y+o.h <= m.h && y+o.h < low; y++ {
		for x := 0; x+o.w <= m.w; x++ {
			if m.clear(o, x, y) {
				return x, y, true
			}
		}
	}
	return 0, 0, false
}
