// Package pack places rings on a grid of sheets of paper so that few sheets are
// touched. Paper has no grain: a ring may be turned by any angle, and one that
// is larger than a sheet runs on over the next.
//
// Rings are drawn as pixels of about 3 mm, each with a little room around it, so
// that whether two run into each other is a matter of bits, and which sheets one
// touches is worked out once for every place within a sheet. The rings go down
// one after the other, each where it takes the fewest sheets more; then, again
// and again, those on the sheet that is used least are taken up with a few
// others and laid anew, and what is not worse is kept. Same rings, sheet, seed
// and work: same places; no clock is read.
package pack

import (
	"cmp"
	"errors"
	"math"
	"math/rand/v2"
	"slices"

	"chalkfold/draft/geom"
)

// QuickWork is a search of a second or two, natively, for a pair of trousers: past
// it, four times as long saves one sheet in a hundred.
const QuickWork = 6400

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
// sheet, the first row and column in use at nought.
func Place(rings [][]geom.Pt, sheet geom.Vec, opt Options) ([]geom.Affine, error) {
	if len(rings) == 0 {
		return nil, nil
	}
	far := 0.0
	for _, r := range rings {
		b := geom.BoundsOf(r)
		far = max(far, math.Hypot(b.W(), b.H()))
	}
	across, down := int(math.Ceil(far/sheet.X))+1, int(math.Ceil(far/sheet.Y))+1
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
	masks map[maskKey]*mask
}

type maskKey struct{ ring, turn int }

func newSearch(rings [][]geom.Pt, t *table, opt Options) *search {
	s := &search{
		table: t, opt: opt, rings: rings, at: make([]spot, len(rings)),
		rng: rand.New(rand.NewPCG(opt.Seed, uint64(len(rings)))), masks: map[maskKey]*mask{},
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
	starts     = 4    // first arrangements, the best of which is bettered
	startTurns = 12   // tried for each ring in those
	looseness  = 0.02 // how much worth an arrangement may lose and still be gone on from
)

// run searches until the work is used up.
func (s *search) run() error {
	var best []spot
	most := math.Inf(-1)
	for range starts {
		s.takeUp(s.order)
		if err := s.layAll(s.order, func(int) []int { return s.someTurns(startTurns) }); err != nil {
			return err
		}
		if w := s.worth(); w > most {
			best, most = slices.Clone(s.at), w
		}
	}
	s.restore(best)
	s.tell()
	for now := most; s.work < s.opt.Work && s.inUse().count() > s.least; {
		was := slices.Clone(s.at)
		out := s.weakest()
		for range s.rng.IntN(3) {
			if i := s.rng.IntN(len(s.rings)); !slices.Contains(out, i) {
				out = append(out, i)
			}
		}
		s.takeUp(out)
		if s.rng.IntN(4) > 0 {
			s.largestFirst(out)
		}
		err := s.layAll(out, s.turnsFrom(was))
		if err != nil && !errors.Is(err, errNoRoom) {
			return err
		}
		w := s.worth()
		if err != nil || w < now-looseness*s.rng.Float64() {
			s.restore(was)
			continue
		}
		if now = w; w > most {
			best, most = slices.Clone(s.at), w
			s.tell()
		}
	}
	s.restore(best)
	return nil
}

// tell tells of what is laid.
func (s *search) tell() {
	if s.opt.Found != nil {
		s.opt.Found(s.inUse().count())
	}
}

// turnsFrom picks turns for rings that lay at spots before: as they lay, leaning
// a little from there, and some others.
func (s *search) turnsFrom(was []spot) func(i int) []int {
	return func(i int) []int {
		out := s.someTurns(4 + s.rng.IntN(5))
		out[0] = was[i].turn
		out[1] = (was[i].turn + s.rng.IntN(5) - 2 + turnsRound) % turnsRound
		return out
	}
}

// layAll lays rings one after the other, each at the best of its turns.
func (s *search) layAll(of []int, turns func(i int) []int) error {
	for _, i := range of {
		if s.opt.Step != nil && !s.opt.Step() {
			return ErrStopped
		}
		if !s.lay(i, turns(i)) {
			return errNoRoom
		}
	}
	return nil
}

func (s *search) takeUp(of []int) {
	for _, i := range of {
		if s.at[i].m != nil {
			s.toggle(s.at[i])
			s.at[i] = spot{}
		}
	}
}

// restore lays everything as it lay.
func (s *search) restore(as []spot) {
	s.takeUp(s.order)
	copy(s.at, as)
	for _, at := range s.at {
		s.toggle(at)
	}
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

// keptMasks bounds the memory for masks: about 30 kB each.
const keptMasks = 300

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

// lay lays a ring where it takes the fewest cells more and, among those places,
// nearest the corner that the others were laid from, or now and then another.
func (s *search) lay(i int, turns []int) bool {
	q := quest{table: s.table, used: s.inUse().four(), fewest: math.MaxInt}
	if s.rng.IntN(3) == 0 {
		q.fromRight, q.fromFoot = s.rng.IntN(2) == 0, s.rng.IntN(2) == 0
	}
	for _, turn := range turns {
		s.work++
		q.look(s.mask(i, turn), turn)
	}
	if q.best.m == nil {
		return false
	}
	s.at[i] = q.best
	s.toggle(q.best)
	return true
}

// worth tells arrangements apart: fewer cells are better, and among equals those
// with some cells full and others nearly free.
func (s *search) worth() float64 {
	cells, sum := 0, 0.0
	s.inUse().each(func(row, col int) {
		f := s.filled(row, col)
		sum += f * f
		cells++
	})
	return sum/100 - float64(cells)
}

// weakest returns the rings on the cell that is filled least, or on another that
// is filled little.
func (s *search) weakest() []int {
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
	return out
}

// places returns the map of each ring, the first row and column in use at nought.
func (s *search) places() []geom.Affine {
	row, col := math.MaxInt, math.MaxInt
	s.inUse().each(func(r, c int) { row, col = min(row, r), min(col, c) })
	out := make([]geom.Affine, len(s.at))
	for i, at := range s.at {
		out[i] = at.m.home.Then(geom.Translate(geom.Vec{
			X: float64(at.x-col*s.cols) * s.px, Y: float64(at.y-row*s.rows) * s.py,
		}))
	}
	return out
}
