package sheet

import (
	"fmt"
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

const (
	gaugeMM    = 100.0    // side of the full square, mm
	gaugeIn    = 4 * 25.4 // and of the one around it
	gaugeInset = 11       // of the squares from the edges of a sheet, clear of the join marks, mm
	gaugeStep  = 12       // between the places tried for them, mm
	gaugeOver  = 4        // what the words above and beside the squares take, mm
)

// ruler is a pair of squares that share a corner: the inner in millimetres, the
// outer in inches. Where the full pair finds no room clear of the pattern, a
// smaller one is taken.
type ruler struct{ mm, in int }

func rulers() []ruler { return []ruler{{100, 4}, {50, 2}, {25, 1}} }

func (r ruler) side() float64 { return float64(r.in) * unit.Inch.MM() }

// standing is where the squares of a sheet stand, in its own frame.
type standing struct {
	ruler
	foot geom.Pt // the corner that both share: left, and lowest
	ink  float64 // of the pattern that they lie over, mm
}

// furniture is what is settled for all sheets before the first is drawn.
type furniture struct {
	squares []standing // by the page
	guide   int        // the page whose squares hold the map and how to join
	job     string
}

// plan finds a place for the squares of every page.
func (g grid) plan(pages []Page, reach reaches, opt TileOptions) furniture {
	f := furniture{job: opt.Job, guide: -1}
	for i, p := range pages {
		s := g.stand(reach.in(p.Window), p.Window)
		f.squares = append(f.squares, s)
		if f.guide < 0 && s.mm == gaugeMM && s.ink == 0 {
			f.guide = i
		}
	}
	if f.guide < 0 && len(pages) > 0 { // nowhere is room: over the lines, on the first
		f.guide = 0
		f.squares[0] = g.best(rulers()[0], reach.in(pages[0].Window), pages[0].Window)
	}
	return f
}

// stand returns the largest squares that stand clear of the pattern.
func (g grid) stand(near reaches, window geom.Rect) standing {
	var s standing
	for _, r := range rulers() {
		if s = g.best(r, near, window); s.ink == 0 {
			break
		}
	}
	return s
}

// best returns the place of a ruler over the least ink: near the corners first,
// then anywhere.
func (g grid) best(r ruler, near reaches, window geom.Rect) standing {
	out := standing{ruler: r, ink: math.Inf(1)}
	try := func(x, y float64) {
		foot := geom.Pt{X: x, Y: y}
		at := geom.Translate(window.Min.Sub(geom.Pt{}))
		if ink := near.ink(mapRect(r.takes(foot), at)); ink < out.ink {
			out.foot, out.ink = foot, ink
		}
	}
	left, right := gaugeInset+0.0, g.step.X-gaugeInset-r.side()
	top, low := gaugeInset+r.side(), g.step.Y-gaugeInset
	for _, y := range [2]float64{low, top} {
		try(left, y)
		try(right, y)
	}
	for y := top; y <= low && out.ink > 0; y += gaugeStep {
		for x := left; x <= right && out.ink > 0; x += gaugeStep {
			try(x, y)
		}
	}
	return out
}

// takes returns the room for the squares at foot and their words.
func (r ruler) takes(foot geom.Pt) geom.Rect {
	return geom.Rect{
		Min: foot.Add(geom.Vec{X: -1, Y: -r.side() - gaugeOver}),
		Max: foot.Add(geom.Vec{X: r.side() + gaugeOver, Y: 1}),
	}
}

// gauge draws the squares of page i, and inside them which sheet it is; on one
// sheet the map and how to join stand there too.
func (g grid) gauge(d *Drawing, t *Tiled, i int, f furniture, whole Drawing) {
	s := f.squares[i]
	foot := s.foot.Add(g.frame.Min.Sub(geom.Pt{}))
	mm := float64(s.mm)
	d.Begin(Group{ID: fmt.Sprintf("squares-%d", i+1), Title: g.T("measure before you cut")})
	g.squares(d, s.ruler, foot)
	n := &notice{d: d, box: geom.Rect{Min: foot.Add(geom.Vec{X: 7, Y: -mm + 2}), Max: foot.Add(geom.Vec{X: mm - 1, Y: -5})}}
	g.name(n, t, i, f.job)
	if i == f.guide {
		g.howTo(n, t)
		n.box.Min.Y += 2
		g.sheetMap(d, t, n.box, whole)
	}
	d.End()
}

// squares draws a pair of squares at their foot, with what they measure.
func (g grid) squares(d *Drawing, r ruler, foot geom.Pt) {
	mm, in := float64(r.mm), r.side()
	square := func(side float64) {
		d.Path(closedShape(Gauge, []geom.Pt{
			foot.Add(geom.Vec{Y: -side}), foot.Add(geom.Vec{X: side, Y: -side}), foot.Add(geom.Vec{X: side}), foot,
		}))
	}
	square(mm)
	square(in)
	inner, outer := g.F("measure this: %d mm", r.mm), g.F("%d in, the outer square", r.in)
	if r.in == 1 {
		inner, outer = g.F("%d mm", r.mm), g.F("%d in", r.in)
	}
	up := geom.Vec{Y: -1}
	text := func(at geom.Pt, dir geom.Vec, s string) {
		d.Text(Text{Role: Note, At: at, Size: smallText, Anchor: Middle, Dir: dir, S: s})
	}
	text(foot.Add(geom.Vec{X: mm / 2, Y: -1.3}), geom.Vec{X: 1}, inner)
	text(foot.Add(geom.Vec{X: 1.3 + smallText*ascent, Y: -mm / 2}), up, inner)
	text(foot.Add(geom.Vec{X: in / 2, Y: -in - 1.2}), geom.Vec{X: 1}, outer)
	text(foot.Add(geom.Vec{X: in + 1.2 + smallText*ascent, Y: -in / 2}), up, outer)
}

// notice is a box being filled with lines.
type notice struct {
	d   *Drawing
	box geom.Rect // what is left of it
}

// write sets s at the top of what is left, as many lines as it takes; nothing
// when it does not fit.
func (n *notice) write(role Role, size float64, s string) {
	lines := wrap(s, unit.Length(size), n.box.W())
	if n.box.Min.Y+size*leading*float64(len(lines)) > n.box.Max.Y {
		return
	}
	for _, l := range lines {
		n.box.Min.Y += size * leading
		n.d.Text(Text{Role: role, At: geom.Pt{X: n.box.Min.X, Y: n.box.Min.Y - size*(leading-1)}, Size: unit.Length(size), S: l})
	}
}

// name writes which sheet this is.
func (g grid) name(n *notice, t *Tiled, i int, job string) {
	size := titleText
	if n.box.W() < gaugeMM/2 {
		size = MinText.MM()
	}
	n.write(Label, size, g.F("%s · sheet %d of %d", g.sheetName(t.Pages[i]), i+1, len(t.Pages)))
	if t.Plan != "" {
		n.write(Note, MinText.MM(), g.F("plan %s", t.Plan))
	}
	if job != "" {
		n.write(Note, size, job)
	}
}

// howTo writes the cautions and how to join.
func (g grid) howTo(n *notice, t *Tiled) {
	n.box.Min.Y += 1.5
	n.write(Label, titleText, g.T("Check one square before you cut."))
	n.write(Label, titleText, g.T("Print at 100 %, no fit-to-page."))
	if len(t.Joins) > 0 {
		n.write(Label, smallText, g.T("Trim a sheet at the grey line on its left and top edge, lay it over the white edge of the sheet before, up to the grey line there. Match the codes, glue."))
		n.write(Label, smallText, g.F("%d of %s. The map says row/column.", len(t.Pages), t.Paper.Name))
	}
}
