package book

import (
	"strings"
	"unicode"
)

// folds are the letters with a mark that a search takes for the bare one, of
// the languages that the page may be read in and their neighbours.
const folds = "a:àáâãäåāăąǎạả b:ɓ c:çćč d:ďđɗḍ e:èéêëēĕėęěẹẽ g:ğġ h:ḥ i:ìíîïĩīĭįıǐị k:ƙ l:ł " +
	"m:ḿ n:ñńňǹṅ o:òóôõöøōŏőǒọơ r:řṛ s:śşšșṣ t:ţťțṭ u:ùúûüũūŭůűųǔụư w:ŵ y:ýÿŷƴ z:źżžẓ ae:æ oe:œ ss:ß"

// folding is folds by letter.
func folding() map[rune]string {
	to := map[rune]string{}
	for _, f := range strings.Fields(folds) {
		bare, marked, _ := strings.Cut(f, ":")
		for _, r := range marked {
			to[r] = bare
		}
	}
	return to
}

// Search finds texts in which every word that was typed begins somewhere,
// whatever its capitals and accents.
type Search struct {
	to    map[rune]string
	words []string
}

// NewSearch searches for what was typed; nothing typed finds everything.
func NewSearch(typed string) Search {
	s := Search{to: folding()}
	s.words = strings.Fields(s.Fold(typed))
	return s
}

// Fold is a text without capitals and accents.
func (s Search) Fold(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range text {
		if r < 0x80 {
			if 'A' <= r && r <= 'Z' {
				r += 'a' - 'A'
			}
			b.WriteByte(byte(r))
			continue
		}
		r = unicode.ToLower(r)
		bare, marked := s.to[r]
		switch {
		case marked:
			b.WriteString(bare)
		case !unicode.Is(unicode.Mn, r): // an accent that follows its letter
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Finds reports whether the texts of one entry are among what is searched for.
func (s Search) Finds(texts ...string) bool {
	return len(s.words) == 0 || s.Among(" "+s.Fold(strings.Join(texts, " ")))
}

// Among does so for texts that are folded already and begin with a space.
func (s Search) Among(in string) bool {
	for _, w := range s.words {
		if !strings.Contains(in, " "+w) {
			return false
		}
	}
	return true
}
