package draft

import (
	"regexp"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/static/words"
)

// unspoken is French as nobody says it: two words that are drawn together when spoken
// ("de le", "le ourlet"), or a sign without a word.
var unspoken = regexp.MustCompile(`(?i)(?:^|[^-\p{L}])(?:(?:de|à) les?|(?:de|le|la|que|ne|se|ce) [aeiouyàâéèêîôû]\p{L}*)(?:$|[^\p{L}])|«\x{A0}»|  `)

// A mend names what it changes by whatever name that has: in French each name stands in
// marks, since none has its article with it.
func TestMendsAreSpokenInFrench(t *testing.T) {
	fr, err := words.Of("fr")
	if err != nil {
		t.Fatal(err)
	}
	m := Maker{Words: fr}
	n := 0
	spoken := func(says string, names ...string) {
		t.Helper()
		n++
		if at := unspoken.FindString(says); at != "" {
			t.Errorf("%q in %q", at, says)
		}
		for _, name := range names {
			if !strings.Contains(says, "«\u00a0"+fr.T(name)+"\u00a0»") {
				t.Errorf("%q does not name %q in marks", says, name)
			}
		}
	}
	for _, g := range Garments() {
		r := &Result{Garment: g, Format: job.Units{}.Format()}
		r.Format.Words = fr
		if r.Style, err = g.Complete(nil); err != nil {
			t.Fatal(err)
		}
		if r.Rules, err = m.kept.rules(g, job.Rules{}, false); err != nil {
			t.Fatal(err)
		}
		for _, d := range r.Rules.Defs() {
			spoken(m.told(r, piece.Mend{Path: "rules." + string(d.ID), To: r.Rules.Text(d.ID)}), d.Name)
		}
		for _, o := range g.Options {
			for _, c := range o.Choices {
				spoken(m.told(r, piece.Mend{Path: "style." + o.ID, To: c.ID}), o.Name, c.Name)
			}
		}
		for _, c := range g.Methods {
			spoken(m.told(r, piece.Mend{Path: "method", To: c.ID}))
		}
		for _, c := range g.Truings {
			spoken(m.told(r, piece.Mend{Path: "untrued." + c.ID}))
		}
	}
	for _, d := range body.Defs() {
		spoken(m.Words.F("Take the %s again", say.Within(d.Name)))
	}
	if n < 200 {
		t.Errorf("%d mends are spoken", n)
	}
}
