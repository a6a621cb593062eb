package rules_test

import (
	"testing"

	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/rules"
)

func TestNext(t *testing.T) {
	length := rules.Def{Kind: rules.Length, Min: "1/4 in", Max: "1 1/2 in"}
	tests := []struct {
		name   string
		d      rules.Def
		text   string
		up     bool
		metric bool
		want   string // "" where there is none
	}{
		{"an eighth up", length, "1/2 in", true, false, "⅝ in"},
		{"an eighth down", length, "1/2 in", false, false, "⅜ in"},
		{"to the next eighth", length, "9/16 in", true, false, "⅝ in"},
		{"to the eighth before", length, "9/16 in", false, false, "½ in"},
		{"half a centimetre", length, "1.3 cm", true, true, "1.5 cm"},
		{"down to a half centimetre", length, "1.3 cm", false, true, "1 cm"},
		{"the end", length, "1 1/2 in", true, false, ""},
		{"the other end", length, "1/4 in", false, false, ""},
		{"a narrow range", rules.Def{Kind: rules.Length, Min: "1/32 in", Max: "1/4 in"}, "1/16 in", true, false, "3/32 in"},
		{"a part", rules.Def{Kind: rules.Ratio, Min: "8", Max: "24"}, "16", false, false, "15"},
		{"a share", rules.Def{Kind: rules.Ratio, Min: "0.3", Max: "0.7"}, "0.55", true, false, "0.6"},
		{"a count", rules.Def{Kind: rules.Count, Min: "0", Max: "8"}, "8", true, false, ""},
		{"on", rules.Def{Kind: rules.Switch}, "off", true, false, "on"},
		{"on already", rules.Def{Kind: rules.Switch}, "on", true, false, ""},
		{"no length", length, "wide", true, false, ""},
	}
	for _, tt := range tests {
		got, ok := tt.d.Next(tt.text, tt.up, tt.metric)
		if ok != (tt.want != "") || ok && got != tt.want {
			t.Errorf("%s: %q %t, want %q", tt.name, got, ok, tt.want)
		}
	}
}

func TestBeyond(t *testing.T) {
	fly := rules.Def{Kind: rules.Length, Min: "3 in", Max: "10 in"}
	for _, tt := range []struct {
		name   string
		by     float64
		metric bool
		want   string
	}{
		{"a little is a whole eighth", 0.5, false, "6⅛ in"},
		{"an eighth is an eighth", 25.4 / 8, false, "6⅛ in"},
		{"less", -4, false, "5¾ in"},
		{"in centimetres", 1, true, "15.5 cm"},
		{"out of range", 200, false, ""},
	} {
		got, ok := fly.Beyond("6 in", tt.by, tt.metric)
		if ok != (tt.want != "") || ok && got != tt.want {
			t.Errorf("%s: %q %t, want %q", tt.name, got, ok, tt.want)
		}
	}
}

// Every rule of the trousers can be stepped from its default, on either tape,
// and what a step writes is a value of the rule.
func TestEveryRuleCanBeStepped(t *testing.T) {
	for _, metric := range []bool{false, true} {
		defs := trouser.Defs()
		if metric {
			defs = rules.InCentimetres(defs)
		}
		for _, d := range defs {
			up, ok := d.Next(d.Default, true, metric)
			down, okDown := d.Next(d.Default, false, metric)
			if !ok && !okDown {
				t.Errorf("%s cannot be stepped from %s", d.ID, d.Default)
			}
			for _, text := range []string{up, down} {
				if text == "" {
					continue
				}
				if _, err := rules.Resolve(defs, nil, nil, rules.Values{d.ID: text}); err != nil && (text == up && ok || text == down && okDown) {
					t.Errorf("%s: %v", d.ID, err)
				}
			}
		}
	}
}
