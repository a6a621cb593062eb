package sheet

import (
	"math"
	"strconv"

	"chalkfold/draft/geom"
)

// Lesson sets the construction in steps: each a small drawing, its new lines
// heavy, with its sums and rules.
func (p Plate) Lesson(paper Paper) []Drawing {
	paper = paper.cutOff()
	l := &lesson{Plate: p, paper: paper, frame: grow(paper.box(), -minMargin.MM())}
	for rest := p.Taught; len(rest) > 0; {
		n := l.step(rest)
		rest = rest[n:]
	}
	for i := range l.pages {
		d := &l.pages[i]
		d.Text(Text{
			Role: Note, At: geom.Pt{X: l.frame.Max.X, Y: l.frame.Min.Y + 3.6}, Size: 3, Anchor: End,
			S: p.Words.F("page %d of %d", i+1, len(l.pages)),
		})
	}
	return l.pages
}

// A page of a lesson has two columns of three steps.
const (
	lessonColumns = 2
	lessonRows    = 3
	lessonHead    = 14.0
	lessonGap     = 5.0
	lessonDrawing = 38.0 // width of the drawing in a step
	lessonLeast   = 260  // mm of the draft that a drawing shows at the least
)

type lesson struct {
	Plate
	paper Paper
	frame geom.Rect
	pages []Drawing
	cells int // filled
	past  []Taught
}

// cell is the next cell, on a new page when the last is full.
func (l *lesson) cell() geom.Rect {
	on := l.cells % (lessonColumns * lessonRows)
	if on == 0 {
		d := Drawing{Bounds: l.paper.box()}
		head := newColumn(l.frame)
		head.write(&d, Label, l.Title, 5, 0)
		head.write(&d, Note, l.Sub, 3, 0)
		l.pages = append(l.pages, d)
	}
	l.cells++
	w := (l.frame.W() - lessonGap) / lessonColumns
	h := (l.frame.H() - lessonHead - lessonGap*(lessonRows-1)) / lessonRows
	min := l.frame.Min.Add(geom.Vec{
		X: float64(on/lessonRows) * (w + lessonGap), Y: lessonHead + float64(on%lessonRows)*(h+lessonGap),
	})
	return geom.Rect{Min: min, Max: min.Add(geom.Vec{X: w, Y: h})}
}

// step fills a cell with the next marks of one part, and returns how many.
func (l *lesson) step(rest []Taught) int {
	cell := l.cell()
	d := &l.pages[len(l.pages)-1]
	d.Path(closedShape(Frame, corners(cell)))
	text := newColumn(geom.Rect{
		Min: cell.Min.Add(geom.Vec{X: lessonDrawing + 2, Y: 2}), Max: cell.Max.Add(geom.Vec{X: -2, Y: -2}),
	})
	size := MinText.MM()
	n := 0
	for n < len(rest) && rest[n].Part == rest[0].Part {
		m := rest[n]
		what := size * 1.15
		need := text.need(m.What, what, itemHang) + text.need(m.Sum, size, itemHang) + text.need(m.Rule, size, itemHang)
		if n > 0 && need > text.left() {
			break
		}
		text.item(d, m.No, m.What, what)
		in := text.inset(itemHang)
		for _, s := range []string{m.Sum, m.Rule} {
			if s != "" {
				in.write(d, Note, s, size, 0)
			}
		}
		text.y = in.y
		text.y += 0.6
		n++
	}
	l.drawing(d, geom.Rect{Min: cell.Min.Add(geom.Vec{X: 1, Y: 1}), Max: geom.Pt{X: cell.Min.X + lessonDrawing, Y: cell.Max.Y - 1}}, rest[:n])
	l.past = append(l.past, rest[:n]...)
	return n
}

// drawing shows what is new, heavy, on what was there before.
func (l *lesson) drawing(d *Drawing, box geom.Rect, fresh []Taught) {
	of := extent(fresh)
	for _, m := range fresh {
		if m.From != nil {
			of = of.Union(geom.BoundsOf([]geom.Pt{*m.From}))
		}
	}
	if of == (geom.Rect{}) {
		of = extent(l.Taught)
	}
	if grown := lessonLeast - of.H(); grown > 0 {
		of.Min.Y -= grown / 2
		of.Max.Y += grown / 2
	}
	inner := grow(box, -4)
	k := math.Min(inner.W()/math.Max(of.W(), 1), inner.H()/of.H())
	mid, to := of.Min.Lerp(of.Max, 0.5), box.Min.Lerp(box.Max, 0.5)
	d.Begin(Group{ID: "step-" + strconv.Itoa(l.cells), Clip: &box})
	on := newPlate(d, box, geom.Affine{A: k, D: k, E: to.X - k*mid.X, F: to.Y - k*mid.Y})
	for _, m := range l.past {
		if len(m.Path) > 0 {
			on.draw(Frame, m.Path)
		} else if m.hasPlace() {
			on.dot(Gauge, m.At, 0.3)
		}
	}
	for _, m := range fresh {
		if len(m.Path) > 0 {
			on.draw(CutLine, m.Path)
		} else if m.hasPlace() {
			on.draw(NotchLine, geom.Polyline(*m.From, m.At))
		}
	}
	for _, m := range fresh {
		if len(m.Path) == 0 && m.hasPlace() {
			on.dot(CutLine, m.At, 0.6)
		}
	}
	for _, m := range fresh {
		if len(m.Path) > 0 {
			at, _ := m.Path.At(m.Path.Len() / 2)
			on.number(m.No, at)
		} else if m.hasPlace() {
			on.number(m.No, m.At)
		}
	}
	d.End()
}
