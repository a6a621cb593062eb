package cloth

import (
	"math"
	"strconv"

	"chalkfold/draft"
	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Picture is a lay as it lies on the table, and what can be pointed at on it.
type Picture struct {
	SVG   string
	rings []ring
}

// ring is the cut line of one item as it is drawn.
type ring struct {
	item int
	pts  []geom.Pt
}

// Hit is the item that a finger at a place means, which it may miss by reach;
// false when there is none.
func (p Picture) Hit(at geom.Pt, reach float64) (int, bool) {
	item, off := -1, reach
	for _, r := range p.rings {
		if geom.Contains(r.pts, at) {
			return r.item, true
		}
		if d := geom.RingDist(r.pts, at); d < off {
			item, off = r.item, d
		}
	}
	return item, item >= 0
}

// GroupID names the group of an item in the document.
func GroupID(item int) string { return "item-" + strconv.Itoa(item) }

// Draw draws a lay: the cloth, the pieces on it by their numbers, and their
// names where there is room. held is the item in the hand, −1 for none.
func Draw(l *draft.Laid, f unit.Format, held int) Picture {
	t := newTable(l, f)
	t.cloth()
	var p Picture
	for _, pass := range []bool{false, true} { // what is held lies on top
		for _, pl := range l.Placements {
			if (pl.Item == held) == pass {
				pts := geom.MapPts(pl.Ring(l.Items), t.at(pl.Opened))
				p.rings = append(p.rings, ring{pl.Item, pts})
				t.piece(pl, pts, pass)
			}
		}
	}
	t.measures()
	t.pen.Reach(geom.Rect{
		Min: t.box.Min.Add(geom.Vec{X: -t.rim, Y: -t.rim}), Max: t.box.Max.Add(geom.Vec{X: t.rim, Y: t.rim}),
	})
	p.SVG = t.pen.String()
	return p
}

// table is a lay being drawn. On it x runs from the fold, or the left selvedge,
// and y along the cloth.
type table struct {
	l     *draft.Laid
	f     unit.Format
	pen   kit.Pen
	names kit.Labels
	end   reach
	box   geom.Rect // all cloth that is shown
	rim   float64   // room for a line of text round it, mm
	hand  float64   // where the cloth at hand ends along the table; 0 on the bolt
	shift float64   // of the opened rest, which lies half to each side of where the fold was
}

// reach is how far the cloth in use goes along the table, mm.
type reach struct{ folded, all float64 }

// mostLeft is how much of what is left over is drawn, as a share of what is used.
const mostLeft = 0.3

func newTable(l *draft.Laid, f unit.Format) *table {
	t := &table{l: l, f: f, end: along(l)}
	t.names.Pen = &t.pen
	if len(l.Cloth.Outline) > 0 {
		t.box = geom.BoundsOf(l.Cloth.Outline)
		t.rim = rimOf(t.box)
		return t
	}
	t.box.Max = geom.Pt{X: l.Cloth.Folded().MM(), Y: t.end.all}
	if t.end.all > t.end.folded && l.Cloth.Fold == lay.Lengthwise {
		t.shift = -l.Cloth.Folded().MM()
		t.box.Min.X = t.shift
	}
	if l.Cloth.Length > 0 {
		t.hand = t.end.all + (l.Cloth.Length - l.Length).MM()
		if l.Cloth.Fold == lay.Crosswise {
			t.hand = t.end.all + (l.Cloth.Length-l.Length).MM()/2
		}
		t.box.Max.Y = max(t.end.all, min(t.hand, t.end.all*(1+mostLeft)))
	}
	t.rim = rimOf(t.box)
	return t
}

// rimOf is the room of a line of text round a box that fills a small screen, mm.
func rimOf(b geom.Rect) float64 { return max(b.W()/13, b.H()/17) }

func along(l *draft.Laid) reach {
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

func (t *table) at(opened bool) geom.Affine {
	if opened {
		return geom.Translate(geom.Vec{X: t.shift})
	}
	return geom.Identity()
}

func (t *table) line(class string, a, b geom.Pt) {
	t.pen.Path(class, geom.Polyline(a, b), geom.Identity())
}

func (t *table) area(class string, left, top, right, foot float64) {
	if right > left && foot > top {
		t.pen.Ring(class, []geom.Pt{{X: left, Y: top}, {X: right, Y: top}, {X: right, Y: foot}, {X: left, Y: foot}}, geom.Identity())
	}
}

// cloth draws what the pieces lie on.
func (t *table) cloth() {
	c := t.l.Cloth
	if len(c.Outline) > 0 {
		t.pen.Ring("cloth", c.Outline, geom.Identity())
		t.pen.Ring("cut-edge", c.Outline, geom.Identity())
	} else {
		t.length()
		t.edges()
	}
	for _, flaw := range c.Flaws {
		mid := geom.BoundsOf(flaw).Min.Lerp(geom.BoundsOf(flaw).Max, 0.5)
		m := geom.Identity()
		half := c.Folded().MM()
		switch {
		case c.Fold != lay.Lengthwise:
		case mid.Y > t.end.folded:
			m = geom.Translate(geom.Vec{X: -half})
		case mid.X < half:
			m = geom.MirrorX(half).Then(geom.Translate(geom.Vec{X: -half}))
		default:
			m = geom.Translate(geom.Vec{X: -half})
		}
		t.pen.Ring("flaw", flaw, m)
		t.names.Beside("label", t.f.Words.T("flaw"), m.Pt(mid))
	}
}

// length draws the length of the cloth: used, left over, wanting.
func (t *table) length() {
	c := t.l.Cloth
	right, end := t.box.Max.X, t.box.Max.Y
	has := end
	if t.hand > 0 {
		has = min(end, t.hand)
	}
	opened := t.box.Min.X
	t.area("cloth", 0, 0, right, min(has, t.end.folded))
	t.area("cloth", opened, t.end.folded, right, has)
	if c.Fold == lay.Crosswise || t.shift == 0 {
		t.area("cloth", 0, t.end.folded, right, has)
	}
	t.area("offcut", opened, t.end.all, right, has)
	t.area("wanting", opened, max(has, 0), right, t.end.all)
	if m := c.Margin.MM(); m > 0 {
		t.area("margin", right-m, 0, right, has)
		if c.Fold != lay.Lengthwise {
			t.area("margin", 0, 0, m, has)
		} else if t.shift != 0 {
			t.area("margin", opened, t.end.folded, opened+m, has)
		}
	}
}

// edges names the fold, the selvedges and the cut edge.
func (t *table) edges() {
	w, c := t.f.Words, t.l.Cloth
	right, foot := t.box.Max.X, t.box.Max.Y
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	side := func(x, out, y float64, name string) { t.pen.WordUp("label", name, p(x+out*t.rim/2, y)) }
	t.line("selvedge", p(right, 0), p(right, foot))
	switch c.Fold {
	case lay.Lengthwise:
		fold := t.end.folded
		if t.shift == 0 {
			fold = foot
		} else {
			t.line("selvedge", p(t.box.Min.X, fold), p(t.box.Min.X, foot))
			t.line("cut-edge", p(t.box.Min.X, fold), p(0, fold))
			side(t.box.Min.X, -1, (fold+foot)/2, w.T("selvedge"))
		}
		t.line("fold", p(0, 0), p(0, fold))
		side(0, -1, fold/2, w.T("fold"))
		side(right, 1, fold/5, w.T("selvedges"))
	case lay.Open, lay.Crosswise:
		t.line("selvedge", p(0, 0), p(0, foot))
		side(0, -1, foot/2, w.T("selvedge"))
		side(right, 1, foot/5, w.T("selvedge"))
	}
	if c.Fold == lay.Crosswise {
		t.line("fold", p(0, 0), p(right, 0))
		t.line("cut-edge", p(0, t.end.folded), p(right, t.end.folded))
		return
	}
	t.line("cut-edge", p(0, 0), p(right, 0))
}

// piece draws one piece: its cut line, its grain line and its number.
func (t *table) piece(p lay.Placement, pts []geom.Pt, held bool) {
	class := "cut"
	if t.l.Items[p.Item].Locked != nil {
		class += " kept"
	}
	if held {
		class += " lifted"
	}
	t.pen.Begin("piece", GroupID(p.Item))
	t.pen.Ring(class, pts, geom.Identity())
	m := p.At.Then(t.at(p.Opened))
	t.grain(m, t.l.Items[p.Item].Grain)
	name := t.f.Words.T(t.l.Items[p.Item].Name)
	t.names.Inside("label", strconv.Itoa(p.Item+1), name, heart(pts))
	t.pen.End()
}

// grain draws a grain line with a dot where it begins.
func (t *table) grain(m geom.Affine, g [2]geom.Pt) {
	a, b := m.Pt(g[0]), m.Pt(g[1])
	if a.Dist(b) == 0 {
		return
	}
	t.line("grain", a, b)
	t.pen.Mark("grain-start", a)
}

// measures writes how wide the cloth is, how much of it is used, and what is
// left or wanting.
func (t *table) measures() {
	w, say := t.f.Words, t.f.Text
	mid := func(y float64) geom.Pt { return geom.Pt{X: (t.box.Min.X + t.box.Max.X) / 2, Y: y} }
	if len(t.l.Cloth.Outline) > 0 {
		t.pen.Word("label", say(unit.Length(t.box.W())), "middle", mid(t.box.Min.Y-t.rim/2), 0, 0)
		t.pen.WordUp("label", say(unit.Length(t.box.H())), geom.Pt{X: t.box.Max.X + t.rim/2, Y: t.box.Min.Y + t.box.H()/2})
		return
	}
	wide := w.F("%s wide", say(t.l.Cloth.Width))
	if t.l.Cloth.Fold == lay.Lengthwise {
		wide = w.F("%s, folded", say(t.l.Cloth.Folded()))
	}
	t.pen.Word("label", wide, "middle", geom.Pt{X: t.box.Max.X / 2, Y: -t.rim / 2}, 0, 0)
	used := w.F("%s used", say(t.l.Length))
	if t.l.Cloth.Fold == lay.Crosswise {
		used = w.F("%s used, both layers", say(t.l.Length))
	}
	at := 0.75
	if t.hand > 0 && t.hand < t.end.all { // clear of where the cloth ends
		at = 0.5
	}
	t.pen.WordUp("label", used, geom.Pt{X: t.box.Max.X + t.rim/2, Y: at * t.end.all})
	t.line("end", geom.Pt{X: t.box.Min.X, Y: t.end.all}, geom.Pt{X: t.box.Max.X, Y: t.end.all})
	switch over := t.l.Cloth.Length - t.l.Length; {
	case t.l.Cloth.Length == 0:
	case over > 0:
		t.pen.Word("label", w.F("%s left", say(over)), "middle", mid(min(t.box.Max.Y, t.hand)+t.rim/2), 0, 0)
	case t.hand > 0:
		t.line("short", geom.Pt{X: t.box.Min.X, Y: t.hand}, geom.Pt{X: t.box.Max.X, Y: t.hand})
		t.pen.Word("label short-word", w.T("the cloth ends here"), "middle", mid(t.hand), 0, 11)
	}
}

// heart is a box round the middle of the widest stretch of a ring near half its
// height, as wide as that.
func heart(r []geom.Pt) geom.Rect {
	box := geom.BoundsOf(r)
	best, wide := box.Min.Lerp(box.Max, 0.5), 0.0
	for _, share := range [...]float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		y := box.Min.Y + share*box.H()
		lo, hi := math.Inf(1), math.Inf(-1)
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if (a.Y > y) != (b.Y > y) {
				x := a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y)
				lo, hi = min(lo, x), max(hi, x)
			}
		}
		if w := hi - lo; w > wide*1.1 {
			best, wide = geom.Pt{X: (lo + hi) / 2, Y: y}, w
		}
	}
	half := geom.Vec{X: wide / 2, Y: min(best.Y-box.Min.Y, box.Max.Y-best.Y)}
	return geom.Rect{Min: best.Add(half.Neg()), Max: best.Add(half)}
}
