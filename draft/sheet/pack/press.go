package pack

import (
	"math"
	"slices"
)

// press is what is known of rings that lie over one another.
type press struct {
	over    [][]int32 // pixels that two of them share
	weights [][]int32 // how much each of those counts, in parts of even
	// heights are, for one ring, row by row, the weights of what lies on the pixels
	// to the left, summed: two of them tell what lies under a run.
	heights []int32
}

const (
	even = 8 // a weight to begin with
	// patience is how many steps may go by without less being shared than before.
	patience = 500
)

func newPress(rings int, t *table) press {
	p := press{heights: make([]int32, t.wide*t.down*t.rows)}
	for range rings {
		p.over, p.weights = append(p.over, make([]int32, rings)), append(p.weights, make([]int32, rings))
	}
	return p
}

// part moves rings until none lies over another; errNoRoom is when it gave up.
func (s *search) part() error {
	for i := range s.at {
		s.weigh(i)
		for j := range s.weights[i] {
			s.weights[i][j] = even
		}
	}
	least, until := int32(math.MaxInt32), 0
	for s.work < s.opt.Work {
		if err := s.step(); err != nil {
			return err
		}
		of, shared := s.overlapping()
		switch {
		case shared == 0:
			return nil
		case shared < least:
			least, until = shared, s.work+patience
		case s.work > until:
			return errNoRoom
		}
		i := of[s.rng.IntN(len(of))]
		turns := s.someTurns(3 + s.rng.IntN(3))
		turns[0] = s.at[i].turn
		turns[1] = (s.at[i].turn + s.rng.IntN(7) - 3 + turnsRound) % turnsRound
		if !s.settle(i, turns, s.costs(i)) {
			s.bear(i)
		}
	}
	return errNoRoom
}

// overlapping returns the rings that lie over others, and how much is shared.
func (s *search) overlapping() (of []int, shared int32) {
	for i, row := range s.over {
		sum := int32(0)
		for _, o := range row {
			sum += o
		}
		if sum > 0 {
			of = append(of, i)
		}
		shared += sum
	}
	return of, shared
}

// weigh finds what a ring shares with the others.
func (s *search) weigh(i int) {
	for j := range s.at {
		if j != i {
			o := s.shared(s.at[i], s.at[j])
			s.over[i][j], s.over[j][i] = o, o
		}
	}
}

// shared is how many pixels two spots share.
func (t *table) shared(a, b spot) int32 {
	if a.m == nil || b.m == nil || a.x >= b.x+b.m.w || b.x >= a.x+a.m.w {
		return 0
	}
	sum := int32(0)
	for y := max(a.y, b.y); y < min(a.y+a.m.h, b.y+b.m.h); y++ {
		fromA, fromB := int32(a.y*t.wide+a.x), int32(b.y*t.wide+b.x)
		for _, r := range a.m.row(y - a.y) {
			for _, q := range b.m.row(y - b.y) {
				sum += max(0, min(fromA+r.to, fromB+q.to)-max(fromA+r.from, fromB+q.from))
			}
		}
	}
	return sum
}

// costs is what a ring lies over, by weight.
func (s *search) costs(i int) int32 {
	sum := int32(0)
	for j, o := range s.over[i] {
		sum += o * s.weights[i][j]
	}
	return sum
}

// bear makes what a ring lies over count for more.
func (s *search) bear(i int) {
	most := slices.Max(s.over[i])
	for j, o := range s.over[i] {
		if o > 0 {
			s.weights[i][j] += 1 + o*(even-1)/most
			s.weights[j][i] = s.weights[i][j]
		}
	}
}

// settle lays a ring where it costs least, and less than limit.
func (s *search) settle(i int, turns []int, limit int32) bool {
	was := s.at[i]
	s.at[i] = spot{}
	in := s.inUse()
	f := fall{table: s.table, heights: s.heights, used: in.four(), room: s.most - in.count(), cost: limit}
	s.raise(i)
	for _, turn := range turns {
		s.work++
		f.look(s.mask(i, turn), turn, s.rng.IntN(s.down*s.across))
		if f.cost == 0 {
			break
		}
	}
	if f.best.m == nil {
		s.at[i] = was
		return false
	}
	s.at[i] = f.best
	s.weigh(i)
	return true
}

// raise makes the heights those for one ring.
func (s *search) raise(i int) {
	clear(s.heights)
	from, to := len(s.heights), 0
	for j, at := range s.at {
		if j == i || at.m == nil {
			continue
		}
		h, w := s.heights[at.y*s.wide+at.x+1:], s.weights[i][j]
		for _, r := range at.m.runs {
			h[r.from] += w
			h[r.to] -= w
		}
		from, to = min(from, at.y*s.wide), max(to, (at.y+at.m.h)*s.wide)
	}
	for ; from < to; from += s.wide {
		row := s.heights[from : from+s.wide]
		h, sum := int32(0), int32(0)
		for x, d := range row {
			h += d
			sum += h
			row[x] = sum
		}
	}
}

// fall is the search for the place of one ring where it costs least.
type fall struct {
	*table
	heights []int32
	used    []uint64 // see used.four
	room    int      // cells more that may be taken
	best    spot
	cost    int32 // of the best place, or what it must be less than
}

// look goes through the places of a mask at a turn, beginning at a cell: by a few
// of its rows, then closely about the best of them.
func (f *fall) look(m *mask, turn, begin int) {
	cells := f.down * f.across
	least, bestX, bestY := f.cost/int32(m.each)+1, -1, 0
	for c := range cells {
		row, col := (begin+c)%cells/f.across, (begin+c)%f.across
		for i := range m.kinds {
			k := &m.kinds[i]
			if !f.may(&k.need, row, col) {
				continue
			}
			for _, o := range k.at {
				x, y := col*f.cols+int(o.x), row*f.rows+int(o.y)
				if cost := f.under(m.few, x, y, least); cost < least {
					least, bestX, bestY = cost, x, y
					if cost == 0 && f.under(m.runs, x, y, 0) == 0 {
						f.best, f.cost = spot{m: m, turn: turn, need: k.need, row: row, col: col, x: x, y: y}, 0
						return
					}
				}
			}
		}
	}
	if bestX >= 0 {
		f.close(m, turn, bestX, bestY)
	}
}

// near is how many pixels about a place are looked at closely.
const near = stride / 2

func (f *fall) close(m *mask, turn, aboutX, aboutY int) {
	for y := max(0, aboutY-near); y <= min(aboutY+near, f.down*f.rows-m.h); y++ {
		bands := m.bands(y%f.rows, f.lattice)
		for x := max(0, aboutX-near); x <= min(aboutX+near, f.across*f.cols-m.w); x++ {
			cost := f.under(m.runs, x, y, f.cost)
			if cost >= f.cost {
				continue
			}
			row, col := y/f.rows, x/f.cols
			if n := m.needAt(x%f.cols, bands, f.lattice); f.may(&n, row, col) {
				f.best, f.cost = spot{m: m, turn: turn, need: n, row: row, col: col, x: x, y: y}, cost
			}
		}
	}
}

// may reports whether the need at a cell is on the table and takes no more cells
// than there is room for.
func (f *fall) may(n *need, row, col int) bool {
	return row+int(n.rows) <= f.down && col+int(n.cols) <= f.across && fresh(f.used, n, row, col) <= f.room
}

// under is the cost of what lies under runs; it is not looked for past most.
func (f *fall) under(of []run, x, y int, most int32) int32 {
	h, sum := f.heights[y*f.wide+x:], int32(0)
	for _, r := range of {
		if sum += h[r.to] - h[r.from]; sum > most {
			break
		}
	}
	return sum
}
