package lay_test

import (
	"maps"
	"testing"

	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// TestWantGoesOnFromClothToCloth: what one lay cuts is not wanted from the next,
// also when it went from program to program as a text.
func TestWantGoesOnFromClothToCloth(t *testing.T) {
	pieces := []piece.Piece{box("pair", 2, true, 300, 400), box("tab", 3, false, 200, 100), box("long", 1, false, 400, 900)}
	c := lay.Cloth{Width: 1000, Length: 500, LeaveOut: true}
	its, r := mustPack(t, pieces, c)
	cut := lay.Want{}
	cut.Cut(its, r)
	read, err := lay.ReadWant(cut.Text())
	if err != nil || !maps.Equal(read, cut) {
		t.Fatalf("%q is read as %v, %v", cut.Text(), read, err)
	}
	all, rest := lay.WantOf(pieces), lay.WantOf(pieces).Without(read)
	less := maps.Clone(all)
	less.Less(its, r)
	if !maps.Equal(rest, less) {
		t.Errorf("less what was cut: %v, and %v", rest, less)
	}
	if rest["long"] != (lay.Copies{Plain: 1}) || rest["pair"] != (lay.Copies{}) {
		t.Errorf("wanted still: %v; 900 mm do not lie on 500, the pair does", rest)
	}
	if got := all.Without(lay.Want{"other": {Plain: 9}, "tab": {Plain: 7}}); got["tab"] != (lay.Copies{}) || len(got) != len(all) {
		t.Errorf("more cut than wanted: %v", got)
	}
	for _, bad := range []string{"a", "a 1", "a b 1", "a 1 x"} {
		if w, err := lay.ReadWant(bad); err == nil {
			t.Errorf("%q is read as %v", bad, w)
		}
	}
}
