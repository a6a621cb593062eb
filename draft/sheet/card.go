package sheet

import (
	"math"
	"strconv"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// A card is cut out along its curve, and traced. It reaches on beyond both end
// marks, the way that the curve runs there, so that the line is drawn through
// them. All in mm.
const (
	cardTab    = 8.0  // beyond an end mark
	cardTick   = 6.0  // a mark, in from the curve
	cardLetter = 3.6  // height of its letter
	cardLeast  = 12.0 // depth behind the curve
	cardStep   = 4.0  // deeper, until its label fits
	cardMost   = 44.0
)

// card is a card being drawn: its curve from left to right, bowed upwards.
type card struct {
	piece.Card
	opt   CardOptions
	grain geom.Vec // up the warp
	path  geom.Path
	marks []geom.Pt
	ring  []geom.Pt
}

// newCard turns a card so that its straight line lies level and it bows up.
func newCard(c piece.Card, grain geom.Vec, opt CardOptions) card {
	a, b := c.Path.Start(), c.Path.End()
	turn := geom.RotateAbout(a, -math.Atan2(b.Y-a.Y, b.X-a.X))
	up, down := 0.0, 0.0
	for _, p := range c.Path.Map(turn).Flatten(lineTol) {
		up, down = math.Max(up, a.Y-p.Y), math.Max(down, p.Y-a.Y)
	}
	if down > up {
		turn = turn.Then(geom.RotateAbout(a, math.Pi))
	}
	out := card{Card: c, opt: opt, grain: turn.Vec(grain).Unit(), path: c.Path.Map(turn)}
	for _, m := range c.Marks {
		out.marks = append(out.marks, turn.Pt(m.At))
	}
	if out.path.Start().X > out.path.End().X {
		out.path = out.path.Reverse()
	}
	return out
}

// cut is the ring that the card is cut out along, so deep behind its curve.
func (c *card) cut(depth float64) {
	first, last := c.path.Start(), c.path.End()
	e0, e1 := first.Add(c.path.StartDir().Scale(-cardTab)), last.Add(c.path.EndDir().Scale(cardTab))
	c.ring = append([]geom.Pt{e0}, c.path.Flatten(piece.FlattenTol)...)
	c.ring = append(c.ring, e1)
	foot := geom.BoundsOf(c.ring).Max.Y
	foot = math.Max(foot+2, first.Y+depth)
	c.ring = append(c.ring, geom.Pt{X: math.Max(e1.X, last.X), Y: foot}, geom.Pt{X: math.Min(e0.X, first.X), Y: foot})
}

// draw draws the card, no deeper than its label asks for.
func (c card) draw() Drawing {
	for depth := cardLeast; ; depth += cardStep {
		c.cut(depth)
		if d, ok := c.drawn(); ok || depth >= cardMost {
			d.Bounds = geom.BoundsOf(c.ring)
			d.Outlines = []Outline{{"card-" + strconv.Itoa(c.No), c.ring}}
			return d
		}
	}
}

func (c card) drawn() (Drawing, bool) {
	var d Drawing
	w := c.opt.Words
	d.Begin(Group{ID: "card-" + strconv.Itoa(c.No), Title: w.F("card %d, %s", c.No, c.Name)})
	busy := newRoom(c.ring)
	n := len(c.ring)
	d.Path(line(CutLine, c.ring[:n-2]...))
	d.Path(line(Frame, c.ring[n-3], c.ring[n-2], c.ring[n-1], c.ring[0]))
	straight := line(DartLine, c.path.Start(), c.path.End())
	d.Path(straight)
	for _, off := range []float64{-1, 1} {
		busy.path(straight.Path.Map(geom.Translate(geom.Vec{Y: off})))
	}
	c.drawMarks(&d, busy)
	fits := c.drawGrain(&d, busy)
	set, ok := fitLabel(c.label(), MinText.MM(), busy, true)
	if ok {
		d.Begin(Group{ID: "label"}) // which is turned as one: see upright
		set.write(&d)
		d.End()
	}
	d.End()
	return d, fits && ok
}

// drawMarks draws each mark as a tick across the edge, with its letter.
func (c card) drawMarks(d *Drawing, busy *room) {
	for i, at := range c.marks {
		s, _ := c.path.Nearest(at)
		_, dir := c.path.At(s)
		in := dir.Right()
		d.Path(line(NotchLine, at, at.Add(in.Scale(cardTick))))
		w := TextWidth(c.Marks[i].Letter, cardLetter).MM()
		mid := c.besideTick(at, dir, w, busy)
		busy.segs = append(busy.segs, [2]geom.Pt{at, at.Add(in.Scale(cardTick))})
		d.Text(Text{
			Role: Label, At: mid.Add(geom.Vec{Y: cardLetter * ascent / 2}), Size: cardLetter, Anchor: Middle, S: c.Marks[i].Letter,
		})
		busy.box(mid, geom.Vec{X: 1}, w/2, cardLetter/2)
	}
}

// besideTick returns the middle of a letter: beyond the tick, or beside it.
func (c card) besideTick(at geom.Pt, dir geom.Vec, w float64, busy *room) geom.Pt {
	in := dir.Right()
	first := at.Add(in.Scale(cardTick + cardLetter*0.6))
	for _, mid := range []geom.Pt{
		first, at.Add(in.Scale(3)).Add(dir.Scale(1.4 + w/2)), at.Add(in.Scale(3)).Add(dir.Scale(-1.4 - w/2)),
		first.Add(dir.Scale(w)), first.Add(dir.Scale(-w)), first.Add(in.Scale(cardLetter)),
	} {
		if busy.fits(mid, geom.Vec{X: 1}, w/2, cardLetter*ascent/2) {
			return mid
		}
	}
	return first
}

// drawGrain draws the arrow up the grain, so that the card is not turned over.
func (c card) drawGrain(d *Drawing, busy *room) bool {
	text := c.opt.Words.T("up, on the grain")
	half := TextWidth(text, MinText).MM()/2 + 1
	size := MinText.MM()
	read := c.grain
	if read.X < -1e-9 || (math.Abs(read.X) <= 1e-9 && read.Y > 0) {
		read = read.Neg()
	}
	mid, ok := busy.find(c.grain, half, size)
	if !ok {
		return false
	}
	from, to := mid.Add(c.grain.Scale(-half)), mid.Add(c.grain.Scale(half))
	on := read.Right().Scale(size * 0.6)
	d.Path(line(Grain, from.Add(on), to.Add(on)))
	d.Path(arrowHead(Grain, to.Add(on), c.grain, 3))
	d.Text(Text{Role: Note, At: mid.Add(read.Right().Scale(size * 0.1)), Size: MinText, Anchor: Middle, Dir: read, S: text})
	busy.box(mid, c.grain, half, size)
	return true
}

// label is the number and the name of the card, and how far its marks lie from
// the first in a straight line.
func (c card) label() []string {
	w, f := c.opt.Words, c.opt.Lengths
	out := []string{w.F("%d · %s", c.No, c.Name)}
	first := c.Marks[0]
	for i, m := range c.Marks[1:] {
		one := w.F("%s to %s, %s", first.Letter, m.Letter, f.Text(unit.Length(first.At.Dist(m.At))))
		if m.Notch > 0 {
			one = w.F("%s (notch %d)", one, m.Notch)
		}
		if i == 0 {
			one = w.F("%s: %s", w.T("straight"), one)
		}
		out = append(out, one)
	}
	if c.opt.Job != "" {
		out = append(out, c.opt.Job)
	}
	return out
}
