package sketch

import (
	"slices"

	"chalkfold/draft/piece"
)

// ofHand are the panels that go round one side of the body. One that differs
// from that of the left goes round the right.
func ofHand(panels []piece.Panel, hand piece.Hand) []piece.Panel {
	var out []piece.Panel
	for _, p := range panels {
		replaced := slices.ContainsFunc(panels, func(o piece.Panel) bool { return o.Like == p.Name })
		if hand == piece.LeftHand && p.Like == "" || hand == piece.RightHand && !replaced {
			out = append(out, p)
		}
	}
	return out
}

// hand is the half of the garment on one side of the body, both views drawn as
// if it lay on the right of the drawing.
type hand struct{ front, back []part }

func handOf(panels []piece.Panel, darts []piece.Dart, worn piece.Worn) (hand, bool) {
	if front, ok := newHung(panels, darts, false); ok {
		back, ok := newHung(panels, darts, true)
		if !ok {
			return hand{}, false
		}
		t := newTrunk(front, back)
		return hand{t.view(front), t.view(back)}, true
	}
	front, okFront := newHalf(panels, darts, false)
	back, okBack := newHalf(panels, darts, true)
	if !okFront || !okBack {
		return hand{}, false
	}
	o, ok := newOutline(front, back)
	if !ok {
		return hand{}, false
	}
	return hand{o.view(front, back, worn), o.view(back, front, worn)}, true
}

// part is what one half has of a shape.
type part struct {
	Shape
	on where
}

// where a part lies in the drawing.
type where uint8

const (
	beside  where = iota // on either side
	onRight              // on the right of the drawing alone
	onLeft               // on the left alone
	middle               // across the middle, once
	across               // half of an area, from the middle to the middle
)

// together is the view whose halves these are, on the right and on the left of
// the drawing.
func together(right, left []part) View {
	var v View
	for i := range max(len(right), len(left)) {
		if i < len(right) {
			switch p := right[i]; p.on {
			case across:
				k := slices.IndexFunc(left, func(o part) bool { return o.on == across && o.Role == p.Role })
				if k >= 0 {
					v = append(v, Shape{p.Role, closed(p.Path, left[k].Path)})
				}
			case beside, onRight, middle:
				v = append(v, p.Shape)
			case onLeft:
			}
		}
		if i < len(left) {
			switch p := left[i]; p.on {
			case beside, onLeft:
				v = append(v, Shape{p.Role, mirrored(p.Path)})
			case onRight, middle, across:
			}
		}
	}
	return v
}
