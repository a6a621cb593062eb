package sheet

import (
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// labelLines returns what is written on p, the name first.
func labelLines(p piece.Piece, opt Options) []string {
	lines := []string{p.Name, howMany(p)}
	if opt.Brief {
		return lines
	}
	cloth := string(p.Cloth)
	if p.Cloth == piece.Main {
		cloth = "main cloth"
	}
	if g := grainWords(p); g != "" {
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
func howMany(p piece.Piece) string {
	s := "cut " + strconv.Itoa(p.Count)
	onFold := false
	for _, e := range p.Edges {
		onFold = onFold || e.Fold
	}
	switch {
	case p.Pairs && p.Count == 2:
		s += ", one pair"
	case p.Pairs && p.Count > 2:
		s += ", " + strconv.Itoa(p.Count/2) + " pairs"
	case onFold:
		s += " on the fold"
	case !p.AnyGrain && !p.CrossGrain:
		s += " on the straight"
	}
	return s
}

// grainWords says what the grain leaves free; nothing when it leaves nothing.
func grainWords(p piece.Piece) string {
	switch {
	case p.AnyGrain:
		return "along or across"
	case p.CrossGrain:
		return "across if short"
	}
	return ""
}

// A label's sizes, as multiples of the small text, largest first; the name
// stands taller than the rest.
const nameScale = 1.5

func labelScales() [5]float64 { return [5]float64{2, 1.6, 1.3, 1.1, 1} }

// block is a label set in lines.
type block struct {
	lines []string
	name  float64 // scale of the first line
}

// blocks returns the ways to set the lines, the fullest first.
func blocks(lines []string) []block {
	out := []block{{lines, nameScale}}
	if len(lines) > 2 {
		out = append(out,
			block{[]string{lines[0], strings.Join(lines[1:], " · ")}, nameScale},
			block{[]string{lines[0] + " · " + lines[1], strings.Join(lines[2:], " · ")}, 1})
	}
	out = append(out, block{[]string{strings.Join(lines, " · ")}, 1})
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

// drawLabel writes the lines where they fit inside: clear of everything if
// possible, else clear of the cut line alone, else the name at least. It
// reports whether they fit.
func drawLabel(d *Drawing, lines []string, opt Options, clear, ring *room) bool {
	size := opt.text()
	for _, r := range []*room{clear, ring} {
		for _, k := range labelScales() {
			if r == ring && k > 1 {
				continue
			}
			for _, b := range blocks(lines) {
				if b.put(d, r, size*k) {
					return true
				}
			}
		}
	}
	for _, r := range []*room{clear, ring} {
		for _, b := range blocks(lines[:min(2, len(lines))]) {
			if b.put(d, r, size) {
				return true
			}
		}
		if (block{lines[:1], 1}).put(d, r, size) {
			return true
		}
	}
	return false
}

// put writes b at size where it fits in r.
func (b block) put(d *Drawing, r *room, size float64) bool {
	w, h := b.extent(size)
	for _, dir := range []geom.Vec{{X: 1}, {Y: -1}} {
		if mid, ok := r.find(dir, w/2+size/3, h/2); ok {
			b.write(d, mid, dir, size, h)
			return true
		}
	}
	return false
}

func (b block) write(d *Drawing, mid geom.Pt, dir geom.Vec, size, h float64) {
	at := mid.Add(dir.Left().Scale(h / 2))
	for i, s := range b.lines {
		k := 1.0
		if i == 0 {
			k = b.name
		}
		em := size * k
		base := at.Add(dir.Right().Scale(em * (leading + ascent - descent) / 2))
		d.Text(Text{Role: Label, At: base, Size: unit.Length(em), Anchor: Middle, Dir: dir, S: s})
		at = at.Add(dir.Right().Scale(em * leading))
	}
}
