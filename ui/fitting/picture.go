package fitting

import (
	"math"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/sketch"
	"chalkfold/ui/flat"
	"chalkfold/ui/kit"
)

// Picture draws a sign on the flat sketch of the garment, on both sides of the
// middle.
func Picture(f sketch.Flat, s garment.Sign) string {
	var pen kit.Pen
	view := f.Front
	if s.View == garment.FromBack {
		view = f.Back
	}
	box := f.Box()
	const room = 20
	box.Min, box.Max = box.Min.Add(geom.Vec{X: -room, Y: -room}), box.Max.Add(geom.Vec{X: room, Y: room})
	pen.Reach(near(box, view.Places(), s))
	flat.Draw(&pen, view, geom.Identity())
	places := view.Places()
	for _, spots := range s.Strokes {
		pts := make([]geom.Pt, len(spots))
		for i, spot := range spots {
			pts[i] = places.At(spot.Across, spot.Down)
		}
		line := geom.Polyline(pts...)
		if len(pts) == 3 { // a bow through the three
			mid := pts[0].Lerp(pts[2], 0.5)
			top := pts[1].Add(pts[1].Sub(mid))
			line = geom.Path{{A: pts[0], B: pts[0].Lerp(top, 2.0/3), C: pts[2].Lerp(top, 2.0/3), D: pts[2]}}
		}
		pen.Path("flat-sign", line, geom.Identity())
		pen.Path("flat-sign", line, geom.MirrorX(0))
	}
	return pen.String()
}

// near is the part of the sketch where a sign is: the upper or the lower part
// where it lies in one of them, else all of it.
func near(box geom.Rect, places sketch.Places, s garment.Sign) geom.Rect {
	least, most := math.Inf(1), math.Inf(-1)
	for _, stroke := range s.Strokes {
		for _, spot := range stroke {
			y := places.At(spot.Across, spot.Down).Y
			least, most = math.Min(least, y), math.Max(most, y)
		}
	}
	high := box.W() * 1.05
	switch {
	case high >= box.H() || most-least > high*0.9:
	case most < box.Min.Y+high:
		box.Max.Y = box.Min.Y + high
	case least > box.Max.Y-high:
		box.Min.Y = box.Max.Y - high
	default:
		mid := (least + most) / 2
		box.Min.Y, box.Max.Y = mid-high/2, mid+high/2
	}
	return box
}

// BeforeAfter draws the panels as they are altered over those of before.
func BeforeAfter(was, is []piece.Panel, w *say.Words) string {
	var pen kit.Pen
	names := kit.Labels{Pen: &pen}
	x := 0.0
	for _, p := range is {
		i := slices.IndexFunc(was, func(o piece.Panel) bool { return o.Name == p.Name })
		if i < 0 { // what was of both sides is of each now
			i = slices.IndexFunc(was, func(o piece.Panel) bool { return o.Name == p.Like })
		}
		if i < 0 {
			continue
		}
		pts := append(p.Ring(), was[i].Ring()...)
		box := geom.BoundsOf(pts)
		const room = 15
		box.Min, box.Max = box.Min.Add(geom.Vec{X: -room, Y: -room}), box.Max.Add(geom.Vec{X: room, Y: room})
		at := geom.Translate(geom.Vec{X: x - box.Min.X})
		x += box.W()
		placed := geom.Rect{Min: at.Pt(box.Min), Max: at.Pt(box.Max)}
		pen.Reach(placed)
		for _, e := range p.Edges {
			pen.Path("trued", e.Sew, at)
		}
		for _, e := range was[i].Edges {
			pen.Path("spoken", e.Sew, at)
		}
		names.Inside("label", "", kit.Sentence(named(is, p, w)), placed)
	}
	return pen.String()
}

// named is the name of a panel, and its side where the other has one of its own.
func named(all []piece.Panel, p piece.Panel, w *say.Words) string {
	if slices.ContainsFunc(all, func(o piece.Panel) bool { return o.Like == p.Name }) {
		return piece.LeftHand.Of(w.T(p.Name), w)
	}
	if p.Like != "" {
		return piece.RightHand.Of(w.T(p.Like), w)
	}
	return w.T(p.Name)
}
