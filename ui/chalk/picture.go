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
func Picture(x piece.Piece, before []Mark, now Mark) string {
	var pen kit.Pen
	box := x.Bounds()
	size := math.Max(box.W(), box.H())
	if isAt(now.Of) {
		pen.Reach(geom.Rect{Min: now.Of.At, Max: now.Of.At})
	}
	scene(&pen, x, before, now, size)
	pen.Reach(box)
	pen.Reach(wider(pen.Box(), size/20))
	return pen.String()
}

// Close shows the mark to make now as near as it can be seen together with
// where the tape is held; "" when that is the whole piece, or nowhere on it.
func Close(x piece.Piece, before []Mark, now Mark) string {
	var near []geom.Pt
	switch {
	case isAt(now.Of):
		near = append(near, now.Of.At)
	case len(now.Of.Path) > 0:
		near = now.Of.Path.Flatten(0.5)
	default:
		return ""
	}
	if now.HasHeld {
		near = append(near, now.Held)
	}
	whole, box := x.Bounds(), geom.BoundsOf(near)
	size := math.Max(whole.W(), whole.H())
	shown := math.Max(box.W(), box.H())
	const leastShare, mostShare = 0.2, 0.6 // of the piece
	if shown > mostShare*size {
		return ""
	}
	shown = math.Max(shown, leastShare*size)
	var pen kit.Pen
	pen.Reach(wider(box, math.Max(0.18*shown, (shown-math.Max(box.W(), box.H()))/2)))
	scene(&pen, x, before, now, shown)
	return pen.String()
}

// scene draws the piece, what was chalked before, the tape, and the mark, in a
// picture of that size.
func scene(pen *kit.Pen, x piece.Piece, before []Mark, now Mark, size float64) {
	pen.Ring("ghost", x.Cut, geom.Identity())
	if isAt(now.Of) {
		pen.Dot("halo", now.Of.At, size/18)
	}
	for _, m := range before {
		draw(pen, "done", m.Of, size)
	}
	if now.HasHeld && isAt(now.Of) {
		corner := now.Held
		if now.Of.ThenWay != "" { // across first, then down
			corner = now.Held.Add(legOf(now))
		}
		pen.Path("held", geom.Polyline(now.Held, corner, now.Of.At), geom.Identity())
		pen.Dot("held dot", now.Held, size/80)
	}
	draw(pen, "now", now.Of, size)
}

// legOf is the first of two measures, which stand square to each other: of the
// two ways round, the one whose first leg is as long as was measured, and
// nearest to level or upright.
func legOf(m Mark) geom.Vec {
	way := m.Of.At.Sub(m.Held)
	along := m.Of.Measure.MM()
	if l := way.Len(); l > 0 && along < l {
		angle := math.Acos(along / l)
		a, b := way.Unit().Rotate(angle), way.Unit().Rotate(-angle)
		if slant(b) < slant(a) {
			a = b
		}
		return a.Scale(along)
	}
	return way
}

// slant is how far a direction is from level or upright.
func slant(v geom.Vec) float64 { return math.Min(math.Abs(v.X), math.Abs(v.Y)) }

func wider(r geom.Rect, by float64) geom.Rect {
	return geom.Rect{Min: geom.Pt{X: r.Min.X - by, Y: r.Min.Y - by}, Max: geom.Pt{X: r.Max.X + by, Y: r.Max.Y + by}}
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
