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
		if err := l.pack(r, opt); err != nil {
			return nil, err
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

// SpreadAfter is Spread where other cloths of its kind may be laid on as well:
// of each piece the copies that are cut from cloths before it are not laid again,
// and what finds no room on it is left out, unless it is the last of its kind.
// Nothing may be left to lay.
func SpreadAfter(r *Result, cloth int, cut lay.Want) (*Laid, error) {
	if !sharesKind(r.Job, cloth) {
		return Spread(r, cloth)
	}
	return spreadWanted(r, cloth, lay.WantOf(r.Pieces).Without(cut), func(c lay.Cloth) bool { return c.LeaveOut })
}

// LayAfter is Lay on what is spread by SpreadAfter.
func LayAfter(r *Result, cloth int, cut lay.Want, opt lay.Options) (*Laid, error) {
	l, err := SpreadAfter(r, cloth, cut)
	if err != nil {
		return nil, err
	}
	if err := l.pack(r, opt); err != nil {
		return nil, err
	}
	return l, nil
}

// pack looks for a lay.
func (l *Laid) pack(r *Result, opt lay.Options) (err error) {
	opt.Round = r.Format.Finest()
	if l.Result, err = lay.Pack(l.Cloth, l.Items, opt); err != nil {
		return fmt.Errorf("lay: %w", err)
	}
	return nil
}

// sharesKind reports whether the job has another cloth of the same kind.
func sharesKind(j job.Job, cloth int) bool {
	for i := range j.Cloth {
		if i != cloth && cloth >= 0 && cloth < len(j.Cloth) && SameKind(j.Cloth[i], j.Cloth[cloth]) {
			return true
		}
	}
	return false
}

// SameKind reports whether the same pieces are cut from two cloths.
func SameKind(a, b job.Cloth) bool { return kindOf(a.Kind) == kindOf(b.Kind) }

// SpreadWanted is one cloth of the job with those copies still wanted that are
// no larger than it. Unless it is the last of its kind, what does not fit on
// the length at hand will be left out of its lay.
func SpreadWanted(r *Result, cloth int, want lay.Want) (*Laid, error) {
	return spreadWanted(r, cloth, want, func(lay.Cloth) bool { return true })
}

// spreadWanted leaves out what is larger than the cloth where fitting says so.
func spreadWanted(r *Result, cloth int, want lay.Want, fitting func(lay.Cloth) bool) (*Laid, error) {
	c, err := clothOf(r.Job, cloth)
	if err != nil {
		return nil, err
	}
	c.LeaveOut = slices.ContainsFunc(r.Job.Cloth[cloth+1:], func(o job.Cloth) bool { return kindOf(o.Kind) == c.Kind })
	c = r.opened(c)
	items, err := lay.ItemsFor(r.Pieces, c, want)
	if err != nil {
		return nil, fmt.Errorf("lay: %w", err)
	}
	if fitting(c) {
		items = slices.DeleteFunc(items, func(it lay.Item) bool { return !c.Takes(it) })
	}
	l := &Laid{Cloth: c, Items: items}
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
