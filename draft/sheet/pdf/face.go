package pdf

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// face is what setting text needs of a TrueType font (ISO/IEC 14496-22).
type face struct {
	data            []byte
	glyphs          map[rune]uint16
	hmtx            []byte
	metrics         int // how many glyphs have an advance of their own
	em              int
	ascent, descent int
	box             [4]int
}

var errFace = errors.New("the font for PDFs is damaged; give the one of draft/sheet/pdf/noto")

// parseFace reads the tables head, hhea, hmtx and cmap (format 4).
func parseFace(data []byte) (*face, error) {
	u16 := func(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
	i16 := func(b []byte, at int) int { return int(int16(binary.BigEndian.Uint16(b[at:]))) } // signed by the format
	if len(data) < 12 || len(data) < 12+16*u16(data, 4) {
		return nil, errFace
	}
	tables := map[string][]byte{}
	for i := range u16(data, 4) {
		e := data[12+16*i:]
		from, n := int(binary.BigEndian.Uint32(e[8:])), int(binary.BigEndian.Uint32(e[12:]))
		if from < 0 || n < 0 || from > len(data) || n > len(data)-from {
			return nil, errFace
		}
		tables[string(e[:4])] = data[from : from+n]
	}
	head, hhea := tables["head"], tables["hhea"]
	if len(head) < 54 || len(hhea) < 36 {
		return nil, errFace
	}
	f := &face{data: data, hmtx: tables["hmtx"], metrics: u16(hhea, 34), em: u16(head, 18)}
	if f.em == 0 || f.metrics == 0 || len(f.hmtx) < 4*f.metrics {
		return nil, errFace
	}
	f.ascent, f.descent = i16(hhea, 4)*1000/f.em, i16(hhea, 6)*1000/f.em
	for i := range f.box {
		f.box[i] = i16(head, 36+2*i) * 1000 / f.em
	}
	var err error
	f.glyphs, err = readCmap(tables["cmap"])
	return f, err
}

// readCmap reads the first format 4 subtable.
func readCmap(cmap []byte) (map[rune]uint16, error) {
	u16 := func(at int) int {
		if at+2 > len(cmap) {
			return 0
		}
		return int(binary.BigEndian.Uint16(cmap[at:]))
	}
	for i := range u16(2) {
		if 12+8*i > len(cmap) {
			break
		}
		at := int(binary.BigEndian.Uint32(cmap[8+8*i:]))
		if u16(at) != 4 {
			continue
		}
		out := map[rune]uint16{}
		n := u16(at+6) / 2
		for s := range n {
			end, start := u16(at+14+2*s), u16(at+16+2*n+2*s)
			delta, rangeAt := u16(at+16+4*n+2*s), at+16+6*n+2*s
			for c := start; c <= end && c < 0xffff; c++ {
				g := c + delta
				if off := u16(rangeAt); off != 0 {
					if g = u16(rangeAt + off + 2*(c-start)); g != 0 {
						g += delta
					}
				}
				if g &= 0xffff; g != 0 {
					out[rune(c)] = uint16(g)
				}
			}
		}
		return out, nil
	}
	return nil, fmt.Errorf("%w: no character map", errFace)
}

// advance returns the advance width of a glyph in thousandths of the em.
func (f *face) advance(gid uint16) int {
	i := min(int(gid), f.metrics-1)
	return int(binary.BigEndian.Uint16(f.hmtx[4*i:])) * 1000 / f.em
}

// The font has no minus sign; the en dash looks the same.
const minus, enDash = '−', '–'

// set returns the glyphs of s, one for each rune, and its width in ems.
// Letters that the font lacks become its empty box.
func (f *face) set(s string) (gids []uint16, width float64) {
	sum := 0
	for _, r := range s {
		if r == minus {
			r = enDash
		}
		g := f.glyphs[r]
		gids = append(gids, g)
		sum += f.advance(g)
	}
	return gids, float64(sum) / 1000
}
