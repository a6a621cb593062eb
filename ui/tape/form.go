package tape

import (
	"math"

	"chalkfold/draft/body"
)

// form is a body as it is drawn: heights above the floor and half-widths, in mm.
// What was taken of the body counts where a body can be drawn of it, what the
// survey expects beside it counts elsewhere.
type form struct {
	bust bool // a bust is drawn

	// Heights.
	stature, chin, neck, nape, shoulder, armpit, chest, underBust float64
	waist, topHip, hip, fork, thigh, knee, calf, ankle            float64
	elbow, wrist                                                  float64

	wide  map[body.ID]float64 // half across, from the front, by the girth
	thick map[body.ID]float64 // front to back, by the girth

	shoulderAt float64 // how far the end of the shoulder is from the middle
}

// flat is how much thicker than wide a girth is: the shares of a body as it is
// commonly sketched (from memory).
func flat(id body.ID) float64 {
	switch id {
	case body.WaistGirth, body.UnderBustGirth:
		return 0.74
	case body.TopHipGirth, body.HipGirth, body.ChestGirth:
		return 0.72
	case body.ThighGirth, body.CalfGirth:
		return 1.15
	case body.AnkleGirth:
		return 1.3
	default:
		return 1
	}
}

// formOf is the form of a body. The heights that are not measured, of the chin,
// the shoulder, the chest, are shares of the stature (from memory).
func formOf(figure body.Figure, takings body.Takings) form {
	bands := body.Bands(figure, takings)
	taken := func(id body.ID) bool {
		t, ok := takings[id]
		b := bands[id]
		l := t.Value.Length()
		return ok && t.Of == body.OfBody && l >= b.InsistLow && l <= b.InsistHigh
	}
	mm := func(id body.ID) float64 {
		b := bands[id]
		if taken(id) {
			return takings[id].Value.Length().MM()
		}
		return (b.Low + b.High).MM() / 2
	}

	f := form{bust: figure != body.Men}
	s := mm(body.Stature)
	f.stature, f.chin, f.neck, f.nape = s, 0.87*s, 0.853*s, 0.84*s
	f.shoulder, f.armpit, f.chest, f.underBust = 0.815*s, 0.755*s, 0.725*s, 0.685*s
	f.waist = min(mm(body.OutsideLegLength), 0.65*s)
	f.fork = mm(body.InsideLegLength)
	if taken(body.BodyRise) && !taken(body.InsideLegLength) {
		f.fork = f.waist - mm(body.BodyRise)
	}
	f.fork = max(0.35*s, min(f.fork, f.waist-0.09*s))
	f.hip = max(f.waist-mm(body.WaistToHips), f.fork+0.25*(f.waist-f.fork))
	f.hip = min(f.hip, f.waist-0.3*(f.waist-f.fork))
	f.topHip = f.waist - 0.45*(f.waist-f.hip)
	f.thigh = 0.95 * f.fork
	f.knee = max(0.5*f.fork, min(mm(body.KneeHeight), 0.7*f.fork))
	f.calf, f.ankle = 0.72*f.knee, 0.2*f.knee
	f.wrist = f.shoulder - 0.97*max(0.28*s, min(mm(body.ArmLength), 0.4*s))
	f.elbow = f.shoulder - 0.56*(f.shoulder-f.wrist)

	girths := map[body.ID]float64{}
	for _, id := range []body.ID{
		body.WaistGirth, body.HipGirth, body.ThighGirth, body.KneeGirth, body.CalfGirth, body.AnkleGirth,
		body.NeckGirth, body.ChestGirth, body.UpperArmGirth, body.WristGirth,
	} {
		girths[id] = mm(id)
	}
	girths[body.TopHipGirth] = girths[body.WaistGirth]*0.4 + girths[body.HipGirth]*0.6
	// The survey's waist is at the navel; the tape's is where the body is narrowest.
	girths[body.UnderBustGirth] = max(girths[body.WaistGirth]*0.45+girths[body.ChestGirth]*0.47, girths[body.WaistGirth]*1.05)
	girths[body.ChestGirth] = max(girths[body.ChestGirth], girths[body.UnderBustGirth]*1.04)
	f.wide, f.thick = map[body.ID]float64{}, map[body.ID]float64{}
	for id, girth := range girths { // of an ellipse, nearly: π times the sum of its halves
		half := girth / math.Pi / (1 + flat(id))
		f.wide[id], f.thick[id] = half, 2*half*flat(id)
	}
	f.shoulderAt = max(f.wide[body.NeckGirth]+mm(body.ShoulderLength)*0.95, f.wide[body.ChestGirth]*0.95)
	return f
}

// leg is where the middle of a leg is, from the middle of the body, and how
// wide the leg is to either side, at the height of a girth.
func (f form) leg(id body.ID) (middle, half float64) {
	const gap = 3 // of a thigh from the middle
	thigh := f.wide[body.ThighGirth] + gap
	half = f.wide[id]
	switch id {
	case body.KneeGirth:
		return max(0.93*thigh, half+10), half
	case body.CalfGirth:
		return max(0.91*thigh, half+12), half
	case body.AnkleGirth:
		return max(0.86*thigh, half+30), half
	default:
		return thigh, half
	}
}

// at is the height of the level at which a girth is taken.
func (f form) at(id body.ID) float64 {
	switch id {
	case body.WaistGirth:
		return f.waist
	case body.TopHipGirth:
		return f.topHip
	case body.HipGirth:
		return f.hip
	case body.ThighGirth:
		return f.thigh
	case body.KneeGirth:
		return f.knee
	case body.CalfGirth:
		return f.calf
	case body.AnkleGirth:
		return f.ankle
	case body.NeckGirth:
		return f.neck
	case body.ChestGirth:
		return f.chest
	case body.UnderBustGirth:
		return f.underBust
	case body.UpperArmGirth:
		return f.armpit - 0.3*(f.armpit-f.elbow)
	case body.WristGirth:
		return f.wrist
	default: // none of one level
		return 0
	}
}
