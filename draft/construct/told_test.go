package construct_test

import (
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// What a truing did is told once: the move that a tape shows, not the sum that
// only says how far; a renewed sum; a line drawn anew.
func TestTell(t *testing.T) {
	b := construct.New([]construct.Quantity{{Name: "hip", Label: "hip", Value: 42 * 25.4, Length: true}}, nil, nil)
	b.Part("back")
	b.Value("reach", "fork reach", "hip/16", "a sixteenth")
	b.Origin("tip", "fork tip", geom.Pt{}, "where the lines cross")
	b.Origin("side", "side", geom.Pt{X: 100}, "where the lines cross")
	down := construct.Fixed("down", geom.Vec{Y: 1})
	b.Truing("inseam", func() {
		b.Value("drop", "drop", "hip/168", "found")
		b.Shift("tip_dropped", "fork tip, dropped", "tip", down, "drop", "until the inseams agree")
		b.Shift("side_dropped", "side, dropped", "side", down, "hip/10000", "too little to see")
	})
	b.Truing("fork", func() {
		b.Ratio("fullness", "fullness", 0.55, "as the rule")
		b.Renew("reach_more", "fork reach, let out", "reach", "reach + 0.75 in", "to keep its length")
		b.Curve("curve", "fork curve", geom.Polyline(geom.Pt{}, geom.Pt{X: 254}), "smooth")
	})
	r, err := b.Record()
	if err != nil {
		t.Fatal(err)
	}
	want := []construct.Told{
		{"inseam", "tip_dropped", "fork tip: ¼ in down", "until the inseams agree"},
		{"fork", "reach_more", "fork reach, let out: 3⅜ in instead of 2⅝ in", "to keep its length"},
		{"fork", "curve", "fork curve: drawn anew, 10 in long", "smooth"},
	}
	got := r.Tell(unit.Format{})
	if len(got) != len(want) {
		t.Fatalf("told %+v, want %+v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("told %+v, want %+v", got[i], want[i])
		}
	}
}
