package construct_test

import (
	"fmt"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// The front fork line of the quarter method for a hip of 42 in (common
// practice), with the sums as they are said.
func Example() {
	b := construct.New([]construct.Quantity{
		{Name: "hip_girth", Label: "hip", Value: 42 * 25.4, Length: true, Source: "measured"},
		{Name: "fork_part", Label: "fork part", Value: 16, Source: "rule (default)"},
	}, nil, nil)
	out := construct.Fixed("square out to the side", geom.Vec{X: 1})
	beyond := construct.Fixed("beyond the centre-front line", geom.Vec{X: -1})
	b.Value("quarter", "hip quarter", "hip_girth/4", "a quarter of the hip to each panel")
	b.Value("reach", "fork extension", "hip_girth/fork_part", "a sixteenth of the hip")
	b.Origin("centre", "fork line at the centre front", geom.Pt{}, "on the centre-front line")
	b.Measure("side", "side at the fork line", "centre", out, "quarter", "the hip width carried down")
	b.Measure("tip", "fork tip", "centre", beyond, "reach", "room for the fork")
	b.Straight("fork_line", "fork line", "straight", "tip", "side")
	rec, err := b.Record()
	if err != nil {
		fmt.Println(err)
		return
	}
	f := unit.Format{}
	for _, s := range rec.Steps() {
		if sum := rec.Sum(s.Name, f); sum != "" {
			fmt.Printf("%s: %s\n", s.Label, sum)
		}
	}
	// Output:
	// hip quarter: hip ÷ 4 = 42 ÷ 4 = 10½
	// fork extension: hip ÷ fork part = 42 ÷ 16 = 2⅝
	// side at the fork line: hip quarter = 10½
	// fork tip: fork extension = 2⅝
	// fork line: 13⅛
}

// Why is the fork tip where it is?
func ExampleRecord_Why() {
	b := construct.New([]construct.Quantity{
		{Name: "hip_girth", Label: "hip", Value: 42 * 25.4, Length: true, Source: "measured"},
	}, nil, nil)
	b.Value("reach", "fork extension", "hip_girth/16", "a sixteenth of the hip")
	rec, err := b.Record()
	if err != nil {
		fmt.Println(err)
		return
	}
	f := unit.Format{}
	for _, r := range rec.Why("reach", f) {
		if r.Sum != "" {
			fmt.Println(r.Label+":", r.Sum)
		} else {
			fmt.Println(r.Label+":", f.Text(unit.Length(r.Value)), r.Source)
		}
	}
	// Output:
	// fork extension: hip ÷ 16 = 42 ÷ 16 = 2⅝
	// hip: 42 in measured
}

// A mistake names the step and the formula.
func ExampleBuilder_Record() {
	b := construct.New(nil, nil, nil)
	b.Value("quarter", "bust quarter", "bust_girth/4", "")
	_, err := b.Record()
	fmt.Println(err)
	// Output:
	// step "quarter": formula "bust_girth/4": nothing is called "bust_girth"
}

// A truing is kept beside what was spoken.
func ExampleRecord_Changes() {
	b := construct.New(nil, nil, nil)
	b.Origin("tip", "back fork tip", geom.Pt{}, "")
	b.Truing("inseam", func() {
		b.Shift("tip_dropped", "back fork tip, dropped", "tip", construct.Fixed("straight down", geom.Vec{Y: 1}), "0.5 in", "until the inseams agree")
	})
	rec, err := b.Record()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range rec.Changes() {
		fmt.Println(c.Truing+":", rec.Label(c.Mark), "by", unit.Format{}.Text(c.By), c.Why)
	}
	// Output:
	// inseam: back fork tip by ½ in until the inseams agree
}
