package sheet

import (
	"math"
	"strconv"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Options say how pieces are drawn. The zero value draws for paper.
type Options struct {
	Job   string     // named on every piece; may be empty
	Words *say.Words // of the reader
	// Text is the size of the small text; zero is MinText. The label of a piece
	// is larger where there is room.
	Text unit.Length
	// Brief leaves only the name and the count in the label.
	Brief bool
	// joins are lines that a label keeps off, in the piece's own frame.
	joins [][2]geom.Pt
}

func (o Options) text() float64 {
	if o.Text <= 0 {
		return MinText.MM()
	}
	return o.Text.MM()
}

// Piece draws p true to scale, where it lies in its own frame: cut line, sew
// line, grain, notches with their numbers, inner lines, marks, and a label
// that says what to cut.
func Piece(p piece.Piece, opt Options) Drawing {
	d, _ := drawPiece(p, opt)
	return d
}

// drawPiece also says whether the label found room inside.
func drawPiece(p piece.Piece, opt Options) (Drawing, bool) {
	d := Drawing{Bounds: grow(p.Bounds(), StyleOf(CutLine).Width.MM()/2)}
	d.Outlines = []Outline{{p.ID, p.Cut}}
	d.Begin(Group{ID: p.ID, Title: opt.Words.T(p.Name)})
	busy := newRoom(p.Sew)
	if len(p.Sew) == 0 {
		busy = newRoom(p.Cut)
	}
	drawOutline(&d, p)
	drawInside(&d, p, opt, busy)
	drawNotches(&d, p, opt, busy)
	fits := drawGrainAndLabel(&d, p, opt, busy)
	d.End()
	return d, fits
}

// foldTol is how far, in mm, a point of the cut ring may stand off the line of
// a fold and still lie on it: twice the flattening of either.
const foldTol = 2 * piece.FlattenTol

// drawOutline draws the cut line, except where the piece lies on a fold, and
// the sew line where it is not the cut line.
func drawOutline(d *Drawing, p piece.Piece) {
	var folds [][2]geom.Pt
	for _, e := range p.Edges {
		if e.Fold && len(e.Sew) > 0 {
			folds = append(folds, [2]geom.Pt{e.Sew.Start(), e.Sew.End()})
		}
	}
	if len(folds) == 0 && len(p.Cut) > 0 {
		d.Path(closedShape(CutLine, p.Cut))
	}
	if len(folds) > 0 {
		for _, r := range ringRuns(p.Cut, func(a, b geom.Pt) bool { return onFold(a, b, folds) }) {
			role := CutLine
			if r.fold {
				role = FoldLine
			}
			d.Path(line(role, r.pts...))
		}
	}
	if len(p.Edges) == 0 && len(p.Sew) > 0 {
		d.Path(closedShape(SewLine, p.Sew))
	}
	for _, e := range p.Edges {
		if !e.Fold && len(e.Sew) > 0 && (e.AllowStart != 0 || e.AllowEnd != 0) {
			d.Path(Shape{Role: SewLine, Path: e.Sew})
		}
	}
}

// onFold reports whether the side ab of the cut ring lies along a fold: a fold
// is straight and runs on through the allowances at its ends.
func onFold(a, b geom.Pt, folds [][2]geom.Pt) bool {
	for _, f := range folds {
		n := f[1].Sub(f[0]).Unit().Left()
		if math.Abs(a.Sub(f[0]).Dot(n)) <= foldTol && math.Abs(b.Sub(f[0]).Dot(n)) <= foldTol {
			return true
		}
	}
	return false
}

// run is a stretch of the cut ring, on a fold or not.
type run struct {
	fold bool
	pts  []geom.Pt
}

// ringRuns cuts the ring where it comes onto a fold and leaves it.
func ringRuns(ring []geom.Pt, fold func(a, b geom.Pt) bool) []run {
	n := len(ring)
	is := func(i int) bool { return fold(ring[i%n], ring[(i+1)%n]) }
	start := 0
	for i := range n {
		if is(i) != is(i+n-1) {
			start = i
			break
		}
	}
	var out []run
	for k := start; k < start+n; k++ {
		if f := is(k); k == start || f != out[len(out)-1].fold {
			out = append(out, run{f, []geom.Pt{ring[k%n]}})
		}
		last := &out[len(out)-1]
		last.pts = append(last.pts, ring[(k+1)%n])
	}
	return out
}

// roleOf is the role of an inner line of that kind.
func roleOf(k piece.LineKind) Role {
	switch k {
	case piece.CreaseLine:
		return CreaseLine
	case piece.DartLine:
		return DartLine
	case piece.FoldLine:
		return FoldLine
	case piece.PlainLine:
	}
	return InnerLine
}

// drillRadius is that of the ring drawn around a mark, mm.
const drillRadius = 1.5

func drawInside(d *Drawing, p piece.Piece, opt Options, busy *room) {
	size := opt.text()
	for _, e := range p.Edges {
		if e.Fold && !opt.Brief {
			nameAlong(d, opt.Words.T("place on the fold"), e.Sew, size, busy)
		}
	}
	for _, l := range p.Lines {
		if len(l.Path) == 0 {
			continue
		}
		role := roleOf(l.Kind)
		d.Path(Shape{Role: role, Path: l.Path})
		busy.path(l.Path)
		if role != DartLine {
			nameAlong(d, opt.Words.T(l.Name), l.Path, size, busy)
		}
	}
	for _, m := range p.Marks {
		r := math.Max(drillRadius, size/4)
		d.Path(circle(MarkPoint, m.At, r))
		d.Path(line(MarkPoint, m.At.Add(geom.Vec{X: -r}), m.At.Add(geom.Vec{X: r})))
		d.Path(line(MarkPoint, m.At.Add(geom.Vec{Y: -r}), m.At.Add(geom.Vec{Y: r})))
		busy.box(m.At, geom.Vec{X: 1}, r, r)
	}
}

// nameAlong writes the name of a line along it, on the side and at the place
// where it fits; not at all when it fits nowhere.
func nameAlong(d *Drawing, name string, path geom.Path, size float64, busy *room) {
	halfW, halfH := TextWidth(name, unit.Length(size)).MM()/2, size*(ascent+descent)/2
	total := path.Len()
	if name == "" || total < 3.2*halfW {
		return
	}
	for _, share := range []float64{0.3, 0.7, 0.5, 0.15, 0.85} {
		on, dir := path.At(total * share)
		if dir.X < -1e-9 || (math.Abs(dir.X) <= 1e-9 && dir.Y > 0) {
			dir = dir.Neg()
		}
		for _, off := range []float64{0.4*size + halfH, -0.4*size - halfH} {
			mid := on.Add(dir.Left().Scale(off))
			if !busy.fits(mid, dir, halfW, halfH) {
				continue
			}
			base := mid.Add(dir.Right().Scale(size * (ascent - descent) / 2))
			d.Text(Text{Role: Note, At: base, Size: unit.Length(size), Anchor: Middle, Dir: dir, S: name})
			busy.box(mid, dir, halfW, halfH)
			return
		}
	}
}

// arrow is a grain line: it reaches half each way from mid along dir.
type arrow struct {
	mid        geom.Pt
	dir        geom.Vec
	half, head float64
}

func (a arrow) draw(d *Drawing) {
	from, to := a.mid.Add(a.dir.Scale(-a.half)), a.mid.Add(a.dir.Scale(a.half))
	d.Path(line(Grain, from, to))
	d.Path(arrowHead(Grain, from, a.dir.Neg(), a.head))
	d.Path(arrowHead(Grain, to, a.dir, a.head))
}

// grainArrows returns where the grain line may be drawn, its own place first:
// it shows a direction only, and moves aside for other lines and the label.
func grainArrows(p piece.Piece, size float64, busy *room) []arrow {
	a, b := p.Grain.A, p.Grain.D
	length := a.Dist(b)
	if length < 1e-6 {
		return nil
	}
	g := arrow{mid: a.Lerp(b, 0.5), dir: b.Sub(a).Unit()}
	g.half = math.Min(length/2, math.Max(0.3*length, 60))
	g.head = math.Min(2.2*size, g.half/4)
	across := geom.BoundsOf(p.Cut).W()
	if math.Abs(g.dir.X) > math.Abs(g.dir.Y) {
		across = geom.BoundsOf(p.Cut).H()
	}
	var out []arrow
	for _, by := range []float64{0, 3 * size, -3 * size, 6 * size, -6 * size, across / 4, -across / 4, across / 3, -across / 3} {
		m := g
		m.mid = g.mid.Add(g.dir.Left().Scale(by))
		if busy.fits(m.mid, m.dir, m.half, m.head/3) {
			out = append(out, m)
		}
	}
	// A narrow or slanting piece: wherever it fits, as long as it can be.
	for k := 1.0; len(out) == 0 && k > 0.15; k *= 0.75 {
		m := g
		m.half *= k
		if at, ok := busy.find(m.dir, m.half, m.head/3); ok {
			m.mid = at
			out = append(out, m)
		}
	}
	if len(out) == 0 {
		return []arrow{g}
	}
	return out
}

// drawGrainAndLabel draws the grain line at the first place that leaves room
// for the label, and the label. It reports whether the label found room.
func drawGrainAndLabel(d *Drawing, p piece.Piece, opt Options, busy *room) bool {
	lines, size := labelLines(p, opt), opt.text()
	arrows := grainArrows(p, size, busy)
	for _, joins := range [][][2]geom.Pt{opt.joins, nil} {
		for _, a := range arrows {
			r := busy.clone()
			r.box(a.mid, a.dir, a.half, a.head/2)
			r.segs = append(r.segs, joins...)
			if set, ok := fitLabel(lines, size, r, opt.Brief); ok {
				a.draw(d)
				set.write(d)
				return true
			}
		}
	}
	r := newRoom(p.Cut)
	if len(arrows) > 0 {
		arrows[0].draw(d)
		r.box(arrows[0].mid, arrows[0].dir, arrows[0].half, arrows[0].head/2)
	}
	if opt.Brief {
		return false
	}
	// A tiny piece: over the lines, but inside the cut line; at the least its
	// name.
	for _, r := range []*room{r, newRoom(p.Cut)} {
		for _, l := range [][]string{lines, lines[:2], lines[:1]} {
			if set, ok := fitLabel(l, size, r, false); ok {
				set.write(d)
				return true
			}
		}
	}
	return false
}

// arrowHead returns a filled head whose tip is at tip, pointing along dir.
func arrowHead(role Role, tip geom.Pt, dir geom.Vec, size float64) Shape {
	back := tip.Add(dir.Scale(-size))
	s := closedShape(role, []geom.Pt{tip, back.Add(dir.Left().Scale(size / 4)), back.Add(dir.Right().Scale(size / 4))})
	s.Filled = true
	return s
}

// notchReach bounds, in mm, how far outwards the cut line is looked for.
const notchReach = 80

// plainNotch is the length, mm, of a notch whose cut line is not found.
const plainNotch = 6

// numberScale is how much larger than the small text the number of a notch is.
const numberScale = 1.3

func drawNotches(d *Drawing, p piece.Piece, opt Options, busy *room) {
	size := opt.text()
	if !opt.Brief {
		size *= numberScale
	}
	for _, n := range p.Notches {
		out := n.Out.Unit()
		d.Path(line(NotchLine, n.At, NotchEnd(p, n)))
		// One without a number has its name to tell, where there is room for it.
		s, size := strconv.Itoa(n.Number), size
		if n.Number == 0 {
			if s = opt.Words.T(n.Name); s == "" || opt.Brief {
				continue
			}
			size /= numberScale
		}
		w := TextWidth(s, unit.Length(size)).MM()
		mid := besideNotch(n.At, out, w, size, busy)
		d.Text(Text{
			Role: Label, At: mid.Add(geom.Vec{Y: size * ascent / 2}),
			Size: unit.Length(size), Anchor: Middle, S: s,
		})
		busy.box(mid, geom.Vec{X: 1}, w/2, size/2)
	}
}

// NotchEnd returns where a notch of p meets the cut line.
func NotchEnd(p piece.Piece, n piece.Notch) geom.Pt {
	out := n.Out.Unit()
	return n.At.Add(out.Scale(reach(p.Cut, n.At, out)))
}

// besideNotch returns the middle of a number of width w: upright, just inside
// the sew line, moved inwards and aside for what stands there already.
func besideNotch(at geom.Pt, out geom.Vec, w, size float64, busy *room) geom.Pt {
	first := at.Add(out.Neg().Scale(0.35*size + math.Abs(out.X)*w/2 + math.Abs(out.Y)*size*ascent/2))
	for _, inward := range [...]float64{0, 0.5, 1, 1.6, 2.4} {
		for _, aside := range [...]float64{0, 0.6, -0.6, 1.1, -1.1} {
			mid := first.Add(out.Scale(-inward * size)).Add(out.Right().Scale(aside * size))
			if busy.fits(mid, geom.Vec{X: 1}, w/2, size*ascent/2) {
				return mid
			}
		}
	}
	return first
}

// reach returns how far from at along out the ring is.
func reach(ring []geom.Pt, at geom.Pt, out geom.Vec) float64 {
	best := math.Inf(1)
	end := at.Add(out.Scale(notchReach))
	for i, a := range ring {
		if x, ok := geom.SegCross(at, end, a, ring[(i+1)%len(ring)]); ok {
			if s := x.Sub(at).Dot(out); s > 0.1 && s < best {
				best = s
			}
		}
	}
	if math.IsInf(best, 1) {
		return plainNotch
	}
	return best
}

// circle returns the circle of four cubics, right within 0.03 % of r.
func circle(role Role, c geom.Pt, r float64) Shape {
	const k = 0.5522847498307936 // 4/3 (√2 − 1)
	at := func(x, y float64) geom.Pt { return geom.Pt{X: c.X + x*r, Y: c.Y + y*r} }
	return Shape{Role: role, Closed: true, Path: geom.Path{
		{A: at(1, 0), B: at(1, k), C: at(k, 1), D: at(0, 1)},
		{A: at(0, 1), B: at(-k, 1), C: at(-1, k), D: at(-1, 0)},
		{A: at(-1, 0), B: at(-1, -k), C: at(-k, -1), D: at(0, -1)},
		{A: at(0, -1), B: at(k, -1), C: at(1, -k), D: at(1, 0)},
	}}
}
