package bench

import (
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// List is the cutting list, cloth by cloth. cut are the ids of the pieces that
// are cut.
func List(pieces []piece.Piece, cut map[string]bool, w *say.Words) []Piece {
	var out []Piece
	for _, cloth := range cloths(pieces) {
		heading := true
		for _, p := range pieces {
			if p.Cloth != cloth {
				continue
			}
			out = append(out, Piece{
				ID: p.ID, Name: w.T(p.Name), Many: howMany(p, w), Cloth: clothName(cloth, w), Heading: heading, Note: p.Note, Cut: cut[p.ID],
			})
			heading = false
		}
	}
	return out
}

// cloths are those of the pieces, in the order in which they come.
func cloths(pieces []piece.Piece) []piece.Cloth {
	var out []piece.Cloth
	for _, p := range pieces {
		if !slices.Contains(out, p.Cloth) {
			out = append(out, p.Cloth)
		}
	}
	return out
}

func clothName(c piece.Cloth, w *say.Words) string {
	switch c {
	case piece.Main:
		return w.T("From the cloth")
	case piece.Lining:
		return w.T("From the pocketing or lining")
	case piece.Interfacing:
		return w.T("From the interfacing")
	}
	return string(c)
}

// howMany tells how often a piece is cut, and how it lies.
func howMany(p piece.Piece, w *say.Words) string {
	switch fold := slices.ContainsFunc(p.Edges, func(e piece.Edge) bool { return e.Fold }); {
	case fold && p.Count > 1:
		return w.F("cut %d, each on the fold", p.Count)
	case fold:
		return w.T("cut 1 on the fold")
	case p.Over:
		return w.F("cut %d, turned over; the right side of the cloth lies up", p.Count)
	case p.Hand != piece.BothHands:
		return w.F("cut %d, as drawn; the right side of the cloth lies up", p.Count)
	case p.Pairs && p.Count == 2:
		return w.T("cut 2, one of them turned over")
	case p.Pairs:
		return w.F("cut %d, half of them turned over", p.Count)
	}
	return w.F("cut %d", p.Count)
}

// Pairs are the numbered notches with the pieces that carry them; a number on
// one piece alone meets nothing.
func Pairs(pieces []piece.Piece, w *say.Words) []Notch {
	var out []Notch
	on := map[int][]string{} // names of pieces by number
	for _, p := range pieces {
		for _, n := range p.Notches {
			if n.Number == 0 || slices.Contains(on[n.Number], p.Name) {
				continue
			}
			if len(on[n.Number]) == 0 {
				out = append(out, Notch{Number: n.Number, Name: w.T(n.Name)})
			}
			on[n.Number] = append(on[n.Number], p.Name)
		}
	}
	out = slices.DeleteFunc(out, func(n Notch) bool { return len(on[n.Number]) < 2 })
	for i := range out {
		var names []string
		for _, name := range on[out[i].Number] {
			names = append(names, w.T(name))
		}
		out[i].Pieces = strings.Join(names, " + ") // a name may hold a comma
	}
	return out
}

// Compare says what the waist that was sewn means for the band.
func (b *Band) Compare(m draft.MadeUp, f unit.Format) {
	w := f.Words
	by := f.Round(m.Sewn) - f.Round(m.Drafted)
	switch {
	case by > 0:
		b.Says = w.F("%s more than drafted: cut the band that much longer.", f.Text(by))
	case by < 0:
		b.Says = w.F("%s less than drafted: cut the band that much shorter.", f.Text(-by))
	default:
		b.Says, b.Even = w.T("As drafted: cut the band as it is."), true
	}
	if !b.Even {
		fine := unit.Format{System: f.System, Den: 16, Words: w}
		if each := max(m.Each, -m.Each); fine.Round(each) > 0 {
			b.Why = append(b.Why, w.F("Shared by the %d seams and darts at the waist, that is %s at each.", m.Places, fine.Text(each)))
		} else {
			b.Why = append(b.Why, w.F("Shared by the %d seams and darts at the waist, that is less than %s at each.", m.Places, fine.Text(fine.Finest())))
		}
	}
	if m.Far {
		b.Why = append(b.Why, w.F("More than %s is more than sewing commonly takes: before you cut, look for the seam or dart that is off its mark, and sew that one again.", f.Text(draft.MostOff)))
	}
	if m.Tight {
		b.Why = append(b.Why, w.T("It is less than the body: the band would not close. Let the seams out before you cut it."))
	}
	for _, band := range m.Bands {
		c := CutBand{Name: w.T(band.Name), Long: w.F("cut %s", f.Text(band.Cut))}
		for _, mark := range band.Marks {
			c.Marks = append(c.Marks, [2]string{w.T(mark.Name), f.Text(mark.At)})
		}
		b.Cut = append(b.Cut, c)
	}
}
