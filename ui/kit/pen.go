package kit

import (
	"strconv"

	"chalkfold/draft/geom"
)

// Pen writes one SVG document for a Drawing: millimetres, y downwards, looks
// by class alone, since the page forbids inline styles. It is made for being
// drawn anew at every key: nothing is fitted or weighed. The zero value is
// ready.
type Pen struct {
	b   []byte
	box geom.Rect
	any bool
}

// Reach makes the drawing reach over r at least.
func (p *Pen) Reach(r geom.Rect) {
	if !p.any {
		p.box, p.any = r, true
		return
	}
	p.box = p.box.Union(r)
}

// Box returns what has been reached over so far.
func (p *Pen) Box() geom.Rect { return p.box }

// Ring draws a closed outline, mapped by at.
func (p *Pen) Ring(class string, pts []geom.Pt, at geom.Affine) {
	if len(pts) == 0 {
		return
	}
	p.open(class)
	for i, q := range pts {
		p.to("ML"[min(i, 1)], at.Pt(q))
	}
	p.b = append(p.b, `Z"/>`...)
}

// Path draws a line or curve, mapped by at.
func (p *Pen) Path(class string, path geom.Path, at geom.Affine) {
	if len(path) == 0 {
		return
	}
	p.open(class)
	for i, c := range path {
		if i == 0 || path[i-1].D != c.A {
			p.to('M', at.Pt(c.A))
		}
		if c.IsLine() {
			p.to('L', at.Pt(c.D))
			continue
		}
		p.to('C', at.Pt(c.B))
		p.to(' ', at.Pt(c.C))
		p.to(' ', at.Pt(c.D))
	}
	p.b = append(p.b, `"/>`...)
}

// Dot draws a round of radius r, mm.
func (p *Pen) Dot(class string, at geom.Pt, r float64) {
	p.b = append(p.b, `<circle class="`...)
	p.b = append(p.b, class...)
	p.attr(`" cx="`, at.X)
	p.attr(`" cy="`, at.Y)
	p.attr(`" r="`, r)
	p.b = append(p.b, `"/>`...)
}

// Text writes one line around the middle of at, size mm high.
func (p *Pen) Text(class, s string, at geom.Pt, size float64) {
	p.b = append(p.b, `<text text-anchor="middle" class="`...)
	p.b = append(p.b, class...)
	p.attr(`" x="`, at.X)
	p.attr(`" y="`, at.Y)
	p.attr(`" font-size="`, size)
	p.b = append(p.b, `">`...)
	p.b = appendEscaped(p.b, s)
	p.b = append(p.b, `</text>`...)
}

// Upright writes one line that reads upwards, around the middle of at.
func (p *Pen) Upright(class, s string, at geom.Pt, size float64) {
	p.attr(`<g transform="rotate(-90 `, at.X)
	p.attr(" ", at.Y)
	p.b = append(p.b, `)">`...)
	p.Text(class, s, at.Add(geom.Vec{Y: size / 3}), size)
	p.b = append(p.b, `</g>`...)
}

// Mark draws a dot that keeps its size on the screen; its class says how large.
func (p *Pen) Mark(class string, at geom.Pt) {
	p.open(class)
	p.to('M', at)
	p.b = append(p.b, `h0"/>`...)
}

// Word writes one line in the letters of the screen, which a Drawing keeps of
// one size: it begins, ends or has its middle so many px from at.
func (p *Pen) Word(class, s, anchor string, at geom.Pt, dx, dy float64) {
	const high, drop = 14, 0.35 // px of an em; em from the middle of a line to its foot
	p.b = append(p.b, `<text text-anchor="`...)
	p.b = append(p.b, anchor...)
	p.b = append(p.b, `" class="`...)
	p.b = append(p.b, class...)
	p.attr(`" x="`, at.X)
	p.attr(`" y="`, at.Y)
	p.em(`" dx="`, dx/high)
	p.em(`" dy="`, dy/high+drop)
	p.b = append(p.b, `">`...)
	p.b = appendEscaped(p.b, s)
	p.b = append(p.b, `</text>`...)
}

// WordUp is Word reading upwards, its middle at a place.
func (p *Pen) WordUp(class, s string, at geom.Pt) {
	p.attr(`<g transform="rotate(-90 `, at.X)
	p.attr(" ", at.Y)
	p.b = append(p.b, `)">`...)
	p.Word(class, s, "middle", at, 0, 0)
	p.b = append(p.b, `</g>`...)
}

func (p *Pen) em(name string, v float64) {
	p.b = append(p.b, name...)
	p.b = strconv.AppendFloat(p.b, v, 'f', 2, 64)
	p.b = append(p.b, "em"...)
}

// Begin opens a group of that id, which a Drawing can move as one: see Grip.
func (p *Pen) Begin(class, id string) {
	p.b = append(p.b, `<g class="`...)
	p.b = append(p.b, class...)
	p.b = append(p.b, `" data-id="`...)
	p.b = append(p.b, id...)
	p.b = append(p.b, `">`...)
}

// End closes the group.
func (p *Pen) End() { p.b = append(p.b, `</g>`...) }

// String returns the document.
func (p *Pen) String() string {
	b := make([]byte, 0, len(p.b)+160)
	b = append(b, `<svg xmlns="http://www.w3.org/2000/svg" preserveAspectRatio="xMidYMid meet" viewBox="`...)
	for i, v := range [...]float64{p.box.Min.X, p.box.Min.Y, p.box.W(), p.box.H()} {
		if i > 0 {
			b = append(b, ' ')
		}
		b = appendNum(b, v)
	}
	b = append(b, `">`...)
	b = append(b, p.b...)
	return string(append(b, `</svg>`...))
}

func (p *Pen) open(class string) {
	p.b = append(p.b, `<path class="`...)
	p.b = append(p.b, class...)
	p.b = append(p.b, `" d="`...)
}

func (p *Pen) to(letter byte, q geom.Pt) {
	p.b = append(p.b, letter)
	p.b = appendNum(p.b, q.X)
	p.b = append(p.b, ' ')
	p.b = appendNum(p.b, q.Y)
}

func (p *Pen) attr(name string, v float64) {
	p.b = append(p.b, name...)
	p.b = appendNum(p.b, v)
}

// appendNum writes v to the tenth of a millimetre, which no screen shows.
func appendNum(b []byte, v float64) []byte {
	n := int64(v*10 + 0.5)
	if v < 0 {
		n = int64(v*10 - 0.5)
	}
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/10, 10)
	if n%10 != 0 {
		b = append(b, '.', byte('0'+n%10))
	}
	return b
}

func appendEscaped(b []byte, s string) []byte {
	for _, r := range s {
		switch {
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r < ' ':
			b = append(b, ' ')
		default:
			b = append(b, string(r)...)
		}
	}
	return b
}
