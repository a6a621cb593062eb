// Package pack places rings on a grid of sheets of paper so that few sheets are
// touched. Paper has no grain: a ring may be turned by any angle, and one that
// is larger than a sheet runs on over the next.
//
// Rings are drawn as pixels of about 4 mm, each with a little room around it, and
// which sheets one touches is worked out once for every place within a sheet. The
// rings go down one after the other, each clear of the others where it takes the
// fewest sheets more. Then, again and again, they are pressed into one sheet fewer:
// all of them, or those on a sheet that is used little, are laid anew on no more
// than that, over others where nothing is free, and those that lie over others are
// moved, one at a time, to where they do so least. Where no place is better, what
// they lie over there counts for more from then on, until something gives way.
// Same rings, sheet, seed and work: same places; no clock is read.
package pack

import (
	"cmp"
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"chalkfold/draft/geom"
)

// QuickWork is a search of about a second, natively, for a pair of trousers; see
// testdata/sheets.md for what it comes to.
const QuickWork = 11000

// Options steer Place.
type Options struct {
	Seed uint64
	// Work is the budget in steps, one being one ring tried at one turn
	// everywhere. The first whole arrangement is always made.
	Work int
	// Step, when set, is called before each ring is laid; false gives up with
	// ErrStopped.
	Step func() bool
	// Found, when set, is told how many sheets each better arrangement takes.
	Found func(sheets int)
}

// Why nothing was placed.
var (
	ErrStopped = errors.New("stopped")
	ErrTooLong = errors.New("a piece runs over too many sheets")
)

// Place returns where each ring goes: whole sheets begin at the multiples of
// sheet, the first row and column at nought.
func Place(rings [][]geom.Pt, sheet geom.Vec, opt Options) ([]geom.Affine, error) {
	if len(rings) == 0 {
		return nil, nil
	}
	far, whole := 0.0, 0.0
	for _, r := range rings {
		b := geom.BoundsOf(r)
		far = max(far, math.Hypot(b.W(), b.H()))
		whole += math.Abs(geom.Area(r))
	}
	across, down := int(math.Ceil(far/sheet.X)), int(math.Ceil(far/sheet.Y))
	across = max(across, int(math.Ceil(roomy*whole/(sheet.X*sheet.Y*float64(down)))))
	if max(across, down) >= maxSpan {
		return nil, ErrTooLong
	}
	l := newLattice(sheet)
	for {
		s := newSearch(rings, newTable(l, across, down), opt)
		switch err := s.run(); {
		case errors.Is(err, errNoRoom):
			down *= 2
		case err != nil:
			return nil, err
		default:
			return s.places(), nil
		}
	}
}

// roomy is how many times the area of the rings the table is at first.
const roomy = 1.5

// errNoRoom is a table too small.
var errNoRoom = errors.New("no room")

// search is an arrangement that is being bettered.
type search struct {
	*table
	opt   Options
	rng   *rand.Rand
	rings [][]geom.Pt
	order []int  // of the rings, the largest first
	at    []spot // nothing of a mask is laid yet
	work  int
	least int // no arrangement takes fewer cells
	most  int // that may be taken now
	press
	masks map[maskKey]*mask
}

type maskKey struct{ ring, turn int }

func newSearch(rings [][]geom.Pt, t *table, opt Options) *search {
	s := &search{
		table: t, opt: opt, rings: rings, at: make([]spot, len(rings)),
		rng: rand.New(rand.NewPCG(opt.Seed, uint64(len(rings)))), press: newPress(len(rings), t), masks: map[maskKey]*mask{},
	}
	whole := 0.0
	for i, r := range rings {
		s.order = append(s.order, i)
		whole += math.Abs(geom.Area(r))
	}
	s.largestFirst(s.order)
	s.least = int(math.Ceil(whole / (t.px * t.py * float64(t.cols*t.rows))))
	return s
}

func (s *search) largestFirst(of []int) {
	area := func(i int) float64 { return math.Abs(geom.Area(s.rings[i])) }
	slices.SortStableFunc(of, func(a, b int) int { return cmp.Compare(area(b), area(a)) })
}

const (
	starts   = 4  // first arrangements, the best of which is bettered
	layTurns = 12 // tried for a ring that is laid anew
)

// run searches until the work is used up.
func (s *search) run() error {
	var best []spot
	fewest := math.MaxInt
	s.most = len(s.rings) * maxSpan * maxSpan // as many as there are
	for range starts {
		clear(s.at)
		if err := s.layAll(s.order, s.at, s.lay); err != nil {
			return err
		}
		if n := s.inUse().count(); n < fewest {
			best, fewest = slices.Clone(s.at), n
		}
	}
	s.tell(fewest)
	for s.work < s.opt.Work && fewest > s.least {
		s.most = fewest - 1
		copy(s.at, best)
		out := s.order
		if s.rng.IntN(4) == 0 {
			out = s.weakest()
		}
		for _, i := range out {
			s.at[i] = spot{}
		}
		err := s.layAll(out, best, s.layOrSettle)
		if err == nil {
			err = s.part()
		}
		switch {
		case err == nil:
			best, fewest = slices.Clone(s.at), s.inUse().count()
			s.tell(fewest)
		case !errors.Is(err, errNoRoom):
			return err
		}
	}
	copy(s.at, best)
	return nil
}

