package sheet

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet/pack"
	"chalkfold/draft/unit"
)

// rollGap is between pieces on a roll, mm.
const rollGap = 3

// OnPaper draws the pieces, each once, placed so that they touch few sheets, or
// take little of a roll, for Tiles with the same paper and options. Paper has no
// grain: a piece may be turned by any angle.
func OnPaper(pieces []piece.Piece, paper Paper, opt Options, tile TileOptions) (Drawing, error) {
	g, err := newGrid(paper, tile)
	if err != nil {
		return Drawing{}, err
	}
	at, err := g.arrange(pieces, tile)
	if err != nil {
		return Drawing{}, err
	}
	return g.placed(pieces, at, opt), nil
}

// placed draws each piece where it lies on the sheets. The Bounds are whole
// sheets from the origin, so that Tiles keeps the places.
func (g grid) placed(pieces []piece.Piece, at []geom.Affine, opt Options) Drawing {
	d := Drawing{Plan: planOf(pieces, at), Lies: liesOf(pieces, at)}
	var box geom.Rect
	for i, p := range pieces {
		b := geom.BoundsOf(geom.MapPts(p.Cut, at[i]))
		opt.joins = g.joinsOver(b, at[i])
		d.place(Piece(p, opt), at[i])
		box = box.Union(b)
	}
	d.Bounds.Max = geom.Pt{X: float64(count(box.Max.X, g.step.X)) * g.step.X, Y: box.Max.Y + rollGap}
	if !g.roll {
		d.Bounds.Max.Y = float64(count(box.Max.Y, g.step.Y)) * g.step.Y
	}
	return d
}

// planOf names a placing in four signs: two sheets with the same plan are of the
// same placing, and can be joined.
func planOf(pieces []piece.Piece, at []geom.Affine) string {
	const signs = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789" // none that is read as another
	h := uint32(2166136261)                          // FNV-1a
	for i, p := range pieces {
		m := at[i]
		for _, b := range fmt.Append(nil, p.ID, math.Round(m.A*1e4), math.Round(m.B*1e4), math.Round(m.E*10), math.Round(m.F*10)) {
			h = (h ^ uint32(b)) * 16777619
		}
	}
	out := make([]byte, 4)
	for i := range out {
		out[i] = signs[h>>(5*i)%32]
	}
	return string(out)
}

// arrange returns where each piece goes, on sheets as a Lie says it.
func (g grid) arrange(pieces []piece.Piece, opt TileOptions) ([]geom.Affine, error) {
	if g.roll {
		return g.alongRoll(pieces, opt)
	}
	rings := make([][]geom.Pt, len(pieces))
	for i, p := range pieces {
		rings[i] = p.Cut
	}
	at, err := pack.Place(rings, g.step, pack.Options{Work: cmp.Or(opt.Work, pack.QuickWork), Step: opt.Step, Found: opt.Found})
	switch {
	case errors.Is(err, pack.ErrStopped):
		return nil, ErrStopped
	case err != nil:
		return nil, say.Errorf("paper %q: a piece runs over more sheets than can be joined; use larger paper", g.paperName)
	}
	return settled(pieces, at), nil
}

// alongRoll lays the pieces on a roll as on cloth without a grain.
func (g grid) alongRoll(pieces []piece.Piece, opt TileOptions) ([]geom.Affine, error) {
	if len(pieces) == 0 {
		return nil, nil
	}
	items := make([]lay.Item, len(pieces))
	for i, p := range pieces {
		items[i] = lay.Item{Piece: p.ID, Name: p.Name, Copy: 1, Ring: p.Cut, Turns: []lay.Degrees{0, 90, 180, 270}}
	}
	stopped := false
	cloth := lay.Cloth{Width: unit.Length(g.step.X), Margin: rollGap, Gap: rollGap}
	laid, err := lay.Pack(cloth, items, lay.Options{Stop: func() bool {
		stopped = opt.step() != nil
		return stopped
	}})
	switch {
	case stopped:
		return nil, ErrStopped
	case err != nil:
		return nil, fmt.Errorf("paper %q: %w", g.paperName, err)
	}
	at := make([]geom.Affine, len(pieces))
	for _, p := range laid.Placements {
		at[p.Item] = p.At.Then(geom.Translate(geom.Vec{Y: rollGap}))
	}
	return at, nil
}

// joinsOver returns the lines, in the frame of a piece that at places at box,
// along which sheets meet, with the reach of the join marks: where a label
// would be cut in two.
func (g grid) joinsOver(box geom.Rect, at geom.Affine) [][2]geom.Pt {
	back := inverse(at)
	var out [][2]geom.Pt
	add := func(a, b geom.Pt) { out = append(out, [2]geom.Pt{back.Pt(a), back.Pt(b)}) }
	for _, off := range [3]float64{-joinLong, 0, joinLong} {
		for x := g.step.X + off; x < box.Max.X; x += g.step.X {
			add(geom.Pt{X: x, Y: box.Min.Y}, geom.Pt{X: x, Y: box.Max.Y})
		}
		for y := g.step.Y + off; y < box.Max.Y && !g.roll; y += g.step.Y {
			add(geom.Pt{X: box.Min.X, Y: y}, geom.Pt{X: box.Max.X, Y: y})
		}
	}
	return out
}

// inverse returns the map that undoes m, a turn and a move.
func inverse(m geom.Affine) geom.Affine {
	det := m.A*m.D - m.B*m.C
	a, b, c, d := m.D/det, -m.B/det, -m.C/det, m.A/det
	return geom.Affine{A: a, B: b, C: c, D: d, E: -(a*m.E + c*m.F), F: -(b*m.E + d*m.F)}
}

// reachesInto reports whether the ring and b share any area.
func reachesInto(ring []geom.Pt, b geom.Rect) bool {
	return ringMeets(ring, b) || geom.Contains(ring, b.Min.Lerp(b.Max, 0.5))
}
