package lay

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// Degrees is an angle in degrees, clockwise as seen on the cloth.
type Degrees float64

// Item is one thing to lay: one copy of a piece, or a pair cut at once through
// both layers.
type Item struct {
	Piece string // the piece's ID
	Name  string // what the maker calls it
	Copy  int    // from 1, of the items of this piece
	// Ring is the cut line in the piece's own coordinates: the half up to the
	// fold when OnFold, else the whole piece.
	Ring []geom.Pt
	// Grain is its grain line, from where it begins.
	Grain [2]geom.Pt
	// Turned: this copy is cut turned over, so At mirrors.
	Turned bool
	// EitherFace: it may lie either face up: it is cut double, or it is the
	// same turned over. Turned then says nothing.
	EitherFace bool
	// Turns are the allowed turns from the piece's own coordinates.
	Turns []Degrees
	// Double: cut once through both layers of the folded part.
	Double bool
	// OnFold: FoldLine lies on a lengthwise fold.
	OnFold   bool
	FoldLine [2]geom.Pt
	// Match is where stripes and checks must lie as they lie on other items.
	Match piece.Match
	// Locked keeps the item where it is; the others are laid around it. On the
	// opened rest it is measured from where that begins: see OnTable.
	Locked *Spot
}

// Layers returns how many layers of the cloth the item is cut from: both when
// double or on the fold.
func (it Item) Layers() int {
	if it.Double || it.OnFold {
		return 2
	}
	return 1
}

// Area returns the cloth in the item, all layers, in mm².
func (it Item) Area() float64 { return math.Abs(geom.Area(it.Ring)) * float64(it.Layers()) }

// Items returns what is to be laid on c: the pieces of its kind, as single
// copies on open cloth, as pairs and singles on folded cloth. The package
// comment says which is which. It refuses a piece without area or count.
func Items(pieces []piece.Piece, c Cloth) ([]Item, error) { return ItemsFor(pieces, c, WantOf(pieces)) }

// ItemsFor is Items for as many copies as are wanted.
func ItemsFor(pieces []piece.Piece, c Cloth, want Want) ([]Item, error) {
	var items []Item
	for _, p := range pieces {
		if p.Cloth != c.kind() && (p.Cloth != "" || c.kind() != piece.Main) {
			continue
		}
		if len(p.Cut) < 3 || p.Area() == 0 {
			return nil, say.Errorf("piece %s: its cut line has no area; build the piece before laying it", p.ID)
		}
		if at, bad := geom.SelfCross(p.Cut); bad {
			return nil, say.Errorf("piece %s: its cut line crosses itself at %.0f, %.0f mm; mend the draft before laying it", p.ID, at.X, at.Y)
		}
		if p.Count < 1 {
			return nil, say.Errorf("piece %s: count %d; give how many to cut", p.ID, p.Count)
		}
		items = append(items, copies(c.enlarged(p), c, want[p.ID])...)
	}
	return items, nil
}

// copies returns the items of one piece.
func copies(p piece.Piece, c Cloth, want Copies) []Item {
	base := Item{Piece: p.ID, Name: p.Name, Ring: p.Cut, Turns: turns(p, c), Match: p.Match, Grain: [2]geom.Pt{p.Grain.A, p.Grain.D}}
	if base.Name == "" {
		base.Name = p.ID
	}
	fold, onFold := foldLine(p)
	if onFold {
		base.EitherFace = true
		if c.Fold == Lengthwise {
			base.OnFold, base.FoldLine = true, fold
		} else {
			base.Ring = unfold(p.Cut, fold)
		}
	}
	alike := base.EitherFace || symmetric(base.Ring)
	if alike {
		want = Copies{Plain: want.all() - want.all()/2, Turned: want.all() / 2}
	}
	doubles := 0
	if c.Fold != Open && !base.OnFold {
		doubles = min(want.Plain, want.Turned)
	}
	var items []Item
	for i := range want.all() - doubles {
		it := base
		it.Double = i < doubles
		it.EitherFace = alike || it.Double
		it.Turned = !it.EitherFace && i >= want.Plain
		it.Copy = i + 1
		items = append(items, it)
	}
	return items
}

// grainTurn returns the least turn that lays the grain of p along the cloth.
func grainTurn(p piece.Piece) Degrees {
	base := 0.0
	if v := p.Grain.D.Sub(p.Grain.A); v.Len() > 0 {
		base = 90 - math.Atan2(v.Y, v.X)*180/math.Pi
		base = math.Mod(base, 180)
		switch {
		case base > 90+1e-9:
			base -= 180
		case base <= -90+1e-9:
			base += 180
		}
		if math.Abs(base) < 1e-9 {
			base = 0
		}
	}
	return Degrees(base)
}

// turns returns the turns that p may take: its grain along the cloth, or off it
// by the tilt that is allowed.
func turns(p piece.Piece, c Cloth) []Degrees {
	base := grainTurn(p)
	out := []Degrees{base}
	if !c.OneWay || p.AnyGrain {
		out = append(out, base+180)
	}
	if along, across := c.matches(p.Match); along || across {
		return out
	}
	if p.AnyGrain {
		out = append(out, base+90, base+270)
	}
	if c.Tilt > 0 {
		for _, d := range slices.Clone(out) {
			out = append(out, d-c.Tilt, d+c.Tilt)
		}
	}
	return out
}

// foldLine returns the ends of the edge of p that lies on a fold.
func foldLine(p piece.Piece) ([2]geom.Pt, bool) {
	for _, e := range p.Edges {
		if e.Fold && len(e.Sew) > 0 {
			return [2]geom.Pt{e.Sew.Start(), e.Sew.End()}, true
		}
	}
	return [2]geom.Pt{}, false
}

// onFoldTol is how far, in mm, a corner may stand off the fold and still lie
// on it.
const onFoldTol = 0.01

// unfold returns the whole ring of which half is one half up to the fold.
func unfold(half []geom.Pt, fold [2]geom.Pt) []geom.Pt {
	dir := fold[1].Sub(fold[0]).Unit()
	off := func(p geom.Pt) float64 { return p.Sub(fold[0]).Cross(dir) }
	// Start after the stretch that lies on the fold, so that the half runs
	// from the fold round to the fold.
	n := len(half)
	start := -1
	for i := range half {
		if math.Abs(off(half[i])) <= onFoldTol && math.Abs(off(half[(i+1)%n])) > onFoldTol {
			start = i
			break
		}
	}
	if start < 0 {
		return half
	}
	run := append(slices.Clone(half[start:]), half[:start]...)
	for len(run) > 2 && math.Abs(off(run[len(run)-1])) <= onFoldTol && math.Abs(off(run[len(run)-2])) <= onFoldTol {
		run = run[:len(run)-1]
	}
	whole := slices.Clone(run)
	for _, p := range slices.Backward(run) {
		if d := off(p); math.Abs(d) > onFoldTol {
			whole = append(whole, p.Add(geom.Vec{X: -dir.Y, Y: dir.X}.Scale(2*d)))
		}
	}
	return whole
}

// symmetric reports whether the ring is the same turned over, within
// mirrorTol.
func symmetric(ring []geom.Pt) bool {
	b := geom.BoundsOf(ring)
	m := geom.MirrorX((b.Min.X + b.Max.X) / 2)
	for _, p := range ring {
		if geom.RingDist(ring, m.Pt(p)) > mirrorTol {
			return false
		}
	}
	return true
}

// mirrorTol is how far, in mm, a ring may differ from its mirror image and
// still be the same piece turned over: half a chalk line.
const mirrorTol = 0.5
