package lay_test

import (
	"reflect"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// anyCloth draws cloth of every kind, wide enough for the pieces of anyPieces; a
// remnant or a short length may have no room for all of them.
func anyCloth(t *rapid.T) lay.Cloth {
	c := lay.Cloth{
		Width:  mmOf(rapid.Float64Range(900, 1500).Draw(t, "width")),
		OneWay: rapid.Bool().Draw(t, "one-way"),
		Margin: mmOf(rapid.SampledFrom([]float64{0, 0, 12}).Draw(t, "margin")),
		Gap:    mmOf(rapid.SampledFrom([]float64{0, 0, 3}).Draw(t, "gap")),
		SoldBy: mmOf(rapid.SampledFrom([]float64{0, 100}).Draw(t, "sold by")),
		Tilt:   rapid.SampledFrom([]lay.Degrees{0, 0, 2}).Draw(t, "tilt"),
	}
	if rapid.IntRange(0, 4).Draw(t, "remnant") == 0 {
		w, h := c.Width.MM(), rapid.Float64Range(300, 1500).Draw(t, "height")
		x, y := w*rapid.Float64Range(0.3, 0.9).Draw(t, "cut x"), h*rapid.Float64Range(0.1, 0.9).Draw(t, "cut y")
		c.Outline = []geom.Pt{{}, {X: x}, {X: x, Y: y}, {X: w, Y: y}, {X: w, Y: h}, {Y: h}}
		return c
	}
	if rapid.IntRange(0, 4).Draw(t, "short") == 0 {
		c.Length, c.LeaveOut = mmOf(rapid.Float64Range(300, 1500).Draw(t, "length")), true
	}
	folds := []lay.Fold{lay.Open, lay.Lengthwise, lay.Crosswise}
	if c.OneWay {
		folds = folds[:2]
	}
	c.Fold = rapid.SampledFrom(folds).Draw(t, "fold")
	if c.Fold == lay.Crosswise {
		return c
	}
	for range rapid.IntRange(0, 2).Draw(t, "flaws") {
		x, y := rapid.Float64Range(0, 900).Draw(t, "flaw x"), rapid.Float64Range(0, 600).Draw(t, "flaw y")
		c.Flaws = append(c.Flaws, []geom.Pt{{X: x, Y: y}, {X: x + 30, Y: y}, {X: x + 15, Y: y + 25}})
	}
	return c
}

// anyPieces draws pieces, some in pairs.
func anyPieces(t *rapid.T) []piece.Piece {
	var pieces []piece.Piece
	for i := range rapid.IntRange(1, 6).Draw(t, "pieces") {
		p := box(string(rune('a'+i)), rapid.IntRange(1, 4).Draw(t, "count"), rapid.Bool().Draw(t, "pairs"), 1, 1)
		p.Cut = star(t, p.ID)
		p.AnyGrain = rapid.Bool().Draw(t, "any grain")
		pieces = append(pieces, p)
	}
	return pieces
}

// anyLay lays any pieces on any cloth, now and then around one that is locked,
// and holds the lay against both checkers; and that a search which is stopped
// and run on finds the same.
func anyLay(t *rapid.T) {
	c := anyCloth(t)
	its, err := lay.Items(anyPieces(t), c)
	if err != nil {
		t.Fatal(err)
	}
	seed := rapid.Uint64().Draw(t, "seed")
	if rapid.Bool().Draw(t, "locked") {
		first, err := lay.Pack(c, its, lay.Options{Work: 1, Seed: seed})
		if err != nil {
			t.Fatal(err)
		}
		if n := len(first.Placements); n > 0 {
			lock(its, first, 0)
			lock(its, first, n-1) // on the opened rest, where there is one
		}
	}
	s, err := lay.NewSearch(c, its, seed)
	if err != nil {
		t.Fatal(err)
	}
	extra := rapid.IntRange(0, 400).Draw(t, "work")
	s.Run(s.FixedWork()+extra, nil, nil)
	r := s.Best()
	if err := lay.Verify(c, its, r); err != nil {
		t.Fatal(err)
	}
	again, err := lay.NewSearch(c, its, seed)
	if err != nil {
		t.Fatal(err)
	}
	again.Run(again.FixedWork(), nil, nil)
	again.Run(s.Work()-again.Work(), nil, nil)
	if !reflect.DeepEqual(r, again.Best()) {
		t.Fatalf("%.3f mm, and %.3f mm when it was stopped and run on", r.Length.MM(), again.Best().Length.MM())
	}
	shareNothing(t, its, r)
	if even := s.Even(10); lay.Verify(c, its, even) != nil || c.Bought(even.Length) > c.Bought(r.Length) {
		t.Fatalf("on round figures: %.3f mm, %v", even.Length.MM(), lay.Verify(c, its, even))
	}
	on, err := lay.Resume(c, its, seed+1, r)
	if err != nil {
		t.Fatal(err)
	}
	on.Run(extra, nil, nil)
	if err := lay.Verify(c, its, on.Best()); err != nil || r.Better(on.Best()) {
		t.Fatalf("gone on from %.3f mm: %.3f mm, %v", r.Length.MM(), on.Best().Length.MM(), err)
	}
}

// lock locks what was laid at a place in a lay.
func lock(its []lay.Item, r lay.Result, place int) {
	p := r.Placements[place]
	spot := p.FromRest(r.FoldedTo)
	its[p.Item].Locked = &spot
}

// shareNothing asks the independent library: what pieces share is a hundredth
// of a millimetre wide at most.
func shareNothing(t *rapid.T, its []lay.Item, r lay.Result) {
	for i, p := range r.Placements {
		for _, q := range r.Placements[:i] {
			if p.Opened != q.Opened {
				continue
			}
			a, b := p.Ring(its), q.Ring(its)
			both, err := sf.Intersection(feature(a), feature(b))
			if err == nil && both.Area() > 0.01*geom.BoundsOf(a).H() {
				t.Fatalf("pieces share %.4f mm²", both.Area())
			}
		}
	}
}

func TestAnyLayIsSound(t *testing.T) { rapid.Check(t, anyLay) }

// FuzzLay: no cloth and no pieces lead to a lay that does not hold.
func FuzzLay(f *testing.F) { f.Fuzz(rapid.MakeFuzz(anyLay)) }
