package trouser

import (
	"math"

	"chalkfold/draft/balance"
	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Quarter is the method that takes every figure as the house has it. Balanced is the method by which fork extensions, tilt and raises are found so
// that the fork seam goes round the body with the ease that was chosen.
const (
	Quarter  = "quarter"
	Balanced = "balanced"
)

// balanced is what the balanced method found for one body.
type balanced struct {
	by      map[string]float64 // sums of the construction, and by how much each is changed, mm
	wishes  []wish
	stopped []figure // the ends of their ranges stopped these
	settled bool
	match   float64 // see matchOf
}

// wish is a length of the fork seam, band to band, that is to come out.
type wish struct {
	id     body.ID
	want   unit.Length
	weight float64
	more   unit.Length // what the alterations of the fitting add to it
}

// figure is a sum that the balanced method may change, with the rule that holds
// the house's figure and its range.
type figure struct {
	sum, label string
	rule       rules.ID
}

// figures are those that shape the fork seam, as they are laid.
func figures() []figure {
	return []figure{
		{"fork_level", say.Word("fork line, balanced"), "rise_ease"},
		{"front.reach", say.Word("front fork extension, balanced"), "front_fork_part"},
		{"back.reach", say.Word("back fork extension, balanced"), "back_fork_part"},
		{"back.tilt", say.Word("seat tilt, balanced"), "seat_tilt"},
		{"back.raise", say.Word("centre-back raise, balanced"), "centre_back_raise"},
		{"front.raise", say.Word("centre-front raise, balanced"), "centre_front_raise"},
	}
}

// leastChange is the least change that is laid, mm.
const leastChange = 0.01

// balanceOf finds by how much each figure must change. Where not even the house's
// own figures can be drawn nothing is changed: the draft then says why.
func balanceOf(in garment.Input, forkOnly bool) *balanced {
	in.Format.Words = nil // nobody reads what is only tried
	altered := in
	in = in.Unaltered() // what was seen on the body comes on top
	found := &balanced{by: map[string]float64{}, wishes: wishes(in)}
	house, err := tried(in, nil, 0, forkOnly)
	if err != nil {
		return found
	}
	all := figures()
	unknowns := make([]balance.Unknown, len(all))
	for i, f := range all {
		unknowns[i] = rangeOf(in, house, f)
	}
	list := make([]balance.Wish, len(found.wishes))
	for i, w := range found.wishes {
		list[i] = balance.Wish{Want: w.want.MM(), Weight: w.weight}
	}
	s, err := balance.Solve(unknowns, list, func(x []float64) ([]float64, error) {
		by := map[string]float64{}
		for i, f := range all {
			by[f.sum] = x[i]
		}
		rec, err := tried(in, by, 0, forkOnly)
		if err != nil {
			return nil, err
		}
		got := make([]float64, len(found.wishes))
		for i, w := range found.wishes {
			got[i] = w.measured(rec, in.Rules)
		}
		return got, nil
	})
	if err != nil {
		return found
	}
	found.settled = s.Settled
	for i, f := range all {
		if math.Abs(s.By[i]) > leastChange {
			found.by[f.sum] = s.By[i]
		}
		if s.Stopped[i] {
			found.stopped = append(found.stopped, f)
		}
	}
	if len(altered.Altered) > 0 {
		found.match = matchOf(altered, found.by, forkOnly)
		found.add(in, altered, forkOnly)
	}
	return found
}

// add notes by how much the alterations change what was wished.
func (b *balanced) add(in, altered garment.Input, forkOnly bool) {
	was, err := tried(in, b.by, 0, forkOnly)
	is, errIs := tried(altered, b.by, b.match, forkOnly)
	if err != nil || errIs != nil {
		return // the draft itself says why
	}
	for i, w := range b.wishes {
		b.wishes[i].more = unit.Length(w.measured(is, in.Rules) - w.measured(was, in.Rules))
	}
}

// tried draws front and back with the figures changed by so much, and the back
// fork let out by match.
func tried(in garment.Input, by map[string]float64, match float64, forkOnly bool) (*construct.Record, error) {
	d := newDrafter(in)
	d.forkOnly, d.match = forkOnly, match
	if in.Method == Balanced {
		d.by = &balanced{by: by}
	}
	if err := d.draw(); err != nil {
		return nil, err
	}
	return d.Record()
}

// The whole fork seam must come out before its parts do.
const (
	wholeWeight = 100
	partWeight  = 1
)

// wishes are the lengths of the fork seam that were taken, and the whole of it
// at least as it is estimated. The ease of the whole is shared by its parts.
func wishes(in garment.Input) []wish {
	var out []wish
	for _, w := range []struct {
		id            body.ID
		share, weight float64
	}{
		{body.TotalCrotchLength, 1, wholeWeight}, {body.FrontCrotchLength, 0.5, partWeight}, {body.BackCrotchLength, 0.5, partWeight},
	} {
		v, ok := in.Body[w.id]
		if !ok || v.Estimated && w.id != body.TotalCrotchLength {
			continue
		}
		want := v.Length
		if v.Of != body.OfGarment {
			want += in.Rules.Length("fork_ease") * unit.Length(w.share)
		}
		out = append(out, wish{id: w.id, want: want, weight: w.weight})
	}
	return out
}

// parts are the panels that a length of the fork seam runs over.
func (w wish) parts() []string {
	switch w.id {
	case body.FrontCrotchLength:
		return []string{"front"}
	case body.BackCrotchLength:
		return []string{"back"}
	default:
		return []string{"front", "back"}
	}
}

// measured is the length on the drawing, from band to band, mm.
func (w wish) measured(rec *construct.Record, set rules.Set) float64 {
	sum := 0.0
	for _, part := range w.parts() {
		sum += rec.Path(part+".centre").Len() + rec.Path(part+".fork").Len() + set.Length("waistband_width").MM()
	}
	return sum
}

// rangeOf is how far a figure may go either way of what the house has.
func rangeOf(in garment.Input, house *construct.Record, f figure) balance.Unknown {
	low, high := in.Rules.Def(f.rule).Range()
	hip := in.Body[body.HipGirth].Length.MM()
	if in.Rules.Def(f.rule).Kind == rules.Ratio { // a part of the hip
		low, high = hip/high, hip/low
	}
	at := house.Value(f.sum)
	switch f.sum {
	case "fork_level":
		low, high = low+at-in.Rules.Length(f.rule).MM(), high+at-in.Rules.Length(f.rule).MM()
	case "front.reach": // grown for the thigh, it does not shrink again
		if high = math.Min(high, hip*mostReach); house.Has("front.reach_grown") {
			low = at
		}
	case "back.tilt":
		if full := in.Rules.Length(f.rule).MM(); full > 0 { // fitted to the depth of the hip
			low, high = low*at/full, high*at/full
		}
	}
	u := balance.Unknown{Min: math.Min(low-at, 0), Max: math.Max(high-at, 0), Per: high - low}
	if f.sum == "fork_level" {
		u.Per = math.Min(u.Per, mostRiseEase) / 2 // it counts twice: in front and behind
	}
	return u
}

// mostRiseEase is what a fork line may move by at the most, mm, to be weighed by.
const mostRiseEase = 2 * 25.4

// rebalance gives a sum what the balanced method adds to it.
func (d *drafter) rebalance(sum string) {
	if d.by == nil || math.Abs(d.by.by[sum]) <= leastChange {
		return
	}
	for _, f := range figures() {
		if f.sum != sum {
			continue
		}
		d.Truing(Balanced, func() {
			by := "balance." + sum
			why := d.whyBalanced()
			uses := []string{"fork_ease"}
			for _, w := range d.by.wishes {
				uses = append(uses, string(w.id))
			}
			d.Solved(by, d.T("change by the balanced method"), d.by.by[sum], why, uses...)
			d.Renew(sum+"_balanced", d.T(f.label), sum, sum+" + "+by, why)
		})
	}
}

// whyBalanced says what figures are changed for; nothing on a draft that is
// only tried.
func (d *drafter) whyBalanced() string {
	if len(d.by.wishes) == 0 {
		return ""
	}
	text := func(w wish) string { return d.in.Format.Text(w.want) }
	if w := d.by.wishes; len(w) == 3 {
		return d.F("balanced, so that the fork seam from band to band is %s in front and %s behind", text(w[1]), text(w[2]))
	}
	return d.F("balanced, so that the fork seam from band to band is %s", text(d.by.wishes[0]))
}
