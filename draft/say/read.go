package say

import "strings"

// The page's catalogue is plain text, so that it presses well and is read with
// a split: the tag of the language, then for each text a line with its English
// and its translation, or translations, between tabs. Newlines inside a text
// are written \n.

// Read reads a catalogue as Write wrote it. The error says what it lacks.
func Read(catalogue string) (*Words, error) {
	head, rest, _ := strings.Cut(catalogue, "\n")
	lang, ok := Find(head)
	if !ok {
		return nil, Errorf("words: %q is no language known here; take the catalogue of one that is", head)
	}
	w := &Words{lang: lang, texts: make(map[string][]string, strings.Count(rest, "\n"))}
	for line := range strings.SplitSeq(strings.TrimSuffix(rest, "\n"), "\n") {
		fields := strings.Split(line, "\t")
		if len(fields) < 2 {
			return nil, Errorf("words: %s: %q has no translation; load the catalogue again", head, line)
		}
		for i, f := range fields {
			fields[i] = strings.ReplaceAll(f, `\n`, "\n")
		}
		w.texts[fields[0]] = fields[1:]
	}
	return w, nil
}

// Text is one text of a catalogue: its English, and what it is in the language,
// more than once where it counts.
type Text struct {
	English string
	Said    []string
}

// Write writes a catalogue for Read.
func Write(lang Language, texts []Text) string {
	var b strings.Builder
	b.WriteString(lang.ID + "\n")
	for _, t := range texts {
		line := strings.Join(append([]string{t.English}, t.Said...), "\t")
		b.WriteString(strings.ReplaceAll(line, "\n", `\n`) + "\n")
	}
	return b.String()
}

// New makes the words of a language of its texts.
func New(lang Language, texts []Text) *Words {
	w := &Words{lang: lang, texts: make(map[string][]string, len(texts))}
	for _, t := range texts {
		w.texts[t.English] = t.Said
	}
	return w
}
