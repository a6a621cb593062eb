package garment

import (
	"math"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// leastLift is the least difference between the two sides of a figure that is
// drafted for: less is the tape's own.
const leastLift = unit.Inch / 8

// Uneven reports whether both sides of the figure were measured, waist to floor,
// and differ: one hip is higher.
func (in Input) Uneven() bool {
	l, okL := in.Body[body.LeftSideLength]
	r, okR := in.Body[body.RightSideLength]
	return okL && okR && !l.Estimated && !r.Estimated && math.Abs((l.Length-r.Length).MM()) >= leastLift.MM()
}

// Differs reports whether left and right are drafted by themselves: one hip is
// higher, or one side alone is altered.
func (in Input) Differs() bool {
	return in.Uneven() || slices.ContainsFunc(in.Altered, func(a Altered) bool { return a.Side != piece.BothHands })
}

// LiftSum is by how much the side of this half stands above where it would with
// both hips alike, as a sum; down when it stands below. Both are "" when it does
// not. The centre lies in the middle, so each side has half of the difference
// (common practice).
func (in Input) LiftSum() (sum string, down bool) {
	if in.Hand == piece.BothHands || !in.Uneven() {
		return "", false
	}
	higher, lower := body.LeftSideLength, body.RightSideLength
	if in.Body[higher].Length < in.Body[lower].Length {
		higher, lower = lower, higher
	}
	return "(" + string(higher) + " - " + string(lower) + ")/2", (higher == body.LeftSideLength) != (in.Hand == piece.LeftHand)
}

// otherHand stands behind the IDs of panels and pieces of the right half, and
// otherSteps before the names of its steps.
const (
	otherHand  = "-right"
	otherSteps = "right."
)

// other is the ID of a panel or piece on the right side; those of the panels are
// shown.
func other(id string) string {
	switch id {
	case "front":
		return say.Word("front-right")
	case "back":
		return say.Word("back-right")
	}
	return id + otherHand
}

// BothSides drafts both halves of a figure whose sides differ, each as if the
// other were like it, and puts them together: what differs is there twice and
// says on which side it is worn, and every claim that hangs on it is made of
// both. A figure whose sides are alike is drafted once.
func BothSides(in Input, draft func(Input) (*Draft, error)) (*Draft, error) {
	if !in.Differs() {
		return draft(in)
	}
	in.Hand = piece.LeftHand
	left, err := draft(in)
	if err != nil {
		return nil, err
	}
	in.Hand = piece.RightHand
	right, err := draft(in)
	if err != nil {
		return nil, err
	}
	return (&halves{in: in, left: left, right: right, behind: map[string]bool{}}).draft()
}

type halves struct {
	in          Input
	left, right *Draft
	panels      []string        // that differ
	behind      map[string]bool // panels that go round the back
	pieces      []string        // that differ
	joined      []string        // pieces of both that are cut whole
}

func (h *halves) draft() (*Draft, error) {
	out := *h.left
	out.Panels = slices.Clone(h.left.Panels)
	parts := map[string]string{}
	for _, p := range h.left.Panels {
		h.behind[p.Name] = p.Behind
	}
	for i, q := range h.right.Panels {
		if sameRing(q.Ring(), h.left.Panels[i].Ring()) {
			continue
		}
		parts[q.Name] = other(q.Name)
		h.panels = append(h.panels, q.Name)
		q.Like, q.Name = q.Name, other(q.Name)
		out.Panels = append(out.Panels, q)
	}
	var err error
	if out.Pieces, err = h.bothPieces(); err != nil {
		return nil, err
	}
	out.Record = h.left.Record.Beside(h.right.Record, otherSteps, parts,
		func(label string) string { return piece.LeftHand.Of(label, h.in.Format.Words) },
		func(label string) string { return piece.RightHand.Of(label, h.in.Format.Words) })
	out.Claims = h.claims()
	return &out, nil
}

// sameRing reports whether two rings are the same to a cutter.
func sameRing[T ~[]P, P interface{ Dist(P) float64 }](a, b T) bool {
	const same = 0.1 // mm
	return len(a) == len(b) && !slices.ContainsFunc(a, func(p P) bool {
		return !slices.ContainsFunc(b, func(q P) bool { return p.Dist(q) < same })
	})
}

// bothPieces are the pieces of the left half, and after each that differs that
// of the right; of one that would be cut on the fold, both in one. A front is drawn
// as its left half is seen from the right side of the cloth, a back as its right
// half.
func (h *halves) bothPieces() ([]piece.Piece, error) {
	var out []piece.Piece
	for _, p := range h.left.Pieces {
		i := slices.IndexFunc(h.right.Pieces, func(q piece.Piece) bool { return q.ID == p.ID })
		fold := onFold(p) >= 0
		if !p.Pairs && !fold || i < 0 || sameRing(p.Cut, h.right.Pieces[i].Cut) {
			out = append(out, p)
			continue
		}
		q := h.right.Pieces[i]
		behind := h.behind[p.On] || strings.HasPrefix(p.ID, "back")
		one, err := p, error(nil)
		if fold {
			if one, err = h.whole(p, q); err != nil {
				return nil, err
			}
		}
		p.Hand, p.Over = piece.LeftHand, behind
		q.Hand, q.Over = piece.RightHand, !behind
		q.ID = other(q.ID)
		if slices.Contains(h.panels, q.On) {
			q.On = other(q.On)
		}
		for _, x := range []*piece.Piece{&p, &q} {
			if x.Pairs {
				x.Count, x.Pairs = x.Count/2, false
			}
			x.Name = h.named(x.Name, x.Hand)
		}
		if fold {
			one.Over, one.Halves = behind, []piece.Piece{p, q}
			out = append(out, one)
			h.joined = append(h.joined, one.ID)
			continue
		}
		h.pieces = append(h.pieces, p.ID)
		out = append(out, p, q)
	}
	return out, nil
}

// named is the name of something of one side.
func (h *halves) named(name string, on piece.Hand) string {
	w := h.in.Format.Words
	return on.Of(w.T(name), w)
}

// Fellows pairs the pieces of one draft with those of another of the same garment.
// Where only one of them has a piece of its own for the right side, that of both
// sides stands for it in the other, under its name.
func Fellows(was, is []piece.Piece) [][2]piece.Piece {
	find := func(all []piece.Piece, id string) (piece.Piece, bool) {
		i := slices.IndexFunc(all, func(p piece.Piece) bool { return p.ID == id })
		if i < 0 {
			return piece.Piece{}, false
		}
		return all[i], true
	}
	stands := func(p, forIt piece.Piece) piece.Piece {
		if p.On == p.ID {
			p.On = forIt.ID
		}
		p.ID, p.Name, p.Hand, p.Over, p.Count = forIt.ID, forIt.Name, forIt.Hand, forIt.Over, forIt.Count
		return p
	}
	was, is = piece.Halved(was), piece.Halved(is)
	var out [][2]piece.Piece
	for _, p := range was {
		if q, ok := find(is, p.ID); ok {
			if p.Hand == piece.BothHands && q.Hand != piece.BothHands {
				p = stands(p, q)
			}
			if q.Hand == piece.BothHands && p.Hand != piece.BothHands {
				q = stands(q, p)
			}
			out = append(out, [2]piece.Piece{p, q})
		} else if q, ok := find(is, strings.TrimSuffix(p.ID, otherHand)); ok && p.Hand == piece.RightHand {
			out = append(out, [2]piece.Piece{p, stands(q, p)})
		}
	}
	for _, q := range is {
		if _, ok := find(was, q.ID); ok || q.Hand != piece.RightHand {
			continue
		}
		if p, ok := find(was, strings.TrimSuffix(q.ID, otherHand)); ok {
			out = append(out, [2]piece.Piece{stands(p, q), q})
		}
	}
	return out
}

// EdgeOf names an edge of a piece, and its side where the other has one of its own,
// in the language of w.
func EdgeOf(p piece.Piece, edge string, w *say.Words) string {
	return p.Hand.Of(piece.OnPiece(strings.TrimSuffix(p.ID, otherHand), edge).In(w), w)
}
