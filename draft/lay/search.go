package lay

import (
	"fmt"
	"math"
	"math/rand/v2"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// Search is a search under way; it can be stopped and run on. Once the first
// whole trial is made, Run(a) and then Run(b) find what Run(a+b) finds. It is
// not safe for use from two goroutines at once.
type Search struct {
	cloth   Cloth
	items   []Item
	shapes  []shape // by item
	whole   bool    // what is not locked is not cut into parts
	facings []facing
	nofits  []*nofit       // by facing, and facing round it
	deep    []depths       // by facing, and facing that lies there
	ways    [][]way        // by item
	groups  map[string]int // of items that must match, by name; from 1
	flaws   [2][]int       // obstacles of the folded part (or open cloth), of the opened rest
	locked  [2][]spotOf    // on the folded part (or open cloth), on the opened rest
	// lockedTo is how far down those parts they reach.
	lockedTo [2]float64
	tall     float64 // y beyond which no lay goes
	clip     clipper
	spare    []seg

	rng     *rand.Rand
	plans   []plan // the fixed ones
	trials  int    // begun so far
	now     *trial
	kept    *trial // of the best lay so far by trials
	keptAs  Result // its lay
	keptLen float64
	squeeze *squeeze // once there is something to squeeze
	laidAs  *trial   // the best lay
	leftOf  *trial   // the lay of which Best says what is left over
	pressed int      // how many of what it leaves out were pressed in, in vain
	triedTo int      // trials that are made before anything is squeezed
	work    int
	best    Result
	done    bool // a whole trial has been made
}

// spotOf is a locked item as it lies on its part of the table.
type spotOf struct {
	item int
	laid laid
}

// NewSearch prepares a search. Errors as for Pack.
func NewSearch(c Cloth, items []Item, seed uint64) (*Search, error) {
	s := &Search{cloth: c, items: items, rng: rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15)), keptLen: math.Inf(1)}
	if err := s.prepare(); err != nil {
		return nil, err
	}
	s.ways = s.allWays()
	s.plans = s.fixedPlans()
	s.triedTo = len(s.plans)
	return s, nil
}

// Check says what will never lie on the cloth, in a fraction of the time that
// NewSearch takes. Errors as for Pack, but those of cut lines that cross or touch
// themselves.
func Check(c Cloth, items []Item) error {
	return (&Search{cloth: c, items: items, whole: true}).prepare()
}

func (s *Search) prepare() error {
	if err := s.cloth.Check(); err != nil {
		return err
	}
	s.shapes = make([]shape, len(s.items))
	if err := s.addItems(); err != nil {
		return err
	}
	if err := s.addFlaws(); err != nil {
		return err
	}
	if err := s.lock(); err != nil {
		return err
	}
	s.nofits = make([]*nofit, len(s.facings)*len(s.facings))
	s.deep = make([]depths, len(s.nofits))
	return s.checkLocks()
}

// addItems works out the shapes, once for all copies of a piece, and refuses
// what is too wide.
func (s *Search) addItems() error {
	for i, it := range s.items {
		if s.cloth.Fold == Open && (it.Double || it.OnFold) || s.cloth.Fold == Crosswise && it.OnFold {
			return say.Errorf("%s: cut through a fold, but the cloth lies %s; take the items from Items for this cloth", it.Piece, say.Name(s.cloth.Fold.String()))
		}
		if j := s.sameShape(i); j >= 0 {
			s.shapes[i] = s.shapes[j]
		} else {
			sh, err := s.addShape(it)
			if err != nil {
				return err
			}
			s.shapes[i] = sh
		}
		b := geom.BoundsOf(it.Ring)
		s.tall += b.W() + b.H() + s.cloth.Gap.MM() + s.cloth.RepeatAlong.MM()
		if err := s.checkWidth(i); err != nil {
			return err
		}
	}
	return nil
}

// sameShape returns an earlier item with the same ring and liberties, or -1.
func (s *Search) sameShape(i int) int {
	a := s.items[i]
	for j, b := range s.items[:i] {
		if len(a.Ring) == 0 || len(a.Ring) != len(b.Ring) || &a.Ring[0] != &b.Ring[0] ||
			a.EitherFace != b.EitherFace || !a.EitherFace && a.Turned != b.Turned ||
			a.OnFold != b.OnFold || a.Match != b.Match || len(a.Turns) != len(b.Turns) {
			continue
		}
		same := true
		for k := range a.Turns {
			same = same && a.Turns[k] == b.Turns[k]
		}
		if same {
			return j
		}
	}
	return -1
}

// way is one way round in which an item may lie on a part of the table.
type way struct{ part, facing int }

