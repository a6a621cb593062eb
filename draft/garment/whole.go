package garment

import (
	"slices"

	"chalkfold/draft/bench"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// onFold is where the edge that lies on the fold stands among the edges; -1 when
// there is none.
func onFold(p piece.Piece) int {
	return slices.IndexFunc(p.Edges, func(e piece.Edge) bool { return e.Fold })
}

// whole is a piece that would be cut on the fold, of two halves that differ: it is
// cut whole. Its right edges have names of their own; where the halves meet, one
// edge runs on through both.
func (h *halves) whole(left, right piece.Piece) (piece.Piece, error) {
	out := left
	w := h.in.Format.Words
	note := w.T("its halves differ, the wearer's left at the right as it is drawn: cut it whole")
	if out.Note = note; left.Note != "" {
		out.Note = w.F("%s; %s", left.Note, note)
	}
	a, b := fromFold(left), mirrored(fromFold(right))
	n, m := len(a), len(b)
	top, foot := a[0], a[n-1]
	top.Sew, top.AllowStart = b[m-1].Sew.Join(a[0].Sew), b[m-1].AllowStart
	foot.Sew, foot.AllowEnd, foot.Corner = a[n-1].Sew.Join(b[0].Sew), b[0].AllowEnd, b[0].Corner
	out.Edges = append(append([]piece.Edge{top}, a[1:n-1]...), foot)
	for _, e := range b[1 : m-1] {
		e.Name = otherEdge(e.Name)
		out.Edges = append(out.Edges, e)
	}
	flip := geom.MirrorX(0)
	out.Notches, out.Lines, out.Marks = slices.Clone(left.Notches), slices.Clone(left.Lines), slices.Clone(left.Marks)
	out.Lines = append(out.Lines, piece.Line{Name: say.Word("centre"), Kind: piece.PlainLine, Path: left.Edges[onFold(left)].Sew})
	for _, x := range right.Notches {
		x.At, x.Out = flip.Pt(x.At), flip.Vec(x.Out)
		out.Notches = append(out.Notches, x)
	}
	for _, x := range right.Lines {
		x.Path = x.Path.Map(flip)
		out.Lines = append(out.Lines, x)
	}
	for _, x := range right.Marks {
		x.At = flip.Pt(x.At)
		out.Marks = append(out.Marks, x)
	}
	return piece.Outline(out)
}

// fromFold are the edges of a piece in their order, from where its fold ends on.
func fromFold(p piece.Piece) []piece.Edge {
	at := onFold(p)
	return append(slices.Clone(p.Edges[at+1:]), p.Edges[:at]...)
}

// mirrored are edges as they lie on the other side of the fold, the other way
// round.
func mirrored(edges []piece.Edge) []piece.Edge {
	flip := geom.MirrorX(0)
	var out []piece.Edge
	for i := len(edges) - 1; i >= 0; i-- {
		e := edges[i]
		e.Sew = e.Sew.Map(flip).Reverse()
		e.AllowStart, e.AllowEnd, e.Corner = e.AllowEnd, e.AllowStart, piece.Mitre
		if i > 0 {
			e.Corner = edges[i-1].Corner
		}
		out = append(out, e)
	}
	return out
}

// otherEdge is the name of an edge of the right half where the left has it too.
func otherEdge(name string) string {
	switch name {
	case "side":
		return say.Word("right side")
	case "slit":
		return say.Word("right slit")
	case "shoulder":
		return say.Word("right shoulder")
	case "armhole":
		return say.Word("right armhole")
	}
	return "right " + name
}

// wholePiece is a piece with halves that differ, for the order of work.
type wholePiece piece.Piece

// runs are the runs on the whole of one that is told of its left half.
func (p wholePiece) runs(r bench.Run) []bench.Run {
	hand := r.On
	r.On = piece.BothHands
	left, right := p.Halves[0], p.Halves[1]
	length := func(edges []piece.Edge, name string) (unit.Length, bool) {
		i := slices.IndexFunc(edges, func(e piece.Edge) bool { return e.Name == name })
		if i < 0 {
			return 0, false
		}
		return unit.Length(edges[i].Sew.Len()), true
	}
	long, _ := length(left.Edges, r.Edge)
	far, apart := length(p.Edges, otherEdge(r.Edge))
	var out []bench.Run
	switch {
	case r.Edge == "":
		return []bench.Run{r}
	case apart: // each half has its own; the right one runs the other way
		if hand != piece.RightHand {
			out = append(out, r)
		}
		if hand != piece.LeftHand {
			q := r
			q.Edge, q.From, q.To = otherEdge(r.Edge), 0, 0
			if by := far / long; r.From > 0 {
				q.To = far - r.From*by
			}
			if by := far / long; r.To > 0 {
				q.From = max(far-r.To*by, 0)
			}
			out = append(out, q)
		}
		return out
	case r.From == 0 && r.To == 0 && hand == piece.BothHands:
		return []bench.Run{r}
	}
	// One edge through both halves: the left's part of it, and the right's.
	rights, _ := length(right.Edges, r.Edge)
	to := r.To
	if to == 0 {
		to = long
	}
	first := onFold(left) >= 0 && left.Edges[(onFold(left)+1)%len(left.Edges)].Name == r.Edge
	if hand != piece.RightHand {
		q := r
		q.To = to
		if first { // the right's comes before it
			q.From, q.To = rights+r.From, rights+to
		}
		out = append(out, q)
	}
	if hand != piece.LeftHand {
		q, by := r, rights/long
		q.From, q.To = long+(long-to)*by, long+(long-r.From)*by
		if first {
			q.From, q.To = (long-to)*by, (long-r.From)*by
		}
		out = append(out, q)
	}
	return out
}
