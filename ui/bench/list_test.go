package bench

import (
	"fmt"
	"slices"
	"testing"

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
		says string
		even bool
	}{
		{34 * unit.Inch, "As drafted: cut the band as it is.", true},
		{34*unit.Inch + sixteenth/2, "As drafted: cut the band as it is.", true},
		{34*unit.Inch + 4*sixteenth, "¼ in more than drafted: cut the band that much longer.", false},
		{33 * unit.Inch, "1 in less than drafted: cut the band that much shorter.", false},
	} {
		if says, even := Compare(34*unit.Inch, tt.sewn, f); says != tt.says || even != tt.even {
			t.Errorf("sewn %s: %q, even %v", f.Text(tt.sewn), says, even)
		}
	}
}
