package trouser_test

import (
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
)

// leastGrain is the shortest grain line that can be laid along a tape, mm.
const leastGrain = 15

// The grain line of every piece is chalked on the piece: the whole of it lies
// within the sew line, by an independent library, over surveyed bodies in all
// styles and with all that is given when cloth is short. It is straight.
func TestGrainLineLiesInside(t *testing.T) {
	all := surveyed(t)
	styles, short := pairStyles(t), append(shortCloth(), nil)
	drawn := 0
	for i := range 3 * len(styles) {
		o := order{Body: all[(i*37)%len(all)], Style: styles[i%len(styles)], Rules: short[i%len(short)], Spoken: i%2 == 1}
		m, ok := tryDraft(t, o)
		if !ok {
			continue
		}
		drawn++
		for _, p := range m.Pieces {
			g := p.Grain
			line := sf.NewLineString(sf.NewSequence([]float64{g.A.X, g.A.Y, g.D.X, g.D.Y}, sf.DimXY)).AsGeometry()
			in, err := sf.Covers(polygon(p.Sew), line)
			if err != nil {
				t.Fatal(err)
			}
			if !in || !g.IsLine() || g.A.X != g.D.X && g.A.Y != g.D.Y || g.A.Dist(g.D) < leastGrain {
				t.Errorf("%v of %v: the grain line of %s, %v to %v, does not lie inside it", o.Style, o.Rules, p.ID, g.A, g.D)
			}
		}
	}
	if drawn < 50 {
		t.Errorf("%d drafts are too few to tell", drawn)
	}
}
