package lay

import "chalkfold/draft/piece"

// Copies are so many copies of a piece, as it is drawn and turned over.
type Copies struct{ Plain, Turned int }

func (n Copies) all() int { return n.Plain + n.Turned }

// Want is how many copies are still to be cut, by the piece's ID.
type Want map[string]Copies

// WantOf is every copy of the pieces.
func WantOf(pieces []piece.Piece) Want {
	w := Want{}
	for _, p := range pieces {
		n := Copies{Plain: p.Count}
		if p.Pairs {
			n = Copies{Plain: p.Count - p.Count/2, Turned: p.Count / 2}
		}
		w[p.ID] = n
	}
	return w
}

// Less takes away what a lay cuts.
func (w Want) Less(items []Item, r Result) {
	for _, p := range r.Placements {
		it := items[p.Item]
		n := w[it.Piece]
		switch {
		case it.Double:
			n.Plain, n.Turned = n.Plain-1, n.Turned-1
		case it.Turned || it.EitherFace && n.Turned > n.Plain:
			n.Turned--
		default:
			n.Plain--
		}
		w[it.Piece] = n
	}
}
