package sheet

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Handover is what goes with a job from hand to hand, on one sheet.
type Handover struct {
	Words *say.Words
	Title string
	Sub   []string // under the title: for whom, what to mind
	Flat  Drawing  // the garment, front and back; empty when there is none
	// Lay draws the lay with text of at least that size; nil when there is none.
	Lay         func(text unit.Length) Drawing
	Left, Right []Part // what is told under the garment, and under the lay
}

// Part is a heading and its lines.
type Part struct {
	Title string
	Lines []string
}

const (
	columnGap  = 8.0
	leastNotes = 30.0 // left for what is written by hand
	flatMost   = 66.0 // how high the garment stands
	layMost    = 130.0
	ruleStep   = 8.0 // between the lines to write on
)

// Draw sets the page at the largest size that leaves room for notes. It is not
// ok when that is on no sheet of this paper.
func (h Handover) Draw(paper Paper) (Drawing, bool) {
	paper = paper.cutOff()
	for _, size := range []float64{3.3, 3, 2.75, MinText.MM()} {
		for _, pictures := range []float64{1, 0.8, 0.6} {
			if d, ok := h.draw(paper, size, pictures); ok {
				return d, true
			}
		}
	}
	return Drawing{}, false
}

func (h Handover) draw(paper Paper, size, pictures float64) (Drawing, bool) {
	frame := grow(paper.box(), -minMargin.MM())
	d := Drawing{Bounds: paper.box()}
	head := newColumn(frame)
	ok := head.write(&d, Label, h.Title, 1.8*size, 0)
	for _, s := range h.Sub {
		ok = ok && head.write(&d, Note, s, size, 0)
	}
	head.y += 1.5
	d.Path(line(Dimension, geom.Pt{X: frame.Min.X, Y: head.y}, geom.Pt{X: frame.Max.X, Y: head.y}))
	half := (frame.W() - columnGap) / 2
	top := head.y + 3
	side := func(x float64) *column {
		return newColumn(geom.Rect{Min: geom.Pt{X: x, Y: top}, Max: geom.Pt{X: x + half, Y: frame.Max.Y}})
	}
	left, right := side(frame.Min.X), side(frame.Max.X-half)
	if len(h.Flat.Items) > 0 {
		ok = ok && left.picture(&d, h.Flat, pictures*flatMost)
		left.y += 3
	}
	if h.Lay != nil {
		ok = ok && right.picture(&d, h.small(half, pictures*layMost), pictures*layMost)
		right.y += 3
	}
	ok = ok && parts(&d, left, h.Left, size) && parts(&d, right, h.Right, size)
	foot := newColumn(geom.Rect{Min: geom.Pt{X: frame.Min.X, Y: max(left.y, right.y) + 2}, Max: frame.Max})
	if !ok || foot.left() < leastNotes {
		return Drawing{}, false
	}
	d.Path(line(Dimension, foot.box.Min, geom.Pt{X: frame.Max.X, Y: foot.y}))
	foot.y += 2
	foot.write(&d, Label, h.Words.T("Notes"), 1.15*size, 0)
	for y := foot.y + ruleStep; y <= frame.Max.Y; y += ruleStep {
		d.Path(line(Frame, geom.Pt{X: frame.Min.X, Y: y}, geom.Pt{X: frame.Max.X, Y: y}))
	}
	return d, true
}

// small is the lay drawn so that its text can be read when it is shrunk.
func (h Handover) small(width, height float64) Drawing {
	const rounds, least = 4, 0.72 // the lay sets some of its labels three quarters as large
	text := MinText
	var d Drawing
	for range rounds {
		d = h.Lay(text)
		text = MinText / unit.Length(least*min(width/d.Bounds.W(), height/d.Bounds.H()))
	}
	return d
}

func parts(d *Drawing, c *column, all []Part, size float64) bool {
	for _, p := range all {
		if !c.write(d, Label, p.Title, 1.15*size, 0) {
			return false
		}
		for _, l := range p.Lines {
			if !c.write(d, Label, l, size, 3) {
				return false
			}
		}
		c.y += 0.8 * size
	}
	return true
}
