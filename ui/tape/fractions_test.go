package tape

import (
	"testing"

	"chalkfold/draft/unit"
)

func TestAdd(t *testing.T) {
	inches := unit.Format{System: unit.Inches, Den: 8}
	for _, tt := range []struct{ text, key, want string }{
		{"", "½", "½"},
		{"1", "½", "1½"},
		{"1½", "¾", "1¾"},
		{"1½", "½", "1"},
		{"-", "⅛", "-⅛"},
		{"2 yd", "¼", "2¼ yd"},
		{"2¼ yd", "¼", "2 yd"},
		{"2¼", "yd", "2¼ yd"},
		{"2¼ yd", "yd", "2¼"},
		{"81 in", "yd", "81 yd"},
		{"5 ft 4 in", "½", "5 ft 4½ in"},
		{"", "yd", ""},
		{"1 1/2", "½", "1 1/2"}, // has its fraction
		{"1.5", "½", "1.5"},
	} {
		if got := Add(tt.text, tt.key, inches); got != tt.want {
			t.Errorf("%q and %q make %q, want %q", tt.text, tt.key, got, tt.want)
		}
	}
}
