// Package pdf writes drawings as the pages of a PDF, each page exactly as
// large as its drawing. Text is searchable: the font that is given is embedded,
// package noto's by all who have no other. The same drawings and font give the
// same bytes: no clock, no chance.
//
// Why a writer of our own: beyond the same layout and SVG, this package adds
// 44 kB to the wasm program (brotli 11); go-pdf/fpdf v0.9.0 with the same font
// adds 346 kB (Go 1.26.8, -trimpath, -s -w), more than the first load can carry.
// The font, 11 kB more, is given by the caller, so that the page can fetch it
// when a PDF is first wanted. Lines, curves, one clip and one font are all that
// sheets need.
package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
)

// ptPerMM turns millimetres into the points of PDF, 1/72 in.
const ptPerMM = 72 / 25.4

// maxSide is the largest side of a page that readers take without a user unit
// (ISO 32000-1, annex C.2): 200 in.
const maxSide = 200 * 25.4

// Options are what a file is made with.
type Options struct {
	Font []byte // TrueType, such as noto.Sans
	// Step, when set, is called before each page; false gives up, and Write
	// returns sheet.ErrStopped.
	Step func() bool
}

// Write writes one page for each drawing, its Bounds the paper. The file asks
// the reader to print at true size. It refuses no pages, and pages without
// size or over 200 in.
func Write(w io.Writer, title string, pages []sheet.Drawing, opt Options) error {
	if len(pages) == 0 {
		return fmt.Errorf("pdf %q: no pages; give at least one drawing", title)
	}
	for i, p := range pages {
		if p.Bounds.W() <= 0 || p.Bounds.H() <= 0 || p.Bounds.W() > maxSide || p.Bounds.H() > maxSide {
			return fmt.Errorf("pdf %q: page %d is %.1f by %.1f mm; give every drawing its paper, up to %.0f mm",
				title, i+1, p.Bounds.W(), p.Bounds.H(), maxSide)
		}
	}
	face, err := parseFace(opt.Font)
	if err != nil {
		return err
	}
	f := &file{}
	used := map[uint16]rune{}
	contents := make([][]byte, len(pages))
	for i, p := range pages {
		if opt.Step != nil && !opt.Step() {
			return sheet.ErrStopped
		}
		contents[i] = content(p, face, used)
	}
	f.document(title, pages, contents, face, used)
	if _, err := w.Write(f.b.Bytes()); err != nil {
		return fmt.Errorf("write pdf: %w", err)
	}
	return nil
}

// canvas writes the operators of one page. The operators are those of ISO
// 32000-1, annex A.
type canvas struct {
	b    bytes.Buffer
	page geom.Rect
	face *face
	used map[uint16]rune // glyphs that were set, and what they stand for
	now  state
	kept []kept
}

// state is what the reader was last told.
type state struct {
	width, dash, stroke, fill string
}

// kept is a state to come back to at the end of a group.
type kept struct {
	saved bool
	state state
}

func content(d sheet.Drawing, f *face, used map[uint16]rune) []byte {
	c := &canvas{page: d.Bounds, face: f, used: used, now: state{width: "1", dash: "[]", stroke: "0", fill: "0"}}
	c.b.WriteString("1 j\n") // round joins
	d.Play(c, geom.Identity())
	return c.b.Bytes()
}

func (c *canvas) Begin(g sheet.Group) {
	c.kept = append(c.kept, kept{g.Clip != nil, c.now})
	if g.Clip != nil {
		foot := geom.Pt{X: g.Clip.Min.X, Y: g.Clip.Max.Y}
		fmt.Fprintf(&c.b, "q\n%s %s %s re W n\n", c.pt(foot), num(g.Clip.W()*ptPerMM), num(g.Clip.H()*ptPerMM))
	}
}

func (c *canvas) End() {
	last := c.kept[len(c.kept)-1]
	c.kept = c.kept[:len(c.kept)-1]
	if last.saved {
		c.b.WriteString("Q\n")
		c.now = last.state
	}
}

func (c *canvas) Path(s sheet.Shape) {
	st := sheet.StyleOf(s.Role)
	if s.Filled {
		c.set(&c.now.fill, grey(st.Grey), "g")
		c.trace(s)
		c.b.WriteString("f\n")
		return
	}
	c.set(&c.now.width, num(st.Width.MM()*ptPerMM), "w")
	c.set(&c.now.stroke, grey(st.Grey), "G")
	dash := make([]string, len(st.Dash))
	for i, l := range st.Dash {
		dash[i] = num(l.MM() * ptPerMM)
	}
	c.set(&c.now.dash, "["+strings.Join(dash, " ")+"]", "0 d")
	c.trace(s)
	if s.Closed {
		c.b.WriteString("s\n")
	} else {
		c.b.WriteString("S\n")
	}
}

// set tells the reader a value that it does not have yet.
func (c *canvas) set(now *string, to, operator string) {
	if *now != to {
		*now = to
		c.b.WriteString(to + " " + operator + "\n")
	}
}

func (c *canvas) trace(s sheet.Shape) {
	var last geom.Pt
	for i, k := range s.Path {
		if i == 0 || k.A != last {
			c.b.WriteString(c.pt(k.A) + " m\n")
		}
		switch {
		case !k.IsLine():
			c.b.WriteString(c.pt(k.B) + " " + c.pt(k.C) + " " + c.pt(k.D) + " c\n")
		case s.Closed && i == len(s.Path)-1 && k.D == s.Path[0].A:
			// closing draws it
		default:
			c.b.WriteString(c.pt(k.D) + " l\n")
		}
		last = k.D
	}
}

func (c *canvas) Text(t sheet.Text) {
	st := sheet.StyleOf(t.Role)
	c.set(&c.now.fill, grey(st.Grey), "g")
	gids, width := c.face.set(t.S)
	dir, size := t.Reads(), t.Size.MM()
	at := t.At.Add(dir.Scale(-width * size * float64(t.Anchor) / 2))
	var hex strings.Builder
	for i, r := range []rune(t.S) {
		if _, ok := c.used[gids[i]]; !ok && gids[i] != 0 {
			c.used[gids[i]] = r
		}
		fmt.Fprintf(&hex, "%04x", gids[i])
	}
	// y grows upwards here, so the sine changes sign.
	fmt.Fprintf(&c.b, "BT /F %s Tf %s %s %s %s %s Tm <%s> Tj ET\n", num(size*ptPerMM),
		num6(dir.X), num6(-dir.Y), num6(dir.Y), num6(dir.X), c.pt(at), hex.String())
}

// pt writes a point of the drawing in the page's own frame: points, from the
// lower left corner.
func (c *canvas) pt(p geom.Pt) string {
	return num((p.X-c.page.Min.X)*ptPerMM) + " " + num((c.page.Max.Y-p.Y)*ptPerMM)
}

// num writes v to the thousandth of a point: a third of a micrometre.
func num(v float64) string { return rounded(v, 1e3) }

// num6 writes v to the millionth: a sine that turns a line of text.
func num6(v float64) string { return rounded(v, 1e6) }

func rounded(v, k float64) string {
	v = math.Round(v*k) / k
	if v == 0 {
		return "0" // not -0
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

func grey(g uint8) string { return rounded(float64(g)/255, 1e3) }
