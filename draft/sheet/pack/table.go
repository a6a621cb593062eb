package pack

import "math/bits"

// table is a part of the grid on which masks lie.
type table struct {
	lattice
	across, down int // cells
	words        int // to a row of pixels
	bits         []uint64
}

func newTable(l lattice, across, down int) *table {
	l.wide = across*l.cols + 2
	t := &table{lattice: l, across: across, down: down, words: (across*l.cols+63)/64 + 1}
	t.bits = make([]uint64, t.words*down*l.rows)
	return t
}

// spot is where a mask lies.
type spot struct {
	m        *mask
	turn     int // of its ring
	need     need
	row, col int // of its first cell
	x, y     int // of its first pixel
}

// touches reports whether the mask lies on a cell.
func (s spot) touches(row, col int) bool {
	r, c := row-s.row, col-s.col
	return s.m != nil && r >= 0 && r < int(s.need.rows) && c >= 0 && c < int(s.need.cols) && s.need.row(r)&(1<<c) != 0
}

// put draws what lies at a spot, if anything does.
func (t *table) put(s spot) {
	if s.m == nil {
		return
	}
	off, k := uint(s.x%64), s.x/64
	for y := range s.m.h {
		row := t.bits[(s.y+y)*t.words+k:]
		for i, b := range s.m.bits[y*s.m.words : (y+1)*s.m.words] {
			row[i] |= b << off
			if off > 0 {
				row[i+1] |= b >> (64 - off)
			}
		}
	}
}

// free reports whether nothing lies where the mask would: a look at every
// sixteenth row finds most of what does.
func (t *table) free(m *mask, x, y int) bool {
	return t.freeRows(m, x, y, 16) && t.freeRows(m, x, y, 1)
}

func (t *table) freeRows(m *mask, x, y, each int) bool {
	off, k := uint(x%64), x/64
	for i := 0; i < m.h; i += each {
		row := t.bits[(y+i)*t.words+k:]
		for j, b := range m.bits[i*m.words : (i+1)*m.words] {
			if row[j]&(b<<off) != 0 || off > 0 && row[j+1]&(b>>(64-off)) != 0 {
				return false
			}
		}
	}
	return true
}

// filled returns the share of a cell that is covered.
func (t *table) filled(row, col int) float64 {
	n := 0
	from, to := col*t.cols, (col+1)*t.cols-1
	for y := row * t.rows; y < (row+1)*t.rows; y++ {
		line := t.bits[y*t.words : (y+1)*t.words]
		for k := from / 64; k <= to/64; k++ {
			b := line[k]
			if k == from/64 {
				b &= ^uint64(0) << (from % 64)
			}
			if k == to/64 {
				b &= ^uint64(0) >> (63 - to%64)
			}
			n += bits.OnesCount64(b)
		}
	}
	return float64(n) / float64(t.cols*t.rows)
}

// used is the cells in use: a bit for each column, row by row.
type used []uint16

func (u used) add(s spot) {
	for r := range int(s.need.rows) {
		u[s.row+r] |= s.need.row(r) << s.col
	}
}

func (u used) count() int {
	n := 0
	for _, r := range u {
		n += bits.OnesCount16(r)
	}
	return n
}

// each tells the cells in use, row by row.
func (u used) each(tell func(row, col int)) {
	for row, b := range u {
		for ; b != 0; b &= b - 1 {
			tell(row, bits.TrailingZeros16(b))
		}
	}
}

// four is the cells in use by the row, each with the three rows under it, as in
// a need.
func (u used) four() []uint64 {
	out := make([]uint64, len(u)+maxSpan)
	for row, b := range u {
		for k := range min(4, row+1) {
			out[row-k] |= uint64(b) << (maxSpan * k)
		}
	}
	return out
}

// quest is the search for the best place of one ring.
type quest struct {
	*table
	used                []uint64 // see used.four
	fromRight, fromFoot bool     // which corner is looked at first
	best                spot
	fewest              int // fresh cells at the best place
	rank                int // of the best place, counted from the corner
}

// fresh returns how many cells more than those in use the need at a cell takes.
func fresh(used []uint64, n *need, row, col int) int {
	sum := bits.OnesCount64(n.cells[0] << col &^ used[row])
	for k := 1; 4*k < int(n.rows); k++ {
		sum += bits.OnesCount64(n.cells[k] << col &^ used[row+4*k])
	}
	return sum
}

// look goes through the places of a mask at a turn. Of those that take as few
// cells the one nearest the corner is kept.
func (q *quest) look(m *mask, turn int) {
	for ky := range q.down {
		row := from(q.fromFoot, ky, q.down)
		for kx := range q.across {
			col := from(q.fromRight, kx, q.across)
			for i := range m.kinds {
				k := &m.kinds[i]
				if row+int(k.rows) > q.down || col+int(k.cols) > q.across {
					continue
				}
				f := fresh(q.used, &k.need, row, col)
				if f > q.fewest {
					continue
				}
				for _, o := range k.at {
					x, y := col*q.cols+int(o.x), row*q.rows+int(o.y)
					rank := from(q.fromFoot, y, q.down*q.rows)*q.across*q.cols + from(q.fromRight, x, q.across*q.cols)
					if (f < q.fewest || rank < q.rank) && q.free(m, x, y) {
						q.best = spot{m: m, turn: turn, need: k.need, row: row, col: col, x: x, y: y}
						q.fewest, q.rank = f, rank
					}
				}
			}
		}
	}
}

// from returns k of n counted from the start, or back from the end.
func from(end bool, k, n int) int {
	if end {
		return n - 1 - k
	}
	return k
}
