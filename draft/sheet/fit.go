package sheet

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Fit returns d on one sheet of paper, as large as it goes within the margin,
// upright or on its side: a picture to work from, not true to scale.
func Fit(d Drawing, paper Paper) Drawing {
	if t := paper.Turned(); d.scale(t) > d.scale(paper) {
		paper = t
	}
	k := d.scale(paper)
	out := Drawing{Bounds: paper.box()}
	middle := paper.box().Min.Lerp(paper.box().Max, 0.5)
	from := d.Bounds.Min.Lerp(d.Bounds.Max, 0.5)
	out.place(d, geom.Affine{A: k, D: k, E: middle.X - k*from.X, F: middle.Y - k*from.Y})
	return out
}

// scale is how large d can be drawn within the margin of a sheet.
func (d Drawing) scale(p Paper) float64 {
	room := grow(p.box(), -minMargin.MM())
	return math.Min(room.W()/d.Bounds.W(), room.H()/d.Bounds.H())
}

// FitLegibly is Fit of what is drawn with text that can still be read on that sheet.
func FitLegibly(draw func(text unit.Length) Drawing, paper Paper) Drawing {
	const rounds = 4 // larger text takes more room, and so on
	text := MinText
	var d Drawing
	for range rounds {
		d = draw(text)
		text = MinText / unit.Length(math.Max(d.scale(paper), d.scale(paper.Turned())))
	}
	return Fit(d, paper)
}

// Items lists numbered texts under a title, on as many sheets as they take.
func Items(paper Paper, title string, texts []string) []Drawing {
	const size, head = 3.2, 5.0
	var pages []Drawing
	var at *column
	for i, s := range texts {
		if at == nil || !at.item(&pages[len(pages)-1], i+1, s, size) {
			pages = append(pages, Drawing{Bounds: paper.box()})
			page := &pages[len(pages)-1]
			at = newColumn(grow(paper.box(), -minMargin.MM()))
			at.write(page, Label, title, head, 0)
			at.y += size
			at.item(page, i+1, s, size)
		}
	}
	return pages
}
