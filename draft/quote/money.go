package quote

import (
	"strconv"
	"strings"

	"chalkfold/draft/say"
)

// Money is an amount in the least unit of its currency, such as a cent.
type Money int64

// most is the largest amount that is taken: with the largest quantity and share
// it still makes a Money.
const most = Money(1e11)

// A Currency is how amounts are written.
type Currency struct {
	// Sign is its code in ISO 4217, or whatever the maker writes instead.
	Sign string
	// Digits are the decimals of an amount: 0 to 3.
	Digits int
}

// CurrencyOf is the currency of a code or sign, with as many decimals as
// ISO 4217 gives it; two where it knows none.
func CurrencyOf(sign string) Currency {
	sign = strings.TrimSpace(sign)
	c := Currency{Sign: sign, Digits: 2}
	switch strings.ToUpper(sign) {
	case "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF", "XPF":
		c.Digits = 0
	case "BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND":
		c.Digits = 3
	}
	return c
}

func (c Currency) scale() Money {
	s := Money(1)
	for range c.Digits {
		s *= 10
	}
	return s
}

// Bare is the amount without its currency: "12.50".
func (c Currency) Bare(m Money, w *say.Words) string {
	sign := ""
	if m < 0 {
		sign, m = "−", -m
	}
	whole := strconv.FormatInt(int64(m/c.scale()), 10)
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + thin + whole[i:]
	}
	if c.Digits == 0 {
		return sign + whole
	}
	part := strconv.FormatInt(int64(m%c.scale()), 10)
	return sign + w.Decimal(whole+"."+strings.Repeat("0", c.Digits-len(part))+part)
}

// thin stands between thousands: a space that no line breaks at, as ISO 80000-1 asks for.
const thin = "\u00a0"

// Text is the amount with its currency: "12.50 GHS".
func (c Currency) Text(m Money, w *say.Words) string {
	return strings.TrimSpace(c.Bare(m, w) + " " + c.Sign)
}

// Take is an amount of another currency under the same figure, rounded to the
// nearest where c has fewer decimals.
func (c Currency) Take(m Money, from Currency) Money {
	return min(Money(share(int64(m), int64(c.scale()), int64(from.scale()))), most)
}

// Parse reads an amount as it is typed: "12", "12.50", "12,5", "1 200". The error
// says what to mend.
func (c Currency) Parse(text string) (Money, error) {
	n, err := figure(text, c.Digits)
	switch {
	case err != nil:
		return 0, err
	case Money(n) > most:
		return 0, say.Errorf("“%s” is more than can be reckoned with here", text)
	}
	return Money(n), nil
}

// Quantity is how much of something, in thousandths: of a piece, a yard, a metre
// or an hour.
type Quantity int64

// One is one of anything.
const One = Quantity(1000)

// mostQuantity is the largest quantity that is taken.
const mostQuantity = 100_000 * One

// eighths are the fractions that a tape and a shop reckon in.
const eighths = "⅛¼⅜½⅝¾⅞"

// ParseQuantity reads a quantity as it is typed: "2", "2.25", "2,5", "2¼",
// "2 1/4". The error says what to mend.
func ParseQuantity(text string) (Quantity, error) {
	n, err := figure(withoutFraction(text), 3)
	switch {
	case err != nil:
		return 0, err
	case Quantity(n) > mostQuantity:
		return 0, say.Errorf("“%s” is more than can be reckoned with here", text)
	}
	return Quantity(n), nil
}

// withoutFraction writes a fraction at the end of a text as a decimal; a text
// that ends in none stays as it is.
func withoutFraction(text string) string {
	s := strings.TrimSpace(text)
	for i, f := range []rune(eighths) {
		for _, written := range []string{string(f), [...]string{"1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"}[i]} {
			whole, ends := strings.CutSuffix(s, written)
			if whole = strings.TrimRight(whole, " "); ends && (whole == "" || len(written) < 3 || whole != strings.TrimSuffix(s, written)) {
				return "0" + whole + "." + strconv.Itoa(125*(i+1))
			}
		}
	}
	return text
}

// Eighths is the quantity in eighths where it is that even, else as Text.
func (q Quantity) Eighths(w *say.Words) string {
	part := q % One
	if part == 0 || part%125 != 0 {
		return q.Text(w)
	}
	whole := ""
	if q >= One {
		whole = strconv.FormatInt(int64(q/One), 10)
	}
	return whole + string([]rune(eighths)[part/125-1])
}

// Text is the quantity with as few decimals as it has.
func (q Quantity) Text(w *say.Words) string {
	s := strconv.FormatInt(int64(q/One), 10)
	if part := q % One; part != 0 {
		s = w.Decimal(s + "." + strings.TrimRight(strconv.FormatInt(int64(One+part), 10)[1:], "0"))
	}
	return s
}

// Times is the amount for q at a price each, half a unit rounded up.
func (q Quantity) Times(price Money) Money { return Money(share(int64(q), int64(price), int64(One))) }

// Percent is a share of a hundred in hundredths: 12.5 % is 1250.
type Percent int64

// ParsePercent reads a share as it is typed, at most as large as limit. The
// error says what to mend.
func ParsePercent(text string, limit Percent) (Percent, error) {
	n, err := figure(strings.TrimSuffix(strings.TrimSpace(text), "%"), 2)
	switch {
	case err != nil:
		return 0, err
	case Percent(n) > limit:
		return 0, say.Errorf("“%s” is too much: at most %d %%", text, int64(limit)/100)
	}
	return Percent(n), nil
}

// Text is the share without the sign.
func (p Percent) Text(w *say.Words) string { return (Quantity(p) * 10).Text(w) }

// Of is that share of m, half a unit rounded up.
func (p Percent) Of(m Money) Money { return Money(share(int64(m), int64(p), 100*100)) }

// share is a·num/den for figures of nought and more, rounded to the nearest, half
// up. What is left of a after whole dens is taken apart, so that no product is
// larger than it need be.
func share(a, num, den int64) int64 {
	return a/den*num + (2*(a%den)*num+den)/(2*den)
}

// upTo is m rounded up to a multiple of step; m itself for no step.
func upTo(m, step Money) Money {
	if step <= 1 {
		return m
	}
	return (m + step - 1) / step * step
}

// figure reads a number of nought or more with at most so many decimals, in
// units of the last of them.
func figure(text string, decimals int) (int64, error) {
	s := strings.NewReplacer(" ", "", thin, "", "\u202f", "", "'", "", "’", "").Replace(text)
	whole, part, point := strings.Cut(strings.Replace(s, ",", ".", 1), ".")
	switch {
	case whole == "" && (!point || part == ""), strings.Trim(whole+part, "0123456789") != "":
		return 0, say.Errorf("“%s” is no figure; write it in digits alone, such as 12.5", text)
	case len(part) > decimals && decimals == 0:
		return 0, say.Errorf("“%s” has decimals, and there are none here; write a whole number", text)
	case len(part) > decimals:
		return 0, say.Errorf("“%s” has more than %d decimals", text, decimals)
	case len(whole) > 12:
		return 0, say.Errorf("“%s” is more than can be reckoned with here", text)
	}
	n, err := strconv.ParseInt(whole+part+strings.Repeat("0", decimals-len(part)), 10, 64)
	if err != nil {
		return 0, say.Errorf("“%s” is no figure; write it in digits alone, such as 12.5", text)
	}
	return n, nil
}
