package book

import "testing"

func TestSearch(t *testing.T) {
	for _, tt := range []struct {
		typed string
		texts []string
		found bool
	}{
		{"", []string{"Alto 3"}, true},
		{"  ", []string{""}, true},
		{"ALTO", []string{"Alto 3", "Choir"}, true},
		{"alto choir", []string{"Alto 3", "Choir"}, true},
		{"choir 3", []string{"Alto 3", "Choir"}, true},
		{"lto", []string{"Alto 3"}, false}, // a word begins so
		{"alto 4", []string{"Alto 3"}, false},
		{"eleonore", []string{"Éléonore"}, true},
		{"éléonore", []string{"ELEONORE"}, true},
		{"ele\u0301onore", []string{"eléonore"}, true}, // the accent as a letter of its own
		{"sola", []string{"Ṣọlá"}, true},
		{"danladi", []string{"Ɗanlaɗi"}, true},
		{"ibrahim", []string{"İbrahim"}, true},
		{"ngozi", []string{"Ṅgọzi"}, true},
		{"strasse", []string{"Straße"}, true},
		{"coeur", []string{"Chœur"}, false},
		{"choeur", []string{"Chœur"}, true},
		{"conceicao", []string{"Conceição"}, true},
	} {
		if got := NewSearch(tt.typed).Finds(tt.texts...); got != tt.found {
			t.Errorf("%q in %q: found %v, want %v", tt.typed, tt.texts, got, tt.found)
		}
	}
}
