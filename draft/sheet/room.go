package sheet

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
)

// room is the free space inside a ring: where a label may stand.
type room struct {
	ring  []geom.Pt
	segs  [][2]geom.Pt // nothing may lie on these
	tried []geom.Pt    // the places to try, once they are known
}

func newRoom(ring []geom.Pt) *room {
	r := &room{ring: ring}
	for i, a := range ring {
		r.segs = append(r.segs, [2]geom.Pt{a, ring[(i+1)%len(ring)]})
	}
	return r
}

func (r *room) clone() *room { return &room{ring: r.ring, segs: slices.Clone(r.segs), tried: r.tried} }

// lineTol is how closely, in mm, a line must be followed to be kept clear of.
const lineTol = 0.5

// path makes p busy.
func (r *room) path(p geom.Path) {
	pts := p.Flatten(lineTol)
	for i := 1; i < len(pts); i++ {
		r.segs = append(r.segs, [2]geom.Pt{pts[i-1], pts[i]})
	}
}

// box makes the box about c busy, reaching halfW along dir and halfH across.
func (r *room) box(c geom.Pt, dir geom.Vec, halfW, halfH float64) {
	u, v := dir.Scale(halfW), dir.Right().Scale(halfH)
	q := []geom.Pt{
		c.Add(u.Plus(v)), c.Add(u.Plus(v.Neg())), c.Add(u.Neg().Plus(v.Neg())), c.Add(u.Neg().Plus(v)),
	}
	for i, a := range q {
		r.segs = append(r.segs, [2]geom.Pt{a, q[(i+1)%4]})
	}
	// The diagonals keep a small label from standing wholly inside the box.
	r.segs = append(r.segs, [2]geom.Pt{q[0], q[2]}, [2]geom.Pt{q[1], q[3]})
}

// fits reports whether the box about c, reaching halfW along dir and halfH
// across, lies inside the ring and clear of everything busy.
func (r *room) fits(c geom.Pt, dir geom.Vec, halfW, halfH float64) bool {
	across := dir.Right()
	for _, s := range r.segs {
		a, b := s[0].Sub(c), s[1].Sub(c)
		if meetsBox(a.Dot(dir), a.Dot(across), b.Dot(dir), b.Dot(across), halfW, halfH) {
			return false
		}
	}
	return geom.Contains(r.ring, c)
}

// meetsBox reports whether the segment from (ax, ay) to (bx, by) meets the box
// of ±w by ±h.
func meetsBox(ax, ay, bx, by, w, h float64) bool {
	_, _, ok := clipToBox(ax, ay, bx, by, w, h)
	return ok
}

// clipToBox returns the parameters between which the segment lies in the box
// of ±w by ±h; false when it misses it.
func clipToBox(ax, ay, bx, by, w, h float64) (t0, t1 float64, ok bool) {
	if (ax > w && bx > w) || (ax < -w && bx < -w) || (ay > h && by > h) || (ay < -h && by < -h) {
		return 0, 0, false
	}
	t0, t1 = 0, 1
	for _, axis := range [2][3]float64{{ax, bx - ax, w}, {ay, by - ay, h}} {
		from, step, bound := axis[0], axis[1], axis[2]
		if step == 0 {
			continue // the first test has seen that it lies between the sides
		}
		in, out := (-bound-from)/step, (bound-from)/step
		t0, t1 = math.Max(t0, math.Min(in, out)), math.Min(t1, math.Max(in, out))
	}
	return t0, t1, t0 <= t1
}

// roomGrid is how many places are tried each way.
const roomGrid = 24

// find returns the place nearest the middle of the ring where a box of halfW
// by halfH fits.
func (r *room) find(dir geom.Vec, halfW, halfH float64) (geom.Pt, bool) {
	for _, c := range r.spots() {
		if r.fits(c, dir, halfW, halfH) {
			return c, true
		}
	}
	return geom.Pt{}, false
}

// spots returns the places to try, nearest the middle of the area first.
func (r *room) spots() []geom.Pt {
	if r.tried != nil {
		return r.tried
	}
	b, mid := geom.BoundsOf(r.ring), middle(r.ring)
	out := []geom.Pt{mid}
	for i := range roomGrid {
		for j := range roomGrid {
			out = append(out, geom.Pt{
				X: b.Min.X + (float64(i)+0.5)/roomGrid*b.W(),
				Y: b.Min.Y + (float64(j)+0.5)/roomGrid*b.H(),
			})
		}
	}
	slices.SortStableFunc(out, func(p, q geom.Pt) int {
		switch dp, dq := p.Dist(mid), q.Dist(mid); {
		case dp < dq:
			return -1
		case dp > dq:
			return 1
		}
		return 0
	})
	r.tried = out
	return out
}

// middle returns the centre of the area of the ring, or of its box when it has
// no area.
func middle(ring []geom.Pt) geom.Pt {
	b := geom.BoundsOf(ring)
	o := b.Min.Lerp(b.Max, 0.5)
	var sum, x, y float64
	for i, p := range ring {
		p, q := p.Sub(o), ring[(i+1)%len(ring)].Sub(o)
		k := p.Cross(q)
		sum, x, y = sum+k, x+k*(p.X+q.X), y+k*(p.Y+q.Y)
	}
	if sum == 0 {
		return o
	}
	return o.Add(geom.Vec{X: x / (3 * sum), Y: y / (3 * sum)})
}
