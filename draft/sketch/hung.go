package sketch

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// hung is one panel of a garment that hangs from the shoulders.
type hung struct {
	panel                                        piece.Panel
	neck, shoulder, armhole, side, waist, centre piece.Edge
	darts                                        []piece.Dart
}

func newHung(panels []piece.Panel, darts []piece.Dart, behind bool) (hung, bool) {
	for _, p := range panels {
		h := hung{panel: p}
		all := p.Behind == behind
		for _, x := range []struct {
			at   piece.Place
			edge *piece.Edge
		}{
			{piece.Neck, &h.neck},
			{piece.Shoulder, &h.shoulder},
			{piece.Armhole, &h.armhole},
			{piece.Side, &h.side},
			{piece.Foot, &h.waist},
			{piece.Centre, &h.centre},
		} {
			e, ok := p.At(x.at)
			*x.edge, all = e, all && ok
		}
		if !all {
			continue
		}
		for _, d := range darts {
			if d.Panel == p.Name {
				h.darts = append(h.darts, d)
			}
		}
		return h, true
	}
	return hung{}, false
}

// foot is the length of the lower edge with its darts closed.
func (h hung) foot() float64 {
	l := h.waist.Sew.Len()
	for _, d := range h.darts {
		if d.Edge == h.waist.Name {
			l -= d.Intake(h.waist).MM()
		}
	}
	return l
}

// trunk is what front and back of a hung garment have in common as it lies flat,
// its right half: y is counted from the side of the neck. Shoulders, armholes and
// sides are those of the back, which no bust dart has moved.
type trunk struct {
	neck, shoulder, underarm, waist geom.Pt
	mid                             float64 // of the lower edge at the centre
	armhole                         geom.Path
	back                            geom.Path // its neck
}

func newTrunk(front, back hung) trunk {
	top := back.neck.Sew.End()
	up := geom.Translate(geom.Vec{Y: -top.Y})
	side := back.side.Sew
	foot := geom.Pt{X: (front.foot() + back.foot()) / 2, Y: side.End().Y - top.Y}
	return trunk{
		neck: up.Pt(top), shoulder: up.Pt(back.shoulder.Sew.End()), underarm: up.Pt(side.Start()), waist: foot,
		mid: back.centre.Sew.Start().Y - top.Y, armhole: back.armhole.Sew.Map(up), back: back.neck.Sew.Map(up),
	}
}

// view draws one half of the garment, seen from one side.
func (t trunk) view(h hung) []part {
	var v []part
	add := func(r Role, p geom.Path, on where) { v = append(v, part{Shape{r, p}, on}) }
	both := func(r Role, p geom.Path) { add(r, p, beside) }
	top := h.neck.Sew.End()
	neck := h.neck.Sew.Map(geom.Translate(geom.Vec{X: t.neck.X - top.X, Y: -top.Y}))
	neck[0].A.X = 0 // the neck of the back may be drawn a hair wider
	third := t.waist.X / 3
	foot := geom.Path{{A: t.waist, B: geom.Pt{X: t.waist.X - third, Y: t.waist.Y + (t.mid-t.waist.Y)/2}, C: geom.Pt{X: third, Y: t.mid}, D: geom.Pt{Y: t.mid}}}
	if !h.panel.Behind {
		add(Within, t.back.Join(neck.Reverse()), across)
	}
	half := neck.Join(geom.Polyline(t.neck, t.shoulder), t.armhole, geom.Polyline(t.underarm, t.waist), foot)
	add(Cloth, half, across)
	if !h.centre.Fold {
		add(Seam, geom.Polyline(neck.Start(), geom.Pt{Y: t.mid}), middle)
	}
	// What lies below the neck point lies so on the panel, the front of which is
	// longer over the bust.
	scale := t.mid / math.Max(h.centre.Sew.Start().Y-top.Y, 1)
	place := func(p geom.Pt) geom.Pt { return geom.Pt{X: p.X, Y: (p.Y - top.Y) * scale} }
	for _, d := range h.darts {
		point := place(d.Point)
		switch d.Edge {
		case h.waist.Name:
			x := math.Min(d.Legs[0].X, d.Legs[1].X)
			at, _ := foot.At(foot.Len() * (1 - x/math.Max(t.waist.X, 1)))
			both(Seam, geom.Polyline(at, geom.Pt{X: math.Min(point.X, t.waist.X), Y: point.Y}))
		case h.side.Name:
			s, _ := h.side.Sew.Nearest(d.Legs[0])
			down := t.waist.Sub(t.underarm)
			at := t.underarm.Add(down.Unit().Scale(math.Min(s, down.Len())))
			both(Seam, geom.Polyline(at, geom.Pt{X: math.Min(point.X, at.X), Y: point.Y}))
		case h.shoulder.Name:
			both(Seam, geom.Polyline(t.neck.Lerp(t.shoulder, 0.5), point))
		}
	}
	return v
}
