package sheet

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Bill is what a client is asked to pay, on one page: things, how each comes
// about, and amounts below each other at the right.
type Bill struct {
	Head []string // the first is the largest
	Rows []BillRow
}

// BillRow is one row; one that is a Break is a line across.
type BillRow struct {
	Name, Sum, Amount string
	Strong, Break     bool
}

// Draw sets the page at the largest size that it fits in; it is not ok when it
// is on no page of this paper.
func (b Bill) Draw(paper Paper) (Drawing, bool) {
	paper = paper.cutOff()
	for _, size := range []float64{4.5, 4, 3.5, 3, MinText.MM()} {
		if d, ok := b.draw(paper, size); ok {
			return d, true
		}
	}
	return Drawing{}, false
}

// The shares of the page's width that a name and a sum take.
const (
	billName = 0.5
	billSum  = 0.28
)

func (b Bill) draw(paper Paper, size float64) (Drawing, bool) {
	frame := grow(paper.box(), -minMargin.MM())
	d := Drawing{Bounds: paper.box()}
	c := newColumn(frame)
	ok := true
	for i, s := range b.Head {
		if i == 0 {
			ok = ok && c.write(&d, Label, s, 1.8*size, 0)
			continue
		}
		ok = ok && c.write(&d, Note, s, 1.1*size, 0)
	}
	c.y += size
	for _, r := range b.Rows {
		if r.Break {
			c.y += 0.5 * size
			d.Path(line(Dimension, geom.Pt{X: frame.Min.X, Y: c.y}, geom.Pt{X: frame.Max.X, Y: c.y}))
			c.y += 0.8 * size
			continue
		}
		ok = ok && c.row(&d, r, size)
	}
	return d, ok
}

// row writes a row: the name and the sum broken where they are long, the amount
// ending at the right edge beside the first line of them.
func (c *column) row(d *Drawing, r BillRow, size float64) bool {
	part := func(from, width float64) *column {
		x := c.box.Min.X + from*c.box.W()
		return newColumn(geom.Rect{Min: geom.Pt{X: x, Y: c.y}, Max: geom.Pt{X: x + width*c.box.W(), Y: c.box.Max.Y}})
	}
	role := Note
	if r.Strong {
		role, size = Label, 1.15*size
	}
	wide := billName
	if r.Sum == "" {
		wide += billSum
	}
	name, sum := part(0, wide-0.02), part(billName, billSum-0.02)
	if !name.write(d, role, r.Name, size, 3) || r.Sum != "" && !sum.write(d, role, r.Sum, size, 3) {
		return false
	}
	if r.Amount != "" {
		d.Text(Text{Role: role, At: geom.Pt{X: c.box.Max.X, Y: c.y + size*(leading+ascent-descent)/2}, Size: unit.Length(size), Anchor: End, S: r.Amount})
	}
	c.y = max(name.y, sum.y) + 0.35*size
	return true
}
