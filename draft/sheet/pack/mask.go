package pack

import (
	"math"
	"math/bits"
	"slices"

	"chalkfold/draft/geom"
)

const (
	pixel = 4.0 // about the side of a pixel, mm
	spare = 1.0 // kept around every piece and from the edge of a sheet, mm
	// stride is the distance, in pixels, between the places tried first.
	stride = 3
)

// lattice is the pixels of the grid: each cell is cols by rows of them.
type lattice struct {
	px, py     float64 // size of a pixel, mm
	cols, rows int
	wide       int
}

func newLattice(sheet geom.Vec) lattice {
	l := lattice{cols: int(math.Round(sheet.X / pixel)), rows: int(math.Round(sheet.Y / pixel))}
	l.px, l.py = sheet.X/float64(l.cols), sheet.Y/float64(l.rows)
	return l
}

// mask is a ring at one turn: the pixels that it or the room around it touches.
type mask struct {
	home  geom.Affine // of the ring, so that its first pixel is at the origin
	w, h  int
	words int      // to a row
	bits  []uint64 // row by row
	runs  []run    // of set pixels, row by row
	first []int    // run of each row, and the number of runs
	few   []run    // those of each so many-th row
	each  int
	kinds []kind
}

// run is pixels beside each other: the numbers of the first and of the one after
// the last, counted row by row from the origin as in the heights.
type run struct{ from, to int32 }

// kind is places within a cell, a stride apart, from which a mask touches the
// same cells.
type kind struct {
	need
	at []place
}

// place is so many pixels from the corner of a cell.
type place struct{ x, y int16 }

// need is the cells that a mask touches at one place: four rows to a word, a bit
// for each column.
type need struct {
	cells      [maxSpan / 4]uint64
	rows, cols uint8 // in use
}

// row returns the cells of a row.
func (n *need) row(r int) uint16 { return uint16(n.cells[r/4] >> (r % 4 * maxSpan)) }

// maxSpan is how many cells a mask, and the table across, may reach over.
const maxSpan = 16

// newMask draws the ring turned by angle.
func newMask(ring []geom.Pt, angle float64, l lattice) *mask {
	turned := geom.RotateAbout(geom.Pt{}, angle)
	pts := geom.MapPts(ring, turned)
	b := geom.BoundsOf(pts)
	move := geom.Translate(geom.Vec{X: spare - b.Min.X, Y: spare - b.Min.Y})
	pts = geom.MapPts(pts, move)
	m := &mask{home: turned.Then(move)}
	m.w, m.h = int((b.W()+2*spare)/l.px)+1, int((b.H()+2*spare)/l.py)+1
	m.words = (m.w + 63) / 64
	m.bits = make([]uint64, m.words*m.h)
	m.fill(pts, l)
	m.border(pts, l)
	m.findRuns(l)
	m.findKinds(l)
	return m
}

// row returns the runs of a row.
func (m *mask) row(y int) []run { return m.runs[m.first[y]:m.first[y+1]] }

func (m *mask) set(x, y int) { m.bits[y*m.words+x/64] |= 1 << (x % 64) }

// border sets the pixels within the room around the ring.
func (m *mask) border(pts []geom.Pt, l lattice) {
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		n := int(p.Dist(q)/spare) + 1
		for k := range n {
			at := p.Lerp(q, float64(k)/float64(n))
			x0, x1 := int((at.X-spare)/l.px), int((at.X+spare)/l.px)
			y0, y1 := int((at.Y-spare)/l.py), int((at.Y+spare)/l.py)
			m.set(x0, y0)
			m.set(x1, y0)
			m.set(x0, y1)
			m.set(x1, y1)
		}
	}
}

// fill sets the pixels whose middles the ring holds.
func (m *mask) fill(pts []geom.Pt, l lattice) {
	cross := make([][]float64, m.h)
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		if p.Y > q.Y {
			p, q = q, p
		}
		for y := max(0, int(math.Ceil(p.Y/l.py-0.5))); y < m.h; y++ {
			at := (float64(y) + 0.5) * l.py
			if at >= q.Y {
				break
			}
			if at >= p.Y {
				cross[y] = append(cross[y], p.X+(at-p.Y)/(q.Y-p.Y)*(q.X-p.X))
			}
		}
	}
	for y, xs := range cross {
		slices.Sort(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			from := int(math.Ceil(xs[i]/l.px - 0.5))
			m.setRow(y, from, int(math.Ceil(xs[i+1]/l.px-0.5)))
		}
	}
}

