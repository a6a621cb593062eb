package drafting

import (
	"slices"
	"strings"

	"chalkfold/draft/geom"
)

// Scene is one drawing, and what can be pointed at on it.
type Scene struct {
	SVG    string
	Things []Thing
}

// Thing is one mark, line or piece on a drawing. Its ID is the name of its step
// in the record, or pieceID of the piece.
type Thing struct {
	ID   string
	At   geom.Pt   // of a mark
	Path geom.Path // of a line
	Ring []geom.Pt // of a piece: all that lies inside
}

// pieceID is the ID of a whole piece.
func pieceID(id string) string { return "piece/" + id }

// pieceOf is the piece of such an ID.
func pieceOf(id string) (string, bool) { return strings.CutPrefix(id, "piece/") }

// place is where a thing is brought into sight.
func (t Thing) place() geom.Pt {
	switch {
	case len(t.Path) > 0:
		p, _ := t.Path.At(t.Path.Len() / 2)
		return p
	case len(t.Ring) > 0:
		b := geom.BoundsOf(t.Ring)
		return b.Min.Lerp(b.Max, 0.5)
	}
	return t.At
}

// off is how far a thing is from a place: a mark counts before the lines that
// run through it, and what lies inside a piece before the piece.
func (t Thing) off(at geom.Pt, reach float64) float64 {
	const line = 0.25 // of the reach
	switch {
	case len(t.Path) > 0:
		_, d := t.Path.Nearest(at)
		return d + line*reach
	case len(t.Ring) > 0:
		if geom.Contains(t.Ring, at) {
			return reach
		}
		return 2 * reach
	}
	return t.At.Dist(at)
}

// Hit is what a finger at a place means, which it may miss by reach: the
// nearest thing, or the next nearest when the nearest is chosen already. It is
// empty when there is nothing.
func (s Scene) Hit(at geom.Pt, reach float64, chosen string) string {
	type hit struct {
		id  string
		off float64
	}
	var hits []hit
	for _, t := range s.Things {
		off := t.off(at, reach)
		if off > reach*1.25 {
			continue
		}
		if i := slices.IndexFunc(hits, func(h hit) bool { return h.id == t.ID }); i >= 0 {
			hits[i].off = min(hits[i].off, off)
			continue
		}
		hits = append(hits, hit{t.ID, off})
	}
	if len(hits) == 0 {
		return ""
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return sign(a.off - b.off) })
	i := slices.IndexFunc(hits, func(h hit) bool { return h.id == chosen })
	return hits[(i+1)%len(hits)].id
}

func sign(v float64) int {
	switch {
	case v < 0:
		return -1
	case v > 0:
		return 1
	}
	return 0
}

// Beside is the thing that comes so many places after another, round and round.
func (s Scene) Beside(id string, by int) string {
	var ids []string
	for _, t := range s.Things {
		if !slices.Contains(ids, t.ID) {
			ids = append(ids, t.ID)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	i := slices.Index(ids, id)
	if i < 0 && by < 0 {
		i = 0
	}
	return ids[((i+by)%len(ids)+len(ids))%len(ids)]
}

// Place is where a thing is brought into sight; false when it is not there.
func (s Scene) Place(id string) (geom.Pt, bool) {
	i := slices.IndexFunc(s.Things, func(t Thing) bool { return t.ID == id })
	if i < 0 {
		return geom.Pt{}, false
	}
	return s.Things[i].place(), true
}
