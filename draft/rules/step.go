package rules

import (
	"math"
	"strconv"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Next is the value one step up or down from text, as it is written: an eighth
// of an inch or half a centimetre for a length, less where the whole range is
// narrow. It is false where the range ends, and for what cannot be read.
func (d Def) Next(text string, up, metric bool) (string, bool) {
	v, why := d.read(text)
	if !why.None() {
		return "", false
	}
	if d.Kind == Switch {
		return d.write(boolean(up), metric), (v.number != 0) != up
	}
	const near = 1e-6 // of a step
	n := v.number / d.step(metric)
	if up {
		n = math.Floor(n+near) + 1
	} else {
		n = math.Ceil(n-near) - 1
	}
	return d.held(n, metric)
}

// Beyond is the value that is by further than text, or as little more as there
// is a step. It is false where that leaves the range.
func (d Def) Beyond(text string, by float64, metric bool) (string, bool) {
	v, why := d.read(text)
	if !why.None() || d.Kind == Switch {
		return "", false
	}
	const near = 1e-6
	n := (v.number + by) / d.step(metric)
	if by > 0 {
		n = math.Ceil(n - near)
	} else {
		n = math.Floor(n + near)
	}
	return d.held(n, metric)
}

// held is n steps as written, if they lie within the range.
func (d Def) held(n float64, metric bool) (string, bool) {
	text := d.write(n*d.step(metric), metric)
	v, why := d.read(text)
	return text, why.None() && d.within(v).None()
}

// step is how far apart the values are, in the numbers of the kind.
func (d Def) step(metric bool) float64 {
	room := math.Inf(1)
	if d.Min != "" && d.Max != "" {
		room = d.bound(d.Max) - d.bound(d.Min)
	}
	narrow := room < unit.Inch.MM()/2
	switch {
	case d.Kind == Ratio && room < 2:
		return 0.05
	case d.Kind != Length:
		return 1
	case metric && narrow:
		return 1
	case metric:
		return 5
	case narrow:
		return unit.Inch.MM() / 32
	}
	return unit.Inch.MM() / 8
}

// write is a number of the kind as makers write it.
func (d Def) write(v float64, metric bool) string {
	switch d.Kind {
	case Length:
		f := unit.Format{System: unit.Inches, Den: 32}
		if metric {
			f = unit.Format{System: unit.Centimetres}
		}
		return f.Text(unit.Length(v))
	case Switch:
		if v != 0 {
			return say.Word("on")
		}
		return say.Word("off")
	case Ratio, Count:
	}
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

func boolean(on bool) float64 {
	if on {
		return 1
	}
	return 0
}
