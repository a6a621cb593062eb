package fitting

import (
	"slices"
	"testing"

	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

func TestRooms(t *testing.T) {
	const in = unit.Inch
	pieces := []piece.Piece{
		{ID: "back", On: "back", Edges: []piece.Edge{
			{Name: "side", AllowStart: in / 2, AllowEnd: in / 2},
			{Name: "centre", AllowStart: in / 2, AllowEnd: 3 * in / 2}, // an inlay
			{Name: "fold", Fold: true, AllowStart: in},
			{Name: "raw"},
			{Name: "pocket mouth", AllowStart: in / 2, AllowEnd: in / 2}, // within the panel
		}},
		{ID: "facing", On: "back", Edges: []piece.Edge{{Name: "side", AllowStart: in, AllowEnd: in}}},
		{ID: "band", Edges: []piece.Edge{{Name: "waist", AllowStart: in, AllowEnd: in}}},
	}
	panels := []piece.Panel{{Name: "back", Edges: pieces[0].Edges[:4]}}
	want := []Room{{"Back side", "½ in"}, {"Back centre", "½ in to 1½ in"}}
	if got := Rooms(panels, pieces, unit.Format{}); !slices.Equal(got, want) {
		t.Errorf("rooms %q, want %q", got, want)
	}
}

func TestGirths(t *testing.T) {
	const in = unit.Inch
	got := Girths([]proof.Girth{
		{Name: "hip", Body: 42 * in, Draft: 43 * in, Ease: in},
		{Name: "calf", Body: 15 * in, Draft: 14 * in, Ease: -in, Estimated: true},
	}, unit.Format{})
	want := []Girth{{"Hip", "42", "43", "1", false}, {"Calf *", "15", "14", "−1", true}}
	if !slices.Equal(got, want) {
		t.Errorf("girths %v, want %v", got, want)
	}
}
