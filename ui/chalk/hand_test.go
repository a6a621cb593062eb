package chalk

import "testing"

func TestKeys(t *testing.T) {
	var did string
	h := &Hand{
		OnStep:  func(by int) { did = map[int]string{1: "on", -1: "back"}[by] },
		OnFirst: func() { did = "first" },
		OnLast:  func() { did = "last" },
		OnLeave: func() { did = "leave" },
	}
	for _, tt := range []struct{ key, focused, want string }{
		{"ArrowRight", "BODY", "on"},
		{" ", "BODY", "on"},
		{"Enter", "BODY", "on"},
		{"n", "BODY", "on"},
		{"PageDown", "BUTTON", "on"},
		{"ArrowLeft", "BODY", "back"},
		{"Backspace", "BODY", "back"},
		{"p", "DIV", "back"},
		{"PageUp", "BODY", "back"},
		{"Home", "BODY", "first"},
		{"End", "BODY", "last"},
		{"Escape", "BODY", "leave"},
		{"Escape", "BUTTON", "leave"},
		{" ", "BUTTON", ""},
		{"Enter", "A", ""},
		{"n", "INPUT", ""},
		{"ArrowDown", "BODY", ""},
		{"x", "BODY", ""},
	} {
		did = ""
		if do := h.does(tt.key, tt.focused); do != nil {
			do()
		}
		if did != tt.want {
			t.Errorf("%q on %s: %q, want %q", tt.key, tt.focused, did, tt.want)
		}
	}
}
