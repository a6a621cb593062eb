// Package dxf writes pieces as DXF, for machines and programs that cut or draw:
// Plain, its layers named in our own words after what a line is for, and
// Exchange, its layers numbered after ASTM D6673.
//
// Both are release 12 in ASCII, which every reader takes: lengths in
// millimetres, curves as polylines within a hundredth of a millimetre, one block
// for each piece, y growing upwards. Letters outside ASCII are written as
// \U+XXXX. The same pieces give the same bytes.
//
// The layers of Exchange, and what its annotations are called, are from memory:
// nobody has held them against the standard yet.
package dxf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
)

// Form is how the layers are told.
type Form uint8

// The forms.
const (
	Plain    Form = iota // layers named by what they are for: CUT, SEW, GRAIN ...
	Exchange             // layers numbered after ASTM D6673
)

const (
	curveTol = 0.005 // between a curve and its polyline, mm
	apart    = 30    // between pieces beside each other, mm
)

// Write writes the pieces beside each other.
func Write(w io.Writer, pieces []piece.Piece, form Form, opt sheet.Options) error {
	var blocks []block
	for _, p := range pieces {
		b := block{name: layerName(p.ID)}
		if form == Exchange {
			b.exchange(p, opt)
		} else {
			sheet.Piece(p, opt).Play(&canvas{block: &b}, geom.Identity())
		}
		box := p.Bounds()
		b.width, b.left = box.W(), box.Min.X
		blocks = append(blocks, b)
	}
	var f file
	f.pair(999, "lengths in millimetres")
	f.section("HEADER", func() {
		f.pair(9, "$ACADVER")
		f.pair(1, "AC1009")
		f.pair(9, "$INSUNITS")
		f.pair(70, "4")
	})
	f.section("TABLES", func() { f.layers(layersOf(blocks)) })
	f.section("BLOCKS", func() {
		for _, b := range blocks {
			f.block(b)
		}
	})
	f.section("ENTITIES", func() {
		x := 0.0
		for _, b := range blocks {
			f.pair(0, "INSERT")
			f.pair(8, "0")
			f.pair(2, b.name)
			f.point(10, geom.Pt{X: x - b.left})
			x += b.width + apart
		}
	})
	f.pair(0, "EOF")
	if _, err := w.Write(f.b.Bytes()); err != nil {
		return fmt.Errorf("write dxf: %w", err)
	}
	return nil
}

// block is one piece.
type block struct {
	name        string
	width, left float64
	items       []item
}

// item is one entity on a layer: a polyline, a point or a text.
type item struct {
	layer  string
	pts    []geom.Pt
	closed bool
	text   string
	size   float64
	turn   float64 // of the text, degrees against the clock
	anchor sheet.Anchor
}

func (b *block) line(layer string, closed bool, pts ...geom.Pt) {
	if closed && len(pts) > 1 && pts[0] == pts[len(pts)-1] {
		pts = pts[:len(pts)-1]
	}
	b.items = append(b.items, item{layer: layer, pts: pts, closed: closed})
}

func (b *block) mark(layer string, at geom.Pt) {
	b.items = append(b.items, item{layer: layer, pts: []geom.Pt{at}})
}

// layersOf lists the layers in use, in the order of their first use.
func layersOf(blocks []block) []string {
	seen := map[string]bool{}
	var out []string
	for _, b := range blocks {
		for _, it := range b.items {
			if !seen[it.layer] {
				seen[it.layer] = true
				out = append(out, it.layer)
			}
		}
	}
	return out
}

// canvas records a drawn piece as a block of Plain.
type canvas struct{ block *block }

// Begin does nothing: a block is one group.
func (c *canvas) Begin(sheet.Group) {}

// End does nothing.
func (c *canvas) End() {}

// Path records a shape on the layer of its role.
func (c *canvas) Path(s sheet.Shape) {
	c.block.line(layerName(sheet.StyleOf(s.Role).Name), s.Closed, s.Path.Flatten(curveTol)...)
}

// Text records a text on the layer of its role.
func (c *canvas) Text(t sheet.Text) {
	dir := t.Reads()
	c.block.items = append(c.block.items, item{
		layer: layerName(sheet.StyleOf(t.Role).Name), pts: []geom.Pt{t.At}, text: t.S,
		size: t.Size.MM(), turn: math.Atan2(-dir.Y, dir.X) * 180 / math.Pi, anchor: t.Anchor,
	})
}

// layerName makes a name that release 12 takes: capitals, figures and strokes.
func layerName(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-':
			return r
		}
		return '_'
	}, s)
}

// file is the text being written: pairs of a code and a value.
type file struct{ b bytes.Buffer }

func (f *file) pair(code int, value string) { fmt.Fprintf(&f.b, "%3d\r\n%s\r\n", code, value) }

func (f *file) num(code int, v float64) {
	v = math.Round(v*1e5) / 1e5
	if v == 0 {
		v = 0 // not -0
	}
	f.pair(code, strconv.FormatFloat(v, 'f', 5, 64))
}

// point writes a point; DXF grows upwards.
func (f *file) point(code int, p geom.Pt) {
	f.num(code, p.X)
	f.num(code+10, -p.Y)
	f.num(code+20, 0)
}

func (f *file) section(name string, fill func()) {
	f.pair(0, "SECTION")
	f.pair(2, name)
	fill()
	f.pair(0, "ENDSEC")
}

func (f *file) layers(names []string) {
	f.pair(0, "TABLE")
	f.pair(2, "LAYER")
	f.pair(70, strconv.Itoa(len(names)))
	for _, n := range names {
		f.pair(0, "LAYER")
		f.pair(2, n)
		f.pair(70, "0")
		f.pair(62, "7")
		f.pair(6, "CONTINUOUS")
	}
	f.pair(0, "ENDTAB")
}

func (f *file) block(b block) {
	f.pair(0, "BLOCK")
	f.pair(8, "0")
	f.pair(2, b.name)
	f.pair(70, "0")
	f.point(10, geom.Pt{})
	for _, it := range b.items {
		switch {
		case it.text != "":
			f.text(it)
		case len(it.pts) == 1:
			f.pair(0, "POINT")
			f.pair(8, it.layer)
			f.point(10, it.pts[0])
		default:
			f.polyline(it)
		}
	}
	f.pair(0, "ENDBLK")
	f.pair(8, "0")
}

func (f *file) polyline(it item) {
	f.pair(0, "POLYLINE")
	f.pair(8, it.layer)
	f.pair(66, "1")
	f.point(10, geom.Pt{})
	closed := "0"
	if it.closed {
		closed = "1"
	}
	f.pair(70, closed)
	for _, p := range it.pts {
		f.pair(0, "VERTEX")
		f.pair(8, it.layer)
		f.point(10, p)
	}
	f.pair(0, "SEQEND")
	f.pair(8, it.layer)
}

func (f *file) text(it item) {
	f.pair(0, "TEXT")
	f.pair(8, it.layer)
	f.point(10, it.pts[0])
	f.num(40, it.size)
	f.pair(1, plainText(it.text))
	if it.turn != 0 {
		f.num(50, it.turn)
	}
	if it.anchor != sheet.Start {
		f.pair(72, strconv.Itoa(int(it.anchor)))
		f.point(11, it.pts[0])
	}
}

// plainText writes letters outside ASCII as the format has them.
func plainText(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < ' ':
			b.WriteByte(' ')
		case r <= '~':
			b.WriteRune(r)
		default:
			fmt.Fprintf(&b, "\\U+%04X", r)
		}
	}
	return b.String()
}
