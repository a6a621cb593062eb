package rules_test

import (
	"testing"

	"chalkfold/draft/rules"
)

func TestInCentimetres(t *testing.T) {
	for _, tt := range []struct{ in, lo, hi, want string }{
		{"2 in", "", "", "5 cm"},
		{"9 in", "5 in", "13 in", "23 cm"},
		{"11 in", "", "", "28 cm"},
		{"1/2 in", "1/4 in", "1 1/2 in", "1.3 cm"},
		{"1 in", "", "", "2.5 cm"},
		{"1/16 in", "1/32 in", "1/4 in", "0.2 cm"},
		{"0 in", "0 in", "2 in", "0 cm"},
		{"2 in", "2 in", "3 in", "2 in"}, // 5 cm would be less than the least
		{"5 cm", "", "", "5 cm"},
	} {
		defs := []rules.Def{{ID: "a", Kind: rules.Length, Default: tt.in, Min: tt.lo, Max: tt.hi}, {ID: "b", Kind: rules.Count, Default: "5"}}
		got := rules.InCentimetres(defs)
		if got[0].Default != tt.want || got[1].Default != "5" {
			t.Errorf("%s in %s to %s: %q, %q, want %q", tt.in, tt.lo, tt.hi, got[0].Default, got[1].Default, tt.want)
		}
		if defs[0].Default != tt.in {
			t.Error("the definitions given were changed")
		}
	}
}
