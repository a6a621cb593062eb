package words_test

import (
	"testing"

	"chalkfold/draft/say"
	"chalkfold/static/words"
)

const sample = `# French.
#
# From memory.
msgid ""
msgstr ""
"Language: fr\n"
"MIME-Version: 1.0\n"
"Content-Type: text/plain; charset=UTF-8\n"
"Content-Transfer-Encoding: 8bit\n"
"Plural-Forms: nplurals=2; plural=(n > 1);\n"

#: draft/unit
#: ui
msgid "no \"length\"\n"
msgstr "pas de « longueur »\n"

#: draft
msgid "%d thing"
msgid_plural "%d things"
msgstr[0] "%d chose"
msgstr[1] "%d choses"

#~ msgid "gone"
#~ msgstr "parti"
`

func TestParse(t *testing.T) {
	c, err := words.Parse(sample)
	if err != nil {
		t.Fatal(err)
	}
	if got := c.String(); got != sample {
		t.Errorf("written again it is %s", got)
	}
	if n := len(c.Texts()); n != 2 {
		t.Errorf("%d texts to say, want 2: what is obsolete is not said", n)
	}
	// Other tools break long texts over lines.
	c, err = words.Parse("msgid \"\"\nmsgstr \"\"\n\"Language: fr\\n\"\n\nmsgid \"\"\n\"one \"\n\"two\"\nmsgstr \"\"\n\"un \"\n\"deux\"\n")
	if err != nil || len(c.Entries) != 1 || c.Entries[0].English != "one two" || c.Entries[0].Said[0] != "un deux" {
		t.Errorf("%+v, %v", c.Entries, err)
	}
	for _, bad := range []string{
		"msgid \"\"\nmsgstr \"Language: xx\\n\"\n", "msgid \"\"\nmsgstr \"Language: fr\\n\"\n\nmsgid \"open\n", "msgid \"\"\nmsgstr \"Language: fr\\n\"\n\nmsg \"x\"\n",
	} {
		if _, err := words.Parse(bad); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}

func TestOf(t *testing.T) {
	for _, l := range say.Offered() {
		w, err := words.Of(l.ID)
		if err != nil {
			t.Fatal(err)
		}
		if w.Language() != l {
			t.Errorf("the words of %s are %s", l.ID, w.Language().ID)
		}
	}
	fr, err := words.Read("fr")
	if err != nil {
		t.Fatal(err)
	}
	page, err := say.Read(fr.Page())
	if err != nil {
		t.Fatal(err)
	}
	if got := page.T("hip girth"); got != "tour de bassin" {
		t.Errorf("the page says %q", got)
	}
	if got := page.T("cut from the bolt"); got != "cut from the bolt" {
		t.Errorf("the page carries what only a command says: %q", got)
	}
	if _, err := words.Of("xx"); err == nil {
		t.Error("words of a language there is not")
	}
}
