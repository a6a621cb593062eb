package draft

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// Leftover is what the lay leaves of the end of a cloth of the job, as cloth of a
// later job, and the largest rectangle in it; false when nothing is left that is
// worth keeping. Its corners are to the finest that the job's lengths are shown,
// never over what is left.
func Leftover(r *Result, cloth int, l *Laid) (c job.Cloth, rect geom.Rect, ok bool) {
	left, ok := lay.Leftover(l.Cloth, l.Items, l.Result)
	if !ok {
		return c, rect, false
	}
	c, f := r.Job.Cloth[cloth], r.Format
	c.Width, c.Length, c.Margin, c.SoldBy = unit.Quantity{}, unit.Quantity{}, unit.Quantity{}, unit.Quantity{}
	c.Fold, c.Flaws, c.Outline, c.Remnant, c.Kept = job.Open, nil, nil, "", nil
	last := len(left.Outline) - 2
	near, far := left.Outline[:last], left.Outline[last:]
	for i, p := range near {
		// Where the edge comes nearer to the right, the corner moves to the right.
		x := down(p.X, f)
		if i%2 == 1 && i+1 < last && near[i+1].Y < p.Y || i%2 == 0 && i > 0 && near[i-1].Y > p.Y {
			x = up(p.X, f)
		}
		c.Outline = append(c.Outline, job.Corner{Across: x, Along: up(p.Y, f)})
	}
	for _, p := range far {
		c.Outline = append(c.Outline, job.Corner{Across: down(p.X, f), Along: down(p.Y, f)})
	}
	for _, b := range left.Flaws {
		x, y := down(b.Min.X, f), down(b.Min.Y, f)
		c.Flaws = append(c.Flaws, job.Flaw{
			FromSelvedge: x, FromEdge: y, Across: up(b.Max.X-x.Length().MM(), f), Along: up(b.Max.Y-y.Length().MM(), f),
		})
	}
	return c, left.Rect, true
}

// up and down are a length to the finest that f shows, rounded so.
func up(mm float64, f unit.Format) unit.Quantity   { return steps(mm, f, math.Ceil) }
func down(mm float64, f unit.Format) unit.Quantity { return steps(mm, f, math.Floor) }

func steps(mm float64, f unit.Format, round func(float64) float64) unit.Quantity {
	const hair = 1e-6
	n := mm / f.Finest().MM()
	if whole := math.Round(n); math.Abs(n-whole) < hair {
		n = whole
	}
	q, err := unit.Parse(unit.Format{System: f.System, Den: f.Den}.Plain(f.Finest()*unit.Length(round(n))), f.System)
	if err != nil {
		panic("draft: a length that cannot be read back: " + err.Error())
	}
	return q
}
