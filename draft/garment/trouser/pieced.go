package trouser

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// pieceFork marks where a piece is let in at the tip of the back fork, so that
// the back goes on cloth that is too narrow for it: a join on the grain, from
// the fork curve down to the inseam (common practice).
func (d *drafter) pieceFork() {
	if d.Err() != nil || d.refuse != nil || d.Get("back_piecing") == 0 {
		return
	}
	d.Part("back")
	rec, _ := d.Record()
	inseam, fork := rec.Path("back.inseam"), rec.Path("back.fork")
	tip := d.Point("back.fork_tip")
	d.Solved("back.piecing_room", d.T("room for a piece let in"), d.piecingRoom(inseam, fork), d.T("the join must meet the fork curve, and the inseam well above the knee where it still leans"))
	d.Value("back.piecing", d.T("piece let in at the back fork, width"), "least(most(back_piecing, 1 in), back.piecing_room)", d.T("too small a piece cannot be sewn"))
	if d.Get("back.piecing") < leastPiece.MM() {
		return // there was no room: the proof of the rule says so
	}
	at := geom.Pt{X: tip.X + d.Get("back.piecing")}
	low, high := inseam.CrossLine(at, geom.Vec{Y: 1}), fork.CrossLine(at, geom.Vec{Y: 1})
	if len(low) == 0 || len(high) == 0 {
		return // there was no room: the proof of the rule says so
	}
	onGrain := d.T("found so that the join runs on the grain")
	d.Solved("back.join_down", d.T("join, along the inseam"), low[0], onGrain, "back.piecing")
	d.Solved("back.join_in", d.T("join, along the fork curve"), fork.Len()-high[len(high)-1], onGrain, "back.piecing")
	d.Along("back.join_low", d.T("join at the inseam"), "back.inseam", "back.fork_tip", false, "back.join_down", d.T("the piece let in ends here"))
	d.Along("back.join_top", d.T("join at the fork curve"), "back.fork", "back.fork_tip", true, "back.join_in", d.T("the piece let in ends here"))
	d.Straight("back.join", d.T("join of the piece let in"), d.T("on the grain; cut the back here, with its allowance"), "back.join_top", "back.join_low")
}

// piecingRoom is the widest piece that can be let in: its join meets the inseam
// no lower than half way from the thigh line to the knee line, and where it
// still leans off the grain, and the fork curve in its flat part.
func (d *drafter) piecingRoom(inseam, fork geom.Path) float64 {
	tip, thigh, knee := d.Point("back.fork_tip"), d.Point("back.thigh_in"), d.Point("back.knee_in")
	lowest := geom.Pt{Y: (thigh.Y + knee.Y) / 2}
	room := (fork.Start().X - tip.X) * forkShare
	if s := inseam.CrossLine(lowest, geom.Vec{X: 1}); len(s) > 0 {
		p, _ := inseam.At(s[0])
		room = math.Min(room, p.X-tip.X)
	}
	if p, ok := upright(inseam); ok {
		room = math.Min(room, p.X-tip.X)
	}
	return room
}

// leastPiece is the narrowest piece that is let in (common practice).
const leastPiece = unit.Inch / 2

// forkShare is how much of the back fork's reach a piece let in may take.
const forkShare = 0.75

// leastLean is how far across the inseam must run for each measure down where a
// piece let in ends: at less, it would end in a sliver that nobody can sew
// (common practice).
const leastLean = 0.1

// upright is the first place on a line down at which it leans less than
// leastLean.
func upright(line geom.Path) (geom.Pt, bool) {
	leans := func(c geom.Curve, t float64) bool {
		way := c.Tangent(t)
		return math.Abs(way.X) >= leastLean*math.Abs(way.Y)
	}
	const steps = 24
	for _, c := range line {
		for i := range steps + 1 {
			hi := float64(i) / steps
			if leans(c, hi) {
				continue
			}
			lo := math.Max(0, hi-1.0/steps)
			for range 40 {
				if m := (lo + hi) / 2; leans(c, m) {
					lo = m
				} else {
					hi = m
				}
			}
			return c.At(hi), true
		}
	}
	return geom.Pt{}, false
}

