package strip

import (
	"encoding/binary"
	"errors"

	"chalkfold/draft/geom"
)

// font is what drawing letters needs of a TrueType font (ISO/IEC 14496-22).
type font struct {
	glyf, loca, hmtx []byte
	long             bool // the form of loca
	metrics          int
	em               float64
	glyphs           func(r rune) int
}

var errFont = errors.New("the font for strips is damaged; give the one of draft/sheet/pdf/noto")

func u16(b []byte, at int) int {
	if at < 0 || at+2 > len(b) {
		return 0
	}
	return int(binary.BigEndian.Uint16(b[at:]))
}

func i16(b []byte, at int) int { return int(int16(u16(b, at))) } // signed by the format

func u32(b []byte, at int) int { return u16(b, at)<<16 | u16(b, at+2) }

func parse(data []byte) (*font, error) {
	tables := map[string][]byte{}
	for i := range u16(data, 4) {
		at := 12 + 16*i
		if at+16 > len(data) {
			return nil, errFont
		}
		from, n := u32(data, at+8), u32(data, at+12)
		if from > len(data) || n > len(data)-from {
			return nil, errFont
		}
		tables[string(data[at:at+4])] = data[from : from+n]
	}
	f := &font{
		glyf: tables["glyf"], loca: tables["loca"], hmtx: tables["hmtx"],
		long: u16(tables["head"], 50) == 1, metrics: u16(tables["hhea"], 34), em: float64(u16(tables["head"], 18)),
	}
	cmap := tables["cmap"]
	for i := range u16(cmap, 2) {
		if at := u32(cmap, 8+8*i); u16(cmap, at) == 4 && at < len(cmap) {
			f.glyphs = segments(cmap[at:])
		}
	}
	if f.glyphs == nil || f.em == 0 || f.metrics == 0 || len(f.glyf) == 0 {
		return nil, errFont
	}
	return f, nil
}

// segments looks a letter up in a character map of format 4.
func segments(t []byte) func(r rune) int {
	n := u16(t, 6) / 2
	return func(r rune) int {
		for s := range n {
			end, start := u16(t, 14+2*s), u16(t, 16+2*n+2*s)
			if int(r) > end {
				continue
			}
			if int(r) < start {
				return 0
			}
			delta, at := u16(t, 16+4*n+2*s), 16+6*n+2*s
			if off := u16(t, at); off != 0 {
				g := u16(t, at+off+2*(int(r)-start))
				if g == 0 {
					return 0
				}
				return (g + delta) & 0xffff
			}
			return (int(r) + delta) & 0xffff
		}
		return 0
	}
}

// glyph is that of a letter. The font has no minus sign: the en dash looks the
// same.
func (f *font) glyph(r rune) int {
	switch r {
	case '−':
		r = '–'
	case '\u00a0', '\u202f':
		r = ' '
	}
	return f.glyphs(r)
}

// advance is the width of a glyph in ems.
func (f *font) advance(g int) float64 { return float64(u16(f.hmtx, 4*min(g, f.metrics-1))) / f.em }

// data is the outline of a glyph as the font has it.
func (f *font) data(g int) []byte {
	from, to := 2*u16(f.loca, 2*g), 2*u16(f.loca, 2*g+2)
	if f.long {
		from, to = u32(f.loca, 4*g), u32(f.loca, 4*g+4)
	}
	if from >= to || to > len(f.glyf) {
		return nil
	}
	return f.glyf[from:to]
}

// mostNested bounds how deep a letter is made up of others.
const mostNested = 5

// rings are the outlines of a glyph, flattened, in ems, y upwards.
func (f *font) rings(g, nested int) [][]geom.Pt {
	b := f.data(g)
	if len(b) < 10 || nested > mostNested {
		return nil
	}
	if n := i16(b, 0); n >= 0 {
		return f.simple(b, n)
	}
	return f.composite(b, nested)
}

// The flags of a composite glyph.
const (
	argsAreWords = 1 << 0
	argsAreXY    = 1 << 1
	hasScale     = 1 << 3
	moreFollow   = 1 << 5
	hasXYScale   = 1 << 6
	hasMatrix    = 1 << 7
)

