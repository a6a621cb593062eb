package draft

import (
	"errors"
	"slices"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// altered are the alterations of a job as the garment makes them, those of one
// kind and side in one. The error joins a *garment.BadAlteration for each that cannot be
// made.
func altered(g garment.Garment, all []job.Alteration) ([]garment.Altered, error) {
	var out []garment.Altered
	var errs []error
	for i, a := range all {
		def, ok := g.Alter(a.Kind)
		if !ok {
			errs = append(errs, &garment.BadAlteration{At: i, Field: "kind", Value: a.Kind, Why: say.Of("%s has no such alteration; take it out", g.ID)})
			continue
		}
		side := HandOf(a.Side)
		if side != piece.BothHands && def.OneSide == nil {
			errs = append(errs, &garment.BadAlteration{At: i, Field: "side", Value: string(a.Side), Why: say.Of("this is altered on both sides, or they cannot be sewn together; leave the side out")})
			continue
		}
		by := a.By.Length()
		if by > def.Most {
			errs = append(errs, &garment.BadAlteration{At: i, Field: "by", Value: a.By.String(), Why: say.Of("too much to be altered; take less, or measure again")})
			continue
		}
		at := slices.IndexFunc(out, func(o garment.Altered) bool { return o.ID == def.ID && o.Side == side })
		if at < 0 {
			out = append(out, garment.Altered{Alteration: def, By: by, Side: side, Hers: a.For == job.ForClient})
			continue
		}
		out[at].By += by
		out[at].Hers = out[at].Hers && a.For == job.ForClient
	}
	return out, errors.Join(errs...)
}

// HandOf is the hand that a side of a job is.
func HandOf(s job.Side) piece.Hand {
	switch s {
	case job.LeftSide:
		return piece.LeftHand
	case job.RightSide:
		return piece.RightHand
	default:
		return piece.BothHands
	}
}
