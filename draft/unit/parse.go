package unit

import (
	"strconv"
	"strings"

	"chalkfold/draft/say"
)

// Bounds that keep every sum of a quantity inside an int64 with room to spare:
// 999,999 yd of 10,000ths is under 5e13 in the finest common measure.
const (
	maxWholeDigits = 6
	maxDenDigits   = 3
	maxDecimals    = 4
)

// ParseError says which text could not be read as a length, why, and what to
// write instead.
type ParseError struct {
	Text string
	Why  say.Msg
}

func (e *ParseError) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *ParseError) In(w *say.Words) string { return strconv.Quote(e.Text) + ": " + e.Why.In(w) }

// Parse reads a length as makers write it: 34, 34 1/2, 34½, 34-1/2, 1/2, 34.5",
// 86,4 cm, 1 1/2 yd, 5 ft 4 in. A figure without a unit is taken as assume.
// A length below nought is refused; see ParseSigned. The error is a *ParseError.
func Parse(text string, assume System) (Quantity, error) {
	q, _, err := parse(text, assume, false)
	return q, err
}

// ParseSigned is Parse for what may be taken off as well as added: −½ in.
func ParseSigned(text string, assume System) (Quantity, error) {
	q, _, err := parse(text, assume, true)
	return q, err
}

// parse also tells whether the text named its unit.
func parse(text string, assume System, signed bool) (Quantity, bool, error) {
	if assume >= systems {
		panic("unit: no such system of lengths")
	}
	p := parser{text: text, rest: plainly(text)}
	q, named, why := p.quantity(assume, signed)
	if !why.None() {
		return Quantity{}, false, &ParseError{Text: text, Why: why}
	}
	return q, named, nil
}

// plainly rewrites the characters of phone keyboards and printed tables to the
// plain ones, in lower case, with single spaces and none outside.
func plainly(text string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.Map(plain, text))), " ")
}

func plain(r rune) rune {
	switch r {
	case '″', '”', '“', '„':
		return '"'
	case '′', '’', '‘':
		return '\''
	case '⁄', '∕':
		return '/'
	case '−', '–', '—', '‐', '‑', '﹣':
		return '-'
	case '\u200b', '\u2060', '\ufeff': // widths of nothing
		return -1
	}
	if r >= '！' && r <= '～' { // full-width forms
		return r - '！' + '!'
	}
	return r
}

type parser struct {
	text string // as given
	rest string // still to be read, plain
}

// quantity reads the whole text. Why is none when it could.
func (p *parser) quantity(assume System, signed bool) (q Quantity, named bool, why say.Msg) {
	if p.rest == "" {
		return q, false, say.Of("no length; write a figure such as 34 1/2")
	}
	neg := p.take('-')
	if neg && !signed {
		return q, false, say.Of("a length here cannot be below nought; leave the minus away")
	}
	if !neg {
		p.take('+')
	}
	p.space()
	q, why = p.figure()
	if !why.None() {
		return q, false, why
	}
	q.sys = assume
	p.space()
	word := p.word()
	if word != "" {
		s, ok := systemNamed(word)
		if !ok {
			return q, false, say.Of("%q is not a unit; write in, cm, mm, m, yd or ft", word)
		}
		q.sys, named = s, true
	}
	p.space()
	if p.rest != "" && named && (q.sys == Feet || q.sys == Yards) {
		q, why = p.inchesAfter(q)
		if !why.None() {
			return q, false, why
		}
	}
	if p.rest != "" {
		return q, false, say.Of("%q is left over; write one length such as 34 1/2 in", p.rest)
	}
	q.neg = neg && (q.whole != 0 || q.num != 0 || q.lead != 0)
	return q, named, say.Msg{}
}

// inchesAfter reads the inches of 5 ft 4 in or 1 yd 9 in.
func (p *parser) inchesAfter(lead Quantity) (Quantity, say.Msg) {
	if lead.den != 1 {
		return lead, say.Of("feet or yards before inches must be whole, as in 5 ft 4 in")
	}
	q, why := p.figure()
	if !why.None() {
		return q, why
	}
	p.space()
	if s, ok := systemNamed(p.word()); !ok || s != Inches {
		return q, say.Of("only inches can follow feet or yards, as in 5 ft 4 in")
	}
	p.space()
	q.sys = Inches
	if lead.whole == 0 {
		return q, say.Msg{}
	}
	q.lead, q.leadSys = lead.whole, lead.sys
	per := inchesIn(lead.sys)
	if q.whole >= per || q.num >= per*q.den {
		return q, say.Of("the inches after %s must be under %d", lead.sys, per)
	}
	return q, say.Msg{}
}

