package sheet

import (
	"math"
	"slices"
	"strconv"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Laid is one piece lying on the cloth.
type Laid struct {
	ID    string
	Lines []string    // the label, the name first
	No    int         // stands for the label where it is not nought: see Items
	Ring  []geom.Pt   // cut line, in the piece's own frame
	At    geom.Affine // to the cloth as it lies: x across, y along from the cut edge
	// Grain is its grain line, in the piece's own frame; none is drawn when its
	// ends are one.
	Grain [2]geom.Pt
	// Opened: it lies past the folded part, where x runs from the left
	// selvedge.
	Opened bool
}

// ClothFold says how the cloth lies on the table.
type ClothFold uint8

// The ways to fold.
const (
	Unfolded   ClothFold = iota
	Lengthwise           // selvedge on selvedge, the fold at x = 0
	Crosswise            // cut edge on cut edge, the fold at y = 0
)

// ClothShape is the cloth that is laid on.
type ClothShape struct {
	Name  string
	Width unit.Length // from selvedge to selvedge, unfolded
	// Length is what is at hand, unfolded; zero is the bolt, which has no end.
	Length unit.Length
	Used   unit.Length // of it, unfolded
	Fold   ClothFold
	// FoldedTo is how far the folded part reaches along the table; the rest
	// of what is used lies open after it.
	FoldedTo unit.Length
	Outline  []geom.Pt   // the edge of a remnant, instead of Width and Length
	Flaws    [][]geom.Pt // not to be cut into, on the unfolded cloth
	Lengths  unit.Format // how lengths are written, and in which words
	Notes    []string    // written under the cloth, line by line
}

// Lay draws the pieces on the cloth, its warp down the page: selvedges, folds,
// the direction of the grain, and the width and the length used in the maker's
// units. A zero opt.Text gives text that can be read when the whole is shown.
func Lay(c ClothShape, laid []Laid, opt Options) Drawing {
	l := newTable(c, laid)
	if opt.Text <= 0 {
		opt.Text = max(MinText, unit.Length(math.Max(l.box.W(), l.box.H()/2.5)*screenText))
	}
	l.size = opt.text()
	d := &l.d
	d.Begin(Group{ID: "cloth", Title: c.Name})
	l.cloth()
	d.End()
	for _, p := range laid {
		at := p.At
		if !p.Opened {
			at = at.Then(geom.Translate(geom.Vec{X: l.shift}))
		}
		ring := geom.MapPts(p.Ring, at)
		title := ""
		if len(p.Lines) > 0 {
			title = p.Lines[0]
		}
		d.Begin(Group{ID: p.ID, Title: title})
		d.Path(area(Blank, ring))
		d.Path(closedShape(CutLine, ring))
		l.grain(at.Pt(p.Grain[0]), at.Pt(p.Grain[1]))
		written := len(d.Items)
		if p.No > 0 {
			l.number(strconv.Itoa(p.No), ring)
		} else {
			l.label(p.Lines, ring)
		}
		if p.Grain[0] != p.Grain[1] {
			d.clearUnder(written)
		}
		d.End()
		d.Outlines = append(d.Outlines, Outline{p.ID, ring})
	}
	d.Begin(Group{ID: "measures"})
	l.numbersBeside()
	l.measures()
	l.key()
	d.End()
	d.Bounds = grow(l.box, 1.2*l.size)
	for _, it := range d.Items {
		switch v := it.(type) {
		case Text:
			d.Bounds = d.Bounds.Union(grow(v.Box(), l.size/2))
		case Shape:
			d.Bounds = d.Bounds.Union(v.Box())
		}
	}
	return *d
}

// label writes what it can of the lines inside a piece; a piece too small for
// its name gets a number, which stands for the name under the cloth.
func (l *table) label(lines []string, ring []geom.Pt) {
	if len(lines) == 0 {
		return
	}
	r := newRoom(ring)
	for n := len(lines); n > 0; n-- {
		for _, k := range [...]float64{1, 0.75} {
			if set, ok := fitLabel(lines[:n], k*l.size, r, true); ok {
				set.write(&l.d)
				return
			}
		}
	}
	at := slices.Index(l.small, lines[0])
	if at < 0 {
		at = len(l.small)
		l.small = append(l.small, lines[0])
	}
	l.number(strconv.Itoa(at+1), ring)
}

// number writes a number inside a piece, or keeps it to be written beside it.
func (l *table) number(number string, ring []geom.Pt) {
	if set, ok := fitLabel([]string{number}, numberInside*l.size, newRoom(ring), true); ok {
		set.write(&l.d)
		return
	}
	l.beside = append(l.beside, numbered{number, ring})
}

// clearUnder bares the ground of the texts from item i on, so that no line runs
// through them.
func (d *Drawing) clearUnder(i int) {
	texts := slices.Clone(d.Items[i:])
	d.Items = d.Items[:i]
	for _, it := range texts {
		if t, ok := it.(Text); ok {
			b := t.Box()
			d.Path(area(Blank, []geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}))
		}
	}
	d.Items = append(d.Items, texts...)
}

