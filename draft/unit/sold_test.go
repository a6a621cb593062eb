package unit_test

import (
	"testing"

	"chalkfold/draft/unit"
)

func TestBought(t *testing.T) {
	for _, tt := range []struct {
		l    unit.Length
		f    unit.Format
		want string
	}{
		{60 * unit.Inch, unit.Format{}, "1¾ yd"},
		{36 * unit.Inch, unit.Format{}, "1 yd"},
		{1541, unit.Format{System: unit.Centimetres}, "1.6 m"},
	} {
		if got := tt.f.Bought(tt.l); got != tt.want {
			t.Errorf("%.0f mm: buy %s, want %s", tt.l.MM(), got, tt.want)
		}
	}
}
