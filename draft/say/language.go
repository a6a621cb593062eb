package say

// Language is how a language counts and writes figures.
type Language struct {
	ID    string // its tag: "fr"
	Name  string // in itself: "français"
	Point string // before decimals
	Forms int    // how many plural forms it has
	Whole bool   // its catalogue is whole, so it can be chosen
	// nought counts as one does
	nought bool
}

// English is the language of the keys.
func English() Language { return Languages()[0] }

// Languages are those that a catalogue can be written for, English first.
// Offered are fewer.
func Languages() []Language {
	return []Language{
		{ID: "en", Name: "English", Point: ".", Forms: 2, Whole: true},
		{ID: "fr", Name: "français", Point: ",", Forms: 2, Whole: true, nought: true},
		{ID: "pt", Name: "português", Point: ",", Forms: 2, nought: true},
		{ID: "sw", Name: "Kiswahili", Point: ".", Forms: 2},
		{ID: "ha", Name: "Hausa", Point: ".", Forms: 2},
		{ID: "yo", Name: "Yorùbá", Point: ".", Forms: 1},
		{ID: "ig", Name: "Igbo", Point: ".", Forms: 1},
	}
}

// Offered are those that can be chosen, English first.
func Offered() []Language {
	var out []Language
	for _, l := range Languages() {
		if l.Whole {
			out = append(out, l)
		}
	}
	return out
}

// Find is the language of that tag.
func Find(id string) (Language, bool) {
	for _, l := range Languages() {
		if l.ID == id {
			return l, true
		}
	}
	return Language{}, false
}

// Form is which of its plural forms goes with n things.
func (l Language) Form(n int) int {
	if l.Forms == 1 || n == 1 || n == 0 && l.nought {
		return 0
	}
	return 1
}

// Plurals is the rule as the header of a PO file states it.
func (l Language) Plurals() string {
	switch {
	case l.Forms == 1:
		return "nplurals=1; plural=0;"
	case l.nought:
		return "nplurals=2; plural=(n > 1);"
	}
	return "nplurals=2; plural=(n != 1);"
}
