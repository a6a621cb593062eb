package tape

import (
	"strings"
	"testing"

	"chalkfold/draft/unit"
)

func TestPress(t *testing.T) {
	tests := []struct {
		tape unit.System
		keys string // with spaces between
		want string
	}{
		{unit.Inches, "3 4", "34"},
		{unit.Inches, "3 4 ½", "34½"},
		{unit.Inches, "3 4 ½ ¾", "34¾"},
		{unit.Inches, "3 4 ½ ½", "34"},
		{unit.Inches, "½ 3 4", "34½"}, // the fraction first
		{unit.Inches, "⅛", "⅛"},
		{unit.Inches, "⅛ ⅛", ""},
		{unit.Inches, "3 4 ½ back", "34"},
		{unit.Inches, "3 4 back back back", ""},
		{unit.Inches, "3 4 ½ clear 4 2", "42"},
		{unit.Inches, "3 4 . 5", "34.5"},
		{unit.Inches, "3 4 . 5 ½", "34.5"}, // no fraction after decimals
		{unit.Inches, "3 4 . .", "34."},
		{unit.Inches, "3 4 ½ .", "34½"},
		{unit.Inches, ". 5", "0.5"},
		{unit.Inches, "8 6 unit", "86 cm"},
		{unit.Inches, "8 unit 6 . 4", "86.4 cm"},
		{unit.Inches, "8 6 unit unit", "86"},
		{unit.Inches, "8 6 unit back", "86"},
		{unit.Inches, "unit", ""},
		{unit.Inches, "1/16", "1/16"},
		{unit.Inches, "3 4 1/16", "34 1/16"},
		{unit.Inches, "3 4 ¾ 1/16", "34 13/16"},
		{unit.Inches, "3 4 ⅞ 1/16 1/16", "35"},
		{unit.Inches, "1/16 1/16", "⅛"},
		{unit.Inches, "3 4 1/16 ½", "34 1/16"},
		{unit.Centimetres, "8 6 . 4", "86.4"},
		{unit.Centimetres, "3 4 unit ½", "34½ in"},
	}
	for _, tt := range tests {
		got := ""
		for _, key := range strings.Fields(tt.keys) {
			got = Press(got, key, tt.tape)
		}
		if got != tt.want {
			t.Errorf("%s on a tape in %s: %q, want %q", tt.keys, tt.tape, got, tt.want)
		}
		if got == "" || strings.HasSuffix(got, ".") {
			continue
		}
		if _, err := unit.Parse(got, tt.tape); err != nil {
			t.Errorf("%q cannot be read: %v", got, err)
		}
	}
	// What was typed by other keys is gone on with.
	for _, tt := range []struct{ text, key, want string }{
		{"34 ", "½", "34½"},
		{"34 1/2", "2", "34 1/22"},
		{"34 1/2", "½", "34 1/2"},
		{"86,4", ".", "86,4"},
		{"wide", "back", "wid"},
		{"wide", "1/16", "wide"},
	} {
		if got := Press(tt.text, tt.key, unit.Inches); got != tt.want {
			t.Errorf("%q and %s: %q, want %q", tt.text, tt.key, got, tt.want)
		}
	}
}
