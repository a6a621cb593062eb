package body

import (
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// NaturalWaist is how far the natural waist, where makers measure from, lies
// above the navel, where the survey measured from (common practice: about
// 1 1/2 in; it differs from body to body). What is measured down from the waist
// is estimated longer than in the survey by this, and its plausible band
// reaches from the survey's waist up to here.
const NaturalWaist = 1.5 * unit.Inch

// seated is how much longer a body rise is when it is taken to the chair than to
// the level of the fork, at most (common practice).
const seated = 1 * unit.Inch

// slimmer is how much less a natural waist goes round than a waist at the navel,
// at most (common practice).
const slimmer = 2 * unit.Inch

// civilian is how much larger round than the surveyed soldiers a client is
// believed to be without being asked about, where nothing else of her body says
// so (common practice).
const civilian = 6 * unit.Inch

// line is a least-squares line through one half of the survey, in mm. One with
// no sd is not there.
type line struct {
	at, waist, hip, stature, rise float64
	sd                            float64 // residual
}

func (l line) predict(k known) float64 {
	return l.at + l.waist*k.waist + l.hip*k.hip + l.stature*k.stature + l.rise*k.rise
}

// trait is what one half of the survey says of one measurement, in mm.
type trait struct {
	mean, sd float64
	stature  line // on stature alone
	hip      line // on hip girth alone
	full     line // on waist, hip and stature
	rise     line // on body rise, hip and waist
}

// known is what a prediction can rest on, in mm of the body; 0 is not known.
// The rise is the survey's: from the navel.
type known struct{ waist, hip, stature, rise float64 }

func (t Takings) known() known {
	of := func(id ID) float64 {
		if got, ok := t.taken(id); ok {
			return got.ofBody(id).MM()
		}
		return 0
	}
	k := known{waist: of(WaistGirth), hip: of(HipGirth), stature: of(Stature), rise: of(BodyRise)}
	if k.rise > 0 {
		k.rise = max(k.rise-NaturalWaist.MM(), 1)
	}
	return k
}

// model is what a prediction rests on.
type model uint8

const (
	onNothing model = iota // the mean of the half
	onStature
	onHip
	onAll
	onRise
)

// String says it in words, to follow "from".
func (m model) String() string {
	switch m {
	case onStature:
		return say.Word("stature")
	case onHip:
		return say.Word("hip")
	case onAll:
		return say.Word("waist, hip and stature")
	case onRise:
		return say.Word("body rise, hip and waist")
	case onNothing:
	}
	return say.Word("nothing else")
}

// line is the line of a model; not ok when the survey has none or too little is known.
func (t trait) line(m model, k known) (line, bool) {
	var l line
	switch m {
	case onNothing:
		return line{at: t.mean, sd: t.sd}, true
	case onStature:
		l = t.stature
	case onHip:
		l = t.hip
	case onAll:
		l = t.full
	case onRise:
		l = t.rise
	}
	ok := l.sd > 0 &&
		(l.waist == 0 || k.waist > 0) && (l.hip == 0 || k.hip > 0) &&
		(l.stature == 0 || k.stature > 0) && (l.rise == 0 || k.rise > 0)
	return l, ok
}

func survey(half Figure, id ID) (trait, bool) {
	if half == Men {
		return men(id)
	}
	return women(id)
}

// prediction is what one half of the survey expects.
type prediction struct{ mm, sd float64 }

// predict is what each half that f draws on expects of id, by the one model that
// leaves the least spread over them all; of two as good, the one that rests on
// more. It is empty when the survey did not
// measure it.
func predict(f Figure, id ID, k known) (model, []prediction) {
	halves := f.halves()
	var (
		chosen model
		best   []prediction
		least  float64
	)
	for m := onNothing; m <= onRise; m++ {
		var (
			got []prediction
			sum float64
		)
		for _, h := range halves {
			t, surveyed := survey(h, id)
			if !surveyed {
				return onNothing, nil
			}
			if l, ok := t.line(m, k); ok {
				got = append(got, prediction{mm: l.predict(k), sd: l.sd})
				sum += l.sd
			}
		}
		if len(got) == len(halves) && (best == nil || sum <= least) {
			chosen, best, least = m, got, sum
		}
	}
	return chosen, best
}

// raised is how far the survey's figure for id lies below that from the natural waist.
func raised(id ID) unit.Length {
	switch id {
	case BodyRise, WaistToHips, OutsideLegLength, FrontCrotchLength, BackCrotchLength:
		return NaturalWaist
	case TotalCrotchLength:
		return 2 * NaturalWaist
	case BackWaistLength:
		return -NaturalWaist
	default:
		return 0
	}
}

// reach is how far beyond the survey's figure id is believed on account of where
// and on whom it is taken: the waist higher up, a chair, no soldier.
func reach(id ID, m model) (down, up unit.Length) {
	r := raised(id)
	down, up = min(r, 0), max(r, 0)
	switch id {
	case BodyRise:
		up += seated
	case WaistGirth:
		down -= slimmer
	default: // taken as the survey took it
	}
	if m == onRise { // the rise may have been taken to the chair
		down -= seated
	}
	if m == onNothing || m == onStature {
		switch id {
		case WaistGirth, HipGirth, ChestGirth, ThighGirth, KneeGirth, CalfGirth, UpperArmGirth, NeckGirth:
			up += civilian
		default: // lengths and bony girths
		}
	}
	return down, up
}
