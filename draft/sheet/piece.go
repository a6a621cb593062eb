package sheet

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// Options say how pieces are drawn. The zero value draws for paper.
type Options struct {
	Job string // named on every piece; may be empty
	// Text is the size of the small text; zero is MinText. The label of a piece
	// is larger where there is room.
	Text unit.Length
	// Brief leaves only the name and the count in the label.
	Brief bool
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
	d.Begin(Group{ID: p.ID, Title: p.Name})
	busy := newRoom(p.Sew)
	if len(p.Sew) == 0 {
		busy = newRoom(p.Cut)
	}
	drawOutline(&d, p)
	drawInside(&d, p, opt, busy)
	drawGrain(&d, p, opt, busy)
	drawNotches(&d, p, opt, busy)
	fits := drawLabel(&d, labelLines(p, opt), opt, busy, newRoom(p.Cut))
	d.End()
	return d, fits
}

// foldTol is how far, in mm, a point of the cut ring may stand off a fold edge
// and still lie on it: twice the flattening of either.
const foldTol = 2 * piece.FlattenTol

// drawOutline draws the cut line, open where the piece lies on a fold, and the
// sew line where it is not the cut line.
func drawOutline(d *Drawing, p piece.Piece) {
	var folds geom.Path
	for _, e := range p.Edges {
		if e.Fold {
			folds = folds.Join(e.Sew)
			d.Path(Shape{Role: FoldLine, Path: e.Sew})
		}
	}
	if len(folds) == 0 {
		if len(p.Cut) > 0 {
			d.Path(closedShape(CutLine, p.Cut))
		}
	} else {
		for _, run := range offFold(p.Cut, folds) {
			d.Path(line(CutLine, run...))
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

// offFold returns the runs of the ring that do not lie on the folds.
func offFold(ring []geom.Pt, folds geom.Path) [][]geom.Pt {
	n := len(ring)
	on := func(q geom.Pt) bool { _, dist := folds.Nearest(q); return dist <= foldTol }
	lies := make([]bool, n) // segment i, from point i to the next
	first := -1
	for i, a := range ring {
		b := ring[(i+1)%n]
		lies[i] = on(a) && on(b) && on(a.Lerp(b, 0.5))
		if lies[i] {
			first = i
		}
	}
	if first < 0 {
		return [][]geom.Pt{append(append([]geom.Pt{}, ring...), ring[0])}
	}
	var runs [][]geom.Pt
	var run []geom.Pt
	for k := 1; k <= n; k++ {
		i := (first + k) % n
		if lies[i] {
			if run != nil {
				runs, run = append(runs, run), nil
			}
			continue
		}
		if run == nil {
			run = []geom.Pt{ring[i]}
		}
		run = append(run, ring[(i+1)%n])
	}
	if run != nil {
		runs = append(runs, run)
	}
	return runs
}

// roleOf reads the role of an inner line from its name.
func roleOf(name string) Role {
	name = strings.ToLower(name)
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(name, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has("crease"):
		return CreaseLine
	case has("dart", "pleat"):
		return DartLine
	case has("fold", "turn"):
		return FoldLine
	}
	return InnerLine
}

// drillRadius is that of the ring drawn around a mark, mm.
const drillRadius = 1.5

func drawInside(d *Drawing, p piece.Piece, opt Options, busy *room) {
	size := opt.text()
	for _, l := range p.Lines {
		if len(l.Path) == 0 {
			continue
		}
		role := roleOf(l.Name)
		d.Path(Shape{Role: role, Path: l.Path})
		busy.path(l.Path)
		if role != DartLine {
			nameAlong(d, l, size, busy)
		}
	}
	for _, m := range p.Marks {
		r := math.Max(drillRadius, size/2)
		d.Path(circle(MarkPoint, m.At, r))
		d.Path(line(MarkPoint, m.At.Add(geom.Vec{X: -r}), m.At.Add(geom.Vec{X: r})))
		d.Path(line(MarkPoint, m.At.Add(geom.Vec{Y: -r}), m.At.Add(geom.Vec{Y: r})))
		busy.box(m.At, geom.Vec{X: 1}, r, r)
	}
}

// nameAlong writes the name of a line along it when the line is long enough.
func nameAlong(d *Drawing, l piece.Line, size float64, busy *room) {
	w := TextWidth(l.Name, unit.Length(size)).MM()
	total := l.Path.Len()
	if l.Name == "" || total < 1.6*w {
		return
	}
	for _, share := range []float64{0.3, 0.7, 0.5, 0.15, 0.85} {
		at, dir := l.Path.At(total * share)
		if dir.X < -1e-9 || (math.Abs(dir.X) <= 1e-9 && dir.Y > 0) {
			dir = dir.Neg()
		}
		at = at.Add(dir.Left().Scale(size * 0.4))
		mid := at.Add(dir.Left().Scale(size * (ascent - descent) / 2))
		if !busy.fits(mid, dir, w/2, size*(ascent+descent)/2) {
			continue
		}
		d.Text(Text{Role: Note, At: at, Size: unit.Length(size), Anchor: Middle, Dir: dir, S: l.Name})
		busy.box(mid, dir, w/2, size*(ascent+descent)/2)
		return
	}
}

// drawGrain draws the grain line with a head at each end, moved aside where it
// would lie on another line.
func drawGrain(d *Drawing, p piece.Piece, opt Options, busy *room) {
	a, b := p.Grain.A, p.Grain.D
	length := a.Dist(b)
	if length < 1e-6 {
		return
	}
	size := opt.text()
	dir := b.Sub(a).Unit()
	head := math.Min(2.2*size, length/4)
	half := length / 2
	mid := a.Lerp(b, 0.5)
	// Kept in the middle half when it is long: it only has to show a direction.
	half = math.Min(half, math.Max(0.3*length, 60))
	for _, step := range []float64{0, 3, -3, 5, -5, 8, -8} {
		m := mid.Add(dir.Left().Scale(step * size))
		if busy.fits(m, dir, half, head/3) {
			mid = m
			break
		}
	}
	a, b = mid.Add(dir.Scale(-half)), mid.Add(dir.Scale(half))
	d.Path(line(Grain, a, b))
	d.Path(arrowHead(Grain, a, dir.Neg(), head))
	d.Path(arrowHead(Grain, b, dir, head))
	busy.box(mid, dir, half, head/3)
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

func drawNotches(d *Drawing, p piece.Piece, opt Options, busy *room) {
	size := opt.text()
	for _, n := range p.Notches {
		out := n.Out.Unit()
		d.Path(line(NotchLine, n.At, n.At.Add(out.Scale(reach(p.Cut, n.At, out)))))
		if n.Number == 0 {
			continue
		}
		s := strconv.Itoa(n.Number)
		w := TextWidth(s, unit.Length(size)).MM()
		// The number stands upright just inside the sew line.
		mid := n.At.Add(out.Neg().Scale(0.35*size + math.Abs(out.X)*w/2 + math.Abs(out.Y)*size*ascent/2))
		d.Text(Text{
			Role: Label, At: mid.Add(geom.Vec{Y: size * ascent / 2}),
			Size: unit.Length(size), Anchor: Middle, S: s,
		})
		busy.box(mid, geom.Vec{X: 1}, w/2, size/2)
	}
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
