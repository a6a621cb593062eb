package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

const (
	gaugeInset = 11  // of the squares from the edges of the sheet's own part, mm
	joinLong   = 8.0 // half the diagonals of a join mark, mm
	joinShort  = 6.0
	smallText  = 2.6 // a little over MinText, mm
	titleText  = 3.4
)

func (g grid) sheetName(p Page) string { return g.F("row %d / column %d", p.Row, p.Col) }

// joins lists where neighbouring pages meet, row by row.
func joins(pages []Page, g grid) []Join {
	at := make(map[[2]int]int, len(pages))
	for i, p := range pages {
		at[[2]int{p.Row, p.Col}] = i
	}
	var out []Join
	across, down := 0, 0
	for i, p := range pages {
		o := p.Window.Min
		if j, ok := at[[2]int{p.Row, p.Col + 1}]; ok {
			across++
			out = append(out, Join{strconv.Itoa(across), o.Add(geom.Vec{X: g.step.X, Y: g.step.Y / 2}), i, j, true})
		}
		if j, ok := at[[2]int{p.Row + 1, p.Col}]; ok {
			out = append(out, Join{letters(down), o.Add(geom.Vec{X: g.step.X / 2, Y: g.step.Y}), i, j, false})
			down++
		}
	}
	return out
}

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
			if side > 0 && j.From == i && g.glue < joinLong {
				continue // no room for it beyond the line
			}
			if side < 0 && j.To == i {
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

// foot writes which sheet this is, in the strip at the foot that the next
// sheet will cover.
func (g grid) foot(d *Drawing, t *Tiled, i int, opt TileOptions) {
	p := t.Pages[i]
	base := g.frame.Max.Y - math.Max(g.glue-titleText, 0)/2 - 0.5
	half := g.step.X/2 - joinShort - 4
	put := func(x float64, a Anchor, s string) {
		size := unit.Length(titleText)
		for size > MinText && TextWidth(s, size).MM() > half {
			size *= 0.95
		}
		size = max(size, MinText)
		r := []rune(s)
		for len(r) > 1 && TextWidth(string(r), size).MM() > half {
			r = r[:len(r)-1]
			s = strings.TrimRight(string(r), " ·") + "…"
		}
		d.Text(Text{Role: Note, At: geom.Pt{X: x, Y: base}, Size: size, Anchor: a, S: s})
	}
	put(g.frame.Min.X+2, Start, g.F("%s · sheet %d of %d", g.sheetName(p), i+1, len(t.Pages)))
	if opt.Job != "" {
		put(g.frame.Min.X+g.step.X-2, End, opt.Job)
	}
}

// gaugeBoxes returns where the squares may stand on a sheet, in the frame of
// the part that it adds.
func (g grid) gaugeBoxes() []geom.Rect {
	const in = 4 * 25.4
	far := g.step.Plus(geom.Vec{X: -gaugeInset - in, Y: -gaugeInset - in})
	var out []geom.Rect
	for _, a := range []geom.Pt{{X: gaugeInset, Y: far.Y}, {X: far.X, Y: far.Y}, {X: gaugeInset, Y: gaugeInset}, {X: far.X, Y: gaugeInset}} {
		out = append(out, geom.Rect{Min: a, Max: a.Add(geom.Vec{X: in, Y: in})})
	}
	return out
}

// gaugeLattice returns more places for the squares, gaugeStep apart.
func (g grid) gaugeLattice() []geom.Rect {
	const in, gaugeStep = 4 * 25.4, 12
	var out []geom.Rect
	for y := gaugeInset + 0.0; y <= g.step.Y-gaugeInset-in; y += gaugeStep {
		for x := gaugeInset + 0.0; x <= g.step.X-gaugeInset-in; x += gaugeStep {
			a := geom.Pt{X: x, Y: y}
			out = append(out, geom.Rect{Min: a, Max: a.Add(geom.Vec{X: in, Y: in})})
		}
	}
	return out
}

// gauge draws the squares of 100 mm and 4 in, from one corner, at that place
// of the sheet where they meet the fewest lines; on the first sheet the map
// and the cautions stand inside.
func (g grid) gauge(d *Drawing, t *Tiled, i int, reach reaches, whole Drawing, onto geom.Affine) {
	const mm, in = 100.0, 4 * 25.4
	best := math.Inf(1)
	var box geom.Rect
	near := reach.in(t.Pages[i].Window)
	for _, b := range append(g.gaugeBoxes(), g.gaugeLattice()...) {
		b = mapRect(b, geom.Translate(t.Pages[i].Window.Min.Sub(geom.Pt{})))
		if ink := near.ink(b); ink < best {
			best, box = ink, mapRect(b, onto)
		}
	}
	foot := geom.Pt{X: box.Min.X, Y: box.Max.Y} // the corner that both share
	square := func(side float64) {
		d.Path(closedShape(Gauge, []geom.Pt{
			foot.Add(geom.Vec{Y: -side}), foot.Add(geom.Vec{X: side, Y: -side}), foot.Add(geom.Vec{X: side}), foot,
		}))
	}
	d.Begin(Group{ID: fmt.Sprintf("squares-%d", i+1), Title: g.T("measure before you cut")})
	square(mm)
	square(in)
	up := geom.Vec{Y: -1}
	text := func(at geom.Pt, dir geom.Vec, s string) {
		d.Text(Text{Role: Note, At: at, Size: smallText, Anchor: Middle, Dir: dir, S: s})
	}
	text(foot.Add(geom.Vec{X: mm / 2, Y: -1.3}), geom.Vec{X: 1}, g.T("measure this: 100 mm"))
	text(foot.Add(geom.Vec{X: 1.3 + smallText*ascent, Y: -mm / 2}), up, g.T("measure this: 100 mm"))
	text(foot.Add(geom.Vec{X: in / 2, Y: -in - 1.2}), geom.Vec{X: 1}, g.T("4 in, the outer square"))
	text(foot.Add(geom.Vec{X: in + 1.2 + smallText*ascent, Y: -in / 2}), up, g.T("4 in, the outer square"))
	if i == 0 {
		g.first(d, t, geom.Rect{Min: foot.Add(geom.Vec{X: 7, Y: -mm + 5}), Max: foot.Add(geom.Vec{X: mm - 4, Y: -6})}, whole)
	}
	d.End()
}

// first fills the box on the first sheet: cautions, map, how to join.
func (g grid) first(d *Drawing, t *Tiled, box geom.Rect, whole Drawing) {
	y := box.Min.Y
	write := func(size float64, s string) {
		for _, l := range wrap(s, unit.Length(size), box.W()) {
			y += size * leading
			d.Text(Text{Role: Label, At: geom.Pt{X: box.Min.X, Y: y - size*(leading-1)}, Size: unit.Length(size), S: l})
		}
	}
	write(titleText, g.T("Check one square before you cut."))
	write(titleText, g.T("Print at 100 %, no fit-to-page."))
	how := g.T("Trim each sheet at the grey line on its left and top edge, lay it up to the line of the sheet before, match numbers and letters, glue.")
	if g.glue == 0 {
		how = g.T("Trim each sheet at the grey lines, lay the edges together, match numbers and letters, tape.")
	}
	write(smallText, how)
	write(smallText, g.F("%d of %s. The map says row/column.", len(t.Pages), t.Paper.Name))
	box.Min.Y = y + 2
	g.sheetMap(d, t, box, whole)
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
		s := fmt.Sprintf("%d/%d", page.Row, page.Col)
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
	for _, w := range strings.Fields(s) {
		next := strings.TrimSpace(cur + " " + w)
		if cur != "" && TextWidth(next, size).MM() > width {
			out, next = append(out, cur), w
		}
		cur = next
	}
	return append(out, cur)
}