// tell tells how many sheets the best arrangement takes.
func (s *search) tell(sheets int) {
	if s.opt.Found != nil {
		s.opt.Found(sheets)
	}
}

func (s *search) step() error {
	if s.opt.Step != nil && !s.opt.Step() {
		return ErrStopped
	}
	return nil
}

// layAll lays rings one after the other, among other turns at those that they had.
func (s *search) layAll(of []int, was []spot, lay func(i int, turns []int) bool) error {
	clear(s.bits)
	for _, at := range s.at {
		s.put(at)
	}
	for _, i := range of {
		if err := s.step(); err != nil {
			return err
		}
		turns := s.someTurns(layTurns)
		if was[i].m != nil {
			turns[0] = was[i].turn
		}
		if !lay(i, turns) {
			return errNoRoom
		}
		s.put(s.at[i])
	}
	return nil
}

// turnsRound is how many turns there are, a degree apart.
const turnsRound = 360

// someTurns picks turns for a ring: square to the sheet, leaning a little, since
// a long piece stays within its column so, or anyhow.
func (s *search) someTurns(n int) []int {
	out := make([]int, n)
	first := s.rng.IntN(4)
	for i := range out {
		lean := 0
		switch s.rng.IntN(4) {
		case 0, 1:
			lean = s.rng.IntN(17) - 8
		case 2:
			lean = s.rng.IntN(90) - 45
		}
		out[i] = ((first+i)%4*90 + lean + turnsRound) % turnsRound
	}
	return out
}

// keptMasks bounds the memory for masks: 20 kB for a large one, 5 for a small.
const keptMasks = 1000

func (s *search) mask(i, turn int) *mask {
	k := maskKey{i, turn}
	m := s.masks[k]
	if m == nil {
		if len(s.masks) >= keptMasks {
			clear(s.masks)
		}
		m = newMask(s.rings[i], float64(turn)*2*math.Pi/turnsRound, s.lattice)
		s.masks[k] = m
	}
	return m
}

// inUse is the cells that what is laid touches.
func (s *search) inUse() used {
	u := make(used, s.down)
	for _, at := range s.at {
		if at.m != nil {
			u.add(at)
		}
	}
	return u
}

// lay lays a ring clear of the others where it takes the fewest cells more and,
// among those places, nearest a corner, mostly the first.
func (s *search) lay(i int, turns []int) bool {
	in := s.inUse()
	q := quest{table: s.table, used: in.four(), fewest: s.most - in.count(), rank: math.MaxInt}
	if s.rng.IntN(3) == 0 {
		q.fromRight, q.fromFoot = s.rng.IntN(2) == 0, s.rng.IntN(2) == 0
	}
	for _, turn := range turns {
		s.work++
		q.look(s.mask(i, turn), turn)
	}
	s.at[i] = q.best
	return q.best.m != nil
}

// layOrSettle lays a ring clear of the others or, where nothing is free, over them.
func (s *search) layOrSettle(i int, turns []int) bool {
	return s.lay(i, turns) || s.settle(i, turns, math.MaxInt32)
}

// weakest returns the rings on the cell that is filled least, or on another that
// is filled little, the largest first.
func (s *search) weakest() []int {
	clear(s.bits)
	for _, at := range s.at {
		s.put(at)
	}
	row, col, least := 0, 0, math.Inf(1)
	s.inUse().each(func(r, c int) {
		if f := s.filled(r, c) * (0.3 + s.rng.Float64()); f < least {
			row, col, least = r, c, f
		}
	})
	var out []int
	for i, at := range s.at {
		if at.touches(row, col) {
			out = append(out, i)
		}
	}
	s.largestFirst(out)
	return out
}

// places returns the map of each ring, rows and columns that are not in use closed
// up.
func (s *search) places() []geom.Affine {
	rows, cols := make([]bool, s.down), make([]bool, s.across)
	s.inUse().each(func(r, c int) { rows[r], cols[c] = true, true })
	out := make([]geom.Affine, len(s.at))
	for i, at := range s.at {
		out[i] = at.m.home.Then(geom.Translate(geom.Vec{
			X: float64(at.x-free(cols[:at.col])*s.cols) * s.px, Y: float64(at.y-free(rows[:at.row])*s.rows) * s.py,
		}))
	}
	return out
}

// free counts what is not in use.
func free(in []bool) int {
	n := 0
	for _, used := range in {
		if !used {
			n++
		}
	}
	return n
}
