package balance

import "math"

// Unknown is a figure that may be changed: from Min to Max, both counted from
// where it stands now, mm. A change by Per weighs as one; where Min is Max the
// figure stays, and Per may be nought.
type Unknown struct{ Min, Max, Per float64 }

// Wish is a length that is to come out, mm. A wish of Weight 100 counts as
// much as a hundred of Weight 1.
type Wish struct{ Want, Weight float64 }

// Measure draws with the figures changed by x and measures what is wished; the
// error says why it cannot be drawn.
type Measure func(x []float64) ([]float64, error)

// Solution is what was found.
type Solution struct {
	By  []float64 // by how much each figure is changed, mm
	Got []float64 // what is measured then
	// Stopped says of each figure that the end of its range stopped it, or that it
	// could not be drawn further: it would have gone on for the sake of a wish.
	Stopped []bool
	// Settled: every wish is met, or no further step would help.
	Settled bool
	Draws   int // how often it was drawn
}

const (
	settled   = 0.02 // mm: a change that no tape shows
	ridge     = 2    // what a change weighs beside a wish, mm², so that wishes come first
	mostSteps = 12
	mostHalf  = 4     // how often a step is halved
	gain      = 0.004 // mm²: a step that promises less is not taken ...
	near      = 0.02  // ... nor one that makes the change itself less by a smaller share
	little    = 2     // mm: what cannot be drawn so much further is at its end
	probe     = 0.5   // mm, for the slopes
	met       = 0.5   // mm: a wish so near is met, and stops no figure
)

// Solve finds the least change for which the wishes come true, or come as near
// as the ranges let them. The error is that of measure where not even the
// house's own figures can be drawn.
func Solve(unknowns []Unknown, wishes []Wish, measure Measure) (Solution, error) {
	s := &solver{unknowns: append([]Unknown(nil), unknowns...), wishes: wishes, measure: measure}
	x := make([]float64, len(unknowns))
	for i, u := range s.unknowns {
		x[i] = math.Max(u.Min, math.Min(u.Max, 0))
		if u.Max <= u.Min {
			s.unknowns[i].Per = 1 // it stays, whatever a change of it would weigh
		}
	}
	got, err := s.draw(x)
	if err != nil {
		return Solution{By: make([]float64, len(unknowns)), Stopped: make([]bool, len(unknowns)), Draws: s.draws}, err
	}
	slopes, fresh := s.slopes(x, got), true
	done := false
	for range mostSteps {
		to := s.nearest(x, got, slopes)
		if s.lack(x, got)-s.lack(to, along(x, to, got, slopes)) < gain+near*s.change(x) {
			done = true
			break
		}
		next, at, ok := s.step(x, to, got)
		if !ok && s.wall(x, to) {
			continue
		}
		if !ok && fresh {
			done = far(x, to) < 10*settled
			break
		}
		if !ok {
			slopes, fresh = s.slopes(x, got), true
			continue
		}
		moved := far(x, next)
		correct(slopes, x, next, got, at)
		x, got, fresh = next, at, false
		if moved < settled {
			done = true
			break
		}
	}
	return Solution{By: x, Got: got, Stopped: s.stopped(x, got, slopes), Settled: done || s.met(got), Draws: s.draws}, nil
}

type solver struct {
	unknowns []Unknown
	wishes   []Wish
	measure  Measure
	draws    int
}

func (s *solver) draw(x []float64) ([]float64, error) {
	s.draws++
	return s.measure(x)
}

// slopes are how much each wished length grows with each figure. A figure that
// cannot be drawn either way is taken to change nothing.
func (s *solver) slopes(x, got []float64) [][]float64 {
	out := make([][]float64, len(s.wishes))
	for i := range out {
		out[i] = make([]float64, len(x))
	}
	for j, u := range s.unknowns {
		for _, h := range []float64{math.Min(probe, u.Max-x[j]), math.Max(-probe, u.Min-x[j])} {
			if math.Abs(h) < settled {
				continue
			}
			to := append([]float64(nil), x...)
			to[j] += h
			at, err := s.draw(to)
			if err != nil {
				continue
			}
			for i := range out {
				out[i][j] = (at[i] - got[i]) / h
			}
			break
		}
	}
	return out
}

