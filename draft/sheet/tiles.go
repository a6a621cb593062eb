package sheet

import (
	"errors"
	"fmt"
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// minMargin is what every printer in common use can leave unprinted (common
// practice).
const minMargin unit.Length = 10

// TileOptions say how a drawing is cut into sheets. The zero value leaves 10 mm
// of margin.
type TileOptions struct {
	Job   string     // written on every sheet
	Words *say.Words // of the reader
	// Margin is what is left bare around a sheet, at least 10 mm. Where sheets
	// meet, the next is glued onto it.
	Margin unit.Length
	// Printer is what the printer needs to print true.
	Printer Correction
	// Work bounds the search for places; nought is pack.QuickWork.
	Work int
	// Step, when set, is called before each piece is placed and each sheet is
	// drawn; false gives up with ErrStopped.
	Step func() bool
	// Found, when set, is told how many sheets each better placing takes.
	Found func(sheets int)
}

// ErrStopped is what is left of work whose Step said to give up.
var ErrStopped = errors.New("stopped")

func (o TileOptions) step() error {
	if o.Step != nil && !o.Step() {
		return ErrStopped
	}
	return nil
}

// grid is how a paper is used, in true millimetres.
type grid struct {
	*say.Words
	paperName string
	roll      bool
	printer   Correction
	paper     geom.Rect
	frame     geom.Rect // what is printed on
	step      geom.Vec  // from one sheet to the next: the frame
}

// newGrid refuses margins under 10 mm and papers too small for the squares.
func newGrid(p Paper, o TileOptions) (grid, error) {
	margin := o.Margin
	if margin == 0 {
		margin = minMargin
	}
	if margin < minMargin {
		return grid{}, say.Errorf("margin %.1f mm: printers cut off what stands closer to the edge than 10 mm; use 10 mm or more", margin.MM())
	}
	if err := o.Printer.check(); err != nil {
		return grid{}, err
	}
	g := grid{Words: o.Words, paperName: p.Name, roll: p.Roll(), printer: o.Printer}
	if g.roll {
		p.Height = p.Width // for the checks; the drawing says how long it is
	}
	g.paper = o.Printer.printed(p.box())
	g.frame = o.Printer.printed(grow(p.box(), -margin.MM()))
	g.step = geom.Vec{X: g.frame.W(), Y: g.frame.H()}
	if least := gaugeIn + 2*gaugeInset; g.step.X < least || g.step.Y < least {
		return grid{}, say.Errorf("paper %q with margin %.0f mm: leaves %.0f by %.0f mm, and the measured squares need %.0f each way; use larger paper",
			p.Name, margin.MM(), g.step.X, g.step.Y, least)
	}
	return g, nil
}

// unrolled returns the grid of a roll cut off after length mm of print.
func (g grid) unrolled(length float64) grid {
	g.paper.Max.Y += length - g.step.Y
	g.frame.Max.Y += length - g.step.Y
	g.step.Y = length
	return g
}

// cell returns what the sheet at row, col (from 0) adds to the drawing.
func (g grid) cell(o geom.Pt, row, col int) geom.Rect {
	a := o.Add(geom.Vec{X: float64(col) * g.step.X, Y: float64(row) * g.step.Y})
	return geom.Rect{Min: a, Max: a.Add(g.step)}
}

// Page is one sheet.
type Page struct {
	Row, Col int       // from 1
	Window   geom.Rect // the part of the drawing that it shows, in the drawing's frame
	Sheet    Drawing   // in the frame of the paper, which is its Bounds
}

// Join is where two sheets meet: across, left to right, or down.
type Join struct {
	Code   string  // a number across, a letter down
	At     geom.Pt // in the drawing's frame, on the line where they meet
	From   int     // index of the left or upper page
	To     int
	Across bool
}

// Tiled is a drawing cut into sheets.
type Tiled struct {
	Paper      Paper
	Rows, Cols int
	Pages      []Page
	Joins      []Join
	Sheets     int
	Bound      Bound
	Plan       string // that of the drawing, as are Lies
	Lies       []Lie
}

// Drawings returns the sheets in order, for a writer.
func (t Tiled) Drawings() []Drawing {
	out := make([]Drawing, len(t.Pages))
	for i, p := range t.Pages {
		out[i] = p.Sheet
	}
	return out
}

// Tiles cuts d into sheets of paper, row by row, leaving out those that no
// part of a piece and no line reaches. Every sheet carries a square of 100 mm
// and one of 4 in; the first carries the map of the sheets too.
func Tiles(d Drawing, paper Paper, opt TileOptions) (Tiled, error) {
	g, err := newGrid(paper, opt)
	if err != nil {
		return Tiled{}, err
	}
	if g.roll {
		g = g.unrolled(math.Max(d.Bounds.H(), g.step.Y/2))
		paper.Height = unit.Length(mapRect(g.paper, g.printer.send()).H())
	}
	t := Tiled{
		Paper: paper,
		Rows:  count(d.Bounds.H(), g.step.Y), Cols: count(d.Bounds.W(), g.step.X),
		Bound: g.bound(d.Outlines), Plan: d.Plan, Lies: d.Lies,
	}
	// What is left over goes evenly to both sides, but not so far that a sheet
	// would be half empty.
	slack := geom.Vec{X: float64(t.Cols)*g.step.X - d.Bounds.W(), Y: float64(t.Rows)*g.step.Y - d.Bounds.H()}
	o := d.Bounds.Min.Add(geom.Vec{X: -math.Min(slack.X/2, maxShift), Y: -math.Min(slack.Y/2, maxShift)})
	reach := newReaches(d)
	for row := range t.Rows {
		for col := range t.Cols {
			if c := g.cell(o, row, col); reach.meet(c) {
				t.Pages = append(t.Pages, Page{Row: row + 1, Col: col + 1, Window: c})
			}
		}
	}
	t.Sheets = len(t.Pages)
	t.Joins = joins(t.Pages, g)
	plan := g.plan(t.Pages, reach, opt)
	for i := range t.Pages {
		if err := opt.step(); err != nil {
			return Tiled{}, err
		}
		t.Pages[i].Sheet = g.sheet(d, &t, i, plan)
	}
	return t, nil
}

// maxShift bounds, in mm, how far a drawing is moved in from the edge of the
// first sheet.
const maxShift = 8

// count returns how many steps cover length, at least one.
func count(length, step float64) int { return max(1, int(math.Ceil(length/step-1e-9))) }

// sheet lays out page i: the part of d in its window, then the furniture.
func (g grid) sheet(d Drawing, t *Tiled, i int, plan furniture) Drawing {
	page := t.Pages[i]
	var out Drawing
	onto := geom.Translate(g.frame.Min.Sub(page.Window.Min))
	out.Begin(Group{ID: fmt.Sprintf("row%d-column%d", page.Row, page.Col), Title: g.sheetName(page), Clip: &g.frame})
	g.gauge(&out, t, i, plan, d)
	cut := Drawing{Items: within(d.Items, page.Window)}
	cut.Play(&out, onto)
	g.edges(&out, t, i, onto)
	out.End()
	sent := Drawing{Bounds: t.Paper.box()}
	sent.place(out, g.printer.send())
	return sent
}

// within returns the items that reach into w, with the groups that hold any.
func within(items []Item, w geom.Rect) []Item {
	var out []Item
	var open []int // where in out the open groups began
	for _, it := range items {
		switch v := it.(type) {
		case Group:
			open = append(open, len(out))
			out = append(out, v)
		case Ungroup:
			at := open[len(open)-1]
			open = open[:len(open)-1]
			if at == len(out)-1 {
				out = out[:at]
			} else {
				out = append(out, v)
			}
		case Shape:
			if touches(v.Box(), w) {
				out = append(out, v)
			}
		case Text:
			if touches(v.Box(), w) {
				out = append(out, v)
			}
		}
	}
	return out
}

func touches(r, s geom.Rect) bool {
	return r.Min.X <= s.Max.X && s.Min.X <= r.Max.X && r.Min.Y <= s.Max.Y && s.Min.Y <= r.Max.Y
}

// reaches are the areas, lines and texts of a drawing, for asking what lies in
// a box.
type reaches struct {
	rings [][]geom.Pt
	segs  [][2]geom.Pt
	texts []geom.Rect
}

func newReaches(d Drawing) reaches {
	var r reaches
	for _, o := range d.Outlines {
		r.rings = append(r.rings, o.Ring)
	}
	for _, it := range d.Items {
		switch v := it.(type) {
		case Shape:
			pts := v.Path.Flatten(lineTol)
			for i := 1; i < len(pts); i++ {
				r.segs = append(r.segs, [2]geom.Pt{pts[i-1], pts[i]})
			}
		case Text:
			r.texts = append(r.texts, v.Box())
		}
	}
	return r
}

// meet reports whether anything reaches into b.
func (r reaches) meet(b geom.Rect) bool {
	for _, s := range r.segs {
		if segIn(s, b) > 0 {
			return true
		}
	}
	for _, t := range r.texts {
		if t.Overlaps(b) {
			return true
		}
	}
	for _, ring := range r.rings {
		if reachesInto(ring, b) {
			return true
		}
	}
	return false
}

// ringMeets reports whether an edge of the ring runs through b.
func ringMeets(ring []geom.Pt, b geom.Rect) bool {
	for i, p := range ring {
		if segIn([2]geom.Pt{p, ring[(i+1)%len(ring)]}, b) > 0 {
			return true
		}
	}
	return false
}

// in returns what may reach into b.
func (r reaches) in(b geom.Rect) reaches {
	var out reaches
	for _, s := range r.segs {
		if touches(geom.BoundsOf(s[:]), b) {
			out.segs = append(out.segs, s)
		}
	}
	for _, t := range r.texts {
		if touches(t, b) {
			out.texts = append(out.texts, t)
		}
	}
	return out
}

// ink returns how many mm of line lie in b.
func (r reaches) ink(b geom.Rect) float64 {
	sum := 0.0
	for _, s := range r.segs {
		sum += segIn(s, b)
	}
	for _, t := range r.texts {
		if t.Overlaps(b) {
			sum += 4 * (t.W() + t.H()) // a text that is crossed is hard to read
		}
	}
	return sum
}

// segIn returns the length of the part of s in b, mm.
func segIn(s [2]geom.Pt, b geom.Rect) float64 {
	c := b.Min.Lerp(b.Max, 0.5)
	p, q := s[0].Sub(c), s[1].Sub(c)
	t0, t1, ok := clipToBox(p.X, p.Y, q.X, q.Y, b.W()/2, b.H()/2)
	if !ok {
		return 0
	}
	return (t1 - t0) * s[0].Dist(s[1])
}
