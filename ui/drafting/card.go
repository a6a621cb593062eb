package drafting

import (
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// Card is what there is to know about a thing that is pointed at.
type Card struct {
	ID    string
	Title string
	Sum   string // "hip girth ÷ 4 = 42 ÷ 4 = 10½"
	Tape  string // where the tape is held
	Why   string
	Moved []string // what truing did to it
	Links []Link   // what it rests on, or what runs through it
	// Uses are the measurements and rules that shape it, the nearest first.
	Uses []string
}

// Link leads to another step.
type Link struct{ Step, Label, Text string }

// mostUses is how many measurements and rules a card has room for.
const mostUses = 4

// CardOf is the card of a step or of a piece; false when there is none of that
// ID.
func CardOf(r *draft.Result, id string) (Card, bool) {
	if p, ok := pieceOf(id); ok {
		i := slices.IndexFunc(r.Pieces, func(x piece.Piece) bool { return x.ID == p })
		if i < 0 {
			return Card{}, false
		}
		return pieceCard(r, r.Pieces[i]), true
	}
	s, ok := r.Record.Find(id)
	if !ok {
		return Card{}, false
	}
	c := Card{ID: id, Title: s.Label, Tape: tapeOf(r.Record, s, r.Format), Why: s.Why}
	if s.Kind != construct.KindCurve || s.Formula.String() != "" {
		c.Sum = r.Record.SumOf(s, r.Format)
	} else {
		c.Sum = r.Format.Words.F("%s long", r.Format.Text(s.Mm()))
	}
	for _, t := range r.Record.Tell(r.Format) {
		if m, _ := r.Record.Find(t.Step); t.Step != id && m.Moves == id {
			c.Moved = append(c.Moved, r.Format.Words.F("%s; %s", t.What, t.Why))
			c.Uses = uses(r.Record, c.Uses, m)
		}
	}
	c.Uses = uses(r.Record, c.Uses, s)
	for _, n := range rests(r.Record, s) {
		c.link(r, n)
	}
	if len(c.Uses) > mostUses {
		c.Uses = c.Uses[:mostUses]
	}
	return c, true
}

// link adds a step that the card leads to, once.
func (c *Card) link(r *draft.Result, name string) {
	s, ok := r.Record.Find(name)
	if !ok || name == c.ID || slices.ContainsFunc(c.Links, func(l Link) bool { return l.Step == name }) {
		return
	}
	text := ""
	if s.Length {
		text = r.Format.Bare(s.Mm())
	}
	c.Links = append(c.Links, Link{name, s.Label, text})
}

// rests are the steps that a step follows from, itself left out: those of its
// sum, those that shaped it, the marks it is measured from, and the marks that a
// line runs through.
func rests(r *construct.Record, s construct.Step) []string {
	out := append(s.Formula.Names(), s.Uses...)
	out = append(out, s.From, s.To, s.Corner)
	if s.Kind == construct.KindCurve {
		for _, m := range r.Steps() {
			if m.Kind == construct.KindPoint && m.Part == s.Part && on(s.Path, r.Point(m.Name)) {
				out = append(out, m.Name)
			}
		}
	}
	return slices.DeleteFunc(out, func(n string) bool { return !r.Has(n) })
}

// on reports whether a mark lies on a line, as far as chalk shows.
func on(line geom.Path, at geom.Pt) bool {
	const chalk = 0.5 // mm
	return line.Within(at, chalk)
}

// uses adds the measurements and rules behind the sum of a step, the nearest
// first; where it has none of its own, those of what it is measured from.
func uses(r *construct.Record, have []string, s construct.Step) []string {
	seen := map[string]bool{}
	next := append(s.Formula.Names(), s.Uses...)
	if len(next) == 0 {
		next = rests(r, s)
	}
	for len(next) > 0 {
		var after []string
		for _, n := range next {
			if seen[n] {
				continue
			}
			seen[n] = true
			if _, ok := r.Quantity(n); ok && !r.Has(n) {
				if !slices.Contains(have, n) {
					have = append(have, n)
				}
				continue
			}
			if st, ok := r.Find(n); ok {
				after = append(append(after, st.Formula.Names()...), st.Uses...)
			}
		}
		next = after
	}
	return have
}

// pieceCard tells how a piece is cut, and the sums that gave its size.
func pieceCard(r *draft.Result, x piece.Piece) Card {
	w := r.Format.Words
	c := Card{ID: pieceID(x.ID), Title: w.T(x.Name), Why: x.Note}
	box := x.Bounds()
	across, along := r.Format.Text(lengthOf(box.W())), r.Format.Text(lengthOf(box.H()))
	c.Sum = w.F("cut %d; %s by %s as cut", x.Count, across, along)
	if x.Over {
		c.Sum = w.F("cut %d, turned over; %s by %s as cut", x.Count, across, along)
	}
	if x.Pairs {
		c.Sum = w.F("cut %d, half of them turned over; %s by %s as cut", x.Count, across, along)
	}
	part := strings.ReplaceAll(x.ID, "-", " ")
	for _, s := range r.Record.Steps() {
		line := s.Kind == construct.KindCurve && s.Part == x.ID
		if sum := s.Kind == construct.KindValue && s.Part == part && x.On == ""; sum || line {
			c.link(r, s.Name)
			if sum {
				c.Uses = uses(r.Record, c.Uses, s)
			}
		}
	}
	if len(c.Uses) > mostUses {
		c.Uses = c.Uses[:mostUses]
	}
	return c
}
