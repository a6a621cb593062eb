package seal

import (
	"errors"
	"slices"
	"strings"

	"chalkfold/sync/seal/xchacha"
)

// Words are letters in pairs, a consonant and a vowel, two pairs to a word: "bado",
// "kifu". Sixteen consonants and four vowels make six bits of a pair. The letters
// are those of the proquints (Wilkerson, "A Proposal for Proquints", 2009), chosen
// there to be told apart by ear. A list of words of one language would be strange
// to most of those who write these down, and is larger.
const (
	consonants = "bdfghjklmnprstvz"
	vowels     = "aiou"
	wordBits   = 12
)

// KeyWords is how many words a key has: its 256 bits and 32 to check them.
const KeyWords = (256 + 32) / wordBits

// coarseWords are those that none of a new key's words should be, in the languages
// of the program and next to them (from memory).
const coarseWords = " bura duri foda homo kuma mavi nazi puta puto sida zizi "

func coarse(words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(coarseWords, " "+w+" ") })
}

// spell writes bits as words; there must be a whole number of them.
func spell(bits []byte) []string {
	var words []string
	var word []byte
	have, left := 0, 0
	for _, b := range bits {
		for left, have = left<<8|int(b), have+8; have >= 6; have -= 6 {
			pair := left >> (have - 6) & 63
			word = append(word, consonants[pair>>2], vowels[pair&3])
			if len(word) == 4 {
				words, word = append(words, string(word)), nil
			}
		}
	}
	return words
}

// unspell reads what spell wrote.
func unspell(words []string) []byte {
	var bits []byte
	have, left := 0, 0
	for _, w := range words {
		for i := 0; i+1 < len(w); i += 2 {
			pair := strings.IndexByte(consonants, w[i])<<2 | strings.IndexByte(vowels, w[i+1])
			if left, have = left<<6|pair, have+6; have >= 8 {
				have -= 8
				bits = append(bits, byte(left>>have))
			}
		}
	}
	return bits
}

// Words are the recovery words of a key.
func (k Key) Words() []string {
	check := k.derive(forCheck)
	return spell(append(k[:len(k):len(k)], check[:4]...))
}

// WordsError says what is wrong with words that were read.
type WordsError struct {
	Have, Want int    // how many there are, where that is wrong
	Word       int    // the wrong one, from 1; nought where it is not known
	Written    string // as it was written
	Perhaps    string // what it may have been, where that is known
	Swapped    bool   // Word and the one after it seem to stand in each other's place
}

func (e *WordsError) Error() string {
	switch {
	case e.Have != e.Want:
		return "not the right number of words"
	case e.Swapped:
		return "two words seem to stand in each other's place"
	case e.Word > 0:
		return "word " + e.Written + " is wrong"
	}
	return "the words do not belong together"
}

// ReadWords reads the recovery words of a key, however they are set apart and in
// capitals or not. The error is a *WordsError: where a single pair of letters is
// wrong, or two neighbours are in each other's place, it says what would be right.
func ReadWords(text string) (Key, error) {
	words, err := split(text, KeyWords)
	if err != nil {
		return Key{}, err
	}
	if k, ok := keyOf(words); ok {
		return k, nil
	}
	return Key{}, mend(words, func(words []string) bool { _, ok := keyOf(words); return ok })
}

// keyOf is the key of words, if they check.
func keyOf(words []string) (Key, bool) {
	bits := unspell(words)
	k := Key(bits[:len(Key{})])
	check := k.derive(forCheck)
	return k, string(check[:4]) == string(bits[len(k):])
}

// split takes a text apart into so many words of the right letters.
func split(text string, want int) ([]string, error) {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return (r < 'a' || r > 'z') && r < 0x80 })
	for i, w := range words {
		ok := len(w) == 4
		for j := 0; ok && j < len(w); j += 2 {
			ok = strings.IndexByte(consonants, w[j]) >= 0 && strings.IndexByte(vowels, w[j+1]) >= 0
		}
		if !ok {
			return nil, &WordsError{Have: want, Want: want, Word: i + 1, Written: w}
		}
	}
	if len(words) != want {
		return nil, &WordsError{Have: len(words), Want: want}
	}
	return words, nil
}

// mend looks for the one small mistake that would make the words right.
func mend(words []string, right func([]string) bool) error {
	for i := range words[1:] {
		swapped := slices.Clone(words)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		if right(swapped) {
			return &WordsError{Have: len(words), Want: len(words), Word: i + 1, Written: words[i], Swapped: true}
		}
	}
	for i, was := range words {
		tried := slices.Clone(words)
		for pair := range 64 {
			p := string([]byte{consonants[pair>>2], vowels[pair&3]})
			for _, tried[i] = range []string{p + was[2:], was[:2] + p} {
				if right(tried) {
					return &WordsError{Have: len(words), Want: len(words), Word: i + 1, Written: was, Perhaps: tried[i]}
				}
			}
		}
	}
	return &WordsError{Have: len(words), Want: len(words)}
}

// Code is what is typed or scanned to pair a phone over the server: 84 random bits.
// It is used once.
type Code [11]byte // the last four bits are nought

// CodeWords is how many words a code has: its bits and twelve to check them.
const CodeWords = 8

// ErrHandover says that what was scanned is no pairing code, or not all of it.
var ErrHandover = errors.New("this is no pairing code, or not all of it")

// NewCode draws a code.
func NewCode(random Random) Code {
	for {
		var c Code
		random(c[:])
		c[10] &= 0xf0
		if !coarse(c.Words()) {
			return c
		}
	}
}

// key is a key made of the code.
func (c Code) key(label string) xchacha.Key {
	var k Key
	copy(k[:], c[:])
	return k.derive(label)
}

// Words are the words of a code.
func (c Code) Words() []string {
	check := c.key(forCheck)
	bits := c
	bits[10] |= check[0] >> 4
	return spell(append(bits[:], check[0]<<4|check[1]>>4))
}

// ReadCode reads the words of a code. The error is a *WordsError.
func ReadCode(text string) (Code, error) {
	words, err := split(text, CodeWords)
	if err != nil {
		return Code{}, err
	}
	c := Code(unspell(words)[:11])
	c[10] &= 0xf0
	if !slices.Equal(c.Words(), words) {
		return Code{}, &WordsError{Have: CodeWords, Want: CodeWords}
	}
	return c, nil
}
