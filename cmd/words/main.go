// Command words keeps the catalogues in static/words in step with the program:
// it gathers every text that is said, from the sources and from the core's
// tables, and writes them into each PO file. What is translated is kept, a new
// text stands there empty, and what is said no more is marked obsolete.
//
//	go run ./cmd/words          brings every catalogue up to date
//	go run ./cmd/words -new pt  begins one
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"chalkfold/draft/say"
	"chalkfold/static/words"
)

// catalogues is where they lie in the sources.
const catalogues = "static/words"

func main() {
	begin := flag.String("new", "", "begin the catalogue of a language, by its `tag`")
	flag.Parse()
	if err := run(*begin, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, "words:", err)
		os.Exit(1)
	}
}

func run(begin string, out io.Writer) error {
	said, err := gather(".")
	if err != nil {
		return err
	}
	for _, f := range said.faults {
		fmt.Fprintln(out, "words:", f)
	}
	files, err := filepath.Glob(filepath.Join(catalogues, "*.po"))
	if err != nil {
		return err
	}
	if begin != "" {
		file := filepath.Join(catalogues, begin+".po")
		lang, ok := say.Find(begin)
		if !ok {
			return fmt.Errorf("%q is no language foreseen; add its rules to draft/say", begin)
		}
		if err := os.WriteFile(file, []byte(words.Catalogue{Language: lang}.String()), 0o600); err != nil {
			return err
		}
		files = append(files, file)
	}
	for _, file := range files {
		if err := update(file, said.texts, out); err != nil {
			return err
		}
	}
	return nil
}

// update brings one catalogue up to date and says what is missing.
func update(file string, texts []text, out io.Writer) error {
	old, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	c, err := words.Parse(string(old))
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	c.Entries = merge(c, texts)
	missing := 0
	for _, e := range c.Entries {
		if !e.Obsolete && !e.Translated() {
			missing++
		}
	}
	fmt.Fprintf(out, "%s: %d texts, %d not translated\n", file, len(texts), missing)
	return os.WriteFile(file, []byte(c.String()), 0o600)
}

// merge gives the texts their translations, those said no more after them.
func merge(c words.Catalogue, texts []text) []words.Entry {
	old := map[string]words.Entry{}
	for _, e := range c.Entries {
		old[e.Key()] = e
	}
	var out []words.Entry
	for _, t := range texts {
		e := words.Entry{Where: t.where, English: t.english, Many: t.many}
		forms := 1
		if t.many != "" {
			forms = c.Language.Forms
		}
		e.Said = make([]string, forms)
		if was, ok := old[e.Key()]; ok && len(was.Said) == forms {
			e.Said = was.Said
		}
		delete(old, e.Key())
		out = append(out, e)
	}
	for _, e := range c.Entries {
		if _, left := old[e.Key()]; left && e.Translated() {
			e.Obsolete = true
			out = append(out, e)
		}
	}
	return out
}
