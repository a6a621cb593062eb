package lay

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
)

// facing is one way round in which a piece may lie, with its origin at the
// origin of the table.
type facing struct {
	at     geom.Affine // no translation
	box    geom.Rect   // of the true cut line
	parts  [][]geom.Pt // of the enclosing ring
	grain  geom.Pt     // where its grain line begins
	onFold bool
	ties   [2]tie   // along, across
	bare   bool     // edge of the cloth or flaw: no gap is kept from it
	of     *geom.Pt // the first corner of its cut line, as the item has it: which it is
}

// linear returns the map that turns by d, after turning over when mirror.
func linear(d Degrees, mirror bool) geom.Affine {
	s, c := math.Sincos(float64(d) * math.Pi / 180)
	if q := float64(d) / 90; q == math.Trunc(q) {
		s, c = math.Round(s), math.Round(c)
	}
	m := geom.Affine{A: c, B: s, C: -s, D: c}
	if mirror {
		m.A, m.B = -m.A, -m.B
	}
	return m
}

// Way is the map of an item that is turned by d, after turning it over when
// mirror, with its origin at the origin of the table.
func Way(d Degrees, mirror bool) geom.Affine { return linear(d, mirror) }

// shape is one ring with all the ways round in which it may lie.
type shape struct {
	facings []int // into Search.facings
	across  float64
}

// addShape adds the facings of item it.
func (s *Search) addShape(it Item) (shape, error) {
	var sh shape
	var parts [][]geom.Pt
	switch {
	case s.whole && len(it.Ring) < 3:
		return sh, noArea(it.Name)
	case !s.whole:
		var err error
		if parts, err = s.partsOf(it.Ring, it.Name); err != nil {
			return sh, err
		}
	}
	sh.across = math.Inf(1)
	faces := []bool{it.Turned}
	if it.EitherFace {
		faces = []bool{false, true}
	}
	for _, mirror := range faces {
		for _, d := range it.Turns {
			f := newFacing(it, linear(d, mirror), parts)
			if it.OnFold && !f.foldAtLeft(it) {
				continue
			}
			sh.across = math.Min(sh.across, f.box.W())
			f.ties = s.ties(it, f.at)
			if f.ties != [2]tie{} || !s.known(sh, f) {
				sh.facings = append(sh.facings, len(s.facings))
				s.facings = append(s.facings, f)
			}
		}
	}
	if len(sh.facings) == 0 {
		if it.OnFold {
			return sh, say.Errorf("%s: its fold edge does not lie along the fold in any allowed turn; draw the fold edge along the grain", say.Name(it.Name))
		}
		return sh, say.Errorf("%s: no turn is allowed; allow at least one", say.Name(it.Name))
	}
	return sh, nil
}

func newFacing(it Item, m geom.Affine, parts [][]geom.Pt) facing {
	f := facing{at: m, box: geom.BoundsOf(geom.MapPts(it.Ring, m)), grain: m.Pt(it.Grain[0]), onFold: it.OnFold, of: &it.Ring[0]}
	for _, p := range parts {
		f.parts = append(f.parts, clockwise(geom.MapPts(p, m)))
	}
	return f
}

// room returns the box of places at which the facing lies inside a strip, and
// whether there is any.
func (f *facing) room(lo, hi, length float64) (geom.Rect, bool) {
	box := geom.Rect{
		Min: geom.Pt{X: lo - f.box.Min.X, Y: -f.box.Min.Y},
		Max: geom.Pt{X: hi - f.box.Max.X, Y: length - f.box.Max.Y},
	}
	if f.onFold {
		box.Max.X = box.Min.X
	}
	if box.W() < -touchTol || box.H() < -touchTol {
		return box, false
	}
	if box.Max.X < box.Min.X {
		box.Max.X = box.Min.X
	}
	if box.Max.Y < box.Min.Y {
		box.Max.Y = box.Min.Y
	}
	return box, true
}

