// Package words holds the catalogues: what the texts of the program are in each
// language. They are PO files, the form of GNU gettext, so that any tool for
// translators opens them; cmd/words keeps them in step with the program.
//
// English needs none, and a text without a translation stays English. To begin
// another language, run go run ./cmd/words -new with its tag; draft/say has the
// rules of those that are foreseen, and says which are whole and so offered.
package words

import (
	"embed"
	"fmt"
	"slices"
	"strings"

	"chalkfold/draft/say"
)

//go:embed *.po
var files embed.FS

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
func (c Catalogue) Texts() []say.Text { return c.texts(func(string) bool { return true }) }

// Page is the catalogue as the page fetches it, for say.Read: without what only
// the commands say.
func (c Catalogue) Page() string {
	return say.Write(c.Language, c.texts(func(where string) bool { return !strings.HasPrefix(where, "cmd/") }))
}

func (c Catalogue) texts(by func(where string) bool) []say.Text {
	var out []say.Text
	for _, e := range c.Entries {
		if !e.Obsolete && e.Translated() && slices.ContainsFunc(e.Where, by) {
			out = append(out, say.Text{English: e.Key(), Said: e.Said})
		}
	}
	return out
}

func choices() string {
	var ids []string
	for _, l := range say.Offered() {
		ids = append(ids, l.ID)
	}
	return strings.Join(ids, ", ")
}
