package chalk

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// samePlace is how far apart, mm, two marks may lie and still be one.
const samePlace = 0.3

// Cards are the curves of a record that are given as cards, numbered, their
// marks lettered. One that a straight line will do for is left out. One that
// does not fit is halved, at the mark nearest its middle.
func Cards(rec *construct.Record, curves []construct.Card, pieces []piece.Piece, f unit.Format, fits func(piece.Card) bool) []piece.Card {
	m := marker{guide: guide{f.Words, rec, f}, pieces: pieces, fits: fits}
	for _, c := range curves {
		st, ok := rec.Find(c.Line)
		if !ok {
			continue
		}
		path, from, to := st.Path, 0.0, st.Path.Len()
		if c.From != "" {
			from, _ = path.Nearest(rec.Point(c.From))
		}
		if c.To != "" {
			to, _ = path.Nearest(rec.Point(c.To))
		}
		if path = path.Between(from, to); bow(path) < leastBow {
			continue
		}
		m.add(piece.Card{Name: m.T(c.Name), Panel: st.Part, Line: c.Line, Path: path})
	}
	return m.cards
}

// bow is how far a path leaves the straight line between its ends.
func bow(path geom.Path) unit.Length {
	if len(path) == 0 {
		return 0
	}
	n := path.End().Sub(path.Start()).Unit().Left()
	most := 0.0
	for _, p := range path.Flatten(0.1) {
		most = math.Max(most, math.Abs(p.Sub(path.Start()).Dot(n)))
	}
	return unit.Length(most)
}

// marker letters the marks of one card after the other.
type marker struct {
	guide
	pieces []piece.Piece
	fits   func(piece.Card) bool
	cards  []piece.Card
	known  []known
}

// known is a mark that has its letter.
type known struct {
	panel string
	piece.CardMark
}

// add takes a card in, in two parts when it does not fit whole.
func (m *marker) add(c piece.Card) {
	name := c.Name
	todo := []piece.Card{c}
	const most = 8 // parts; a curve of more has no end
	for i := 0; i < len(todo) && len(todo) < most; {
		todo[i].Marks = m.marksOn(todo[i])
		if m.fits(todo[i]) {
			i++
			continue
		}
		a, b := todo[i].Path.Split(m.half(todo[i]))
		first, second := todo[i], todo[i]
		first.Path, second.Path = a, b
		todo = slices.Replace(todo, i, i+1, first, second)
	}
	for i, t := range todo {
		t.Marks = m.marksOn(t)
		for j := range t.Marks {
			t.Marks[j].Letter = m.letter(c.Panel, t.Marks[j])
		}
		if t.No = len(m.cards) + 1; len(todo) > 1 {
			t.Name = m.F("%s, %d of %d", name, i+1, len(todo))
		}
		m.cards = append(m.cards, t)
	}
}

// half is where a card is cut in two.
func (m *marker) half(c piece.Card) float64 {
	total := c.Path.Len()
	best := total / 2
	off := total / 4
	for _, k := range c.Marks[1 : len(c.Marks)-1] {
		at, _ := c.Path.Nearest(k.At)
		if d := math.Abs(at - total/2); d < off {
			best, off = at, d
		}
	}
	return best
}

// marksOn are the marks and notches on a card, in order, without letters.
func (m *marker) marksOn(c piece.Card) []piece.CardMark {
	type placed struct {
		piece.CardMark
		along float64
	}
	end := c.Path.Len()
	all := []placed{
		{piece.CardMark{Name: m.markAt(c.Panel, c.Path.Start()), At: c.Path.Start()}, 0},
		{piece.CardMark{Name: m.markAt(c.Panel, c.Path.End()), At: c.Path.End()}, end},
	}
	add := func(name string, notch int, at geom.Pt) {
		along, off := c.Path.Nearest(at)
		if off > samePlace {
			return
		}
		for i := range all {
			if all[i].At.Dist(at) < samePlace {
				all[i].Notch = max(all[i].Notch, notch)
				return
			}
		}
		all = append(all, placed{piece.CardMark{Name: name, Notch: notch, At: at}, along})
	}
	for _, st := range m.rec.Steps() {
		if st.Kind == construct.KindPoint && st.Part == c.Panel {
			add(st.Label, 0, m.rec.Point(st.Name))
		}
	}
	for _, n := range notchesOn(c.Panel, m.pieces) {
		add(m.T(n.Name), n.Number, n.At)
	}
	slices.SortStableFunc(all, func(a, b placed) int { return cmp.Compare(a.along, b.along) })
	var out []piece.CardMark
	for _, p := range all {
		out = append(out, p.CardMark)
	}
	return out
}

