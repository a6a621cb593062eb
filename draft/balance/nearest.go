package balance

import "math"

// nearest is the change that brings the wishes nearest by the slopes at x: the
// least of a sum of squares within a box, by holding figures at the ends of
// their ranges. It begins at x, and each round comes nearer: the figures that
// are not held go to where they are best, or as far that way as the first of
// them that comes to an end, which is then held; one that would leave its end
// is let go again.
func (s *solver) nearest(x, got []float64, slopes [][]float64) []float64 {
	a, b := s.normal(x, got, slopes)
	to := append([]float64(nil), x...)
	held := make([]bool, len(x))
	for j, u := range s.unknowns {
		held[j] = to[j] <= u.Min || to[j] >= u.Max
	}
	for range 10 * len(x) {
		best := append([]float64(nil), to...)
		free(a, b, best, held)
		if first, share := s.firstEnd(to, best, held); first >= 0 {
			for j := range to {
				to[j] += share * (best[j] - to[j])
			}
			u := s.unknowns[first]
			to[first] = u.Max
			if best[first] < u.Min {
				to[first] = u.Min
			}
			held[first] = true
			continue
		}
		to = best
		leave := s.leaves(a, b, to, held)
		if leave < 0 {
			break
		}
		held[leave] = false
	}
	return to
}

// firstEnd is the figure that comes to an end of its range first on the way
// from to to best, and which share of the way that is; -1 when none does.
func (s *solver) firstEnd(to, best []float64, held []bool) (first int, share float64) {
	first, share = -1, 1
	for j, u := range s.unknowns {
		end := math.Max(u.Min, math.Min(u.Max, best[j]))
		if held[j] || end == best[j] {
			continue
		}
		if at := (end - to[j]) / (best[j] - to[j]); at < share || first < 0 {
			first, share = j, at
		}
	}
	return first, share
}

// leaves is the figure that is held at an end and is drawn away from it most;
// -1 when none is.
func (s *solver) leaves(a [][]float64, b, to []float64, held []bool) int {
	leave, most := -1, 1e-9
	for j, u := range s.unknowns {
		if !held[j] || u.Max <= u.Min {
			continue
		}
		pull := b[j]
		for k := range to {
			pull -= a[j][k] * to[k]
		}
		if to[j] >= u.Max {
			pull = -pull
		}
		if pull*u.Per > most {
			leave, most = j, pull*u.Per
		}
	}
	return leave
}

// normal are the equations of the least sum of squares.
func (s *solver) normal(x, got []float64, slopes [][]float64) (a [][]float64, b []float64) {
	n := len(x)
	a, b = make([][]float64, n), make([]float64, n)
	for j, u := range s.unknowns {
		a[j] = make([]float64, n)
		a[j][j] = ridge / (u.Per * u.Per)
	}
	for i, w := range s.wishes {
		want := w.Want - got[i]
		for j := range x {
			want += slopes[i][j] * x[j]
		}
		for j := range x {
			b[j] += w.Weight * slopes[i][j] * want
			for k := range x {
				a[j][k] += w.Weight * slopes[i][j] * slopes[i][k]
			}
		}
	}
	return a, b
}

// free solves a·to = b for the figures that are not held, the others being as
// they are in to: elimination, with the largest pivot first.
func free(a [][]float64, b, to []float64, held []bool) {
	var at []int
	for j := range to {
		if !held[j] {
			at = append(at, j)
		}
	}
	m := make([][]float64, len(at))
	for r, j := range at {
		m[r] = make([]float64, len(at)+1)
		m[r][len(at)] = b[j]
		for k := range to {
			if held[k] {
				m[r][len(at)] -= a[j][k] * to[k]
			}
		}
		for c, k := range at {
			m[r][c] = a[j][k]
		}
	}
	for c := range at {
		p := c
		for r := c; r < len(at); r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		m[c], m[p] = m[p], m[c]
		for r := range at {
			if r == c {
				continue
			}
			f := m[r][c] / m[c][c]
			for k := c; k <= len(at); k++ {
				m[r][k] -= f * m[c][k]
			}
		}
	}
	for r, j := range at {
		to[j] = m[r][len(at)] / m[r][r]
	}
}
