package main

import "math"

// round2 rounds a figure for JSON to a hundredth.
func round2(v float64) float64 { return rounded(v, 100) }

// round3 rounds a figure for JSON to a thousandth: a micrometre.
func round3(v float64) float64 { return rounded(v, 1000) }

func rounded(v, k float64) float64 {
	v = math.Round(v*k) / k
	if v == 0 {
		return 0 // not -0
	}
	return v
}

// clipped shortens a text to so many letters.
func clipped(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most-1]) + "…"
}
