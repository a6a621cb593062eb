package unit

import "math"

// Sold is the format in which a shop sells cloth to whoever measures in f:
// yards and their eighths beside inches, metres beside centimetres.
func (f Format) Sold() Format {
	if f.System.Metric() {
		return Format{System: Metres, Words: f.Words}
	}
	return Format{System: Yards, Den: 8, Words: f.Words}
}

// SoldBy is the least step by which a shop sells cloth to whoever measures in
// f: an eighth of a yard, or ten centimetres (common practice).
func (f Format) SoldBy() Length {
	if f.System.Metric() {
		return 10 * Centimetre
	}
	return Yard / 8
}

// Bought is the length to buy, as a shop sells it: l rounded up to what is cut
// off a bolt.
func (f Format) Bought(l Length) string { return f.Sold().Text(UpTo(l, f.SoldBy())) }

// UpTo is l rounded up to a whole number of steps; l itself without a step. A
// hair over a step, less than can be cut, is that step.
func UpTo(l, step Length) Length {
	const hair = 1e-3 // mm
	if step <= 0 {
		return l
	}
	return step * Length(math.Ceil(float64((l-hair)/step)))
}
