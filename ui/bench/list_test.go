package bench

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

func TestList(t *testing.T) {
	fold := []piece.Edge{{Name: "centre", Fold: true}}
	pieces := []piece.Piece{
		{ID: "front", Name: "Front", Cloth: piece.Main, Count: 2, Pairs: true},
		{ID: "bag", Name: "Bag", Cloth: piece.Lining, Count: 4, Pairs: true},
		{ID: "yoke", Name: "Yoke", Cloth: piece.Main, Count: 1, Edges: fold, Note: "inside"},
		{ID: "collar", Name: "Collar", Cloth: piece.Main, Count: 2, Edges: fold},
		{ID: "stay", Name: "Stay", Cloth: piece.Interfacing, Count: 1},
		{ID: "wadding", Name: "Wadding", Cloth: "wadding", Count: 3},
	}
	var got []string
	for _, p := range List(pieces, map[string]bool{"yoke": true, "gone": true}, nil) {
		got = append(got, fmt.Sprintf("%s: %s; %s %v %v %s", p.Name, p.Many, p.Cloth, p.Heading, p.Cut, p.Note))
	}
	want := []string{
		"Front: cut 2, one of them turned over; From the cloth true false ",
		"Yoke: cut 1 on the fold; From the cloth false true inside",
		"Collar: cut 2, each on the fold; From the cloth false false ",
		"Bag: cut 4, half of them turned over; From the pocketing or lining true false ",
		"Stay: cut 1; From the interfacing true false ",
		"Wadding: cut 3; wadding true false ",
	}
	if !slices.Equal(got, want) {
		t.Errorf("the list is\n%q, want\n%q", got, want)
	}
}

func TestPairs(t *testing.T) {
	n := func(number int, name string) piece.Notch { return piece.Notch{Number: number, Name: name} }
	pieces := []piece.Piece{
		{Name: "Front", Notches: []piece.Notch{n(2, "knee"), n(1, "hip"), n(0, "end"), n(3, "alone"), n(3, "alone")}},
		{Name: "Back", Notches: []piece.Notch{n(1, "hip"), n(2, "knee")}},
		{Name: "Facing", Notches: []piece.Notch{n(1, "hip")}},
	}
	want := []Notch{{2, "knee", "Front + Back"}, {1, "hip", "Front + Back + Facing"}}
	if got := Pairs(pieces, nil); !slices.Equal(got, want) {
		t.Errorf("pairs %v, want %v", got, want)
	}
}

func TestCompare(t *testing.T) {
	const sixteenth = unit.Inch / 16
	f := unit.Format{}
	for _, tt := range []struct {
		sewn unit.Length
		far  bool
		says string
		why  int // lines of explanation
	}{
		{34 * unit.Inch, false, "As drafted: cut the band as it is.", 0},
		{34*unit.Inch + sixteenth/2, false, "As drafted: cut the band as it is.", 0},
		{34*unit.Inch + 4*sixteenth, false, "¼ in more than drafted: cut the band that much longer.", 1},
		{33 * unit.Inch, true, "1 in less than drafted: cut the band that much shorter.", 2},
	} {
		var b Band
		b.Compare(draft.MadeUp{Drafted: 34 * unit.Inch, Sewn: tt.sewn, Far: tt.far, Places: 8, Each: (tt.sewn - 34*unit.Inch) / 8}, f)
		if len(b.Why) > 0 && strings.Contains(b.Why[0], " 0 ") {
			t.Errorf("%s", b.Why[0])
		}
		if b.Says != tt.says || b.Even != (tt.why == 0) || len(b.Why) != tt.why {
			t.Errorf("sewn %s: %+v", f.Text(tt.sewn), b)
		}
	}
}
