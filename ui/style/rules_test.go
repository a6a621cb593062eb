package style

import (
	"testing"

	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

func TestGroups(t *testing.T) {
	var all []Rule
	for _, d := range trouser.Defs() {
		all = append(all, Rule{Def: d})
	}
	all[0].Level = rules.House
	all[1].Bad = "out of range"
	n := 0
	seen := map[string]bool{}
	for i, g := range Groups(all) {
		if seen[g.Name] {
			t.Errorf("%s comes twice", g.Name)
		}
		seen[g.Name] = true
		n += len(g.Rules)
		if (g.Changed == 1) != (i == 0) || (g.Bad == 1) != (i == 0) {
			t.Errorf("%s: %d changed, %d bad", g.Name, g.Changed, g.Bad)
		}
	}
	if n != len(all) {
		t.Errorf("%d rules are shown, want %d", n, len(all))
	}
}

func TestEcho(t *testing.T) {
	for _, tt := range []struct {
		kind rules.Kind
		text string
		tape unit.System
		want string
	}{
		{rules.Length, "1/2 in", unit.Inches, "= 1.3 cm"},
		{rules.Length, "1/2", unit.Inches, "= 1.3 cm"},
		{rules.Length, "1,5", unit.Centimetres, "= 9/16 in"},
		{rules.Length, "1/16 in", unit.Centimetres, "= 0.2 cm"},
		{rules.Length, "wide", unit.Inches, ""},
		{rules.Ratio, "16", unit.Inches, ""},
		{rules.Count, "5", unit.Inches, ""},
	} {
		if got := Echo(rules.Def{Kind: tt.kind}, tt.text, tt.tape, nil); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.text, got, tt.want)
		}
	}
}
