package strip

import (
	"io"
	"math"
	"slices"
	"strings"

	"chalkfold/draft/geom"
)

// Width is how many dots a receipt printer for paper of 58 mm sets side by
// side, at 203 to the inch (common practice).
const Width = 384

// Weight is how a line of text stands out.
type Weight uint8

// The weights, from what is read from afar to what is read close by.
const (
	Heading Weight = iota // white on black
	Figure                // what is measured
	Text
	Small
	Rule // no text: a line across
)

// Line is a text of the strip. It is broken where it is wider than the strip.
type Line struct {
	Weight Weight
	S      string
	Then   string // set as Text after S, from its last line on
	// Beside: it stands in the line before it, if that is as high and the whole of
	// it fits there.
	Beside bool
}

// em is how high a weight is set, in dots: 8 of them are a millimetre.
func (w Weight) em() float64 {
	switch w {
	case Heading:
		return 32
	case Figure:
		return 42
	case Text:
		return 26
	case Small:
		return 22
	case Rule:
	}
	return 8
}

const (
	margin  = 4    // dots at each side
	leading = 1.15 // from baseline to baseline, in ems
	rise    = 0.9  // of the baseline below the top of its line
)

// Write sets the lines below each other and writes them as a PNG.
func Write(w io.Writer, fontFile []byte, lines []Line) error {
	f, err := parse(fontFile)
	if err != nil {
		return err
	}
	p := pen{font: f, bits: &bits{}}
	for _, l := range lines {
		p.write(l)
	}
	p.grow(Width / 8) // to be torn off below the last line
	return p.png(w)
}

// pen is where a line ended.
type pen struct {
	*font
	*bits
	em, right, base float64
}

// write sets a line below the others, or beside the last.
func (p *pen) write(l Line) {
	em := l.Weight.em()
	if l.Weight == Rule {
		top := p.grow(int(em))
		p.fill(top+int(em)/2, top+int(em)/2+2)
		p.right = Width
		return
	}
	bold := l.Weight == Figure || l.Weight == Heading
	if l.Beside && p.em == em && p.right+em/2+p.whole(l) <= Width-margin {
		p.right = p.set(l.S, em, p.right+em/2, p.base, bold)
	} else {
		p.em = em
		for _, s := range p.wrap(l.S, em, 0) {
			top := p.newLine(em)
			p.right = p.set(s, em, margin, p.base, bold)
			if l.Weight == Heading {
				p.invert(top, top+int(em*leading))
			}
		}
	}
	p.then(l.Then, p.right+em/3)
}

// newLine begins a line and returns its first row.
func (p *pen) newLine(em float64) int {
	top := p.grow(int(em * leading))
	p.em, p.base = em, float64(top)+em*rise
	return top
}

// whole is how wide a line is that is not broken.
func (p *pen) whole(l Line) float64 {
	w := p.width(l.S, l.Weight.em())
	if l.Then != "" {
		w += l.Weight.em()/3 + p.width(l.Then, Text.em())
	}
	return w
}

// then sets a text that goes on in a line that is set already.
func (p *pen) then(s string, left float64) {
	if s == "" {
		return
	}
	em := Text.em()
	for i, s := range p.wrap(s, em, left-margin) {
		if i > 0 {
			p.newLine(em)
			left = margin
		}
		p.right = p.set(s, em, left, p.base, false)
	}
}

// wrap breaks a text into lines that fit, the first of them with so much of its
// width taken: it is empty where no word fits beside that. A word that is wider
// than a line is broken too.
func (f *font) wrap(s string, em, taken float64) []string {
	var out []string
	wide := func(s string) bool {
		room := float64(Width - 2*margin)
		if len(out) == 0 {
			room -= taken
		}
		return f.width(s, em) > room
	}
	cur := ""
	if words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }); taken > 0 && len(words) > 0 && wide(words[0]) {
		out = append(out, "")
	}
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }) {
		next := strings.TrimSpace(cur + " " + word)
		if cur != "" && wide(next) {
			out, next = append(out, cur), word
		}
		for wide(next) {
			r := []rune(next)
			n := len(r) - 1
			for n > 1 && wide(string(r[:n])) {
				n--
			}
			out, next = append(out, string(r[:n])), string(r[n:])
		}
		cur = next
	}
	return append(out, cur)
}

func (f *font) width(s string, em float64) float64 {
	sum := 0.0
	for _, r := range s {
		sum += f.advance(f.glyph(r))
	}
	return sum * em
}

// set draws a line of text and returns where it ends; a bold one is drawn twice, a
// dot apart.
func (p *pen) set(s string, em, x, base float64, bold bool) float64 {
	for _, r := range s {
		g := p.glyph(r)
		var rings [][]geom.Pt
		for _, o := range p.rings(g, 0) {
			rings = append(rings, geom.MapPts(o, geom.Affine{A: em, D: -em, E: x, F: base}))
		}
		p.ink(rings, 0)
		if bold {
			p.ink(rings, 1)
		}
		x += em * p.advance(g)
	}
	return x
}

// bits is the picture: a row of bytes for each row of dots, a set bit black.
type bits struct{ rows [][]byte }

// grow adds rows and returns the first.
func (b *bits) grow(n int) int {
	top := len(b.rows)
	for range n {
		b.rows = append(b.rows, make([]byte, Width/8))
	}
	return top
}

func (b *bits) set(x, y int) {
	if x >= 0 && x < Width && y >= 0 && y < len(b.rows) {
		b.rows[y][x/8] |= 0x80 >> (x % 8)
	}
}

func (b *bits) fill(from, to int) {
	for y := from; y < to; y++ {
		for x := range Width {
			b.set(x, y)
		}
	}
}

func (b *bits) invert(from, to int) {
	for _, row := range b.rows[from:to] {
		for i := range row {
			row[i] ^= 0xff
		}
	}
}

// ink blackens the dots whose middles the rings go round, moved by so many to
// the right.
func (b *bits) ink(rings [][]geom.Pt, right int) {
	var all []geom.Pt
	for _, r := range rings {
		all = append(all, r...)
	}
	if len(all) == 0 {
		return
	}
	type cross struct {
		x    float64
		down int
	}
	box := geom.BoundsOf(all)
	for y := int(box.Min.Y) - 1; y <= int(box.Max.Y)+1; y++ {
		mid := float64(y) + 0.5
		var at []cross
		for _, r := range rings {
			for i, p := range r {
				q := r[(i+1)%len(r)]
				if (p.Y > mid) == (q.Y > mid) {
					continue
				}
				down := 1
				if q.Y < p.Y {
					down = -1
				}
				at = append(at, cross{p.X + (mid-p.Y)/(q.Y-p.Y)*(q.X-p.X), down})
			}
		}
		slices.SortFunc(at, func(a, b cross) int {
			switch {
			case a.x < b.x:
				return -1
			case a.x > b.x:
				return 1
			}
			return 0
		})
		round := 0
		for i, c := range at {
			if round += c.down; round == 0 || i+1 == len(at) {
				continue
			}
			for x := int(math.Ceil(c.x - 0.5)); float64(x)+0.5 < at[i+1].x; x++ {
				b.set(x+right, y)
			}
		}
	}
}
