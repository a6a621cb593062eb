package rules_test

import (
	"fmt"

	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

func ExampleResolve() {
	defs := []rules.Def{
		{ID: "hem_allowance", Kind: rules.Length, Default: "2 in", Min: "1/2 in", Max: "5 in"},
		{ID: "belt_loops", Kind: rules.Count, Default: "5", Min: "0", Max: "8"},
	}
	house := rules.Values{"hem_allowance": "2 1/2 in"}
	job := rules.Values{"belt_loops": "7"}
	set, err := rules.Resolve(defs, house, nil, job)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range set.Defs() {
		fmt.Println(d.ID, set.Text(d.ID), "by", set.Level(d.ID))
	}
	fmt.Println(unit.Format{}.Text(2 * set.Length("hem_allowance")))

	_, err = rules.Resolve(defs, rules.Values{"hem_allowance": "9 in"}, nil, nil)
	fmt.Println(err)
	// Output:
	// hem_allowance 2 1/2 in by house
	// belt_loops 7 by job
	// 5 in
	// house rule hem_allowance: "9 in": out of range; write from ½ in to 5 in
}
