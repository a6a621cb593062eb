package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode"

	"chalkfold/draft/say"
	"chalkfold/static/words"
)

func gathered(t *testing.T) *said {
	t.Helper()
	s, err := gather("../..")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestTextsAreFound(t *testing.T) {
	s := gathered(t)
	for _, f := range s.faults {
		t.Error(f)
	}
	if len(s.texts) < 500 {
		t.Errorf("%d texts found", len(s.texts))
	}
	for _, want := range []string{"hip line", "waist girth", "no length", "%d thing to mind", "Belt-loop strip"} {
		if !slices.ContainsFunc(s.texts, func(x text) bool { return x.english == want }) {
			t.Errorf("%q is not found", want)
		}
	}
}

// A catalogue is whole: every text translated, its figures where they belong,
// nothing left over. go run ./cmd/words brings it up to date; what stands there
// empty is to be translated.
func TestCatalogues(t *testing.T) {
	s := gathered(t)
	languages := say.Offered()[1:]
	if len(languages) == 0 {
		t.Fatal("no catalogue")
	}
	for _, l := range languages {
		c, err := words.Read(l.ID)
		if err != nil {
			t.Fatal(err)
		}
		entries := map[string]words.Entry{}
		for _, e := range c.Entries {
			if _, twice := entries[e.Key()]; twice {
				t.Errorf("%s: %q stands twice", l.ID, e.Key())
			}
			entries[e.Key()] = e
			if i, ok := s.at[e.Key()]; !e.Obsolete && !ok {
				t.Errorf("%s: %q is said no more; run go run ./cmd/words", l.ID, e.Key())
			} else if ok && s.texts[i].many != e.Many {
				t.Errorf("%s: %q counts in one, not in the other; run go run ./cmd/words", l.ID, e.Key())
			}
		}
		for _, x := range s.texts {
			e, ok := entries[x.key()]
			if !ok || !e.Translated() || e.Obsolete {
				t.Errorf("%s: %q is not translated; run go run ./cmd/words and fill it in", l.ID, x.key())
				continue
			}
			checkSaid(t, l, x, e)
		}
	}
}

// frenchSpace is a space that would let a line begin with its sign, or none
// where one belongs: the rule of the Imprimerie nationale, from memory.
var frenchSpace = regexp.MustCompile(`[^\x{A0}"][:;?!»](\s|$)|«[^\x{A0}]`)

// frenchApart are two words that are drawn together when they are spoken: "de le",
// "le ourlet"; but not "coupez-le avant".
var frenchApart = regexp.MustCompile(`(?i)(?:^|[^-\p{L}])(?:(?:de|à) les?|(?:de|le|la|que|ne|se|ce) [aeiouyàâéèêîôû]\p{L}*)(?:$|[^\p{L}])`)

func checkSaid(t *testing.T, l say.Language, x text, e words.Entry) {
	t.Helper()
	if forms := len(e.Said); x.many != "" && forms != l.Forms || x.many == "" && forms != 1 {
		t.Errorf("%s: %q has %d forms", l.ID, x.key(), forms)
	}
	for _, said := range e.Said {
		if x.verbs {
			if why := disagree(x.key(), said); why != "" {
				t.Errorf("%s: %q said %q: %s", l.ID, x.key(), said, why)
			}
		}
		if strings.HasSuffix(x.key(), ".") && !strings.HasSuffix(said, ".") || strings.ContainsFunc(said, unicode.IsControl) {
			t.Errorf("%s: %q said %q: has no full stop, or a sign that is not seen", l.ID, x.key(), said)
		}
		if l.ID == "fr" && frenchSpace.MatchString(said) {
			t.Errorf("fr: %q said %q: wants a space that does not break (U+00A0) before : ; ? ! » and after «", x.key(), said)
		}
		if l.ID == "fr" && frenchApart.MatchString(said) {
			t.Errorf("fr: %q said %q: draw %q together", x.key(), said, frenchApart.FindString(said))
		}
	}
}

func TestDisagree(t *testing.T) {
	for _, tt := range []struct {
		english, translated string
		agree               bool
	}{
		{"%s of %s", "%s de %s", true},
		{"%s of %s", "%[2]s : %[1]s", true},
		{"%s of %s", "%s", false},
		{"%s of %d", "%d de %s", false},
		{"%s of %d", "%[2]d de %[1]s", true},
		{"%.1f mm", "%.2f mm", false},
		{"%.1f mm", "%.1f mm de %s", false},
		{"100 %%, %s", "100 %%, %s", true},
		{"%s", "%s %[1]s", true},
	} {
		if why := disagree(tt.english, tt.translated); (why == "") != tt.agree {
			t.Errorf("%q, %q: %q", tt.english, tt.translated, why)
		}
	}
}

// What is wrong with a text is told, and what is right is found.
func TestSource(t *testing.T) {
	file := filepath.Join(t.TempDir(), "a.go")
	source := `package a
func f() {
	w.T("a text")
	w.T(table.Name)
	w.T("glued " + to)
	w.F(format, 1)
	w.F("%s", x)
	w.F("set %s", x)
	w.N(n, "%d one", "%d many")
	say.Of("kept")
	say.Word("a name")
	say.Word(name)
}`
	if err := os.WriteFile(file, []byte(source), 0o600); err != nil {
		t.Fatal(err)
	}
	s := &said{at: map[string]int{}}
	if err := s.source(file, "a"); err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, x := range s.texts {
		found = append(found, x.key())
	}
	if want := []string{"a text", "set %s", "%d many", "kept", "a name"}; !slices.Equal(found, want) {
		t.Errorf("found %q, want %q", found, want)
	}
	if len(s.faults) != 3 {
		t.Errorf("faults: %q, want three", s.faults)
	}
}

// Merging keeps what is translated, adds what is new and marks what is gone.
func TestMerge(t *testing.T) {
	fr, _ := say.Find("fr")
	c := words.Catalogue{Language: fr, Entries: []words.Entry{
		{English: "kept", Said: []string{"gardé"}}, {English: "gone", Said: []string{"parti"}}, {English: "gone, never said", Said: []string{""}},
	}}
	got := merge(c, []text{{english: "new"}, {english: "kept"}, {english: "%d one", many: "%d many"}})
	want := []words.Entry{
		{English: "new", Said: []string{""}},
		{English: "kept", Said: []string{"gardé"}},
		{English: "%d one", Many: "%d many", Said: []string{"", ""}},
		{English: "gone", Said: []string{"parti"}, Obsolete: true},
	}
	if !slices.EqualFunc(got, want, func(a, b words.Entry) bool {
		return a.English == b.English && a.Many == b.Many && a.Obsolete == b.Obsolete && slices.Equal(a.Said, b.Said)
	}) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// What foreign translators will begin from is sound for every language foreseen.
func TestBegin(t *testing.T) {
	s := gathered(t)
	for _, l := range say.Languages() {
		c := words.Catalogue{Language: l}
		c.Entries = merge(c, s.texts)
		again, err := words.Parse(c.String())
		if err != nil {
			t.Fatal(err)
		}
		if again.String() != c.String() || again.Language != l || len(again.Entries) != len(s.texts) {
			t.Errorf("%s: what was begun is not what is read: %d of %d texts", l.ID, len(again.Entries), len(s.texts))
		}
		if said := again.Texts(); len(said) != 0 {
			t.Errorf("%s: %d texts translated before anyone began", l.ID, len(said))
		}
	}
}