// grain draws the grain line of a piece.
func (l *table) grain(from, to geom.Pt) {
	if from == to {
		return
	}
	dir := to.Sub(from).Unit()
	l.d.Path(line(Grain, from, to))
	l.d.Path(arrowHead(Grain, from, dir.Neg(), l.size/2))
	l.d.Path(arrowHead(Grain, to, dir, l.size/2))
}

// key writes under the cloth what the numbers stand for, and the notes.
func (l *table) key() {
	at := geom.Pt{X: l.box.Min.X, Y: l.box.Max.Y + 0.6*l.size}
	write := func(s string) {
		at.Y += l.size * leading
		l.d.Text(Text{Role: Label, At: at, Size: unit.Length(l.size), S: s})
	}
	for i, s := range l.small {
		write(strconv.Itoa(i+1) + "  " + s)
	}
	for _, s := range l.c.Notes {
		write(s)
	}
}

// table is a lay being drawn.
type table struct {
	d     Drawing
	c     ClothShape
	small []string // names of the pieces that carry a number
	// beside are pieces too small even for their number.
	beside []numbered
	size   float64
	box    geom.Rect // the cloth as it lies
	end    float64   // where what is used ends, along the table
	hand   float64   // where the cloth at hand ends; 0 on the bolt
	fold   float64   // where the folded part ends; 0 when none is folded
	shift  float64   // of the folded part, so that its selvedges stay in line with the open part's
}

func newTable(c ClothShape, laid []Laid) *table {
	l := &table{c: c}
	if len(c.Outline) > 0 {
		l.box = geom.BoundsOf(c.Outline)
		l.end = l.box.Max.Y
		return l
	}
	used, hand := c.Used.MM(), c.Length.MM()
	opened := false
	for _, p := range laid {
		opened = opened || p.Opened
	}
	width := c.Width.MM()
	switch c.Fold {
	case Lengthwise:
		l.fold = used
		if opened {
			l.fold = c.FoldedTo.MM()
			l.shift = width / 2
		} else {
			width /= 2
		}
	case Crosswise:
		l.fold = used / 2
		if opened {
			l.fold = c.FoldedTo.MM()
		}
		// The folded part takes twice its length of cloth.
		used -= l.fold
		if hand > 0 {
			hand = math.Max(0, hand-l.fold)
		}
	case Unfolded:
	}
	l.end, l.hand = used, hand
	l.box = geom.Rect{Max: geom.Pt{X: width, Y: math.Max(used, hand)}}
	return l
}

// cloth draws the edges of the cloth and what must be kept clear of.
func (l *table) cloth() {
	d, c := &l.d, l.c
	if len(c.Outline) > 0 {
		d.Path(area(ClothArea, c.Outline))
		d.Path(closedShape(ClothEdge, c.Outline))
	} else {
		l.edges()
	}
	for _, f := range c.Flaws {
		f = l.asItLies(f)
		d.Path(closedShape(InnerLine, f))
		d.Text(Text{Role: Note, At: middle(f), Size: unit.Length(0.8 * l.size), Anchor: Middle, S: l.c.Lengths.Words.T("flaw")})
	}
}

// asItLies returns a flaw of the unfolded cloth where it is seen on the table:
// under a lengthwise fold the left half lies turned over on the right one.
func (l *table) asItLies(flaw []geom.Pt) []geom.Pt {
	half := l.c.Width.MM() / 2
	mid := middle(flaw)
	if l.c.Fold != Lengthwise || (l.shift > 0 && mid.Y > l.fold) {
		return flaw
	}
	if mid.X < half {
		flaw = geom.MapPts(flaw, geom.MirrorX(half))
	}
	return geom.MapPts(flaw, geom.Translate(geom.Vec{X: l.shift - half}))
}

func (l *table) edges() {
	d := &l.d
	left, right, foot := l.box.Min.X, l.box.Max.X, l.box.Max.Y
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	w := l.c.Lengths.Words
	name := func(x, y float64, s string) {
		d.Text(Text{Role: Note, At: p(x, y), Size: unit.Length(0.8 * l.size), Anchor: Middle, Dir: geom.Vec{Y: -1}, S: s})
	}
	end := l.box.Max.Y
	if l.hand > 0 {
		end = l.hand // what is wanting is not cloth
	}
	if l.shift > 0 {
		split := math.Min(l.fold, end)
		d.Path(area(ClothArea, []geom.Pt{p(l.shift, 0), p(right, 0), p(right, end), p(left, end), p(left, split), p(l.shift, split)}))
	} else {
		d.Path(area(ClothArea, []geom.Pt{p(left, 0), p(right, 0), p(right, end), p(left, end)}))
	}
	d.Path(line(Selvedge, p(right, 0), p(right, foot)))
	top := l.shift
	switch l.c.Fold {
	case Lengthwise:
		foldFoot := foot
		if l.shift > 0 {
			foldFoot = l.fold
			d.Path(line(Selvedge, p(left, l.fold), p(left, foot)))
			d.Path(line(ClothEdge, p(left, l.fold), p(l.shift, l.fold)))
		}
		d.Path(line(FoldLine, p(l.shift, 0), p(l.shift, foldFoot)))
		name(l.shift-0.5*l.size, foldFoot/2, w.T("fold"))
		name(right+l.size, foldFoot/2, w.T("selvedges"))
	case Unfolded, Crosswise:
		d.Path(line(Selvedge, p(left, 0), p(left, foot)))
		name(left-0.5*l.size, foot/2, w.T("selvedge"))
		name(right+l.size, foot/2, w.T("selvedge"))
	}
	if l.c.Fold == Crosswise {
		d.Path(line(FoldLine, p(left, 0), p(right, 0)))
		d.Path(line(ClothEdge, p(left, l.fold), p(right, l.fold)))
		d.Text(Text{Role: Note, At: p((left+right)/2, -0.5*l.size), Size: unit.Length(0.8 * l.size), Anchor: Middle, S: w.T("fold")})
	} else {
		d.Path(line(ClothEdge, p(top, 0), p(right, 0)))
	}
	if l.hand > 0 {
		d.Path(line(ClothEdge, p(left, l.hand), p(right, l.hand)))
	}
}

