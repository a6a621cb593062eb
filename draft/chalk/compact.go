package chalk

import (
	"slices"

	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Compact is the guide with fewer marks, for where each takes room: cut lines
// that stand off alike are one mark, and of a piece that is a plain box without notches, its
// cut size and its lines are left.
func Compact(sections []Section, pieces []piece.Piece, f unit.Format) []Section {
	var out []Section
	for _, s := range sections {
		p, ok := find(pieces, s.Piece)
		box := ok && isBox(p) && len(p.Notches) == 0 // a notch is measured from a corner
		marks := s.Marks
		s.Marks = nil
		for _, m := range marks {
			if box && (m.Kind == Allow || m.Kind == Point && ofEdge(p, m.Of)) {
				continue
			}
			s.Marks = append(s.Marks, m)
		}
		s.Marks = oneCut(s.Marks, f.Words)
		out = append(out, s)
	}
	return out
}

// ofEdge reports whether a mark of that name is a corner of the piece.
func ofEdge(p piece.Piece, name string) bool {
	return slices.ContainsFunc(p.Edges, func(e piece.Edge) bool { return e.Name == name })
}

// oneCut gathers the cut lines that stand off alike into the first of them.
func oneCut(marks []Mark, w *say.Words) []Mark {
	var out []Mark
	first := map[unit.Length]int{}
	names := map[unit.Length]say.List{}
	for _, m := range marks {
		if m.Kind != Allow || m.ThenWay != "" || m.Way != w.T("outside it") {
			out = append(out, m)
			continue
		}
		at, ok := first[m.Measure]
		if !slices.Contains(names[m.Measure], say.Told(say.Name(m.Of))) {
			names[m.Measure] = append(names[m.Measure], say.Name(m.Of))
		}
		if !ok {
			first[m.Measure] = len(out)
			out = append(out, m)
			continue
		}
		out[at].Name, out[at].Because = m.Hand.Of(w.F("cut lines of %s", names[m.Measure]), w), ""
	}
	return out
}
