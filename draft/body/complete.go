package body

import (
	"errors"
	"slices"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Value is a measurement a draft can use: taken, or estimated.
type Value struct {
	Length    unit.Length
	Of        Of
	Estimated bool
	How       say.Msg       // of an estimate: the rule it comes from, in words
	Given     unit.Quantity // as entered; not set for an estimate
}

// Values are the measurements of one draft.
type Values map[ID]Value

// Missing is a measurement that was not taken and cannot be estimated from those
// that were.
type Missing struct {
	ID  ID
	Why say.Msg
}

func (e *Missing) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *Missing) In(w *say.Words) string { return string(e.ID) + ": " + e.Why.In(w) }

// Complete gives everything taken, and everything in want: what was not taken is
// estimated by a named rule or from the survey, from women and men alike when
// the figure is not known. What cannot be is an error, a *Missing for each; what
// contradicts itself so far that an estimate makes no sense is a *BadTaking.
// Estimates are of the body and from the natural waist. They are not rounded, so
// that inside leg and rise still add up to the outside leg.
func Complete(f Figure, t Takings, want []ID) (Values, error) {
	c := completion{figure: f, takings: t, known: t.known(), values: Values{}, defs: Defs()}
	var missing []error
	for _, d := range c.defs {
		if got, ok := t.taken(d.ID); ok {
			c.values[d.ID] = Value{Length: got.Value.Length(), Of: got.Of, Given: got.Value}
		}
	}
	for _, id := range want {
		if _, err := c.value(id); err != nil {
			missing = append(missing, err)
		}
	}
	if len(missing) > 0 {
		return nil, errors.Join(missing...)
	}
	return c.values, nil
}

type completion struct {
	figure  Figure
	takings Takings
	known   known
	values  Values
	defs    []Def
}

func (c *completion) find(id ID) (Def, bool) {
	i := slices.IndexFunc(c.defs, func(d Def) bool { return d.ID == id })
	if i < 0 {
		return Def{}, false
	}
	return c.defs[i], true
}

func (c *completion) name(id ID) say.Name {
	d, ok := c.find(id)
	if !ok {
		return say.Name(id)
	}
	return say.Name(d.Name)
}

// value is the measurement, estimated now when it was neither taken nor estimated
// before.
func (c *completion) value(id ID) (Value, error) {
	if v, ok := c.values[id]; ok {
		return v, nil
	}
	v, err := c.estimate(id)
	if err != nil {
		return Value{}, err
	}
	v.Estimated = true
	if d, ok := c.find(id); ok && (v.Length < d.Min || v.Length > d.Max) {
		f := unit.Format{}
		return Value{}, &BadTaking{ID: id, Value: c.takings[id].Value, Why: say.Of(
			"%s comes to %s, which no body has; measure them again or take the %s itself", v.How, f.Told(v.Length), say.Name(d.Name))}
	}
	c.values[id] = v
	return v, nil
}

// body is a measurement of the body for sums; a garment's ease is taken off.
func (c *completion) body(id ID) (unit.Length, error) {
	if t, ok := c.takings.taken(id); ok {
		return t.ofBody(id), nil
	}
	v, err := c.value(id)
	return v.Length, err
}

func (c *completion) has(id ID) bool {
	_, ok := c.takings.taken(id)
	return ok
}

func (c *completion) estimate(id ID) (Value, error) {
	switch id {
	case OutsideLegLength:
		return c.outside()
	case LeftSideLength, RightSideLength:
		v, err := c.value(OutsideLegLength)
		return Value{Length: v.Length, How: say.Of("as the %s", c.name(OutsideLegLength))}, err
	case InsideLegLength:
		if c.has(OutsideLegLength) {
			return c.less(OutsideLegLength, BodyRise)
		}
		if !c.has(Stature) {
			return Value{}, &Missing{ID: id, Why: say.Of("not taken; measure the inside leg length, the outside leg length or the stature")}
		}
	case BodyRise:
		if c.has(OutsideLegLength) && c.has(InsideLegLength) {
			return c.less(OutsideLegLength, InsideLegLength)
		}
	case WaistToHips:
		if c.has(BodyRise) {
			return c.share(WaistToHips, BodyRise)
		}
	case TotalCrotchLength:
		if c.has(FrontCrotchLength) || c.has(BackCrotchLength) {
			return c.plus(FrontCrotchLength, BackCrotchLength)
		}
	case FrontCrotchLength:
		return c.crotchPart(FrontCrotchLength, BackCrotchLength)
	case BackCrotchLength:
		return c.crotchPart(BackCrotchLength, FrontCrotchLength)
	case KneeHeight:
		if !c.has(Stature) {
			return c.kneeFromInside()
		}
	case WaistToKnee:
		if !c.has(OutsideLegLength) && !c.has(InsideLegLength) && !c.has(Stature) {
			return Value{}, &Missing{ID: id, Why: say.Of("not taken; measure the waist to knee, the outside leg length or the stature")}
		}
		return c.less(OutsideLegLength, KneeHeight)
	case NeckBaseGirth:
		return c.part(NeckGirth, 1, neckBase)
	case BackWidth:
		return c.part(ChestGirth, 5, backWidth)
	case ScyeDepth:
		return c.part(ChestGirth, 10, scyeDepth)
	case NeckToBust:
		return c.part(ChestGirth, 4, neckToBust)
	case BustPoints:
		return c.part(ChestGirth, 5, bustPoints)
	case FrontWaist:
		return c.part(BackWaistLength, 1, frontWaist)
	case TopHipGirth:
		return c.between(WaistGirth, HipGirth)
	case WaistGirth, HipGirth, Stature, UnderBustGirth, ShoulderLength, UpperArmGirth, WristGirth:
		return Value{}, &Missing{ID: id, Why: say.Of("not taken, and not to be guessed; measure the %s", c.name(id))}
	default: // from the survey
	}
	return c.surveyed(id)
}

// outside is the middle of both sides where they were taken. Otherwise it adds up
// inside leg and rise, whichever of them was taken; both come from stature when
// neither was.
func (c *completion) outside() (Value, error) {
	if c.has(LeftSideLength) && c.has(RightSideLength) {
		return c.between(LeftSideLength, RightSideLength)
	}
	if !c.has(InsideLegLength) && !c.has(Stature) {
		return Value{}, &Missing{ID: OutsideLegLength, Why: say.Of("not taken; measure the outside leg length, the inside leg length or the stature")}
	}
	return c.plus(InsideLegLength, BodyRise)
}

// crotchPart is the whole less the other part where both were taken, else a share
// of the whole, else as surveyed.
func (c *completion) crotchPart(part, other ID) (Value, error) {
	switch {
	case c.has(TotalCrotchLength) && c.has(other):
		return c.less(TotalCrotchLength, other)
	case c.has(TotalCrotchLength):
		return c.share(part, TotalCrotchLength)
	}
	return c.surveyed(part)
}
