package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
)

func TestAffine(t *testing.T) {
	p := geom.Pt{X: 3, Y: 1}
	for _, tt := range []struct {
		name    string
		m       geom.Affine
		want    geom.Pt
		mirrors bool
	}{
		{"identity", geom.Identity(), p, false},
		{"translate", geom.Translate(geom.Vec{X: 2, Y: -1}), geom.Pt{X: 5}, false},
		{"mirror at x = 1", geom.MirrorX(1), geom.Pt{X: -1, Y: 1}, true},
		{"quarter turn clockwise, y down", geom.RotateAbout(geom.Pt{X: 2, Y: 1}, math.Pi/2), geom.Pt{X: 2, Y: 2}, false},
		{"turn, then mirror", geom.RotateAbout(geom.Pt{}, math.Pi/2).Then(geom.MirrorX(0)), geom.Pt{X: 1, Y: 3}, true},
	} {
		close2(t, tt.name, tt.m.Pt(p), tt.want, 1e-12)
		if tt.m.Mirrors() != tt.mirrors {
			t.Errorf("%s: mirrors %t", tt.name, tt.m.Mirrors())
		}
	}
}

func TestMapsCompose(t *testing.T) {
	anyMap := func(t *rapid.T, what string) geom.Affine {
		m := geom.RotateAbout(anyPt().Draw(t, what+" about"), rapid.Float64Range(-7, 7).Draw(t, what+" by"))
		if rapid.Bool().Draw(t, what+" mirrored") {
			m = m.Then(geom.MirrorX(rapid.Float64Range(-500, 500).Draw(t, what+" at")))
		}
		return m
	}
	rapid.Check(t, func(t *rapid.T) {
		m, n := anyMap(t, "m"), anyMap(t, "n")
		p, q := anyPt().Draw(t, "p"), anyPt().Draw(t, "q")
		close2(t, "m then n", m.Then(n).Pt(p), n.Pt(m.Pt(p)), 1e-8)
		close2(t, "displacement", geom.Pt(m.Vec(q.Sub(p))), geom.Pt(m.Pt(q).Sub(m.Pt(p))), 1e-8)
		close1(t, "distance kept", m.Pt(p).Dist(m.Pt(q)), p.Dist(q), 1e-8)
		w := anyPath().Draw(t, "path")
		close1(t, "length kept", w.Map(m).Len(), w.Len(), 4*lenTol*float64(len(w)))
	})
}
