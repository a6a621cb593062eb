package lay_test

import (
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

func cloths() map[string]lay.Cloth {
	flaw := []geom.Pt{{X: 900, Y: 300}, {X: 960, Y: 300}, {X: 960, Y: 360}, {X: 900, Y: 360}}
	return map[string]lay.Cloth{
		"open":              {Width: 1500},
		"folded":            {Width: 1500, Fold: lay.Lengthwise, Margin: 12},
		"folded, narrow":    {Width: 920, Fold: lay.Lengthwise},
		"folded across":     {Width: 1400, Fold: lay.Crosswise},
		"one way, with gap": {Width: 1500, OneWay: true, Gap: 5},
		"with a flaw":       {Width: 1500, Flaws: [][]geom.Pt{flaw}},
		"short":             {Width: 1500, Length: 900, Fold: lay.Lengthwise},
	}
}

// TestByHand: wherever a piece is dropped, it comes to lie where the whole is a
// sound lay.
func TestByHand(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	all := cloths()
	for _, name := range slices.Sorted(maps.Keys(all)) {
		c := all[name]
		its, r := mustPack(t, trousers(), c)
		for range 8 {
			table, err := lay.NewTable(c, its, r)
			if err != nil {
				t.Fatal(err)
			}
			l, ok := table.Lift(rng.IntN(len(its)))
			if !ok {
				t.Fatalf("%s: an item is not laid", name)
			}
			if !l.Free(l.Was) {
				t.Fatalf("%s: %s does not lie free where it was laid", name, its[l.Item].Name)
			}
			want := l.Turned(l.Was, rng.IntN(3), rng.IntN(2) == 0)
			want.At.E += (rng.Float64() - 0.5) * 800
			want.At.F += (rng.Float64() - 0.5) * 800
			to, ok := l.Nearest(want)
			if wide := geom.BoundsOf(geom.MapPts(its[l.Item].Ring, want.At)).W(); !ok && wide > c.Folded().MM() {
				continue // that way round it goes nowhere
			}
			if !ok {
				t.Fatalf("%s: no place for %s", name, its[l.Item].Name)
			}
			if l.Free(want) && to != want {
				t.Errorf("%s: %s was moved from a free place", name, its[l.Item].Name)
			}
			if !l.Free(to) {
				t.Errorf("%s: the nearest place of %s is not free", name, its[l.Item].Name)
			}
			r = l.Down(to)
			if err := lay.Verify(c, its, r); err != nil {
				t.Fatalf("%s: %s laid by hand: %v", name, its[l.Item].Name, err)
			}
		}
	}
}

func TestNearest(t *testing.T) {
	c := lay.Cloth{Width: 1000}
	its := items(t, []piece.Piece{box("a", 1, false, 400, 300), box("b", 1, false, 500, 200)}, c)
	at := func(x, y float64) lay.Spot { return lay.Spot{At: geom.Translate(geom.Vec{X: x, Y: y})} }
	r := lay.Result{Placements: []lay.Placement{{0, at(0, 0)}, {1, at(500, 0)}}, Length: 300, Fits: true}
	table, err := lay.NewTable(c, its, r)
	if err != nil {
		t.Fatal(err)
	}
	l, _ := table.Lift(1)
	for _, tt := range []struct {
		name       string
		want, free lay.Spot
	}{
		{"free", at(450, 50), at(450, 50)},
		{"a little on the other", at(390, 50), at(400, 50)},
		{"off the side", at(600, 50), at(500, 50)},
		{"off the end", at(450, -20), at(450, 0)},
		{"below the other", at(100, 280), at(100, 300)},
	} {
		got, ok := l.Nearest(tt.want)
		if d := got.At.Pt(geom.Pt{}).Dist(tt.free.At.Pt(geom.Pt{})); !ok || d > 1e-3 {
			t.Errorf("%s: %v, want %v", tt.name, got.At, tt.free.At)
		}
		if free := l.Free(tt.want); free != (tt.want == tt.free) {
			t.Errorf("%s: free is %t", tt.name, free)
		}
	}
	if down := l.Down(at(100, 300)); down.Length != 500 {
		t.Errorf("laid below, it takes %.0f mm, want 500", down.Length.MM())
	}
	if _, ok := table.Lift(2); ok {
		t.Error("an item that is not there is taken up")
	}
}

func TestHold(t *testing.T) {
	at := func(x, y float64) *lay.Spot { return &lay.Spot{At: geom.Translate(geom.Vec{X: x, Y: y})} }
	c := lay.Cloth{Width: 1000, Length: 200}
	for _, tt := range []struct {
		name  string
		spots [3]*lay.Spot
		want  []lay.LetGo
	}{
		{"none", [3]*lay.Spot{}, nil},
		{"all, past the end of the cloth at hand", [3]*lay.Spot{at(0, 0), at(400, 0), at(0, 300)}, nil},
		{"one on another", [3]*lay.Spot{at(0, 0), at(399, 0), at(0, 300)}, []lay.LetGo{{1, 0}}},
		{"off the cloth", [3]*lay.Spot{at(800, 0), at(0, 0), nil}, []lay.LetGo{{0, -1}}},
		{"before the cut edge", [3]*lay.Spot{at(0, -5), nil, nil}, []lay.LetGo{{0, -1}}},
		{"a third on what was let go", [3]*lay.Spot{at(0, 0), at(100, 0), at(450, 0)}, []lay.LetGo{{1, 0}}},
	} {
		its := items(t, []piece.Piece{box("a", 3, false, 400, 300)}, c)
		for i, s := range tt.spots {
			its[i].Locked = s
		}
		gone := lay.Hold(c, its)
		if len(gone) != len(tt.want) || len(gone) > 0 && gone[0] != tt.want[0] {
			t.Errorf("%s: let go %v, want %v", tt.name, gone, tt.want)
		}
		if r, err := lay.Pack(c, its, lay.Options{Work: 20}); err != nil {
			t.Errorf("%s: what was held is refused: %v", tt.name, err)
		} else if err := lay.Verify(c, its, r); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
}
