package sheet

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// CardOptions say how curve cards are drawn.
type CardOptions struct {
	Job     string // named on every card; may be empty
	Words   *say.Words
	Lengths unit.Format
	// Grain is the way up the warp of each panel.
	Grain map[string]geom.Vec
}

func (o CardOptions) card(c piece.Card) card {
	up, ok := o.Grain[c.Panel]
	if !ok {
		up = geom.Vec{Y: -1}
	}
	return newCard(c, up, o)
}

// Carded is curve cards on sheets of paper.
type Carded struct {
	Sheets []Drawing
	// Bound is what no placing of these cards can beat: their area and that of
	// a square, over what is printed of a sheet.
	Bound int
}

// CardFits reports whether a card has room on one sheet of the paper.
func CardFits(c piece.Card, paper Paper, opt CardOptions) bool {
	paper = paper.cutOff()
	frame := grow(paper.box(), -minMargin.MM())
	_, _, ok := stack([][]geom.Pt{opt.card(c).draw().Outlines[0].Ring}, frame.W(), frame.H())
	return ok
}

// rollPage is how much of a roll is a page, where sheets are wanted.
const rollPage unit.Length = 600

// cutOff is a sheet, or a page cut off a roll, which has no height of its own.
func (p Paper) cutOff() Paper {
	if p.Height <= 0 {
		p.Height = rollPage
	}
	return p
}

// The side of the square that proves a sheet true, and how far the words and
// lines about it reach: the large one where it costs no sheet.
const (
	largeProof = 100.0
	smallProof = 50.0
	proofEdge  = 6.0
)

// Cards draws curve cards true to scale on few sheets of paper, each sheet with
// a square to measure. It is not ok when a card fits on no sheet; see CardFits.
func Cards(cards []piece.Card, paper Paper, opt CardOptions) (Carded, bool) {
	paper = paper.cutOff()
	frame := grow(paper.box(), -minMargin.MM())
	var drawn []Drawing
	var rings [][]geom.Pt
	area := 0.0
	for _, c := range cards {
		d := opt.card(c).draw()
		drawn, rings = append(drawn, d), append(rings, d.Outlines[0].Ring)
		area += math.Abs(geom.Area(d.Outlines[0].Ring))
	}
	at, n, ok := besideProofs(rings, largeProof, frame)
	least := largeProof
	if small, fewer, okSmall := besideProofs(rings, smallProof, frame); okSmall && (!ok || fewer < n) {
		least, at, n, ok = smallProof, small, fewer, true
	}
	if !ok {
		return Carded{}, false
	}
	out := Carded{Bound: count(area+smallProof*smallProof, frame.W()*frame.H())}
	onto := geom.Translate(frame.Min.Sub(geom.Pt{}))
	for i := range n {
		d := Drawing{Bounds: paper.box()}
		for k, c := range drawn {
			if at[k].sheet == i {
				m := at[k].at.Then(onto)
				d.place(upright(c, m), m)
			}
		}
		side := least
		if box := proofBox(largeProof, frame); !newReaches(d).meet(box) {
			side = largeProof
		}
		opt.proof(&d, proofBox(side, frame), side, i+1, n)
		out.Sheets = append(out.Sheets, d)
	}
	return out, true
}

// proofBox is what a square of that side takes in the corner of a sheet.
func proofBox(side float64, frame geom.Rect) geom.Rect {
	reach := side + 2*proofEdge
	return geom.Rect{Min: frame.Max.Add(geom.Vec{X: -reach, Y: -reach}), Max: frame.Max}
}

// besideProofs stacks the rings on sheets that each have their square.
func besideProofs(rings [][]geom.Pt, side float64, frame geom.Rect) (at []stacked, n int, ok bool) {
	box := proofBox(side, frame)
	if box.Min.X < frame.Min.X || box.Min.Y < frame.Min.Y {
		return nil, 0, false
	}
	return stack(rings, frame.W(), frame.H(), mapRect(box, geom.Translate(geom.Pt{}.Sub(frame.Min))))
}

// proof draws the square to measure, 100 mm in 4 in or 50 mm in 2 in from one
// corner, and in it what the sheet is.
func (o CardOptions) proof(d *Drawing, box geom.Rect, side float64, no, of int) {
	w := o.Words
	inches := math.Ceil(side / 25.4)
	outer := inches * 25.4
	foot := geom.Pt{X: box.Min.X + proofEdge, Y: box.Max.Y - proofEdge + 1}
	square := func(by float64) Shape {
		return closedShape(Gauge, []geom.Pt{foot, foot.Add(geom.Vec{Y: -by}), foot.Add(geom.Vec{X: by, Y: -by}), foot.Add(geom.Vec{X: by})})
	}
	d.Begin(Group{ID: "square", Title: w.T("measure before you cut")})
	d.Path(square(side))
	d.Path(square(outer))
	d.Text(Text{
		Role: Note, At: foot.Add(geom.Vec{X: side / 2, Y: -1.3}), Size: MinText, Anchor: Middle,
		S: w.F("measure this: %.0f mm", side),
	})
	d.Text(Text{
		Role: Note, At: foot.Add(geom.Vec{X: outer / 2, Y: -outer - 1.2}), Size: MinText, Anchor: Middle,
		S: w.F("%.0f in, the outer square", inches),
	})
	size := MinText.MM()
	if side == largeProof {
		size = titleText
	}
	y := foot.Y - side + 1
	write := func(size float64, s string) {
		for _, l := range wrap(s, unit.Length(size), side-6) {
			y += size * leading
			d.Text(Text{Role: Label, At: geom.Pt{X: foot.X + 3, Y: y}, Size: unit.Length(size), S: l})
		}
	}
	if o.Job != "" {
		write(size, o.Job)
	}
	write(size, w.F("Curve cards, sheet %d of %d", no, of))
	write(size, w.T("Print at 100 %, no fit-to-page. Check this square before you cut."))
	write(MinText.MM(), w.T("Cut each card out along its heavy line. Lay the ticks of its end marks on the chalked marks of the same letters, the arrow up, and chalk along the heavy line: that is the sew line. Turn the card over for the other side."))
	d.End()
}
