package ui

import (
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// together is the open order with its garments drafted.
type together struct {
	parts  string // of what work is made ...
	key    string // ... on what cloth
	work   *Work
	drafts map[string]drafted // by job
}

// drafted is one garment of an order.
type drafted struct {
	key string // of what it is drafted
	*Work
}

// join drafts the garments of the open order, those that have changed, and puts them
// together.
func (d *Desk) join() *Work {
	was := &d.together
	now := together{drafts: map[string]drafted{}}
	var parts []draft.Part
	var key strings.Builder
	for _, s := range d.garmentsOf(d.keeper.id) {
		if s.Reached[Sewn] != "" || s.Reached[Fitted] != "" {
			continue // it takes neither cloth nor notions
		}
		g := was.drafts[s.ID]
		if of := s.ID + " " + strconv.Itoa(int(s.Rev)) + " " + d.Language().ID; g.key != of {
			g = drafted{of, &Work{}}
			if j := s.whole(); j != nil {
				g.Work = d.maker.Make(j)
			}
		}
		now.drafts[s.ID] = g
		if r := g.Result; r != nil {
			part := draft.Part{Key: s.ID, Result: r}
			for _, p := range cutOf(s, r) {
				part.Cut = append(part.Cut, p.ID)
			}
			parts = append(parts, part)
			key.WriteString(g.key + "\n")
		}
	}
	now.parts = key.String()
	if now.key = now.parts + d.jobFile(); now.key == was.key {
		now.work = was.work
	} else {
		d.maker.gen++
		now.work = &Work{Gen: d.maker.gen}
		if len(parts) > 0 {
			now.work.Result = draft.Join(d.job.File, parts, d.Words)
		}
	}
	d.together = now
	return now.work
}

// isCut reports whether a garment is cut from end to end.
func (h head) isCut() bool {
	return h.Reached[Cut] != "" || h.Reached[Sewn] != "" || h.Reached[Fitted] != ""
}

// cutOf are the pieces of a garment that are cut already.
func cutOf(s *shelved, r *draft.Result) []piece.Piece {
	return slices.DeleteFunc(slices.Clone(r.Pieces), func(p piece.Piece) bool { return !s.isCut() && !s.whole().Pieces[p.ID] })
}

// cutAlready says which garments of the open order, and which pieces of others, are
// left out of the lay since they are cut.
func (d *Desk) cutAlready() []string {
	var whole, out []string
	for _, s := range d.garmentsOf(d.keeper.id) {
		g, ok := d.together.drafts[s.ID]
		switch {
		case s.isCut():
			whole = append(whole, d.ticket(s.Ticket))
			continue
		case !ok || g.Result == nil:
			continue
		}
		var names []string
		for _, p := range cutOf(s, g.Result) {
			names = append(names, d.Say(say.Within(p.Name)))
		}
		if len(names) > 0 {
			out = append(out, d.F("Of %s these are cut already, and not laid again: %s.", d.ticket(s.Ticket), strings.Join(names, ", ")))
		}
	}
	if len(whole) > 0 {
		out = slices.Insert(out, 0, d.F("Cut already, and not laid again: %s.", strings.Join(whole, ", ")))
	}
	return out
}
