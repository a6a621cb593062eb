package slip

import (
	"encoding/binary"
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// version is the version that is written.
const version = 2

// What a value is, by the lower bits of its head.
const (
	isText = iota
	isName
	isInches
	isCentimetres
	isWhole
	isSign
	isFine
)

// kindBits is how many bits of a head say what the value is.
const kindBits = 3

// The signs.
const (
	signNull = iota
	signFalse
	signTrue
	signObject
	signList
	signEnd
)

// Keys of an object that are no names.
const (
	keyEnd = iota
	keyText
	keyNames // and on
)

// pack writes a JSON value as a slip.
func pack(text []byte) ([]byte, error) {
	w := writer{out: []byte{version}, numbers: numbers()}
	r := plain.Read(text)
	w.value(r)
	return w.out, r.End()
}

type writer struct {
	out     []byte
	numbers map[string]uint64
}

func (w *writer) number(n uint64) { w.out = binary.AppendUvarint(w.out, n) }

func (w *writer) head(kind int, n uint64) { w.number(n<<kindBits | uint64(kind)) }

func (w *writer) value(r *plain.Reader) {
	switch r.Kind() {
	case plain.Text:
		w.text(r.Text())
	case plain.Number:
		n := r.Int()
		if n < 0 {
			r.Fail(say.Of("a number below nought has no place in a link"))
			return
		}
		w.head(isWhole, uint64(n))
	case plain.Truth:
		sign := uint64(signFalse)
		if r.Truth() {
			sign = signTrue
		}
		w.head(isSign, sign)
	case plain.Object:
		w.head(isSign, signObject)
		for key := range r.Object() {
			w.key(key)
			w.value(r)
		}
		w.number(keyEnd)
	case plain.List:
		w.head(isSign, signList)
		for range r.List() {
			w.value(r)
		}
		w.head(isSign, signEnd)
	case plain.Null:
		r.Skip()
		w.head(isSign, signNull)
	}
}

func (w *writer) key(key string) {
	if n, ok := w.numbers[key]; ok {
		w.number(n + keyNames)
		return
	}
	w.number(keyText)
	w.letters(key)
}

func (w *writer) letters(s string) {
	w.number(uint64(len(s)))
	w.out = append(w.out, s...)
}

func (w *writer) text(s string) {
	if n, ok := w.numbers[s]; ok {
		w.head(isName, n)
		return
	}
	if q, err := unit.Parse(s, unit.Inches); err == nil {
		if n := whole(q.Length() / unit.Inch * 16); inches(n) == s {
			w.head(isInches, n)
			return
		}
		if n := whole(q.Length() / unit.Millimetre); centimetres(n) == s {
			w.head(isCentimetres, n)
			return
		}
		if n := whole(q.Length() / unit.Millimetre * 1000); finely(n) == s {
			w.head(isFine, n)
			return
		}
	}
	w.head(isText, uint64(len(s)))
	w.out = append(w.out, s...)
}

// whole is a length that cannot be below nought to the nearest step.
func whole(steps unit.Length) uint64 { return uint64(math.Round(float64(steps))) }

// inches writes so many sixteenths as a length is written in a job file.
func inches(n uint64) string {
	const under = "1/16 ⅛ 3/16 ¼ 5/16 ⅜ 7/16 ½ 9/16 ⅝ 11/16 ¾ 13/16 ⅞ 15/16"
	whole, part := strconv.FormatUint(n/16, 10), ""
	if n%16 > 0 {
		part = strings.Fields(under)[n%16-1]
	}
	switch {
	case part == "":
	case n < 16:
		whole = part
	case n%2 == 0:
		whole += part
	default:
		whole += " " + part
	}
	return whole + " in"
}

// centimetres writes so many tenths as a length is written in a job file.
func centimetres(n uint64) string {
	s := strconv.FormatUint(n/10, 10)
	if n%10 > 0 {
		s += "." + strconv.FormatUint(n%10, 10)
	}
	return s + " cm"
}

// finely writes so many ten-thousandths of a centimetre as the place of a piece
// is written in a job file.
func finely(n uint64) string {
	part := strconv.FormatUint(n%10_000, 10)
	return strconv.FormatUint(n/10_000, 10) + "." + "0000"[len(part):] + part + " cm"
}
