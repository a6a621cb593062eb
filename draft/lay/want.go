package lay

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/piece"
)

// Copies are so many copies of a piece, as it is drawn and turned over.
type Copies struct{ Plain, Turned int }

func (n Copies) all() int { return n.Plain + n.Turned }

// Want is how many copies are still to be cut, or are cut already, by the
// piece's ID.
type Want map[string]Copies

// WantOf is every copy of the pieces.
func WantOf(pieces []piece.Piece) Want {
	w := Want{}
	for _, p := range pieces {
		n := Copies{Plain: p.Count}
		if p.Over {
			n = Copies{Turned: p.Count}
		}
		if p.Pairs {
			n = Copies{Plain: p.Count - p.Count/2, Turned: p.Count / 2}
		}
		w[p.ID] = n
	}
	return w
}

// Less takes away what a lay cuts.
func (w Want) Less(items []Item, r Result) { w.count(items, r, -1) }

// Cut adds what a lay cuts.
func (w Want) Cut(items []Item, r Result) { w.count(items, r, 1) }

func (w Want) count(items []Item, r Result, by int) {
	for _, p := range r.Placements {
		it := items[p.Item]
		n := w[it.Piece]
		switch {
		case it.Double:
			n.Plain, n.Turned = n.Plain+by, n.Turned+by
		case it.Turned || it.EitherFace && by*n.Turned < by*n.Plain:
			n.Turned += by
		default:
			n.Plain += by
		}
		w[it.Piece] = n
	}
}

// Without is what is wanted when so much of it is cut already.
func (w Want) Without(cut Want) Want {
	rest := maps.Clone(w)
	for id, n := range cut {
		of, wanted := rest[id]
		if !wanted {
			continue
		}
		// Of a piece that is the same turned over, either way counts for the other.
		plain, turned := of.Plain-n.Plain, of.Turned-n.Turned
		rest[id] = Copies{Plain: max(0, plain+min(0, turned)), Turned: max(0, turned+min(0, plain))}
	}
	return rest
}

// Text writes the counts, to be read by ReadWant: each piece with its copies as
// drawn and turned over, blanks between.
func (w Want) Text() string {
	var words []string
	for _, id := range slices.Sorted(maps.Keys(w)) {
		words = append(words, id, strconv.Itoa(w[id].Plain), strconv.Itoa(w[id].Turned))
	}
	return strings.Join(words, " ")
}

// ReadWant reads what Text wrote.
func ReadWant(text string) (Want, error) {
	w, words := Want{}, strings.Fields(text)
	for len(words) > 0 {
		if len(words) < 3 {
			return nil, fmt.Errorf("lay: %q counts no pieces", text)
		}
		plain, err1 := strconv.Atoi(words[1])
		turned, err2 := strconv.Atoi(words[2])
		if err1 != nil || err2 != nil {
			return nil, fmt.Errorf("lay: %q counts no pieces", text)
		}
		w[words[0]], words = Copies{Plain: plain, Turned: turned}, words[3:]
	}
	return w, nil
}
