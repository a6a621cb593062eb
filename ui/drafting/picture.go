package drafting

import (
	"math"
	"strings"
	"unicode/utf8"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/ui/kit"
)

// Lit is the place on the draft that is pointed at. The zero value points at
// nothing.
type Lit struct {
	Panel string
	At    *geom.Pt // in the panel's own frame; nil is the whole of it
}

// Sizes of the picture, mm: it is some 1,700 wide and shown some 330 px wide.
const (
	textSize  = 46.0
	largeText = 84.0
	letter    = 0.56 // width of one, about, of the size
	gap       = 24.0
	tallShare = 0.6  // of the tallest: stands in the row of the large pieces
	deep      = 1.25 // height of the columns, of the tallest
)

// Picture draws the pieces for a small screen: the tall ones beside each other,
// the small ones in columns after them. It measures and fits nothing, since it
// is drawn anew at every key.
func Picture(pieces []piece.Piece, lit Lit) string {
	p := &picture{lit: lit}
	tallest := 0.0
	for _, x := range pieces {
		tallest = math.Max(tallest, x.Bounds().H())
	}
	p.h = deep * tallest
	var small []piece.Piece
	for _, x := range pieces {
		if x.Bounds().H() < tallShare*tallest {
			small = append(small, x)
			continue
		}
		p.tall(x)
	}
	p.columns(small)
	p.pen.Reach(geom.Rect{Min: geom.Pt{X: -gap, Y: -gap}, Max: geom.Pt{X: p.x, Y: p.h + gap}})
	p.spot()
	return p.pen.String()
}

type picture struct {
	pen    kit.Pen
	lit    Lit
	h      float64
	x      float64 // where the next column begins
	lights []geom.Pt
	around float64 // radius of the light
}

// tall sets one large piece in the middle of the row, its name inside it.
func (p *picture) tall(x piece.Piece) {
	box := x.Bounds()
	top := (p.h - box.H()) / 2
	p.piece(x, geom.Translate(geom.Pt{X: p.x, Y: top}.Sub(box.Min)))
	mid := geom.Pt{X: p.x + box.W()/2, Y: top + box.H()*0.4}
	if letters(x.Name)*letter*largeText < box.W()*0.7 {
		p.pen.Text("label", x.Name, mid, largeText)
	} else {
		p.pen.Upright("label", x.Name, mid, math.Min(largeText*0.75, box.W()*0.6))
	}
	p.x += box.W() + gap
}

// columns sets the small pieces under each other, their names beneath.
func (p *picture) columns(small []piece.Piece) {
	y, wide := 0.0, 0.0
	for _, x := range small {
		box := x.Bounds()
		words := label(x)
		h := box.H() + textSize*(float64(len(words))+0.6)
		if y > 0 && y+h > p.h {
			p.x += wide + gap
			y, wide = 0, 0
		}
		w := math.Max(box.W(), width(words))
		p.piece(x, geom.Translate(geom.Pt{X: p.x + (w-box.W())/2, Y: y}.Sub(box.Min)))
		for i, s := range words {
			p.pen.Text("label", s, geom.Pt{X: p.x + w/2, Y: y + box.H() + textSize*(float64(i)+1)}, textSize)
		}
		y += h
		wide = math.Max(wide, w)
	}
	if y > 0 {
		p.x += wide + gap
	}
}

func (p *picture) piece(x piece.Piece, at geom.Affine) {
	on := p.lit.Panel == x.ID
	Outline(&p.pen, x, at, on && p.lit.At == nil)
	for _, l := range x.Lines {
		p.pen.Path("inner", l.Path, at)
	}
	for _, m := range x.Marks {
		p.pen.Dot("mark", at.Pt(m.At), 4)
	}
	if !on {
		return
	}
	box := x.Bounds()
	place, r := geom.Pt{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}, 0.0
	if p.lit.At != nil {
		place, r = *p.lit.At, 34
	}
	p.lights, p.around = append(p.lights, at.Pt(place)), r
}

// spot draws the light last, over everything.
func (p *picture) spot() {
	for _, at := range p.lights {
		p.pen.Dot("spot", at, p.around)
	}
}

// Outline draws the cut line, sew lines, grain and notches of a piece.
func Outline(pen *kit.Pen, x piece.Piece, at geom.Affine, lit bool) {
	class := "cut"
	if lit {
		class = "cut lit"
	}
	pen.Ring(class, x.Cut, at)
	for _, e := range x.Edges {
		if !e.Fold && (e.AllowStart != 0 || e.AllowEnd != 0) {
			pen.Path("sew", e.Sew, at)
		}
	}
	pen.Path("grain", geom.Path{x.Grain}, at)
	for _, n := range x.Notches {
		pen.Path("notch", geom.Polyline(n.At, n.At.Add(n.Out.Scale(9))), at)
	}
}

// label breaks a name into lines of at most nine letters, where it can.
func label(x piece.Piece) []string {
	var out []string
	for _, w := range strings.Fields(x.Name) {
		if n := len(out); n > 0 && len(out[n-1])+1+len(w) <= 9 {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func width(words []string) float64 {
	most := 0.0
	for _, w := range words {
		most = math.Max(most, letters(w))
	}
	return most * letter * textSize
}

func letters(s string) float64 { return float64(utf8.RuneCountInString(s)) }