// allWays returns the ways round for each item, those on the opened rest last.
func (s *Search) allWays() [][]way {
	all := make([][]way, len(s.items))
	for i, it := range s.items {
		for part := range 2 {
			if part == 1 && (s.cloth.Fold == Open || it.Layers() == 2) {
				break
			}
			for _, f := range s.shapes[i].facings {
				all[i] = append(all[i], way{part, f})
			}
		}
	}
	return all
}

// checkWidth refuses item i when it does not fit across in any turn. On a
// remnant there is no width to name: the item is left out of the lay instead.
func (s *Search) checkWidth(i int) error {
	if len(s.cloth.Outline) > 0 {
		return nil
	}
	it := s.items[i]
	opened := s.cloth.Fold != Open && it.Layers() == 1
	lo, hi := s.cloth.across(opened)
	if s.shapes[i].across <= hi-lo+touchTol {
		return nil
	}
	e := &TooWideError{Piece: it.Piece, Name: it.Name, Across: mm(s.shapes[i].across), Room: mm(hi - lo), Fold: s.cloth.Fold}
	if opened {
		e.Fold = Open
	}
	if s.cloth.Fold == Lengthwise && !opened {
		need := s.shapes[i].across
		if it.OnFold {
			need *= 2
		}
		a, b := s.cloth.across(true)
		e.OpenFits = need <= b-a+touchTol
	}
	return e
}

// addFlaws makes obstacles of the flaws and of the cloth missing round a
// remnant.
func (s *Search) addFlaws() error {
	if len(s.cloth.Outline) > 0 {
		k, err := s.obstacle(frame(s.cloth.Outline), s.cloth.title())
		if err != nil {
			return err
		}
		s.flaws[0] = append(s.flaws[0], k)
	}
	for i, f := range s.cloth.Flaws {
		name := fmt.Sprintf("%s: flaw %d", s.cloth.title(), i+1)
		views := foldedViews(s.cloth, f)
		for _, v := range views {
			k, err := s.obstacle(v, name)
			if err != nil {
				return err
			}
			s.flaws[0] = append(s.flaws[0], k)
		}
		k, err := s.obstacle(f, name)
		if err != nil {
			return err
		}
		s.flaws[1] = append(s.flaws[1], k)
		s.tall += geom.BoundsOf(f).Max.Y
	}
	return nil
}

// foldedViews returns a ring of the unfolded cloth as it lies on the table:
// seen through both layers under a lengthwise fold.
func foldedViews(c Cloth, ring []geom.Pt) [][]geom.Pt {
	if c.Fold != Lengthwise {
		return [][]geom.Pt{ring}
	}
	mid := c.Folded().MM()
	right := geom.MapPts(ring, geom.Translate(geom.Vec{X: -mid}))
	return [][]geom.Pt{right, geom.MapPts(right, geom.MirrorX(0))}
}

// nofit returns the places of facing b round facing a, worked out once.
func (s *Search) nofit(a, b int) *nofit {
	f := &s.nofits[a*len(s.facings)+b]
	if *f == nil {
		*f = newNofit(s.facings[a].parts, s.facings[b].parts, s.gap(a))
	}
	return *f
}

// gap returns the distance to keep from a facing.
func (s *Search) gap(f int) float64 {
	if s.facings[f].bare {
		return 0
	}
	return s.cloth.Gap.MM()
}

// FixedWork returns the steps that one trial of each fixed plan takes at most.
func (s *Search) FixedWork() int {
	return len(s.plans) * (len(s.items) - len(s.locked[0]) - len(s.locked[1]))
}

// Work returns the steps spent so far.
func (s *Search) Work() int { return s.work }

// Best returns the best lay so far; before the first whole trial, an empty one.
func (s *Search) Best() Result {
	if s.leftOf != s.laidAs {
		s.best.Left, s.leftOf = offcuts(s, s.laidAs), s.laidAs
	}
	return s.best
}

// Run spends work more steps, and the rest of the first whole trial if that is
// more. See Options for stop and best; both may be nil.
func (s *Search) Run(work int, stop func() bool, best func(Result)) {
	until := s.work + work
	for !s.done || s.work < until {
		if s.done && stop != nil && stop() {
			return
		}
		if s.now == nil && s.squeezes() {
			s.work++
			if s.squeezeOn() && best != nil {
				best(s.Best())
			}
			continue
		}
		if s.now == nil {
			s.now = s.begin()
		}
		if len(s.now.todo) > 0 {
			s.work++
		} else if s.done && len(s.plans[0].order) == 0 {
			return
		}
		if !s.now.step() {
			continue
		}
		t := s.now
		s.now = nil
		if s.take(t) && best != nil {
			best(s.Best())
		}
	}
}
