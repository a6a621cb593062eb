package flat

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/sketch"
	"chalkfold/ui/kit"
)

// between is how far apart front and back are drawn, and room is left around
// them, mm.
const (
	between = 90
	room    = 14
)

// class is how a shape of a sketch looks.
func class(r sketch.Role) string {
	switch r {
	case sketch.Within:
		return "flat-within"
	case sketch.Cloth, sketch.Band, sketch.Loop:
		return "flat-area"
	case sketch.Stitching:
		return "flat-stitch"
	case sketch.Crease:
		return "flat-crease"
	case sketch.Tuck:
		return "flat-tuck"
	case sketch.Under:
		return "flat-under"
	case sketch.Fastening:
		return "flat-solid"
	case sketch.Seam, sketch.Folded, sketch.Mouth:
	}
	return "flat-line"
}

// Draw draws one view of a sketch.
func Draw(pen *kit.Pen, v sketch.View, at geom.Affine) {
	for _, s := range v {
		pen.Path(class(s.Role), s.Path, at)
	}
}

// letters is how high the words under a sketch are, mm.
const letters = 80

// Both draws front and back side by side, to one scale, each over its name.
func Both(f sketch.Flat, front, back string) string {
	var pen kit.Pen
	box := f.Box()
	box = geom.Rect{Min: box.Min.Add(geom.Vec{X: -room, Y: -room}), Max: box.Max.Add(geom.Vec{X: room, Y: 1.3 * letters})}
	aside := geom.Vec{X: box.W() + between}
	pen.Reach(box)
	pen.Reach(geom.Rect{Min: box.Min.Add(aside), Max: box.Max.Add(aside)})
	Draw(&pen, f.Front, geom.Identity())
	Draw(&pen, f.Back, geom.Translate(aside))
	foot := geom.Pt{Y: box.Max.Y - letters/4}
	pen.Text("label", front, foot, letters)
	pen.Text("label", back, foot.Add(aside), letters)
	return pen.String()
}

// Choices draws what differs between the flats of all answers to one question,
// each from the side where more of it differs; "" for each when nothing does.
func Choices(flats []sketch.Flat) []string {
	front := apart(flats, func(f sketch.Flat) sketch.View { return f.Front })
	back := apart(flats, func(f sketch.Flat) sketch.View { return f.Back })
	out := make([]string, len(flats))
	if front.Points+back.Points == 0 {
		return out
	}
	behind := back.Parts > front.Parts || back.Parts == front.Parts && back.Points > front.Points
	for i, f := range flats {
		var pen kit.Pen
		box, view := front.Box, f.Front
		if behind {
			box, view = back.Box, f.Back
		}
		pen.Reach(detail(box, f.Box()))
		Draw(&pen, view, geom.Identity())
		out[i] = pen.String()
	}
	return out
}

// apart is where the views of all flats differ from the first: in parts, if any
// of them does.
func apart(flats []sketch.Flat, side func(sketch.Flat) sketch.View) sketch.Difference {
	var all sketch.Difference
	for _, f := range flats[1:] {
		d := sketch.Apart(side(flats[0]), side(f))
		switch {
		case d.Points == 0 || d.Parts == 0 && all.Parts > 0:
			continue
		case all.Points > 0 && (all.Parts > 0) == (d.Parts > 0):
			d.Box = d.Box.Union(all.Box)
		}
		all = sketch.Difference{Box: d.Box, Parts: all.Parts + d.Parts, Points: all.Points + d.Points}
	}
	return all
}

// leastDetail is how much of the garment a detail shows at least, mm.
const leastDetail = 200

// detail is what is shown of a place: the right half of one that is wider than
// high, since both hands are alike, with some of what lies around it.
func detail(box, whole geom.Rect) geom.Rect {
	if box.W() > 1.3*box.H() && box.Min.X < 0 && box.Max.X > 0 && box.W() > leastDetail {
		box.Min.X = -0.1 * box.Max.X
	}
	around := func(lo, hi float64) (float64, float64) {
		more := max((leastDetail-(hi-lo))/2, 0.08*(hi-lo))
		return lo - more, hi + more
	}
	box.Min.X, box.Max.X = around(box.Min.X, box.Max.X)
	box.Min.Y, box.Max.Y = around(box.Min.Y, box.Max.Y)
	if box.Min.Y < whole.Min.Y-room {
		box.Min.Y, box.Max.Y = whole.Min.Y-room, box.Max.Y+whole.Min.Y-room-box.Min.Y
	}
	return box
}
