package say

import "testing"

func TestWords(t *testing.T) {
	french := &Words{
		texts: map[string][]string{
			"Hip":       {"Bassin"},
			"%s of %s":  {"%[2]s : %[1]s"},
			"%d things": {"%d chose", "%d choses"},
		},
		form: func(n int) int { return min(n/2, 1) },
	}
	for _, tt := range []struct {
		w    *Words
		got  func(*Words) string
		want string
	}{
		{nil, func(w *Words) string { return w.T("Hip") }, "Hip"},
		{french, func(w *Words) string { return w.T("Hip") }, "Bassin"},
		{french, func(w *Words) string { return w.T("Waist") }, "Waist"},
		{nil, func(w *Words) string { return w.F("%s of %s", "a", "b") }, "a of b"},
		{french, func(w *Words) string { return w.F("%s of %s", "a", "b") }, "b : a"},
		{nil, func(w *Words) string { return w.N(0, "%d thing", "%d things") }, "0 things"},
		{nil, func(w *Words) string { return w.N(1, "%d thing", "%d things") }, "1 thing"},
		{french, func(w *Words) string { return w.N(0, "%d thing", "%d things") }, "0 chose"},
		{french, func(w *Words) string { return w.N(2, "%d thing", "%d things") }, "2 choses"},
	} {
		if got := tt.got(tt.w); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
