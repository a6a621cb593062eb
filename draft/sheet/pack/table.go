package pack

import (
	"math"
	"math/bits"
)

// table is a part of the grid on which masks lie.
type table struct {
	lattice
	across, down int // cells
	words        int // to a row of pixels
	bits         []uint64
}

func newTable(l lattice, across, down int) *table {
	t := &table{lattice: l, across: across, down: down, words: (across*l.cols+63)/64 + 1}
	t.bits = make([]uint64, t.words*down*l.rows)
	return t
}

// spot is where a mask lies.
type spot struct {
	m        *mask
	need     need
	row, col int // of its first cell
	x, y     int // of its first pixel
}

// touches reports whether the mask lies on a cell.
func (s spot) touches(row, col int) bool {
	r, c := row-s.row, col-s.col
	return s.m != nil && r >= 0 && r < int(s.need.n) && c >= 0 && s.need.rows[r]&(1<<c) != 0
}

// toggle puts a mask down, or takes it up.
func (t *table) toggle(s spot) {
	off, k := uint(s.x%64), s.x/64
	for y := range s.m.h {
		row := t.bits[(s.y+y)*t.words+k:]
		for i, b := range s.m.bits[y*s.m.words : (y+1)*s.m.words] {
			row[i] ^= b << off
			if off > 0 {
				row[i+1] ^= b >> (64 - off)
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
	for r := range int(s.need.n) {
		u[s.row+r] |= s.need.rows[r] << s.col
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

// fresh returns how many cells more the need at a cell takes, not counting on
// past most.
func (u used) fresh(n *need, row, col, most int) int {
	sum := 0
	for r := range int(n.n) {
		sum += bits.OnesCount16(n.rows[r] << col &^ u[row+r])
		if sum > most {
			break
		}
	}
	return sum
}

// quest is the search for the best place of one ring.
type quest struct {
	*table
	used                used
	fromRight, fromFoot bool // which corner is looked at first
	best                spot
	fewest              int // fresh cells at the best place
	rank                int // of the best place, counted from the corner
}

// look goes through the places of a mask, from the corner on. Past the rank of
// the best place so far, only fewer cells are better.
func (q *quest) look(m *mask) {
	nx, ny := places(q.cols), places(q.rows)
	most, rank := q.fewest, 0
	for ky := range ny * q.down {
		gy := from(q.fromFoot, ky, ny*q.down)
		row, oy := gy/ny, gy%ny
		for kx := range nx * q.across {
			if rank++; rank == q.rank {
				most = q.fewest - 1
			}
			if most < 0 {
				return
			}
			gx := from(q.fromRight, kx, nx*q.across)
			col, ox := gx/nx, gx%nx
			n := &m.needs[oy*nx+ox]
			if row+int(n.n) > q.down || col+int(n.cols) > q.across {
				continue
			}
			fresh := q.used.fresh(n, row, col, most)
			x, y := col*q.cols+ox*stride, row*q.rows+oy*stride
			if fresh <= most && q.free(m, x, y) {
				q.best = spot{m: m, need: *n, row: row, col: col, x: x, y: y}
				q.fewest, q.rank, most = fresh, rank, fresh-1
			}
		}
	}
}

// places is how many places are tried along a cell of so many pixels.
func places(pixels int) int { return int(math.Ceil(float64(pixels) / stride)) }

// from returns k of n counted from the start, or back from the end.
func from(end bool, k, n int) int {
	if end {
		return n - 1 - k
	}
	return k
}