// joined is the name of the edges that meet where a piece is let in.
const joined = "join"

// pieced cuts the tip of the fork from the back, and returns both.
func (s *shape) pieced(back piece.Piece) []piece.Piece {
	join := s.rec.Path("back.join") // down
	tip := piece.Piece{
		ID: "back-fork", Name: say.Word("Piece of the back fork"), Cloth: piece.Main, Count: 2, Pairs: true, On: "back",
		Note:  s.T("sewn to the back first, on the join; the grain runs as in the back"),
		Match: back.Match,
	}
	seam := s.rule("seam_allowance")
	up, down := edge(say.Word("join"), join.Reverse(), seam), edge(joined, join, seam)
	up.Corner, down.Corner = piece.Square, piece.Square
	var edges []piece.Edge
	for _, e := range back.Edges {
		switch e.Name {
		case "inseam": // up to the tip
			at, _ := e.Sew.Nearest(join.End())
			rest := e
			e.Sew, rest.Sew = e.Sew.Split(at)
			e.Corner = piece.Mitre
			edges, tip.Edges = append(edges, e, up), append(tip.Edges, rest)
		case "fork": // from the tip
			at, _ := e.Sew.Nearest(join.Start())
			first := e
			first.Sew, e.Sew = e.Sew.Split(at)
			edges, tip.Edges = append(edges, e), append(tip.Edges, first, down)
		default:
			edges = append(edges, e)
		}
	}
	back.Edges = edges
	kept := back.Notches[:0:0]
	for _, n := range back.Notches {
		if _, off := tip.Edges[0].Sew.Nearest(n.At); off < 0.1 {
			tip.Notches = append(tip.Notches, n)
		} else {
			kept = append(kept, n)
		}
	}
	name := say.Word("middle of the join")
	back.Notches = append(kept, notchAt(up, up.Sew.Len()/2, name, notchForkJoin))
	tip.Notches = append(tip.Notches, notchAt(down, down.Sew.Len()/2, name, notchForkJoin))
	note := s.T("a piece let in at the fork: cut the back at the join, not to the tip")
	if s.rule("centre_back_inlay") > 0 {
		note = s.T("inlay at the centre back, to let out, and a piece let in at the fork: cut the back at the join, not to the tip")
	}
	back.Note = note
	tip.Grain = grainWithin(tip.Edges)
	return []piece.Piece{back, tip}
}

// piecedSeams claims that the join meets, and that the back and what is let in
// are sewn as long as the whole back that was proved.
func (s *shape) piecedSeams() []piece.Seam {
	if !s.rec.Has("back.join") {
		return nil
	}
	both := func(edge string) []piece.Ref { return []piece.Ref{ofPiece("back", edge), ofPiece("back-fork", edge)} }
	mend := s.T("cut the back and the piece let in to one line")
	return []piece.Seam{
		{Name: say.Word("join at the back fork"), A: both(joined)[:1], B: both(joined)[1:], Tol: seamTol, Mend: mend},
		{Name: say.Word("back inseam with its piece"), A: []piece.Ref{ref("back", "inseam")}, B: both("inseam"), Tol: seamTol, Mend: mend},
		{Name: say.Word("back fork with its piece"), A: []piece.Ref{ref("back", "fork")}, B: both("fork"), Tol: seamTol, Mend: mend},
	}
}

// piecedBounds says so when there is less room for a piece let in than its rule
// asks for.
func (s *shape) piecedBounds() []piece.Bound {
	rule := s.rule("back_piecing")
	if rule == 0 {
		return nil
	}
	b := piece.Bound{Check: say.Word("piece let in"), Say: s.T("piece let in at the back fork, against its rule"), Least: &rule, Mend: s.T("there is no room for a wider one: make it narrower"), Panel: "back"}
	if s.rec.Has("back.join") {
		at := s.rec.Point("back.join_low")
		b.Figure, b.At = s.mm("back.piecing"), &at
	}
	return []piece.Bound{b}
}
