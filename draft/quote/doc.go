// Package quote works out what a garment costs the client: what goes into it and
// the labour, a margin, what is to be paid before the cut, and what is still
// owed.
//
// Every amount is a whole number of the currency's least unit, and every sum is
// exact: a product of a quantity and a price is rounded once, half of a unit up,
// and the total once more, up to the step that the maker likes to charge in. So
// the lines of a bill add up to its total, whoever adds them.
//
// A quote is made of lines. Those that follow the draft (Follow) change with it
// until the quote is given to the client; from then on it stays as it was agreed,
// and Later says what the draft would have in it now.
package quote
