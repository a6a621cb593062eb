package unit_test

import (
	"fmt"

	"chalkfold/draft/unit"
)

func Example() {
	hip, err := unit.Parse("42", unit.Inches)
	if err != nil {
		fmt.Println(err)
		return
	}
	f := unit.Format{}
	fmt.Println(hip, "÷ 4 =", f.Bare(hip.Length()/4))
	fmt.Println(unit.Format{System: unit.Centimetres}.Text(hip.Length()))
	// Output:
	// 42 in ÷ 4 = 10½
	// 106.7 cm
}

func ExampleParse_refused() {
	_, err := unit.Parse("34 1/0", unit.Inches)
	fmt.Println(err)
	// Output:
	// "34 1/0": a fraction cannot be over nought; write 34 1/2
}