func (f *font) composite(b []byte, nested int) [][]geom.Pt {
	var out [][]geom.Pt
	const unit = 1 << 14 // of a number with 14 places after the point
	for at, more := 10, true; more && at < len(b); {
		flags, g := u16(b, at), u16(b, at+2)
		at += 4
		m := geom.Identity()
		if flags&argsAreWords != 0 {
			m.E, m.F = float64(i16(b, at)), float64(i16(b, at+2))
			at += 4
		} else {
			m.E, m.F = float64(int8(u16(b, at)>>8)), float64(int8(u16(b, at)))
			at += 2
		}
		if flags&argsAreXY == 0 {
			m.E, m.F = 0, 0
		}
		m.E, m.F = m.E/f.em, m.F/f.em
		number := func() float64 { at += 2; return float64(i16(b, at-2)) / unit }
		switch {
		case flags&hasScale != 0:
			m.A = number()
			m.D = m.A
		case flags&hasXYScale != 0:
			m.A, m.D = number(), number()
		case flags&hasMatrix != 0:
			m.A, m.B, m.C, m.D = number(), number(), number(), number()
		}
		for _, r := range f.rings(g, nested+1) {
			out = append(out, geom.MapPts(r, m))
		}
		more = flags&moreFollow != 0
	}
	return out
}

// The flags of a point.
const (
	onCurve = 1 << 0
	shortX  = 1 << 1
	shortY  = 1 << 2
	again   = 1 << 3
	sameX   = 1 << 4 // or, of a short one, positive
	sameY   = 1 << 5
)

func (f *font) simple(b []byte, n int) [][]geom.Pt {
	if n == 0 {
		return nil
	}
	count := u16(b, 10+2*(n-1)) + 1
	at := 10 + 2*n
	at += 2 + u16(b, at)
	flags := make([]byte, 0, count)
	for len(flags) < count {
		if at >= len(b) {
			return nil
		}
		flag := b[at]
		at++
		flags = append(flags, flag)
		if flag&again != 0 && at < len(b) {
			for range b[at] {
				flags = append(flags, flag)
			}
			at++
		}
	}
	axis := func(short, same byte) []float64 {
		out := make([]float64, count)
		v := 0
		for i := range out {
			switch flag := flags[i]; {
			case flag&short != 0:
				d := u16(b, at) >> 8
				if at == len(b)-1 {
					d = int(b[at])
				}
				at++
				if flag&same == 0 {
					d = -d
				}
				v += d
			case flag&same == 0:
				v += i16(b, at)
				at += 2
			}
			out[i] = float64(v) / f.em
		}
		return out
	}
	xs := axis(shortX, sameX)
	ys := axis(shortY, sameY)
	var out [][]geom.Pt
	for i, from := 0, 0; i < n; i++ {
		to := min(u16(b, 10+2*i)+1, count)
		if to > from {
			out = append(out, ring(xs[from:to], ys[from:to], flags[from:to]))
		}
		from = max(from, to)
	}
	return out
}

// ring flattens one outline: between two points off the curve lies one on it.
func ring(xs, ys []float64, flags []byte) []geom.Pt {
	const steps = 6 // to a curve
	n := len(xs)
	pt := func(i int) geom.Pt { return geom.Pt{X: xs[i%n], Y: ys[i%n]} }
	on := func(i int) bool { return flags[i%n]&onCurve != 0 }
	var out []geom.Pt
	for i := range n {
		if on(i) {
			out = append(out, pt(i))
			continue
		}
		a, c, b := pt(i+n-1), pt(i), pt(i+1)
		if !on(i + n - 1) {
			a = a.Lerp(c, 0.5)
		}
		if !on(i + 1) {
			b = c.Lerp(b, 0.5)
		}
		for k := 0; k <= steps; k++ {
			t := float64(k) / steps
			out = append(out, a.Lerp(c, t).Lerp(c.Lerp(b, t), t))
		}
	}
	return out
}
