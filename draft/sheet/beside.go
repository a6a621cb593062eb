package sheet

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// The number of a piece that is too small for its name stands inside it where it
// can be this large, in text sizes; else beside it, with a line to it.
const (
	numberInside = 0.8
	besideMost   = 14.0 // how far from the piece a place is looked for, in text sizes
	besideTurns  = 24   // ways to look
)

// numbered is a piece that is to be numbered beside it.
type numbered struct {
	number string
	ring   []geom.Pt
}

// numbersBeside writes the numbers that found no room in their pieces on the
// cloth beside them, each with a line to its piece. Where no cloth is free they
// stand over the pieces, clear of what is written.
func (l *table) numbersBeside() {
	var taken [][]geom.Pt
	for _, o := range l.d.Outlines {
		taken = append(taken, o.Ring)
	}
	for _, f := range l.c.Flaws {
		taken = append(taken, l.asItLies(f))
	}
	for _, n := range l.beside {
		size := l.size
		half := geom.Vec{X: TextWidth(n.number, unit.Length(size)).MM()/2 + size/5, Y: size * leading / 2}
		at, ok := l.freeBeside(n.ring, half, taken)
		if !ok {
			at, ok = l.freeOver(n.ring, half)
			l.d.Path(area(Blank, corners(boxAt(at, half))))
		}
		taken = append(taken, corners(boxAt(at, half)))
		to := nearestOn(n.ring, at)
		if dir := to.Sub(at); ok && dir.Len() > half.Y && !geom.Contains(n.ring, at) {
			l.d.Path(line(Dimension, at.Add(dir.Unit().Scale(half.Y)), to))
		}
		l.d.Text(Text{Role: Label, At: at.Add(geom.Vec{Y: size * (ascent - descent) / 2}), Size: unit.Length(size), Anchor: Middle, S: n.number})
	}
}

func boxAt(c geom.Pt, half geom.Vec) geom.Rect {
	return geom.Rect{Min: c.Add(half.Neg()), Max: c.Add(half)}
}

// freeBeside returns a place near the ring where a box of ±half lies on the cloth
// and off everything, and the line from there to the ring crosses nothing.
func (l *table) freeBeside(ring []geom.Pt, half geom.Vec, taken [][]geom.Pt) (geom.Pt, bool) {
	around := geom.Tidy(ring, l.size/4)
	for r := half.Y; r < besideMost*l.size; r += l.size / 2 {
		for _, p := range around {
			for k := range besideTurns {
				at := p.Add(geom.Vec{X: r}.Rotate(2 * math.Pi * float64(k) / besideTurns))
				b := boxAt(at, half)
				if b.Min.X < l.box.Min.X || b.Min.Y < l.box.Min.Y || b.Max.X > l.box.Max.X || b.Max.Y > l.end ||
					slices.ContainsFunc(taken, func(r []geom.Pt) bool { return overlap(r, corners(b)) }) {
					continue
				}
				way := []geom.Pt{at, at.Lerp(nearestOn(ring, at), 0.98)}
				if !slices.ContainsFunc(taken, func(r []geom.Pt) bool { return crossedBy(r, way) }) {
					return at, true
				}
			}
		}
	}
	return geom.Pt{}, false
}

// freeOver returns the place nearest the middle of the ring where a box of ±half
// lies on the cloth used and off all that is written; the middle itself, and
// false, when there is none.
func (l *table) freeOver(ring []geom.Pt, half geom.Vec) (geom.Pt, bool) {
	var written []geom.Rect
	for _, it := range l.d.Items {
		if t, ok := it.(Text); ok {
			written = append(written, t.Box())
		}
	}
	mid := middle(ring)
	for r := 0.0; r < besideMost*l.size; r += l.size / 4 {
		for k := range besideTurns {
			at := mid.Add(geom.Vec{X: r}.Rotate(2 * math.Pi * float64(k) / besideTurns))
			b := boxAt(at, half)
			if b.Min.X >= l.box.Min.X && b.Min.Y >= l.box.Min.Y && b.Max.X <= l.box.Max.X && b.Max.Y <= l.end &&
				!slices.ContainsFunc(written, b.Overlaps) {
				return at, true
			}
		}
	}
	return mid, false
}

// crossedBy reports whether a line runs over the edge of a ring.
func crossedBy(ring, way []geom.Pt) bool {
	for i, a := range ring {
		if _, ok := geom.SegCross(way[0], way[1], a, ring[(i+1)%len(ring)]); ok {
			return true
		}
	}
	return false
}

// nearestOn returns the place of the ring that is nearest p.
func nearestOn(ring []geom.Pt, p geom.Pt) geom.Pt {
	best := ring[0]
	for i, a := range ring {
		d := ring[(i+1)%len(ring)].Sub(a)
		t := 0.0
		if l := d.Dot(d); l > 0 {
			t = math.Max(0, math.Min(1, p.Sub(a).Dot(d)/l))
		}
		if on := a.Add(d.Scale(t)); on.Dist(p) < best.Dist(p) {
			best = on
		}
	}
	return best
}
