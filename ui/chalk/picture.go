package chalk

import (
	"math"

	"chalkfold/draft/chalk"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/ui/kit"
)

// Picture shows a piece faintly, what has been chalked of it before, and the
// mark to make now.
func Picture(x piece.Piece, before []chalk.Mark, now chalk.Mark) string {
	var pen kit.Pen
	same := geom.Identity()
	box := x.Bounds()
	size := math.Max(box.W(), box.H())
	pen.Ring("ghost", x.Cut, same)
	for _, m := range before {
		draw(&pen, "done", m, size)
	}
	if isAt(now) {
		pen.Reach(geom.Rect{Min: now.At, Max: now.At})
		pen.Dot("halo", now.At, size/22)
	}
	draw(&pen, "now", now, size)
	pen.Reach(box)
	b := pen.Box()
	edge := size / 20
	pen.Reach(geom.Rect{Min: geom.Pt{X: b.Min.X - edge, Y: b.Min.Y - edge}, Max: geom.Pt{X: b.Max.X + edge, Y: b.Max.Y + edge}})
	return pen.String()
}

// isAt reports whether a mark is a place on the piece.
func isAt(m chalk.Mark) bool {
	return m.Kind == chalk.Point || m.Kind == chalk.Move || m.Kind == chalk.Notch
}

func draw(pen *kit.Pen, class string, m chalk.Mark, size float64) {
	switch {
	case isAt(m):
		pen.Dot(class+" dot", m.At, size/90)
	case len(m.Path) > 0:
		pen.Path(class, m.Path, geom.Identity())
		for _, o := range m.Ordinates {
			if class == "now" {
				pen.Dot("now dot", onCurve(m, o), size/120)
			}
		}
	}
}

// onCurve is where an ordinate meets its curve.
func onCurve(m chalk.Mark, o chalk.Ordinate) geom.Pt {
	a, d := m.Path.Start(), m.Path.End()
	dir := d.Sub(a).Unit()
	foot := a.Add(dir.Scale(o.Along.MM()))
	left, right := foot.Add(dir.Left().Scale(o.Off.MM())), foot.Add(dir.Right().Scale(o.Off.MM()))
	_, offLeft := m.Path.Nearest(left)
	_, offRight := m.Path.Nearest(right)
	if offLeft < offRight {
		return left
	}
	return right
}
