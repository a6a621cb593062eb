package sheet

import (
	"strconv"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// column is a box that text is set into, from the top down.
type column struct {
	box geom.Rect
	y   float64 // where the next line goes
}

func newColumn(box geom.Rect) *column { return &column{box, box.Min.Y} }

// left is how much of the column is free, mm.
func (c *column) left() float64 { return c.box.Max.Y - c.y }

// need is how deep a text set at size is.
func (c *column) need(s string, size, hang float64) float64 {
	return float64(len(wrap(s, unit.Length(size), c.box.W()-hang))) * size * leading
}

// write sets a text; the lines after its first are set in by hang. It is not ok
// when there is no room, and then nothing is written.
func (c *column) write(d *Drawing, role Role, s string, size, hang float64) bool {
	if c.need(s, size, hang) > c.left() {
		return false
	}
	for i, l := range wrap(s, unit.Length(size), c.box.W()-hang) {
		at := geom.Pt{X: c.box.Min.X, Y: c.y + size*(leading+ascent-descent)/2}
		if i > 0 {
			at.X += hang
		}
		d.Text(Text{Role: role, At: at, Size: unit.Length(size), S: l})
		c.y += size * leading
	}
	return true
}

// itemHang is where the text of a numbered item begins, mm.
const itemHang = 6.0

// item writes a text with its number before it.
func (c *column) item(d *Drawing, no int, s string, size float64) bool {
	in := c.inset(itemHang)
	top := c.y
	if !in.write(d, Label, s, size, 0) {
		return false
	}
	d.Text(Text{Role: Label, At: geom.Pt{X: c.box.Min.X, Y: top + size*(leading+ascent-descent)/2}, Size: unit.Length(size), S: strconv.Itoa(no)})
	c.y = in.y
	return true
}

// inset is what is left of the column, set in by as much.
func (c *column) inset(by float64) *column {
	return newColumn(geom.Rect{Min: geom.Pt{X: c.box.Min.X + by, Y: c.y}, Max: c.box.Max})
}

// picture fits a drawing of its own into the column, no deeper than most.
func (c *column) picture(d *Drawing, of Drawing, most float64) bool {
	k := min(c.box.W()/of.Bounds.W(), most/of.Bounds.H())
	if h := k * of.Bounds.H(); h > c.left() {
		return false
	}
	x := c.box.Min.X + (c.box.W()-k*of.Bounds.W())/2
	of.Play(legible{d}, geom.Affine{A: k, D: k, E: x - k*of.Bounds.Min.X, F: c.y - k*of.Bounds.Min.Y})
	c.y += k * of.Bounds.H()
	return true
}

// legible is a Canvas that leaves out what would be too small to be read.
type legible struct{ *Drawing }

func (l legible) Text(t Text) {
	if t.Size >= MinText {
		l.Drawing.Text(t)
	}
}
