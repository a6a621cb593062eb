package sketch

import (
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// Role is what a shape of a sketch is.
type Role uint8

// The roles, in the order in which they are drawn over each other.
const (
	Within    Role = iota // an area: the inside of the back, seen over the front
	Cloth                 // an area: the outline of the garment
	Band                  // an area: the band
	Seam                  // a seam, or a dart that is sewn
	Stitching             // seen from outside
	Crease                // pressed
	Tuck                  // a crease that is stitched
	Folded                // the edge of a fold that opens below
	Under                 // the edge of a fold on the inside
	Mouth                 // of a pocket
	Loop                  // an area
	Fastening             // a button, an area
)

// Shape is a line, or an area where its role says so.
type Shape struct {
	Role Role
	Path geom.Path
}

// Area reports whether the inside of the shape belongs to it.
func (s Shape) Area() bool {
	switch s.Role {
	case Within, Cloth, Band, Loop, Fastening:
		return true
	case Seam, Stitching, Crease, Tuck, Folded, Under, Mouth:
	}
	return false
}

// View is the garment from one side.
type View []Shape

// Flat is the garment from both sides.
type Flat struct{ Front, Back View }

// Box returns the box around both views, so that they can be shown alike.
func (f Flat) Box() geom.Rect {
	var pts []geom.Pt
	for _, v := range []View{f.Front, f.Back} {
		for _, s := range v {
			if s.Role == Cloth || s.Role == Band || s.Role == Within {
				pts = append(pts, s.Path.Flatten(1)...)
			}
		}
	}
	return geom.BoundsOf(pts)
}

// Of draws the garment of these panels. It is not ok where the panels do not
// make a front and a back that hang from a waist or from the shoulders.
func Of(panels []piece.Panel, darts []piece.Dart, worn piece.Worn) (f Flat, ok bool) {
	left, ok := handOf(ofHand(panels, piece.LeftHand), darts, worn)
	if !ok {
		return Flat{}, false
	}
	right := left
	if slices.ContainsFunc(panels, func(p piece.Panel) bool { return p.Like != "" }) {
		if right, ok = handOf(ofHand(panels, piece.RightHand), darts, worn); !ok {
			return Flat{}, false
		}
	}
	return Flat{Front: together(left.front, right.front), Back: together(right.back, left.back)}, true
}

// mirrored is a path on the other hand, drawn in the same direction round.
func mirrored(p geom.Path) geom.Path { return p.Map(geom.MirrorX(0)) }

// closed is the area of two halves that begin and end in the middle, the left one
// as it would lie on the right. Where they do not meet there, as at hems of two
// lengths, a step joins them.
func closed(right, left geom.Path) geom.Path {
	back := mirrored(left).Reverse()
	return step(step(right, back.Start()).Join(back), right.Start())
}

// step is a path carried on straight to q, where it does not end there.
func step(p geom.Path, q geom.Pt) geom.Path {
	const meets = 0.01 // mm
	if p.End().Dist(q) < meets {
		return p
	}
	return p.Join(geom.Polyline(p.End(), q))
}
