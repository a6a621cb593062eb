// Package svg writes a sheet.Drawing as SVG: true millimetres for print, or
// filling its box on a screen. Groups carry the id and the name of the piece.
//
// Looks are presentation attributes, never style attributes or a style
// element, so that a page that forbids inline styles shows them; each element
// also has its role as its class. The same drawing gives the same bytes.
package svg

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// Options say what the file is for. The zero value is for print.
type Options struct {
	// Screen leaves the size to the page that shows the drawing, and keeps
	// lines the same width at any size.
	Screen bool
	// Prefix goes before every id, for several drawings in one document.
	Prefix string
	Title  string
}

// Write writes d as one SVG document, without an XML declaration so that it
// can stand inside HTML as well.
func Write(w io.Writer, d sheet.Drawing, opt Options) error {
	c := &canvas{opt: opt, ids: map[string]int{}}
	b := d.Bounds
	c.b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg"`)
	if !opt.Screen {
		fmt.Fprintf(&c.b, ` width="%smm" height="%smm"`, num(b.W()), num(b.H()))
	}
	fmt.Fprintf(&c.b, ` viewBox="%s %s %s %s" font-family="Noto Sans, DejaVu Sans, sans-serif" stroke-linejoin="round">`,
		num(b.Min.X), num(b.Min.Y), num(b.W()), num(b.H()))
	if opt.Title != "" {
		fmt.Fprintf(&c.b, "<title>%s</title>", escape(opt.Title))
	}
	c.b.WriteByte('\n')
	d.Play(c, geom.Identity())
	c.b.WriteString("</svg>\n")
	if _, err := w.Write(c.b.Bytes()); err != nil {
		return fmt.Errorf("write svg: %w", err)
	}
	return nil
}

type canvas struct {
	b     bytes.Buffer
	opt   Options
	ids   map[string]int // how often each id was asked for
	clips int
}

// id returns an id not used before in this document.
func (c *canvas) id(want string) string {
	c.ids[want]++
	id := want
	for n := c.ids[want]; n > 1; n++ {
		id = want + "-" + strconv.Itoa(n)
		if c.ids[id] == 0 {
			c.ids[id], c.ids[want] = 1, n
			break
		}
	}
	return escape(c.opt.Prefix + id)
}

func (c *canvas) Begin(g sheet.Group) {
	clip := ""
	if g.Clip != nil {
		c.clips++
		clip = c.id("clip-" + strconv.Itoa(c.clips))
		r := *g.Clip
		fmt.Fprintf(&c.b, `<clipPath id="%s"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath>`+"\n",
			clip, num(r.Min.X), num(r.Min.Y), num(r.W()), num(r.H()))
	}
	c.b.WriteString("<g")
	if g.ID != "" {
		fmt.Fprintf(&c.b, ` id="%s"`, c.id(g.ID))
	}
	if clip != "" {
		fmt.Fprintf(&c.b, ` clip-path="url(#%s)"`, clip)
	}
	c.b.WriteByte('>')
	if g.Title != "" {
		fmt.Fprintf(&c.b, "<title>%s</title>", escape(g.Title))
	}
	c.b.WriteByte('\n')
}

func (c *canvas) End() { c.b.WriteString("</g>\n") }

// pxPerMM is CSS's: lines that do not scale are measured in px.
const pxPerMM = 96 / 25.4

func (c *canvas) Path(s sheet.Shape) {
	st := sheet.StyleOf(s.Role)
	ink := grey(st.Grey)
	if s.Filled {
		fmt.Fprintf(&c.b, `<path class="%s" fill="%s" d="%s"/>`+"\n", st.Name, ink, outline(s))
		return
	}
	k := 1.0
	if c.opt.Screen {
		k = pxPerMM
	}
	fmt.Fprintf(&c.b, `<path class="%s" fill="none" stroke="%s" stroke-width="%s"`, st.Name, ink, num(st.Width.MM()*k))
	if len(st.Dash) > 0 {
		fmt.Fprintf(&c.b, ` stroke-dasharray="%s"`, dashes(st.Dash, k))
	}
	if c.opt.Screen {
		c.b.WriteString(` vector-effect="non-scaling-stroke"`)
	}
	fmt.Fprintf(&c.b, ` d="%s"/>`+"\n", outline(s))
}

func (c *canvas) Text(t sheet.Text) {
	fmt.Fprintf(&c.b, `<text class="%s" x="%s" y="%s" font-size="%s" fill="%s"`,
		sheet.StyleOf(t.Role).Name, num(t.At.X), num(t.At.Y), num(t.Size.MM()), grey(sheet.StyleOf(t.Role).Grey))
	switch t.Anchor {
	case sheet.Middle:
		c.b.WriteString(` text-anchor="middle"`)
	case sheet.End:
		c.b.WriteString(` text-anchor="end"`)
	case sheet.Start:
	}
	dir := t.Reads()
	if turn := math.Atan2(dir.Y, dir.X) * 180 / math.Pi; math.Abs(turn) > 1e-6 {
		fmt.Fprintf(&c.b, ` transform="rotate(%s %s %s)"`, num(turn), num(t.At.X), num(t.At.Y))
	}
	fmt.Fprintf(&c.b, ">%s</text>\n", escape(t.S))
}

// outline writes the path data of s.
func outline(s sheet.Shape) string {
	var b strings.Builder
	var last geom.Pt
	for i, c := range s.Path {
		if i == 0 || c.A != last {
			b.WriteByte('M')
			pair(&b, c.A)
		}
		switch {
		case !c.IsLine():
			b.WriteByte('C')
			pair(&b, c.B)
			b.WriteByte(' ')
			pair(&b, c.C)
			b.WriteByte(' ')
			pair(&b, c.D)
		case s.Closed && i == len(s.Path)-1 && c.D == s.Path[0].A:
			// closing draws it
		default:
			b.WriteByte('L')
			pair(&b, c.D)
		}
		last = c.D
	}
	if s.Closed {
		b.WriteByte('Z')
	}
	return b.String()
}

func pair(b *strings.Builder, p geom.Pt) {
	b.WriteString(num(p.X))
	b.WriteByte(' ')
	b.WriteString(num(p.Y))
}

func dashes(d []unit.Length, k float64) string {
	out := make([]string, len(d))
	for i, l := range d {
		out[i] = num(l.MM() * k)
	}
	return strings.Join(out, " ")
}

// num writes v to the thousandth, without needless digits.
func num(v float64) string {
	v = math.Round(v*1000) / 1000
	if v == 0 {
		return "0" // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func grey(g uint8) string {
	if g == 0 {
		return "#000"
	}
	return fmt.Sprintf("#%02x%02x%02x", g, g, g)
}

// escape makes s safe as text and inside quotes. What XML 1.0 cannot hold (its
// section 2.2) becomes the replacement character. encoding/xml would do it too,
// for 4 kB more of wasm (brotli).
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&#34;")
		case r == '\'':
			b.WriteString("&#39;")
		case r < ' ' && r != '\t' && r != '\n', r == 0xfffe, r == 0xffff:
			b.WriteRune('\ufffd')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