// letter is that of a mark, a new one when it has none.
func (m *marker) letter(panel string, k piece.CardMark) string {
	for _, o := range m.known {
		if o.panel == panel && o.At.Dist(k.At) < samePlace {
			return o.Letter
		}
	}
	k.Letter = letters(len(m.known))
	m.known = append(m.known, known{panel, k})
	return k.Letter
}

// letters counts A to Z, AA, AB ...
func letters(n int) string {
	s := string(rune('A' + n%26))
	if n >= 26 {
		return letters(n/26-1) + s
	}
	return s
}

// OnCards is the guide for a hand that has the cards: where a card draws a
// curve, it is laid on its marks instead of measuring the curve out. Marks that
// a card is laid on are told with their letters.
func OnCards(sections []Section, cards []piece.Card, pieces []piece.Piece, f unit.Format) []Section {
	var out []Section
	no := 0
	for _, s := range sections {
		panel := s.Piece
		if p, ok := find(pieces, s.Piece); ok && p.On != "" {
			panel = p.On
		}
		var on []piece.Card
		for _, c := range cards {
			if c.Panel == panel {
				on = append(on, c)
			}
		}
		laid := map[int]bool{}
		marks := s.Marks
		s.Marks = nil
		for _, m := range marks {
			if c, ok := traced(m, on); ok {
				if laid[c.No] {
					continue
				}
				laid[c.No] = true
				m = lay(m, c, f.Words)
			} else if m.Kind == Point || m.Kind == Move {
				m.Letter = letterOf(m.At, on)
			}
			no++
			m.No = no
			s.Marks = append(s.Marks, m)
		}
		out = append(out, s)
	}
	return out
}

// traced is the card that draws a line of the guide.
func traced(m Mark, on []piece.Card) (piece.Card, bool) {
	if m.Kind != Line && m.Kind != Curve || len(m.Path) == 0 {
		return piece.Card{}, false
	}
	mid, _ := m.Path.At(m.Path.Len() / 2)
	for _, c := range on {
		off := 0.0
		for _, p := range []geom.Pt{m.Path.Start(), mid, m.Path.End()} {
			_, d := c.Path.Nearest(p)
			off = math.Max(off, d)
		}
		if off < samePlace {
			return c, true
		}
	}
	return piece.Card{}, false
}

// lay is a line of the guide, drawn along a card.
func lay(m Mark, c piece.Card, w *say.Words) Mark {
	from, to := c.Ends()
	m.Kind, m.Name, m.Card = Curve, c.Name, c.No
	m.From, m.To, m.Path, m.At = from.Name, to.Name, c.Path, from.At
	m.Measure, m.Length = unit.Length(from.At.Dist(to.At)), unit.Length(c.Path.Len())
	m.Ordinates, m.Corner, m.CornerAt = nil, 0, ""
	m.Way = w.F("straight: lay card %d on marks %s and %s, and chalk along its curve", c.No, from.Letter, to.Letter)
	return m
}

// letterOf is the letter of the mark that is chalked at a place. A move that is
// too small to chalk is not told, so the place may be off by as much.
func letterOf(at geom.Pt, on []piece.Card) string {
	for _, c := range on {
		for _, k := range c.Marks {
			if k.At.Dist(at) < samePlace+smallest.MM() {
				return k.Letter
			}
		}
	}
	return ""
}
