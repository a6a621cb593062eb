package garment

import (
	"slices"
	"strings"

	"chalkfold/draft/bench"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Work collects the tasks of one garment, and tells those that garments have in
// common. How long they take, and how they are done, is common practice.
type Work struct {
	*say.Words
	In     Input
	By     bench.Setting
	Pieces []piece.Piece // of the left half alone, where the halves differ
	Tasks  []bench.Task

	right map[string]piece.Piece // what the right half has for a piece of the left
	whole map[string]wholePiece  // that are cut so since their halves differ
}

// NewWork begins the tasks of a garment cut in these pieces.
func NewWork(in Input, pieces []piece.Piece, by bench.Setting) *Work {
	w := &Work{Words: in.Format.Words, In: in, By: by, right: map[string]piece.Piece{}, whole: map[string]wholePiece{}}
	for _, p := range pieces {
		if id, ok := strings.CutSuffix(p.ID, otherHand); ok && p.Hand == piece.RightHand {
			w.right[id] = p
		} else if len(p.Halves) > 0 {
			w.whole[p.ID] = wholePiece(p)
			w.Pieces = append(w.Pieces, p.Halves[0])
		} else {
			w.Pieces = append(w.Pieces, p)
		}
	}
	return w
}

// Add adds a task, told of the left half where the halves differ. Every piece
// that it sews is taken in hand, once.
func (w *Work) Add(t bench.Task) {
	t.Sews, t.Along = w.bothHands(t.Sews), w.bothHands(t.Along)
	for _, id := range slices.Clone(t.Pieces) {
		if q, ok := w.right[id]; ok {
			t.Pieces = append(t.Pieces, q.ID)
		}
	}
	for _, runs := range [][]bench.Run{t.Sews, t.Along} {
		for _, r := range runs {
			if !t.Has(r.Piece) {
				t.Pieces = append(t.Pieces, r.Piece)
			}
		}
	}
	w.Tasks = append(w.Tasks, t)
}

// bothHands are runs with those of the right half where it differs: what lies so
// far along an edge of the left lies as far, for its length, along that of the
// right.
func (w *Work) bothHands(runs []bench.Run) []bench.Run {
	var out []bench.Run
	for _, r := range runs {
		if halves, ok := w.whole[r.Piece]; ok {
			out = append(out, halves.runs(r)...)
			continue
		}
		q, ok := w.right[r.Piece]
		if !ok || r.On != piece.RightHand {
			out = append(out, r)
		}
		if !ok || r.On == piece.LeftHand {
			continue
		}
		left := w.Long(r.Piece, r.Edge)
		r.Piece = q.ID
		for _, e := range q.Edges {
			if e.Name == r.Edge && left > 0 {
				by := unit.Length(e.Sew.Len()) / left
				r.From, r.To = r.From*by, r.To*by
			}
		}
		out = append(out, r)
	}
	return out
}

// Has reports whether a question of style is answered so.
func (w *Work) Has(option, choice string) bool { return w.In.Style[option] == choice }

// Seam is the seam allowance.
func (w *Work) Seam() unit.Length { return w.In.Rules.Length("seam_allowance") }

// Heavy reports whether the cloth is.
func (w *Work) Heavy() bool { return w.By.Weight == bench.Heavy }

// Whole are whole edges of that name, on these pieces.
func Whole(edge string, pieces ...string) []bench.Run {
	var out []bench.Run
	for _, id := range pieces {
		out = append(out, bench.Run{Piece: id, Edge: edge})
	}
	return out
}

// Between is a stretch of an edge, on both hands: nothing when it has no length.
func Between(id, edge string, from, to unit.Length) []bench.Run {
	const least = 0.5 // mm
	if to-from < least {
		return nil
	}
	return []bench.Run{{Piece: id, Edge: edge, From: max(from, 0), To: to}}
}

// With are the pieces, other than interfacing, that have an edge of that name
// with an allowance; those whose ID ends so are left out.
func (w *Work) With(edge string, not ...string) []string {
	var out []string
	for _, p := range w.Pieces {
		if p.Cloth == piece.Interfacing || slices.ContainsFunc(not, func(s string) bool { return strings.HasSuffix(p.ID, s) }) {
			continue
		}
		if slices.ContainsFunc(p.Edges, func(e piece.Edge) bool { return e.Name == edge && !e.Fold && e.AllowStart+e.AllowEnd > 0 }) {
			out = append(out, p.ID)
		}
	}
	return out
}

// All are the IDs of the pieces that begin so.
func (w *Work) All(prefix string) []string {
	var out []string
	for _, p := range w.Pieces {
		if strings.HasPrefix(p.ID, prefix) {
			out = append(out, p.ID)
		}
	}
	return out
}

// Find is the piece of that ID.
func (w *Work) Find(id string) (piece.Piece, bool) {
	i := slices.IndexFunc(w.Pieces, func(p piece.Piece) bool { return p.ID == id })
	if i < 0 {
		return piece.Piece{}, false
	}
	return w.Pieces[i], true
}

// Long is how long an edge of a piece is.
func (w *Work) Long(id, edge string) unit.Length {
	p, _ := w.Find(id)
	for _, e := range p.Edges {
		if e.Name == edge {
			return unit.Length(e.Sew.Len())
		}
	}
	return 0
}

// Notched is how far along an edge of a piece the notch of that name lies; its
// length when there is none.
func (w *Work) Notched(id, edge, notch string) unit.Length {
	p, _ := w.Find(id)
	for _, e := range p.Edges {
		if e.Name != edge {
			continue
		}
		for _, n := range p.Notches {
			if s, off := e.Sew.Nearest(n.At); n.Name == notch && off < 1 {
				return unit.Length(s)
			}
		}
	}
	return w.Long(id, edge)
}

// PressOpen is how a seam is pressed open.
func (w *Work) PressOpen() string {
	if w.Heavy() {
		return w.T("Press it open over a roll, with steam and a damp cloth, and hold a block of wood on it until it is cool.")
	}
	return w.T("Press it as it was sewn, then open.")
}

// PressEdge is how a turned edge is pressed.
func (w *Work) PressEdge() string {
	if w.Heavy() {
		return w.T("Trim the layers to different widths, then press the edge with steam and a damp cloth.")
	}
	return w.T("Press the edge from the inside.")
}

// Mark begins: the pieces are counted and marked.
func (w *Work) Mark() {
	t := bench.Task{
		ID: "mark", Name: w.T("Count and mark"), Minutes: 15,
		Do: w.T("Lay out every piece and count. Clip notches no deeper than half the allowance; mark dart points and the ends of openings on the wrong side."),
	}
	for _, p := range w.Pieces {
		t.Pieces = append(t.Pieces, p.ID)
	}
	w.Add(t)
}

// Neaten neatens the edges that lie open inside.
func (w *Work) Neaten(after []string, runs []bench.Run) {
	t := bench.Task{
		ID: "neaten", Name: w.T("Raw edges"), After: append([]string{"mark"}, after...), Along: runs, Stitch: bench.Neaten,
		Minutes: 20, Do: w.T("Zigzag the edges that will lie open inside. Let the needle fall just beyond the edge."),
	}
	switch {
	case w.By.Machine == bench.Overlock:
		t.Minutes, t.Do = 10, w.T("Overlock the edges that will lie open inside. Keep its knife clear of the cloth, so that the allowance stays whole.")
	case w.By.Machine != bench.Zigzag && w.Heavy():
		t.Minutes, t.Stitch, t.Do = 60, bench.ByHand, w.T("Overcast by hand the edges that will lie open inside. Turned under, they would show through as a ridge.")
	case w.By.Machine != bench.Zigzag:
		t.Minutes, t.Do = 35, w.T("Turn under a sliver of the edges that will lie open inside, and stitch along it. Sew the seams on their chalk lines: the allowance is that much narrower now.")
	}
	w.Add(t)
}

// Darts sews the darts of a panel, which are pressed as told.
func (w *Work) Darts(id, name, press string, darts []piece.Dart, more ...string) {
	if len(darts) == 0 {
		return
	}
	t := bench.Task{
		ID: id, Part: bench.Shaping, Name: name, After: []string{"mark"}, Pieces: append([]string{darts[0].Panel}, more...), Stitch: bench.Seam,
		Lines: DartLines(darts), Minutes: 8 * len(darts), Press: press,
		Do: w.T("Sew each dart from the edge to its point, the last stitches along the fold. Knot the threads there; do not sew back."),
	}
	if w.Heavy() {
		t.Press = w.F("Slit each dart to %s from its point and press it open, over a rounded ham.", w.In.Format.Text(unit.Inch))
	}
	w.Add(t)
}

// DartLines are the legs of darts.
func DartLines(darts []piece.Dart) []bench.Line {
	var out []bench.Line
	for _, d := range darts {
		out = append(out, bench.Line{Piece: d.Panel, Path: geom.Polyline(d.Legs[0], d.Point, d.Legs[1])})
	}
	return out
}

// Join sews a seam for good, and presses it open.
func (w *Work) Join(id string, part bench.Part, name, do string, minutes int, after []string, runs ...bench.Run) {
	w.Add(bench.Task{
		ID: id, Part: part, Name: name, Do: do, After: append([]string{"mark"}, after...), Sews: runs, Stitch: bench.Seam, Allow: w.Seam(),
		Minutes: minutes, Press: w.PressOpen(),
	})
}

// Zip sets a zip in a seam that was left open for it.
func (w *Work) Zip(after []string, runs ...bench.Run) {
	w.Add(bench.Task{
		ID: "zip", Part: bench.Opening, Name: w.T("Zip"), After: append([]string{"mark", "neaten"}, after...), Sews: runs, Stitch: bench.Top, Allow: w.Seam(),
		Minutes: 30, Press: w.T("Press under a cloth and keep off the teeth: nylon melts."),
		Do: w.T("Baste the opening shut, lay the zip under it face down and stitch all round. Take the basting out and try whether it runs."),
	})
}