// foldAtLeft reports whether the fold edge of it lies along the left side.
func (f facing) foldAtLeft(it Item) bool {
	return math.Abs(f.at.Pt(it.FoldLine[0]).X-f.box.Min.X) <= onFoldTol &&
		math.Abs(f.at.Pt(it.FoldLine[1]).X-f.box.Min.X) <= onFoldTol
}

// known reports whether sh already has a facing of the same outline: a
// rectangle turned end for end, say.
func (s *Search) known(sh shape, f facing) bool {
	for _, k := range sh.facings {
		if sameParts(s.facings[k], f) {
			return true
		}
	}
	return false
}

// sameParts reports whether f and g have the same parts but for a shift.
func sameParts(f, g facing) bool {
	const tol = 1e-6
	if len(f.parts) != len(g.parts) {
		return false
	}
	v := g.box.Min.Sub(f.box.Min)
	for _, p := range f.parts {
		found := false
		for _, q := range g.parts {
			if found = sameRing(p, q, v, tol); found {
				break
			}
		}
		if !found {
			return false
		}
	}
	return true
}

func sameRing(p, q []geom.Pt, v geom.Vec, tol float64) bool {
	if len(p) != len(q) {
		return false
	}
	for k := range q {
		same := true
		for i := range p {
			if p[i].Add(v).Dist(q[(k+i)%len(q)]) > tol {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// fewPoints is the number of points below which a cut line is laid as it is.
const fewPoints = 16

// encloseShare is the least share of the usable width that the enclosing ring
// may stand outside, for strips of other scales than cloth.
const encloseShare = 800

// partsOf returns the convex parts of the enclosing ring of a cut line.
func (s *Search) partsOf(ring []geom.Pt, name string) ([][]geom.Pt, error) {
	ring = geom.Tidy(clockwise(ring), 1e-6)
	if at, bad := geom.SelfCross(ring); bad {
		return nil, say.Errorf("%s: its cut line crosses itself at %.1f, %.1f mm; mend the draft before laying it", say.Name(name), at.X, at.Y)
	}
	if len(ring) < 3 || geom.Area(ring) == 0 {
		return nil, noArea(name)
	}
	if len(ring) > fewPoints {
		lo, hi := s.cloth.across(false)
		ring = enclose(ring, math.Min(encloseTol, (hi-lo)/encloseShare))
	}
	parts := convexParts(ring)
	if parts == nil {
		return nil, say.Errorf("%s: its cut line touches itself; mend the draft before laying it", say.Name(name))
	}
	return parts, nil
}

func noArea(name string) error {
	return say.Errorf("%s: its cut line has no area; give at least three corners", say.Name(name))
}

// obstacle adds a bare facing for a ring of the table and returns its number.
func (s *Search) obstacle(ring []geom.Pt, name string) (int, error) {
	ring = geom.Tidy(clockwise(ring), 1e-6)
	parts := convexParts(ring)
	if parts == nil {
		return 0, say.Errorf("%s: the outline touches itself; give its corners in order", say.Name(name))
	}
	s.facings = append(s.facings, facing{at: geom.Identity(), box: geom.BoundsOf(ring), parts: parts, bare: true})
	return len(s.facings) - 1, nil
}

// frame returns the cloth missing round a remnant's outline, as one ring: the
// box around it, cut in to the outline.
func frame(outline []geom.Pt) []geom.Pt {
	outline = geom.Tidy(clockwise(outline), 1e-6)
	b := geom.BoundsOf(outline)
	const wide = 10 // mm; any width does
	b.Min, b.Max = b.Min.Add(geom.Vec{X: -wide, Y: -wide}), b.Max.Add(geom.Vec{X: wide, Y: wide})
	// Cut in from the left to the leftmost corner: nothing is in the way.
	k := 0
	for i, p := range outline {
		if p.X < outline[k].X {
			k = i
		}
	}
	in := geom.Pt{X: b.Min.X, Y: outline[k].Y}
	ring := []geom.Pt{in, b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}, in}
	n := len(outline)
	for i := range n + 1 {
		ring = append(ring, outline[(k-i+n)%n])
	}
	return ring
}
