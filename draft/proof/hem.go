package proof

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// flatTol is how far the edge of a turned-up allowance may differ in length
// from the piece where it comes to lie, mm.
const flatTol = 1.5

// hemSquareTol is how far off square a hem may stand to the grain, degrees.
const hemSquareTol = 1.0

// hems checks every turned-up edge: square to the grain, and its allowance
// lies flat, which is measured just short of its edge and at the place on the
// piece that this comes to lie on.
func (p *prover) hems(x piece.Piece) {
	curved := slices.ContainsFunc(x.Edges, func(e piece.Edge) bool { return e.Turned && (len(e.Sew) > 1 || !e.Sew[0].IsLine()) })
	for _, e := range x.Edges {
		if !e.Turned {
			continue
		}
		from, to := e.Sew.Start(), e.Sew.End()
		if curved {
			p.curvedHem(x, e)
			continue
		}
		dir := to.Sub(from).Unit()
		mid := from.Lerp(to, 0.5)
		deg := dir.AngleTo(x.Grain.D.Sub(x.Grain.A)) * 180 / math.Pi
		p.add(say.Of("%s of the %s, square", say.Name(e.Name), say.Within(x.Name)), Finding{
			Level: judge(math.Abs(deg-90) <= hemSquareTol, Stops), Figure: degrees(deg), Want: degrees(90),
			Tolerance: degrees(hemSquareTol), Say: p.T("against the grain"), Mend: p.T("draw the hem square to the grain"), Panel: x.ID, At: &mid,
		})
		depth := math.Min(e.AllowStart.MM(), e.AllowEnd.MM()) - 0.5
		out, ok1 := chord(x.Cut, mid.Add(dir.Left().Scale(depth)), dir)
		in, ok2 := chord(x.Cut, mid.Add(dir.Left().Scale(-depth)), dir)
		met, off := ok1 && ok2, 0.0
		if met {
			off = out - in
		}
		p.add(say.Of("%s of the %s, turned up", say.Name(e.Name), say.Within(x.Name)), Finding{
			Level: judge(met && math.Abs(off) <= flatTol, Stops), Figure: mm(off), Want: mm(0),
			Tolerance: mm(flatTol), Say: p.T("edge of the allowance against the cloth where it comes to lie"), Mend: p.T("mirror the allowance in the hem line"), Panel: x.ID, At: &mid,
		})
	}
}

// mostFullness is how much longer than the cloth below it, as a part of that, the
// edge of a turned-up allowance may be and still be eased in with the iron
// (common practice).
const mostFullness = 0.06

// curvedHem checks that what is turned up along a curve can be eased in: lines
// at equal distances from a curve differ in length by the distance between them
// times the angle that the curve turns by.
func (p *prover) curvedHem(x piece.Piece, e piece.Edge) {
	turn, at := 0.0, e.Sew.Start()
	dir := e.Sew.StartDir()
	for _, c := range e.Sew {
		for i := range 8 {
			next := c.Tangent(float64(i+1) / 8)
			turn += math.Abs(math.Atan2(dir.Cross(next), dir.Dot(next)))
			dir = next
		}
	}
	depth := math.Max(e.AllowStart.MM(), e.AllowEnd.MM())
	full, most := 2*depth*turn, mostFullness*e.Sew.Len()
	p.add(say.Of("%s of the %s, turned up", say.Name(e.Name), say.Within(x.Name)), Finding{
		Level: judge(full <= most, Mind), Figure: mm(full), Want: mm(0), Tolerance: mm(most),
		Say: p.T("how much longer the edge of the allowance is than the cloth where it comes to lie: ease it in"), Mend: p.T("turn up less, or face the hem"), Panel: x.ID, At: &at,
	})
}

// chord is how wide a ring is along the line through at, on the stretch that
// holds at.
func chord(ring []geom.Pt, at geom.Pt, dir geom.Vec) (float64, bool) {
	before, after := math.Inf(-1), math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		da, db := a.Sub(at).Cross(dir), b.Sub(at).Cross(dir)
		if da*db > 0 || da == db {
			continue
		}
		if t := a.Lerp(b, da/(da-db)).Sub(at).Dot(dir); t <= 0 {
			before = math.Max(before, t)
		} else {
			after = math.Min(after, t)
		}
	}
	return after - before, !math.IsInf(after-before, 0)
}
