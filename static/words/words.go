// Package words holds the catalogues: what the texts of the program are in each
// language. They are PO files, the form of GNU gettext, so that any tool for
// translators opens them; cmd/words keeps them in step with the program.
//
// A language is offered when its catalogue is here. English needs none, and a
// text without a translation stays English. To begin another, run
// go run ./cmd/words -new with its tag; draft/say has the rules of those that
// are foreseen.
package words

import (
	"embed"
	"fmt"
	"strings"

	"chalkfold/draft/say"
)

//go:embed *.po
var files embed.FS

// Languages are those that can be chosen, English first.
func Languages() []say.Language {
	out := []say.Language{say.English()}
	for _, l := range say.Languages() {
		if _, err := files.Open(l.ID + ".po"); err == nil {
			out = append(out, l)
		}
	}
	return out
}

// Read reads the catalogue of a language that can be chosen, other than
// English.
func Read(id string) (Catalogue, error) {
	text, err := files.ReadFile(id + ".po")
	if err != nil {
		return Catalogue{}, fmt.Errorf("no catalogue for %q; choose %s", id, choices())
	}
	return Parse(string(text))
}

// Of are the words of a language. Those of English are nil.
func Of(id string) (*say.Words, error) {
	if id == say.English().ID {
		return nil, nil
	}
	c, err := Read(id)
	if err != nil {
		return nil, err
	}
	return say.New(c.Language, c.Texts()), nil
}

// Texts are the texts that are translated.
func (c Catalogue) Texts() []say.Text {
	var out []say.Text
	for _, e := range c.Entries {
		if !e.Obsolete && e.Translated() {
			out = append(out, say.Text{English: e.Key(), Said: e.Said})
		}
	}
	return out
}

func choices() string {
	var ids []string
	for _, l := range Languages() {
		ids = append(ids, l.ID)
	}
	return strings.Join(ids, ", ")
}