// setRow sets the pixels of a row from one to before another.
func (m *mask) setRow(y, from, to int) {
	row := m.bits[y*m.words : (y+1)*m.words]
	for x := from; x < to; x = (x/64 + 1) * 64 {
		b := ^uint64(0) << (x % 64)
		if past := to - x/64*64; past < 64 {
			b &= ^uint64(0) >> (64 - past)
		}
		row[x/64] |= b
	}
}

// findKinds finds which cells the mask touches from every place within a cell.
func (m *mask) findKinds(l lattice) {
	known := map[need]int{}
	for oy := 0; oy < l.rows; oy += stride {
		bands := m.bands(oy, l)
		for ox := 0; ox < l.cols; ox += stride {
			n := m.needAt(ox, bands, l)
			k, ok := known[n]
			if !ok {
				k = len(m.kinds)
				known[n] = k
				m.kinds = append(m.kinds, kind{need: n})
			}
			m.kinds[k].at = append(m.kinds[k].at, place{int16(ox), int16(oy)})
		}
	}
}

// fewRows is about how many rows of a mask are looked at first.
const fewRows = 24

// findRuns lists what is set, row by row.
func (m *mask) findRuns(l lattice) {
	m.each = max(1, m.h/fewRows)
	for y := range m.h {
		m.first = append(m.first, len(m.runs))
		row := m.bits[y*m.words : (y+1)*m.words]
		for x := next(row, 0, 0); x < m.w; {
			end := min(next(row, x, ^uint64(0)), m.w)
			r := run{int32(y*l.wide + x), int32(y*l.wide + end)}
			m.runs = append(m.runs, r)
			if y%m.each == m.each/2 {
				m.few = append(m.few, r)
			}
			x = next(row, end, 0)
		}
	}
	m.first = append(m.first, len(m.runs))
}

// next returns the first bit from x on that differs from those of like.
func next(row []uint64, x int, like uint64) int {
	for k := x / 64; k < len(row); k++ {
		b := row[k] ^ like
		if k == x/64 {
			b &= ^uint64(0) << (x % 64)
		}
		if b != 0 {
			return 64*k + bits.TrailingZeros64(b)
		}
	}
	return 64 * len(row)
}

// bands returns what of the mask lies in each row of cells, as one row of
// pixels, when it begins oy pixels into a cell.
func (m *mask) bands(oy int, l lattice) [][]uint64 {
	out := make([][]uint64, (oy+m.h-1)/l.rows+1)
	for i := range out {
		out[i] = make([]uint64, m.words)
	}
	for y := range m.h {
		into := out[(oy+y)/l.rows]
		for k := range m.words {
			into[k] |= m.bits[y*m.words+k]
		}
	}
	return out
}

// needAt says which cells the mask touches when it begins ox pixels into a cell.
func (m *mask) needAt(ox int, bands [][]uint64, l lattice) need {
	n := need{rows: uint8(len(bands)), cols: uint8((ox+m.w-1)/l.cols + 1)}
	for r, b := range bands {
		for c := range int(n.cols) {
			if from := c*l.cols - ox; anySet(b, from, from+l.cols) {
				n.cells[r/4] |= 1 << (r%4*maxSpan + c)
			}
		}
	}
	return n
}

// anySet reports whether a bit from from to before to is set.
func anySet(b []uint64, from, to int) bool {
	from, to = max(from, 0), min(to, 64*len(b))
	if from >= to {
		return false
	}
	i, j := from/64, (to-1)/64
	first, last := ^uint64(0)<<(from%64), ^uint64(0)>>(63-(to-1)%64)
	if i == j {
		return b[i]&first&last != 0
	}
	if b[i]&first != 0 || b[j]&last != 0 {
		return true
	}
	for k := i + 1; k < j; k++ {
		if b[k] != 0 {
			return true
		}
	}
	return false
}
