// Package wordstest proves that whatever is shown was looked up: in its language
// every word of the catalogue is marked, so what stands there unmarked was said
// without being looked up, or is in no catalogue.
package wordstest

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"chalkfold/draft/say"
	"chalkfold/static/words"
)

var word = regexp.MustCompile(`\S+`)

var verb = regexp.MustCompile(`%[-+#0]*(\[\d+\])?[\d.]*[a-zA-Z]`)

// Marked is the language in which every word of the catalogue stands between
// quotes, and the figures outside them: "«outline:» %s". Whatever is shown
// outside quotes was not looked up.
func Marked(t testing.TB) *say.Words {
	t.Helper()
	c, err := words.Read("fr")
	if err != nil {
		t.Fatal(err)
	}
	quoted := func(english string) string {
		var b strings.Builder
		put := func(s string) { b.WriteString(word.ReplaceAllString(s, "«$0»")) }
		from := 0
		for _, at := range verb.FindAllStringIndex(english, -1) {
			put(english[from:at[0]])
			b.WriteString(english[at[0]:at[1]])
			from = at[1]
		}
		put(english[from:])
		return b.String()
	}
	var texts []say.Text
	for _, e := range c.Entries {
		if e.Many != "" {
			texts = append(texts, say.Text{English: e.Many, Said: []string{quoted(e.English), quoted(e.Many)}})
			continue
		}
		texts = append(texts, say.Text{English: e.English, Said: []string{quoted(e.English)}})
	}
	return say.New(c.Language, texts)
}

var (
	innermost = regexp.MustCompile(`«[^«»]*»`)
	ownWords  = regexp.MustCompile(`"[a-z_]+"|A4|\b[A-Z]\d?\b`)  // keys of the file; a paper; letters of joins
	planCode  = regexp.MustCompile(`«plan» [A-HJ-NP-Z2-9]{4}\b`) // names a placing on sheets
)

// Bare is what of a shown text was not looked up.
func Bare(shown string) string {
	shown = planCode.ReplaceAllString(shown, "")
	for {
		rest := innermost.ReplaceAllString(shown, "")
		if rest == shown {
			break
		}
		shown = rest
	}
	return strings.TrimFunc(ownWords.ReplaceAllString(shown, ""), func(r rune) bool { return !unicode.IsLetter(r) })
}