// lack is how far the wishes are from true, and how much is changed for them.
func (s *solver) lack(x, got []float64) float64 {
	sum := 0.0
	for i, w := range s.wishes {
		sum += w.Weight * (got[i] - w.Want) * (got[i] - w.Want)
	}
	return sum + s.change(x)
}

// change is how much is changed.
func (s *solver) change(x []float64) float64 {
	sum := 0.0
	for j, u := range s.unknowns {
		sum += ridge * (x[j] / u.Per) * (x[j] / u.Per)
	}
	return sum
}

// step goes from x towards to as far as it helps.
func (s *solver) step(x, to, got []float64) (next, at []float64, ok bool) {
	before := s.lack(x, got)
	worse := 0
	for share := 1.0; worse < mostHalf && share*far(x, to) > settled; share /= 2 {
		next = make([]float64, len(x))
		for j := range x {
			next[j] = x[j] + share*(to[j]-x[j])
		}
		at, err := s.draw(next)
		switch {
		case err == nil && s.lack(next, at) <= before:
			return next, at, true
		case err == nil:
			worse++
		case share*far(x, to) < little:
			return nil, nil, false
		}
	}
	return nil, nil, false
}

// met reports whether every wish is.
func (s *solver) met(got []float64) bool {
	for i, w := range s.wishes {
		if math.Abs(got[i]-w.Want) > met {
			return false
		}
	}
	return true
}

// wall ends the range of each figure that cannot be drawn a little further on
// its way from x to to; where only all of them together cannot, of the one that
// goes the longest way. It is false where they can be drawn.
func (s *solver) wall(x, to []float64) bool {
	end := func(j int) {
		if to[j] > x[j] {
			s.unknowns[j].Max = x[j]
		} else {
			s.unknowns[j].Min = x[j]
		}
	}
	found, together := false, append([]float64(nil), x...)
	longest := 0
	for j := range x {
		way := math.Max(-little, math.Min(little, to[j]-x[j]))
		if math.Abs(way) < settled {
			continue
		}
		next := append([]float64(nil), x...)
		next[j] += way
		together[j] += way
		if _, err := s.draw(next); err != nil {
			end(j)
			found = true
		}
		if math.Abs(to[j]-x[j])/s.unknowns[j].Per > math.Abs(to[longest]-x[longest])/s.unknowns[longest].Per {
			longest = j
		}
	}
	if _, err := s.draw(together); !found && err != nil {
		end(longest)
		return true
	}
	return found
}

// correct has the slopes agree with what the last step measured.
func correct(slopes [][]float64, x, next, got, at []float64) {
	sum := 0.0
	for j := range x {
		sum += (next[j] - x[j]) * (next[j] - x[j])
	}
	if sum < settled*settled {
		return
	}
	for i := range slopes {
		off := at[i] - got[i]
		for j := range x {
			off -= slopes[i][j] * (next[j] - x[j])
		}
		for j := range x {
			slopes[i][j] += off * (next[j] - x[j]) / sum
		}
	}
}

// along is what would be measured at to, by the slopes at x.
func along(x, to, got []float64, slopes [][]float64) []float64 {
	out := append([]float64(nil), got...)
	for i := range out {
		for j := range x {
			out[i] += slopes[i][j] * (to[j] - x[j])
		}
	}
	return out
}

// far is the longest way between two sets of figures.
func far(a, b []float64) float64 {
	most := 0.0
	for i := range a {
		most = math.Max(most, math.Abs(a[i]-b[i]))
	}
	return most
}

// stopped tells which figures stand at an end of their range and would go on
// for the sake of a wish that is not met.
func (s *solver) stopped(x, got []float64, slopes [][]float64) []bool {
	out := make([]bool, len(x))
	for j, u := range s.unknowns {
		pull := 0.0
		for i, w := range s.wishes {
			if off := w.Want - got[i]; math.Abs(off) > met {
				pull += w.Weight * off * slopes[i][j]
			}
		}
		out[j] = x[j] >= u.Max-settled && pull > 0 || x[j] <= u.Min+settled && pull < 0
	}
	return out
}
