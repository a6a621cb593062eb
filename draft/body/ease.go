package body

import "chalkfold/draft/unit"

// ease is how much longer than the body a garment that fits is, at least and at
// most. Sources: UNL Extension EC73-455 (1973) for waist, hip, thigh, knee,
// calf, body rise and crotch length, with the 2 3/4 in of CWU costume text
// ch. 16 as the most at the hip; NIMI CITS Dress Making p. 180 for the ankle.
// The parts of the crotch length have half each (common practice).
func ease(id ID) (least, most unit.Length) {
	switch id {
	case WaistGirth, TopHipGirth:
		return in(0.5, 1)
	case HipGirth:
		return in(1, 2.75)
	case ThighGirth, KneeGirth, CalfGirth:
		return in(1, 2)
	case AnkleGirth:
		return in(1, 1)
	case BodyRise:
		return in(0.5, 1)
	case TotalCrotchLength:
		return in(1, 2)
	case FrontCrotchLength, BackCrotchLength:
		return in(0.5, 1)
	default:
		return 0, 0
	}
}

// wide tells that a garment may be as wide here as its style has it, so that a
// garment's girth says nothing about the body (common practice).
func wide(id ID) bool {
	switch id {
	case ThighGirth, KneeGirth, CalfGirth, AnkleGirth, HeelGirth, UpperArmGirth, WristGirth:
		return true
	default:
		return false
	}
}

// ofBody is the taking as a length of the body: a garment's middling ease is
// taken off.
func (t Taking) ofBody(id ID) unit.Length {
	l := t.Value.Length()
	if t.Of == OfGarment {
		least, most := ease(id)
		l -= (least + most) / 2
	}
	return l
}
