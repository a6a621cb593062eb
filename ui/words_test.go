package ui

import "testing"

func TestLanguageFor(t *testing.T) {
	for _, tt := range []struct{ chosen, browsers, want string }{
		{"", "", "en"},
		{"", "fr-CA", "fr"},
		{"", "de", "en"},
		{"en", "fr", "en"},
		{"fr", "en-GB", "fr"},
		{"xx", "fr", "fr"},
		{"pt", "en", "en"}, // foreseen, and not yet offered
	} {
		if got := languageFor(tt.chosen, tt.browsers).ID; got != tt.want {
			t.Errorf("chosen %q with a browser in %q: %s, want %s", tt.chosen, tt.browsers, got, tt.want)
		}
	}
}
