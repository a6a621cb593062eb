package body

import (
	"math"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Level is how firmly a doubt is put. Neither forbids anything.
type Level uint8

// A doubt is asked once, or insisted on; the maker may keep the figure either way.
const (
	Ask Level = iota + 1
	Insist
)

// String is "ask" or "insist".
func (l Level) String() string {
	if l == Insist {
		return "insist"
	}
	return "ask"
}

// How many residual standard deviations outside what is expected a figure may
// lie before it is asked about, and before it is insisted on.
const (
	askBeyond    = 2.0
	insistBeyond = 3.0
)

// Doubt is a measurement worth taking again, or keeping.
type Doubt struct {
	ID        ID
	Given     unit.Length
	Low, High unit.Length // what is usual
	Sigmas    float64     // how far outside, in standard deviations
	Level     Level
	Text      say.Msg // one sentence for the maker
}

// Band is where a measurement is usually found.
type Band struct {
	Low, High             unit.Length // asked about beyond these
	InsistLow, InsistHigh unit.Length // insisted on beyond these
	From                  string      // what it rests on: "hip", "waist, hip and stature"
}

// Bands are the plausible ranges of the body for every measurement surveyed,
// given what was taken. A measurement never vouches for itself.
func Bands(f Figure, t Takings) map[ID]Band {
	all := make(map[ID]Band)
	for _, d := range Defs() {
		if e, ok := expect(f, t, d, OfBody); ok {
			all[d.ID] = e.Band
		}
	}
	return all
}

// expected is a band with what is needed to measure a distance from it.
type expected struct {
	Band
	who    string // of whom: "women", "adults"
	halves []prediction
	down   float64 // mm, beyond the prediction
	up     float64
}

func expect(f Figure, t Takings, d Def, of Of) (expected, bool) {
	m, halves := predict(f, d.ID, t.known())
	if len(halves) == 0 {
		return expected{}, false
	}
	down, up := reach(d.ID, m)
	if of == OfGarment {
		_, most := ease(d.ID)
		up += most
		if wide(d.ID) {
			up += d.Max
		}
	}
	e := expected{who: f.surveyed(), halves: halves, down: down.MM(), up: up.MM()}
	e.From = m.String()
	e.Low, e.High = e.beyond(askBeyond)
	e.InsistLow, e.InsistHigh = e.beyond(insistBeyond)
	e.Low, e.InsistLow = max(e.Low, d.Min), max(e.InsistLow, d.Min)
	e.High, e.InsistHigh = min(e.High, d.Max), min(e.InsistHigh, d.Max)
	return e, true
}

// beyond is the range within so many standard deviations of any half.
func (e expected) beyond(sigmas float64) (low, high unit.Length) {
	l, h := math.Inf(1), math.Inf(-1)
	for _, p := range e.halves {
		l = min(l, p.mm+e.down-sigmas*p.sd)
		h = max(h, p.mm+e.up+sigmas*p.sd)
	}
	return unit.Length(l), unit.Length(h)
}

// sigmas is how far given lies outside the nearest half, in standard deviations.
func (e expected) sigmas(given unit.Length) float64 {
	nearest := math.Inf(1)
	for _, p := range e.halves {
		out := max(p.mm+e.down-given.MM(), given.MM()-p.mm-e.up, 0)
		nearest = min(nearest, out/p.sd)
	}
	return nearest
}

// Check asks about every measurement that is unusual beside the others, or that
// contradicts them, in the order of Defs. It needs no measurement to be there
// and refuses none.
func Check(f Figure, t Takings) []Doubt {
	var doubts []Doubt
	for _, d := range Defs() {
		got, ok := t.taken(d.ID)
		if !ok {
			continue
		}
		if doubt, ok := unusual(f, t, d, got); ok {
			doubts = append(doubts, doubt)
		}
		doubts = append(doubts, contradictions(f, t, d.ID)...)
	}
	return doubts
}

// unusual holds one measurement against the survey.
func unusual(f Figure, t Takings, d Def, got Taking) (Doubt, bool) {
	e, ok := expect(f, t, d, got.Of)
	if !ok {
		return Doubt{}, false
	}
	given := got.Value.Length()
	if given >= e.Low && given <= e.High {
		return Doubt{}, false
	}
	level := Ask
	if given < e.InsistLow || given > e.InsistHigh {
		level = Insist
	}
	return Doubt{
		ID: d.ID, Given: given, Low: e.Low, High: e.High,
		Sigmas: e.sigmas(given), Level: level,
		Text: bandText(d, t, got, e),
	}, true
}
