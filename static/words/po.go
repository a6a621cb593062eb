package words

import (
	"fmt"
	"strconv"
	"strings"

	"chalkfold/draft/say"
)

// Entry is one text of a PO file.
type Entry struct {
	Where    []string // the packages that say it
	English  string   // of one, when it counts
	Many     string   // of more than one; "" when it does not count
	Said     []string // in the language, one for each of its forms; "" is not translated
	Obsolete bool     // nothing says it any more
}

// Key is what the text is looked up by.
func (e Entry) Key() string {
	if e.Many != "" {
		return e.Many
	}
	return e.English
}

// Translated reports whether every form is there.
func (e Entry) Translated() bool {
	for _, s := range e.Said {
		if s == "" {
			return false
		}
	}
	return len(e.Said) > 0
}

// Catalogue is a PO file of GNU gettext, of which this reads and writes what
// translators' tools need: the header, where a text is said, plural forms, and
// what is obsolete.
type Catalogue struct {
	Comment  string // before the header
	Language say.Language
	Entries  []Entry
}

// Parse reads a PO file. The error names the line.
func Parse(text string) (Catalogue, error) {
	var c Catalogue
	for i, block := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n\n") {
		if strings.TrimSpace(block) == "" {
			continue
		}
		e, comment, err := parseEntry(block)
		if err != nil {
			return c, err
		}
		if i > 0 {
			c.Entries = append(c.Entries, e)
			continue
		}
		c.Comment = comment
		_, rest, _ := strings.Cut(strings.Join(e.Said, ""), "Language: ")
		id, _, _ := strings.Cut(rest, "\n")
		lang, ok := say.Find(id)
		if e.English != "" || !ok {
			return c, fmt.Errorf("words: the header names no language known here: %q; write a line Language: with its tag", id)
		}
		c.Language = lang
	}
	return c, nil
}

func parseEntry(block string) (e Entry, comment string, err error) {
	into := &e.English // what the text on a line of its own carries on
	for line := range strings.SplitSeq(block, "\n") {
		if rest, ok := strings.CutPrefix(line, "#~ "); ok {
			e.Obsolete, line = true, rest
		}
		key, quoted, _ := strings.Cut(line, " ")
		switch {
		case line == "":
			continue
		case strings.HasPrefix(line, "#: "):
			e.Where = append(e.Where, strings.Fields(line)[1:]...)
			continue
		case strings.HasPrefix(line, "#"):
			comment += strings.TrimPrefix(strings.TrimPrefix(line, "#"), " ") + "\n"
			continue
		case key == "msgid":
			into = &e.English
		case key == "msgid_plural":
			into = &e.Many
		case strings.HasPrefix(key, "msgstr"):
			e.Said = append(e.Said, "")
			into = &e.Said[len(e.Said)-1]
		case strings.HasPrefix(line, `"`):
			quoted = line
		default:
			return e, comment, fmt.Errorf("words: %q is no line of a PO file", line)
		}
		s, err := strconv.Unquote(quoted)
		if err != nil {
			return e, comment, fmt.Errorf("words: %q is not quoted: %w", line, err)
		}
		*into += s
	}
	return e, comment, nil
}

// String writes the PO file.
func (c Catalogue) String() string {
	var b strings.Builder
	for line := range strings.SplitSeq(strings.TrimSuffix(c.Comment, "\n"), "\n") {
		b.WriteString(strings.TrimRight("# "+line, " ") + "\n")
	}
	header := []string{
		"Language: " + c.Language.ID + "\n", "MIME-Version: 1.0\n", "Content-Type: text/plain; charset=UTF-8\n",
		"Content-Transfer-Encoding: 8bit\n", "Plural-Forms: " + c.Language.Plurals() + "\n",
	}
	b.WriteString("msgid \"\"\nmsgstr \"\"\n")
	for _, h := range header {
		b.WriteString(quote(h) + "\n")
	}
	for _, e := range c.Entries {
		b.WriteString("\n")
		e.write(&b)
	}
	return b.String()
}

func (e Entry) write(b *strings.Builder) {
	lead := ""
	if e.Obsolete {
		lead = "#~ "
	}
	for _, w := range e.Where {
		if !e.Obsolete {
			b.WriteString("#: " + w + "\n")
		}
	}
	b.WriteString(lead + "msgid " + quote(e.English) + "\n")
	if e.Many == "" {
		b.WriteString(lead + "msgstr " + quote(strings.Join(e.Said, "")) + "\n")
		return
	}
	b.WriteString(lead + "msgid_plural " + quote(e.Many) + "\n")
	for i, s := range e.Said {
		fmt.Fprintf(b, "%smsgstr[%d] %s\n", lead, i, quote(s))
	}
}

// quote is a text as PO has it: letters beyond ASCII stay as they are.
func quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(s) + `"`
}
