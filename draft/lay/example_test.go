package lay_test

import (
	"fmt"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

func mmOf(v float64) unit.Length { return unit.Length(v) }

func Example() {
	panel := piece.Piece{
		ID: "panel", Name: "Panel", Cloth: piece.Main, Count: 2, Pairs: true,
		Grain: geom.Line(geom.Pt{}, geom.Pt{Y: 600}),
		Cut:   []geom.Pt{{}, {X: 300}, {X: 400, Y: 600}, {Y: 600}},
	}
	band := piece.Piece{
		ID: "band", Name: "Band", Cloth: piece.Main, Count: 1,
		Grain: geom.Line(geom.Pt{}, geom.Pt{Y: 500}),
		Cut:   []geom.Pt{{}, {X: 80}, {X: 80, Y: 500}, {Y: 500}},
	}
	cloth := lay.Cloth{Name: "grey twill", Width: 1000, Length: 900, Fold: lay.Lengthwise}
	items, err := lay.Items([]piece.Piece{panel, band}, cloth)
	if err != nil {
		fmt.Println(err)
		return
	}
	r, err := lay.Pack(cloth, items, lay.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range r.Placements {
		b := geom.BoundsOf(p.Ring(items))
		fmt.Printf("%s: %.0f to %.0f from the fold, %.0f to %.0f along\n",
			items[p.Item].Name, b.Min.X, b.Max.X, b.Min.Y, b.Max.Y)
	}
	fmt.Printf("length %.0f mm, density %.0f %%, fits %t\n", r.Length.MM(), r.Density, r.Fits)
	fmt.Println("sound:", lay.Verify(cloth, items, r) == nil)
	// Output:
	// Panel: 0 to 400 from the fold, 0 to 600 along
	// Band: 383 to 463 from the fold, 0 to 500 along
	// length 600 mm, density 77 %, fits true
	// sound: true
}