// figure reads 34, 34.5, 34 1/2, 34-1/2, 34½, ½ or 1/2.
func (p *parser) figure() (Quantity, say.Msg) {
	q := Quantity{den: 1}
	if n, d, ok := p.glyph(); ok {
		q.num, q.den = n, d
		return q, say.Msg{}
	}
	digits := p.digits()
	if digits == "" && !p.startsDecimal() {
		return q, say.Of("no figure; write one such as 34 1/2")
	}
	if len(digits) > maxWholeDigits {
		return q, say.Of("too large; write at most %d figures", maxWholeDigits)
	}
	whole := number(digits)
	if digits != "" && p.take('/') {
		return p.under(q, whole, digits)
	}
	q.whole = whole
	if p.startsDecimal() {
		return p.decimals(q)
	}
	return p.fractionAfter(q)
}

// fractionAfter reads the fraction that may follow a whole figure.
func (p *parser) fractionAfter(q Quantity) (Quantity, say.Msg) {
	before := p.rest
	if !p.take('-') {
		p.space()
	}
	joined := before != p.rest
	if n, d, ok := p.glyph(); ok {
		q.num, q.den = n, d
		return q, say.Msg{}
	}
	num := p.digits()
	switch {
	case num == "" && strings.HasPrefix(before, "-"):
		return q, say.Of("the fraction is missing after the dash; write 34-1/2")
	case num == "":
		p.rest = before
		return q, say.Msg{}
	case !joined || !p.take('/'):
		return q, say.Of("two figures without a fraction; write one length such as 34 1/2")
	}
	got, why := p.under(q, number(num), num)
	if why.None() && got.num >= got.den {
		return q, say.Of("a fraction beside a whole figure must be under 1; write 34 1/2")
	}
	return got, why
}

// under reads what stands under the fraction whose upper figure is num.
func (p *parser) under(q Quantity, num int64, digits string) (Quantity, say.Msg) {
	under := p.digits()
	den := number(under)
	switch {
	case under == "":
		return q, say.Of("the figure under the fraction is missing; write 34 1/2")
	case len(under) > maxDenDigits || len(digits) > maxWholeDigits:
		return q, say.Of("the fraction is too fine; write at most %d figures under it", maxDenDigits)
	case den == 0:
		return q, say.Of("a fraction cannot be over nought; write 34 1/2")
	}
	q.num, q.den = num, den
	if den == 1 { // 7/1: nothing is divided
		q.whole, q.num = q.whole+num, 0
	}
	return q, say.Msg{}
}

func (p *parser) startsDecimal() bool {
	return p.rest != "" && (p.rest[0] == '.' || p.rest[0] == ',')
}

func (p *parser) decimals(q Quantity) (Quantity, say.Msg) {
	comma := p.take(',')
	if !comma {
		p.take('.')
	}
	d := p.digits()
	switch {
	case d == "":
		return q, say.Of("no figure after the point; write 34.5")
	case comma && len(d) == 3:
		return q, say.Of("the comma could mean thousands; write %d%s, or a point for decimals", q.whole, d)
	case len(d) > maxDecimals:
		return q, say.Of("too many decimals; write at most %d", maxDecimals)
	}
	q.num, q.den, q.decimals = number(d), 1, uint8(len(d))
	for range d {
		q.den *= 10
	}
	return q, say.Msg{}
}

func (p *parser) take(c byte) bool {
	if p.rest == "" || p.rest[0] != c {
		return false
	}
	p.rest = p.rest[1:]
	return true
}

func (p *parser) space() { p.rest = strings.TrimPrefix(p.rest, " ") }

func (p *parser) digits() string {
	n := 0
	for n < len(p.rest) && p.rest[n] >= '0' && p.rest[n] <= '9' {
		n++
	}
	d := p.rest[:n]
	p.rest = p.rest[n:]
	return d
}

func (p *parser) glyph() (num, den int64, ok bool) {
	for i, r := range p.rest {
		if i > 0 {
			break
		}
		if num, den, ok = fractionOf(r); ok {
			p.rest = p.rest[len(string(r)):]
		}
	}
	return num, den, ok
}

// word reads up to the next space or figure.
func (p *parser) word() string {
	n := strings.IndexAny(p.rest, " 0123456789½¼¾⅛⅜⅝⅞⅓⅔")
	if n < 0 {
		n = len(p.rest)
	}
	w := p.rest[:n]
	p.rest = p.rest[n:]
	return w
}

// number reads digits already known to be few and plain.
func number(digits string) int64 {
	var n int64
	for _, c := range []byte(digits) {
		n = n*10 + int64(c-'0')
		if n > 1e12 { // refused by its length, right after
			return n
		}
	}
	return n
}
