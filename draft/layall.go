package draft

import (
	"fmt"
	"slices"

	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// LaidAll is a draft laid over all cloths of its job.
type LaidAll struct {
	Cloths   []*Laid // by cloth of the job; nil where nothing is laid on one
	Homeless []Homeless
}

// Homeless is a piece of which some copies found no place on any cloth.
type Homeless struct {
	Piece  string
	Name   string // to be said
	Kind   piece.Cloth
	Copies int
}

// LayAll lays each copy of each piece once, over the cloths of its kind in the
// order of the job: as many as find room on the first, which may be a remnant,
// the others on the next. The last cloth of a kind takes all that is left, and
// may be too short for it. The error is a *job.Bad when a cloth cannot be used.
func LayAll(r *Result, opt lay.Options) (*LaidAll, error) {
	all := &LaidAll{Cloths: make([]*Laid, len(r.Job.Cloth))}
	want := lay.WantOf(r.Pieces)
	for i := range r.Job.Cloth {
		l, err := SpreadWanted(r, i, want)
		if err != nil {
			return nil, err
		}
		if len(l.Items) == 0 {
			continue
		}
		opt.Round = r.Format.Finest()
		if l.Result, err = lay.Pack(l.Cloth, l.Items, opt); err != nil {
			return nil, fmt.Errorf("lay: %w", err)
		}
		want.Less(l.Items, l.Result)
		if len(l.Placements) > 0 {
			all.Cloths[i] = l
		}
	}
	for _, p := range r.Pieces {
		if n := want[p.ID]; n.Plain+n.Turned > 0 {
			all.Homeless = append(all.Homeless, Homeless{p.ID, p.Name, kindOf(p.Cloth), n.Plain + n.Turned})
		}
	}
	return all, nil
}

// SpreadWanted is one cloth of the job with those copies still wanted that are
// no larger than it. Unless it is the last of its kind, what does not fit on
// the length at hand will be left out of its lay.
func SpreadWanted(r *Result, cloth int, want lay.Want) (*Laid, error) {
	c, err := clothOf(r.Job, cloth)
	if err != nil {
		return nil, err
	}
	c.LeaveOut = slices.ContainsFunc(r.Job.Cloth[cloth+1:], func(o job.Cloth) bool { return kindOf(o.Kind) == c.Kind })
	items, err := lay.ItemsFor(r.Pieces, c, want)
	if err != nil {
		return nil, fmt.Errorf("lay: %w", err)
	}
	l := &Laid{Cloth: c, Items: slices.DeleteFunc(items, func(it lay.Item) bool { return !c.Takes(it) })}
	l.keep(r.Job.Cloth[cloth].Kept)
	return l, nil
}

// kindOf is the kind of cloth, main unless another is named.
func kindOf(k piece.Cloth) piece.Cloth {
	if k == "" {
		return piece.Main
	}
	return k
}
