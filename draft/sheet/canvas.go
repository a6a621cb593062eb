package sheet

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Canvas is what a drawing is played onto. Coordinates are millimetres, y
// downwards. Begin and End nest.
type Canvas interface {
	Begin(Group)
	End()
	Path(Shape)
	Text(Text)
}

// Group gathers what belongs together: a piece, a sheet's furniture.
type Group struct {
	ID    string     // ASCII, "front"; may be empty
	Title string     // what the maker calls it
	Clip  *geom.Rect // nothing outside it is drawn; nil leaves all
}

// Shape is a line or, when Filled, an area.
type Shape struct {
	Role           Role
	Path           geom.Path
	Closed, Filled bool
}

// Anchor says which point of a text stands at its place.
type Anchor uint8

// The anchors, all on the baseline.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of text. Dir is the direction of reading; the zero Dir
// reads to the right. A text is never mirrored, whatever it is played through.
type Text struct {
	Role   Role
	At     geom.Pt     // on the baseline
	Size   unit.Length // of the em
	Anchor Anchor
	Dir    geom.Vec
	S      string
}

// Reads returns the unit direction of reading.
func (t Text) Reads() geom.Vec {
	if t.Dir == (geom.Vec{}) {
		return geom.Vec{X: 1}
	}
	return t.Dir.Unit()
}

// Item is one entry of a display list: Group, Ungroup, Shape or Text.
type Item interface {
	play(c Canvas, at geom.Affine)
}

// Ungroup ends the innermost Group.
type Ungroup struct{}

// Outline is the ring around a piece on a drawing: what must reach the paper
// whether or not a line of it is drawn there.
type Outline struct {
	ID   string
	Ring []geom.Pt
}

// Drawing is a display list. It is a Canvas too: what is played onto it is
// recorded. The zero value is an empty drawing whose Bounds say nothing.
type Drawing struct {
	Bounds   geom.Rect
	Items    []Item
	Outlines []Outline
	// Of pieces on sheets: a name for where they lie, and where each lies.
	Plan string
	Lies []Lie
}

// Begin records the start of a group.
func (d *Drawing) Begin(g Group) { d.Items = append(d.Items, g) }

// End records the end of a group.
func (d *Drawing) End() { d.Items = append(d.Items, Ungroup{}) }

// Path records a shape.
func (d *Drawing) Path(s Shape) { d.Items = append(d.Items, s) }

// Text records a text.
func (d *Drawing) Text(t Text) { d.Items = append(d.Items, t) }

// Play draws every item, mapped by at, onto c.
func (d Drawing) Play(c Canvas, at geom.Affine) {
	for _, it := range d.Items {
		it.play(c, at)
	}
}

// place records the whole of e, outlines too, mapped by at.
func (d *Drawing) place(e Drawing, at geom.Affine) {
	e.Play(d, at)
	for _, o := range e.Outlines {
		d.Outlines = append(d.Outlines, Outline{o.ID, geom.MapPts(o.Ring, at)})
	}
}

func (g Group) play(c Canvas, at geom.Affine) {
	if g.Clip != nil {
		r := mapRect(*g.Clip, at)
		g.Clip = &r
	}
	c.Begin(g)
}

func (Ungroup) play(c Canvas, _ geom.Affine) { c.End() }

func (s Shape) play(c Canvas, at geom.Affine) {
	s.Path = s.Path.Map(at)
	c.Path(s)
}

func (t Text) play(c Canvas, at geom.Affine) {
	t.At, t.Dir = at.Pt(t.At), at.Vec(t.Reads()).Unit()
	// A turn leaves the size as it was, to the last digit.
	t.Size *= unit.Length(math.Round(math.Sqrt(math.Abs(at.A*at.D-at.B*at.C))*1e9) / 1e9)
	c.Text(t)
}

// mapRect returns the box around r mapped by at.
func mapRect(r geom.Rect, at geom.Affine) geom.Rect {
	return geom.BoundsOf(geom.MapPts(corners(r), at))
}

func corners(r geom.Rect) []geom.Pt {
	return []geom.Pt{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// grow returns r with by mm more on every side.
func grow(r geom.Rect, by float64) geom.Rect {
	return geom.Rect{Min: geom.Pt{X: r.Min.X - by, Y: r.Min.Y - by}, Max: geom.Pt{X: r.Max.X + by, Y: r.Max.Y + by}}
}

// Box returns a box around s: handles included, so it may be a little wide.
func (s Shape) Box() geom.Rect {
	pts := make([]geom.Pt, 0, 4*len(s.Path))
	for _, c := range s.Path {
		pts = append(pts, c.A, c.B, c.C, c.D)
	}
	return grow(geom.BoundsOf(pts), StyleOf(s.Role).Width.MM()/2)
}

// Box returns the box around t as set in the project's typeface.
func (t Text) Box() geom.Rect {
	w, size, dir := TextWidth(t.S, t.Size).MM(), t.Size.MM(), t.Reads()
	from := t.At.Add(dir.Scale(-w * t.Anchor.share()))
	to, up := from.Add(dir.Scale(w)), dir.Left()
	return geom.BoundsOf([]geom.Pt{
		from.Add(up.Scale(size * ascent)), to.Add(up.Scale(size * ascent)),
		from.Add(up.Scale(-size * descent)), to.Add(up.Scale(-size * descent)),
	})
}

// share is how much of a text's width stands before its place.
func (a Anchor) share() float64 { return float64(a) / 2 }

func closedShape(role Role, pts []geom.Pt) Shape {
	return Shape{Role: role, Path: geom.Polyline(append(append([]geom.Pt{}, pts...), pts[0])...), Closed: true}
}

func area(role Role, pts []geom.Pt) Shape {
	s := closedShape(role, pts)
	s.Filled = true
	return s
}

func line(role Role, pts ...geom.Pt) Shape { return Shape{Role: role, Path: geom.Polyline(pts...)} }
