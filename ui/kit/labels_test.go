package kit

import (
	"strings"
	"testing"

	"chalkfold/draft/geom"
)

// No name lies on another, however near it is looked at.
func TestLabelsKeepApart(t *testing.T) {
	l := Labels{Pen: &Pen{}}
	for i := range 40 {
		l.Beside("label", strings.Repeat("x", 3+i%17), geom.Pt{X: float64(i*37%200) * 2, Y: float64(i * 53 % 170)})
	}
	if len(l.placed) < 35 {
		t.Errorf("%d of 40 names have a place", len(l.placed))
	}
	for _, s := range scales() {
		for i, p := range l.placed {
			for _, q := range l.placed[:i] {
				if s < scales()[p.from] || s < scales()[q.from] {
					continue
				}
				dx, dy := (q.at.X-p.at.X)*s, (q.at.Y-p.at.Y)*s
				if p.x0 < q.x1+dx && q.x0+dx < p.x1 && p.y0 < q.y1+dy && q.y0+dy < p.y1 {
					t.Errorf("at %g px for each mm two names lie on each other: %+v and %+v", s, p, q)
				}
			}
		}
	}
}