// measures draws the dimension lines and the arrow of the grain.
func (l *table) measures() {
	d, size := &l.d, l.size
	w, say := l.c.Lengths.Words, l.c.Lengths.Text
	right, y := l.box.Max.X, -2.6*size
	p := func(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
	if len(l.c.Outline) > 0 {
		l.dimension(p(l.box.Min.X, l.box.Min.Y+y), p(right, l.box.Min.Y+y), say(unit.Length(l.box.W())))
		l.dimension(p(right+3*size, l.box.Min.Y), p(right+3*size, l.box.Max.Y), say(unit.Length(l.box.H())))
		return
	}
	wide := w.F("%s wide", say(l.c.Width))
	if l.c.Fold == Lengthwise && l.shift == 0 {
		wide = w.F("%s, folded", say(l.c.Width/2))
	}
	l.dimension(p(l.box.Min.X, y), p(right, y), wide)
	x := right + 3.2*size
	used := w.F("%s used", say(l.c.Used))
	if l.c.Fold == Crosswise {
		used = w.F("%s used, both layers", say(l.c.Used))
	}
	l.dimension(p(x, 0), p(x, l.end), used)
	if l.hand > 0 {
		switch over := l.hand - l.end; {
		case over > l.size:
			left := w.F("%s left", say(unit.Length(over)))
			beyond := x
			long := TextWidth(left, unit.Length(size)).MM()
			if (l.end+TextWidth(used, unit.Length(size)).MM()+size)/2 > min(l.end+(over-long)/2, l.hand-long) {
				beyond += 1.7 * size // they are too long to stand one under the other
			}
			l.dimension(p(beyond, l.end), p(beyond, l.hand), left)
		case over < -1e-6:
			d.Text(Text{
				Role: Label, At: p(l.box.Min.X+0.5*size, l.hand+1.1*size), Size: unit.Length(size),
				S: w.F("the cloth ends here: short by %s", say(unit.Length(-over))),
			})
		}
	}
	d.Path(line(Dimension, p(l.box.Min.X, l.end), p(x+0.5*size, l.end)))
	// The grain runs down the left side, outside the cloth.
	gx := l.box.Min.X - 2.2*size
	from, to := p(gx, 0.08*l.end), p(gx, 0.3*l.end)
	d.Path(line(Grain, from, to))
	d.Path(arrowHead(Grain, from, geom.Vec{Y: -1}, size))
	d.Path(arrowHead(Grain, to, geom.Vec{Y: 1}, size))
	d.Text(Text{
		Role: Note, At: from.Lerp(to, 0.5).Add(geom.Vec{X: -0.4 * size}), Size: unit.Length(0.8 * size),
		Anchor: Middle, Dir: geom.Vec{Y: -1}, S: w.T("grain"),
	})
}

// dimension draws a measured line from a to b with heads and its figure.
func (l *table) dimension(a, b geom.Pt, s string) {
	d, dir := &l.d, b.Sub(a).Unit()
	tick := dir.Right().Scale(0.5 * l.size)
	for _, e := range []geom.Pt{a, b} {
		d.Path(line(Dimension, e.Add(tick), e.Add(tick.Neg())))
	}
	d.Path(line(Dimension, a, b))
	head := math.Min(0.8*l.size, a.Dist(b)/3)
	d.Path(arrowHead(Dimension, a, dir.Neg(), head))
	d.Path(arrowHead(Dimension, b, dir, head))
	read := dir
	at := a.Lerp(b, 0.5).Add(dir.Left().Scale(0.4 * l.size))
	if dir.Y > 0.5 { // read from the right side of the page
		at = a.Lerp(b, 0.5).Add(geom.Vec{X: (0.4 + ascent) * l.size})
		read = geom.Vec{Y: -1}
		if long := TextWidth(s, unit.Length(l.size)).MM(); a.Y > 0 && long > a.Dist(b) {
			at.Y = b.Y - long/2 // nothing stands beyond the end of the cloth
		}
	}
	d.Text(Text{Role: Label, At: at, Size: unit.Length(l.size), Anchor: Middle, Dir: read, S: s})
}
