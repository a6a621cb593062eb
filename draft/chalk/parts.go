package chalk

import (
	"slices"

	"chalkfold/draft/construct"
	"chalkfold/draft/piece"
)

// half reports whether a piece is one half of one that is cut whole.
func half(pc piece.Piece) bool {
	return pc.Hand != piece.BothHands && slices.ContainsFunc(pc.Edges, func(e piece.Edge) bool { return e.Fold })
}

// byItself reports whether a part is marked from the edges of the cloth, and not
// from the part before.
func (g guide) byItself(part string) bool {
	for _, st := range g.rec.Steps() {
		if st.Part == part && st.Kind == construct.KindPoint {
			return st.From == ""
		}
	}
	return false
}

// notchesOn gathers the notches of every piece that lies on a panel, each
// place once.
func notchesOn(panel string, pieces []piece.Piece) []piece.Notch {
	const same = 0.3 // mm
	var out []piece.Notch
	for _, p := range pieces {
		if p.On != panel {
			continue
		}
		for _, n := range p.Notches {
			known := false
			for _, o := range out {
				known = known || o.Number == n.Number && o.At.Dist(n.At) < same
			}
			if !known {
				out = append(out, n)
			}
		}
	}
	return out
}
