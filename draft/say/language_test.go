package say_test

import (
	"fmt"
	"testing"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"chalkfold/draft/say"
)

// The tables against the data of the Unicode Common Locale Data Repository, as
// golang.org/x/text carries it.
func TestLanguages(t *testing.T) {
	for _, l := range say.Languages() {
		tag := language.MustParse(l.ID)
		of := map[plural.Form]int{} // their form, and which of ours it goes with
		for n := range 10001 {
			theirs := plural.Cardinal.MatchPlural(tag, n, 0, 0, 0, 0)
			ours := l.Form(n)
			if was, seen := of[theirs]; seen && was != ours {
				t.Fatalf("%s: %d takes form %d, but another with the plural %v takes %d", l.ID, n, ours, theirs, was)
			}
			of[theirs] = ours
		}
		forms := map[int]bool{}
		for _, ours := range of {
			forms[ours] = true
		}
		if len(of) != l.Forms || len(forms) != l.Forms {
			t.Errorf("%s: %d forms, %d of them used; the plurals are %v", l.ID, l.Forms, len(forms), of)
		}
		w := say.New(l, nil)
		p := message.NewPrinter(tag)
		for tenths := range 10001 {
			plain := fmt.Sprintf("%.1f", float64(tenths)/10)
			want := p.Sprint(number.Decimal(float64(tenths)/10, number.NoSeparator(), number.Scale(1)))
			if got := w.Decimal(plain); got != want {
				t.Fatalf("%s: %s, want %s", l.ID, got, want)
			}
		}
	}
}
