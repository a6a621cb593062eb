package lay

import (
	"math"
	"slices"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// The bounds of what cloth can be said to do.
const (
	MostShrinkage = 30.0       // per cent, and below it: cloth that shrinks more is felted
	MostTilt      = Degrees(5) // a piece further off the grain hangs askew
)

// checkWeave says whether the repeats, the shrinkage, the tilt and the step
// that c is sold by can be.
func (c Cloth) checkWeave() error {
	name := say.Name(c.title())
	wide, long := c.Width, c.Length
	if len(c.Outline) > 0 {
		b := geom.BoundsOf(c.Outline)
		wide, long = unit.Length(b.W()), unit.Length(b.H())
	}
	for _, r := range []struct {
		repeat, of unit.Length
	}{{c.RepeatAcross, wide}, {c.RepeatAlong, long}} {
		if !(r.repeat >= 0) || r.of > 0 && r.repeat > r.of {
			return say.Errorf("%s: repeat %.1f mm on cloth of %.1f mm; give the distance from a stripe to the next one like it, or 0 for none", name, r.repeat.MM(), r.of.MM())
		}
	}
	for _, s := range [2]float64{c.ShrinksAlong, c.ShrinksAcross} {
		if !(s >= 0 && s < MostShrinkage) {
			return say.Errorf("%s: shrinks by %.1f %%; give less than %.0f %%, or wash it before it is cut and give 0", name, s, MostShrinkage)
		}
	}
	switch {
	case !(c.Tilt >= 0 && c.Tilt <= MostTilt):
		return say.Errorf("%s: tilt %.1f°; give 0 to %.0f degrees", name, float64(c.Tilt), float64(MostTilt))
	case c.Tilt > 0 && c.RepeatAlong+c.RepeatAcross > 0:
		return say.Errorf("%s: tilt %.1f° on striped cloth, where it would be seen; give 0", name, float64(c.Tilt))
	case !(c.SoldBy >= 0):
		return say.Errorf("%s: sold by %.1f mm; give the least length that a shop cuts off, or 0", name, c.SoldBy.MM())
	}
	return nil
}

// Bought returns what must be bought for a length of c: it rounded up to the
// step that c is sold by.
func (c Cloth) Bought(l unit.Length) unit.Length { return unit.UpTo(l, c.SoldBy) }

// Takes reports whether an item is no larger than c, along and across, in any
// turn that it may take. That does not say yet that it finds a place.
func (c Cloth) Takes(it Item) bool {
	lo, hi := c.across(c.Fold != Open && it.Layers() == 1)
	room := geom.Rect{Min: geom.Pt{X: lo}, Max: geom.Pt{X: hi, Y: c.most()}}
	if len(c.Outline) > 0 {
		room = geom.BoundsOf(c.Outline)
	}
	return slices.ContainsFunc(it.Turns, func(d Degrees) bool {
		b := geom.BoundsOf(geom.MapPts(it.Ring, linear(d, false)))
		return b.W() <= room.W()+touchTol && b.H() <= room.H()+touchTol
	})
}

// most returns the length along the table that pieces may take in all: no end
// on the bolt, or where the lay may run over the length at hand.
func (c Cloth) most() float64 {
	switch {
	case len(c.Outline) > 0:
		return geom.BoundsOf(c.Outline).Max.Y
	case !c.LeaveOut || c.Length == 0:
		return math.Inf(1)
	case c.Fold == Crosswise:
		return c.Length.MM() / 2
	}
	return c.Length.MM()
}
