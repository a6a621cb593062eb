package body

import (
	"math"

	"chalkfold/draft/unit"
)

// How far sums of measurements miss each other by the tape alone (common
// practice): a standard deviation of 1/2 in for the leg, where the outside runs
// over the hip and a rise may be taken to the chair, and of 1/4 in for a crotch
// length read at a pin. They are asked about at twice this like all else.
const (
	legSpread    = 0.5 * unit.Inch
	crotchSpread = 0.25 * unit.Inch
	// Both sides of a figure, waist to floor: more than an inch is seldom, and
	// commonly a tape that slid or a knee that was bent.
	sideSpread = 0.5 * unit.Inch
)

// contradictions holds the measurement id against the others that should add up
// to it. Each contradiction is told once, at the measurement named here.
func contradictions(f Figure, t Takings, id ID) []Doubt {
	var found []Doubt
	add := func(d Doubt, ok bool) {
		if ok {
			found = append(found, d)
		}
	}
	switch id {
	case OutsideLegLength:
		if _, ok := t.taken(BodyRise); ok {
			add(sum(t, OutsideLegLength, InsideLegLength, BodyRise, legSpread))
		} else {
			add(impliedRise(f, t))
		}
	case TotalCrotchLength:
		add(sum(t, TotalCrotchLength, FrontCrotchLength, BackCrotchLength, crotchSpread))
	case RightSideLength:
		add(apart(t, LeftSideLength, RightSideLength, sideSpread))
	case HipGirth:
		add(notUnder(t, HipGirth, WaistGirth))
	case ThighGirth:
		add(notUnder(t, ThighGirth, KneeGirth))
	case HeelGirth:
		add(notUnder(t, HeelGirth, AnkleGirth))
	default: // no sum to hold it against
	}
	return found
}

// sum doubts a whole that is not its two parts, all three taken.
func sum(t Takings, whole, a, b ID, spread unit.Length) (Doubt, bool) {
	w, okW := t.taken(whole)
	p, okP := t.taken(a)
	q, okQ := t.taken(b)
	if !okW || !okP || !okQ {
		return Doubt{}, false
	}
	parts := p.ofBody(a) + q.ofBody(b)
	miss := math.Abs((w.ofBody(whole) - parts).MM()) / spread.MM()
	if miss <= askBeyond {
		return Doubt{}, false
	}
	level := Ask
	if miss > insistBeyond {
		level = Insist
	}
	return Doubt{
		ID: whole, Given: w.Value.Length(),
		Low: parts - askBeyond*spread, High: parts + askBeyond*spread,
		Sigmas: miss, Level: level,
		Text: sumText(w, whole, p, a, q, b, parts),
	}, true
}

// apart doubts two sides that differ by more than those of most figures.
func apart(t Takings, left, right ID, spread unit.Length) (Doubt, bool) {
	l, okL := t.taken(left)
	r, okR := t.taken(right)
	if !okL || !okR {
		return Doubt{}, false
	}
	const hair = 1e-6 // an inch is an inch, however it was worked out
	other := l.ofBody(left)
	miss := math.Abs((r.ofBody(right) - other).MM()) / spread.MM()
	if miss <= askBeyond+hair {
		return Doubt{}, false
	}
	level := Ask
	if miss > insistBeyond {
		level = Insist
	}
	return Doubt{
		ID: right, Given: r.Value.Length(),
		Low: other - askBeyond*spread, High: other + askBeyond*spread,
		Sigmas: miss, Level: level,
		Text: apartText(l, left, r, right),
	}, true
}

// impliedRise doubts an outside leg length that leaves an unusual rise above the
// inside leg length, when no rise was taken.
func impliedRise(f Figure, t Takings) (Doubt, bool) {
	out, okO := t.taken(OutsideLegLength)
	inside, okI := t.taken(InsideLegLength)
	rise, okR := Find(BodyRise)
	if !okO || !okI || !okR {
		return Doubt{}, false
	}
	e, ok := expect(f, t, rise, OfBody)
	left := out.ofBody(OutsideLegLength) - inside.ofBody(InsideLegLength)
	if !ok || left >= e.Low && left <= e.High {
		return Doubt{}, false
	}
	level := Ask
	if left < e.InsistLow || left > e.InsistHigh {
		level = Insist
	}
	base := inside.ofBody(InsideLegLength)
	return Doubt{
		ID: OutsideLegLength, Given: out.Value.Length(),
		Low: base + e.Low, High: base + e.High,
		Sigmas: e.sigmas(left), Level: level,
		Text: impliedText(out, inside, left, e),
	}, true
}

// notUnder doubts a girth below one that is usually smaller. It is only ever
// asked: there are such bodies.
func notUnder(t Takings, id, smaller ID) (Doubt, bool) {
	big, okB := t.taken(id)
	small, okS := t.taken(smaller)
	d, okD := Find(id)
	if !okB || !okS || !okD || big.ofBody(id) >= small.ofBody(smaller) {
		return Doubt{}, false
	}
	return Doubt{
		ID: id, Given: big.Value.Length(), Low: small.ofBody(smaller), High: d.Max,
		Sigmas: askBeyond, Level: Ask,
		Text: underText(big, id, small, smaller),
	}, true
}
