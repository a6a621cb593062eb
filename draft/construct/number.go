package construct

import (
	"math"
	"strconv"

	"chalkfold/draft/geom"
)

func fixed3(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }

// finite reports whether the value, the mark and the line of a step can be
// drawn.
func (s Step) finite() bool {
	sum := s.Value + s.Off + s.At.X + s.At.Y
	for _, c := range s.Path {
		for _, p := range [...]geom.Pt{c.A, c.B, c.C, c.D} {
			sum += p.X + p.Y
		}
	}
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
