package unit

// Sold is the format in which a shop sells cloth to whoever measures in f:
// yards and their eighths beside inches, metres beside centimetres.
func (f Format) Sold() Format {
	if f.System.Metric() {
		return Format{System: Metres, Words: f.Words}
	}
	return Format{System: Yards, Den: 8, Words: f.Words}
}

// Bought is the length to buy, as a shop sells it: l rounded up to what is cut
// off a bolt.
func (f Format) Bought(l Length) string {
	by := f.Sold()
	up := by.Round(l)
	if up < l {
		up += by.Finest()
	}
	return by.Text(up)
}
