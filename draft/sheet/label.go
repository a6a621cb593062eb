package sheet

import (
	"cmp"
	"slices"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// labelLines returns what is written on p, the name first.
func labelLines(p piece.Piece, opt Options) []string {
	name := opt.Words.T(p.Name)
	if opt.Brief {
		return []string{name, opt.Words.F("cut %d", p.Count)}
	}
	lines := []string{name, howMany(p, opt.Words)}
	cloth := clothWords(p.Cloth, opt.Words)
	if g := grainWords(p, opt.Words); g != "" {
		cloth = strings.TrimPrefix(cloth+", "+g, ", ")
	}
	for _, s := range []string{cloth, p.Note, opt.Job} {
		if s != "" {
			lines = append(lines, s)
		}
	}
	return lines
}

// howMany says how many to cut and how.
func howMany(p piece.Piece, w *say.Words) string {
	onFold := false
	for _, e := range p.Edges {
		onFold = onFold || e.Fold
	}
	switch {
	case p.Over:
		return w.F("cut %d, this side down on the right side of the cloth", p.Count)
	case p.Hand != piece.BothHands:
		return w.F("cut %d, this side up on the right side of the cloth", p.Count)
	case p.Pairs && p.Count == 2:
		return w.T("cut 2, one pair")
	case p.Pairs && p.Count > 2:
		return w.F("cut %d, %d pairs", p.Count, p.Count/2)
	case onFold:
		return w.F("cut %d on the fold", p.Count)
	case !p.AnyGrain:
		return w.F("cut %d on the straight", p.Count)
	}
	return w.F("cut %d", p.Count)
}

// clothWords says of which cloth a piece is cut.
func clothWords(c piece.Cloth, w *say.Words) string {
	switch c {
	case piece.Main:
		return w.T("main cloth")
	case piece.Lining:
		return w.T("lining")
	case piece.Interfacing:
		return w.T("interfacing")
	}
	return string(c)
}

// grainWords says what the grain leaves free; nothing when it leaves nothing.
func grainWords(p piece.Piece, w *say.Words) string {
	switch {
	case p.AnyGrain:
		return w.T("along or across the grain")
	case p.CrossGrain:
		return w.T("across the grain if it is short")
	}
	return ""
}

// nameScale is how much larger the name stands than the rest of a label.
const nameScale = 1.5

// block is a label set in lines.
type block struct {
	lines []string
	name  float64 // scale of the first line
	worth float64 // how much larger a poorer setting must be to be taken instead
}

// blocks returns the ways to set the lines.
func blocks(lines []string) []block {
	out := []block{{lines, nameScale, 1}}
	if short := wrapAll(lines); len(short) > len(lines) {
		out = append(out, block{short, nameScale, 0.9})
	}
	if len(lines) > 2 {
		out = append(out,
			block{[]string{lines[0], strings.Join(lines[1:], " · ")}, nameScale, 0.7},
			block{[]string{lines[0] + " · " + lines[1], strings.Join(lines[2:], " · ")}, 1, 0.6})
	}
	if len(lines) > 1 {
		out = append(out, block{[]string{strings.Join(lines, " · ")}, 1, 0.5})
	}
	return out
}

// shortLine is how wide, in ems, a line of a label may be before it is broken.
const shortLine = 11

// wrapAll breaks the long lines of a label.
func wrapAll(lines []string) []string {
	var out []string
	for _, l := range lines {
		out = append(out, wrap(l, 1, shortLine)...)
	}
	return out
}

// extent returns the width and height of b at size, mm.
func (b block) extent(size float64) (w, h float64) {
	for i, s := range b.lines {
		k := 1.0
		if i == 0 {
			k = b.name
		}
		w = max(w, TextWidth(s, unit.Length(size*k)).MM())
		h += size * k * leading
	}
	return w, h
}

// setting is a block with its place.
type setting struct {
	block
	mid  geom.Pt
	dir  geom.Vec
	size float64
}

// uprightWorth is how much smaller a label that is read upright of the page
// may be than one that reads upwards, and still be taken.
const uprightWorth = 1.8

// settings returns the ways to set the lines in order of worth; a modest label
// stays near the small text.
func settings(lines []string, size float64, modest bool) []setting {
	var out []setting
	for _, k := range [...]float64{4, 3, 2.4, 2, 1.6, 1.3, 1.15, 1} {
		if modest && k > 1.3 {
			continue
		}
		for _, b := range blocks(lines) {
			for _, dir := range []geom.Vec{{X: 1}, {Y: -1}} {
				b := b
				b.worth *= k
				if dir.X > 0 {
					b.worth *= uprightWorth
				}
				out = append(out, setting{block: b, dir: dir, size: size * k})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b setting) int { return cmp.Compare(b.worth, a.worth) })
	return out
}

// fitLabel returns the best setting of the lines that fits in r, none smaller
// than size.
func fitLabel(lines []string, size float64, r *room, modest bool) (setting, bool) {
	for _, s := range settings(lines, size, modest) {
		w, h := s.extent(s.size)
		if mid, ok := r.find(s.dir, w/2+s.size/3, h/2+s.size/8); ok {
			s.mid = mid
			return s, true
		}
	}
	return setting{}, false
}

func (s setting) write(d *Drawing) {
	_, h := s.extent(s.size)
	at := s.mid.Add(s.dir.Left().Scale(h / 2))
	for i, l := range s.lines {
		em := s.size
		if i == 0 {
			em *= s.name
		}
		base := at.Add(s.dir.Right().Scale(em * (leading + ascent - descent) / 2))
		d.Text(Text{Role: Label, At: base, Size: unit.Length(em), Anchor: Middle, Dir: s.dir, S: l})
		at = at.Add(s.dir.Right().Scale(em * leading))
	}
}
