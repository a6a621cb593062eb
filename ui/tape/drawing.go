package tape

import (
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/ui/kit"
)

// Drawing shows where the tape goes for a measurement, on a body of that
// figure and those takings, as SVG.
func Drawing(id body.ID, figure body.Figure, takings body.Takings) string {
	f := formOf(figure, takings)
	p, ok := f.placeOf(id)
	if !ok {
		return ""
	}
	var pen kit.Pen
	same := geom.Identity()
	tall := p.high - p.low
	half := max(0.36*tall, f.reach(p)+0.04*tall)
	pen.Reach(geom.Rect{Min: pt(f.center(p)-half, p.high), Max: pt(f.center(p)+half, p.low)})

	if p.low < 0 {
		pen.Path("fig-thing", geom.Polyline(pt(-0.4*f.stature, 0), pt(0.4*f.stature, 0)), same)
	}
	o := f.seen(p)
	for _, s := range o.skin {
		pen.Path("fig-skin", s, same)
	}
	for _, l := range o.lines {
		pen.Path("fig-line", l, same)
	}
	pen.Path("fig-cord", p.cord, same)
	pen.Path("fig-hidden", p.hidden, same)
	pen.Path("fig-tape", p.near, same)
	if p.length {
		arrow(&pen, p.near.Start(), p.near.StartDir().Neg(), tall/26)
		arrow(&pen, p.near.End(), p.near.EndDir(), tall/26)
	}
	for _, at := range p.pins {
		pen.Dot("fig-pin", at, tall/60)
	}
	return pen.String()
}

// arrow is the head of an arrow whose point is at the end of the tape.
func arrow(pen *kit.Pen, at geom.Pt, dir geom.Vec, size float64) {
	dir = dir.Unit()
	foot := at.Add(dir.Scale(-1.5 * size))
	pen.Ring("fig-head", []geom.Pt{at, foot.Add(dir.Left().Scale(0.7 * size)), foot.Add(dir.Right().Scale(0.7 * size))}, geom.Identity())
}

func (f form) seen(p place) outline {
	switch p.seen {
	case fromSide:
		return f.side()
	case seated:
		return f.seated()
	case fromFront, fromBack:
	}
	return f.front(p.seen == fromBack, p.arms)
}

// center is the middle of what is shown of a place, and reach how far to either
// side of it the tape goes.
func (f form) center(p place) float64 {
	if p.seen == seated {
		return 0.1 * f.stature
	}
	box := p.near.Bounds(1)
	if p.arms && p.high < f.stature || p.high < f.knee { // one arm, one foot
		return (box.Min.X + box.Max.X) / 2
	}
	return 0
}

func (f form) reach(p place) float64 {
	c := f.center(p)
	box := p.near.Bounds(1)
	return max(c-box.Min.X, box.Max.X-c)
}
