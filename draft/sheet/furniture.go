package sheet

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

const (
	joinLong  = 8.0 // half the diagonals of a join mark, mm
	joinShort = 6.0
	smallText = 2.6 // a little over MinText, mm
	titleText = 3.4
)

func (g grid) sheetName(p Page) string { return g.F("row %d / column %d", p.Row, p.Col) }

// joins lists where neighbouring pages meet, row by row. A code is that of the
// place, the same whichever sheets are printed: "2/3" stands to the right of row
// 2 / column 3, "C2" under it.
func joins(pages []Page, g grid) []Join {
	at := make(map[[2]int]int, len(pages))
	for i, p := range pages {
		at[[2]int{p.Row, p.Col}] = i
	}
	var out []Join
	for i, p := range pages {
		o := p.Window.Min
		if j, ok := at[[2]int{p.Row, p.Col + 1}]; ok {
			out = append(out, Join{placeName(p), o.Add(geom.Vec{X: g.step.X, Y: g.step.Y / 2}), i, j, true})
		}
		if j, ok := at[[2]int{p.Row + 1, p.Col}]; ok {
			out = append(out, Join{letters(p.Col-1) + strconv.Itoa(p.Row), o.Add(geom.Vec{X: g.step.X / 2, Y: g.step.Y}), i, j, false})
		}
	}
	return out
}

// placeName is the place of a sheet, as short as it goes.
func placeName(p Page) string { return strconv.Itoa(p.Row) + "/" + strconv.Itoa(p.Col) }

// letters counts A to Z, AA, AB ...
func letters(n int) string {
	s := string(rune('A' + n%26))
	for n = n/26 - 1; n >= 0; n = n/26 - 1 {
		s = string(rune('A'+n%26)) + s
	}
	return s
}

// edges draws, on the sides of page i that meet another, the line where they
// meet and the mark on it. Both sheets draw the same; the frame of each shows
// what is its own.
func (g grid) edges(d *Drawing, t *Tiled, i int, onto geom.Affine) {
	for _, j := range t.Joins {
		if j.From != i && j.To != i {
			continue
		}
		at := onto.Pt(j.At)
		along, out := geom.Vec{Y: 1}, geom.Vec{X: 1}
		halfLine := g.step.Y / 2
		if !j.Across {
			along, out, halfLine = geom.Vec{X: 1}, geom.Vec{Y: 1}, g.step.X/2
		}
		d.Path(line(Frame, at.Add(along.Scale(-halfLine)), at.Add(along.Scale(halfLine))))
		d.Path(closedShape(Frame, []geom.Pt{
			at.Add(out.Scale(-joinLong)), at.Add(along.Scale(-joinShort)),
			at.Add(out.Scale(joinLong)), at.Add(along.Scale(joinShort)),
		}))
		for _, side := range [2]float64{-1, 1} {
			if (side > 0) == (j.From == i) {
				continue // it stands on the other sheet
			}
			c := at.Add(out.Scale(side * joinLong * 0.42))
			d.Text(Text{
				Role: Note, At: c.Add(geom.Vec{Y: titleText * ascent / 2}),
				Size: titleText, Anchor: Middle, S: j.Code,
			})
		}
	}
}

// sheetMap draws all the sheets small, with the pieces on them.
func (g grid) sheetMap(d *Drawing, t *Tiled, box geom.Rect, whole Drawing) {
	k := math.Min(box.W()/(float64(t.Cols)*g.step.X), box.H()/(float64(t.Rows)*g.step.Y))
	k = math.Min(k, 0.12)
	p := t.Pages[0]
	o := p.Window.Min.Add(geom.Vec{X: -float64(p.Col-1) * g.step.X, Y: -float64(p.Row-1) * g.step.Y})
	shrink := geom.Affine{A: k, D: k, E: box.Min.X - k*o.X, F: box.Min.Y - k*o.Y}
	d.Begin(Group{ID: "map", Title: g.T("map of the sheets")})
	for _, page := range t.Pages {
		d.Path(closedShape(Frame, corners(mapRect(g.cell(o, page.Row-1, page.Col-1), shrink))))
	}
	for _, out := range whole.Outlines {
		d.Path(closedShape(Gauge, geom.MapPts(geom.Tidy(out.Ring, 2), shrink)))
	}
	for _, page := range t.Pages {
		c := mapRect(g.cell(o, page.Row-1, page.Col-1), shrink)
		s := placeName(page)
		if TextWidth(s, MinText).MM() > c.W()-0.5 || MinText.MM() > c.H() {
			continue
		}
		d.Text(Text{
			Role: Note, At: geom.Pt{X: (c.Min.X + c.Max.X) / 2, Y: (c.Min.Y+c.Max.Y)/2 + MinText.MM()*ascent/2},
			Size: MinText, Anchor: Middle, S: s,
		})
	}
	d.End()
}

// wrap breaks s into lines no wider than width mm.
func wrap(s string, size unit.Length, width float64) []string {
	var out []string
	cur := ""
	for _, w := range strings.FieldsFunc(s, breaks) {
		next := strings.TrimSpace(cur + " " + w)
		if cur != "" && TextWidth(next, size).MM() > width {
			out, next = append(out, cur), w
		}
		cur = next
	}
	return append(out, cur)
}

// breaks reports whether a line may be broken at a space; at U+00A0 it may not.
func breaks(r rune) bool { return r == ' ' || r == '\n' }
