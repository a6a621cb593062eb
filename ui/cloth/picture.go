package cloth

import (
	"strconv"
	"unicode/utf8"

	"chalkfold/draft"
	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

const textSize = 46.0 // mm: some 11 px where cloth of 30 in fills a small screen

// Picture draws a lay: the cloth as it lies on the table, the pieces on it with
// their names, and numbers for those too small for a name. The list names the
// numbers.
func Picture(l *draft.Laid, f unit.Format) (svg string, list []string) {
	var pen kit.Pen
	same := geom.Identity()
	folded := l.Cloth.Folded().MM()
	end := table(l)
	cloth := geom.Rect{Max: geom.Pt{X: folded, Y: end.folded}}
	pen.Ring("cloth", ring(cloth), same)
	opened := geom.Rect{Min: geom.Pt{Y: end.folded}, Max: geom.Pt{X: l.Cloth.Width.MM(), Y: end.all}}
	shift := geom.Identity()
	if end.all > end.folded {
		if l.Cloth.Fold == lay.Lengthwise {
			// The opened rest lies half to each side of where the fold was.
			shift = geom.Translate(geom.Vec{X: -folded})
		}
		pen.Ring("cloth", ring(opened), shift)
	}
	for _, p := range l.Placements {
		at := same
		if p.Opened {
			at = shift
		}
		r := geom.MapPts(p.Ring(l.Items), at)
		pen.Ring("cut", r, same)
		name := f.Words.T(l.Items[p.Item].Name)
		box := geom.BoundsOf(r)
		mid := inside(r, box)
		if w := float64(utf8.RuneCountInString(name)) * textSize * 0.56; w < box.W()*0.9 && box.H() > 1.4*textSize {
			pen.Text("label", name, mid.Add(geom.Vec{Y: textSize / 3}), textSize)
			continue
		}
		list = append(list, name)
		pen.Text("label", strconv.Itoa(len(list)), mid.Add(geom.Vec{Y: textSize / 3}), textSize)
	}
	edges(&pen, l, cloth)
	left, right := 0.0, folded
	if end.all > end.folded {
		b := geom.BoundsOf(geom.MapPts(ring(opened), shift))
		left, right = min(left, b.Min.X), max(right, b.Max.X)
	}
	pen.Text("label", f.Text(unit.Length(folded)), geom.Pt{X: folded / 2, Y: -textSize / 2}, textSize)
	// How far the pieces go along the table, and where the cloth at hand ends
	// when it does not go so far.
	pen.Upright("label", f.Text(unit.Length(end.all)), geom.Pt{X: right + textSize, Y: end.all / 2}, textSize)
	if hand := end.all - l.ShortBy.MM(); l.ShortBy > 0 && hand > 0 {
		pen.Path("short", geom.Polyline(geom.Pt{X: left, Y: hand}, geom.Pt{X: right, Y: hand}), same)
		pen.Text("label", f.Words.T("the cloth ends here"), geom.Pt{X: (left + right) / 2, Y: hand + 1.1*textSize}, textSize)
	}
	pen.Reach(geom.Rect{Min: geom.Pt{X: left - 12, Y: -1.6 * textSize}, Max: geom.Pt{X: right + 1.6*textSize, Y: end.all + 12}})
	return pen.String(), list
}

// reach is how far the cloth in use goes along the table, mm.
type reach struct{ folded, all float64 }

func table(l *draft.Laid) reach {
	all := l.Length.MM()
	switch l.Cloth.Fold {
	case lay.Open:
		return reach{all, all}
	case lay.Crosswise:
		return reach{l.FoldedTo.MM(), all - l.FoldedTo.MM()}
	case lay.Lengthwise:
	}
	return reach{l.FoldedTo.MM(), all}
}

// edges marks the fold; the other long edges are selvedges.
func edges(pen *kit.Pen, l *draft.Laid, cloth geom.Rect) {
	line := func(class string, a, b geom.Pt) { pen.Path(class, geom.Polyline(a, b), geom.Identity()) }
	tr, bl := geom.Pt{X: cloth.Max.X, Y: cloth.Min.Y}, geom.Pt{X: cloth.Min.X, Y: cloth.Max.Y}
	line("selvedge", tr, cloth.Max)
	if l.Cloth.Fold == lay.Lengthwise {
		line("fold", cloth.Min, bl)
		return
	}
	line("selvedge", cloth.Min, bl)
	if l.Cloth.Fold == lay.Crosswise {
		line("fold", cloth.Min, tr)
	}
}

func ring(r geom.Rect) []geom.Pt {
	return []geom.Pt{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// inside is the middle of the widest stretch of the ring near half its height.
func inside(r []geom.Pt, box geom.Rect) geom.Pt {
	best, wide := geom.Pt{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}, 0.0
	for _, share := range [...]float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		y := box.Min.Y + share*box.H()
		var xs []float64
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.Y > y) != (b.Y > y) {
				xs = append(xs, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
			}
		}
		lo, hi := box.Max.X, box.Min.X
		for _, x := range xs {
			lo, hi = min(lo, x), max(hi, x)
		}
		if w := hi - lo; w > wide*1.1 {
			best, wide = geom.Pt{X: (lo + hi) / 2, Y: y}, w
		}
	}
	return best
}
