package draft

import (
	"slices"

	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// Part is one of several garments that are cut from the same cloth.
type Part struct {
	// Key is unique among the parts, without blanks. It begins the ids of the pieces.
	Key string
	*Result
	// Cut are the ids of its pieces that are cut already: they are not laid again.
	Cut []string
}

// Join puts several drafts together, so that they are laid as one: Spread, Lay,
// LayAll, Buy, LayGuide and what else takes a Result for its pieces and cloths. The
// cloths, their lengths' units and the title are those of j, and whatever else j
// says is not looked at.
//
// Each piece carries the ticket of its garment in its name, in the language of w:
// "Alto 3, front"; its id is "key.front". Stripes are matched within a garment,
// not from one to the other. What the drafts claim is not claimed of all together,
// but for the findings, each under the ticket of its garment; of one that is cut from
// end to end nothing is found any more.
func Join(j job.Job, parts []Part, w *say.Words) *Result {
	r := &Result{Job: j.Clone(), Format: j.Units.Format(), Of: slices.Clone(parts)}
	r.Format.Words = w
	for i, name := range partNames(parts, w) {
		left := false
		for _, p := range parts[i].Pieces {
			if slices.Contains(parts[i].Cut, p.ID) {
				continue
			}
			left = true
			p.ID = parts[i].Key + "." + p.ID
			p.Name = w.F("%s, %s", name, say.Within(p.Name))
			p.Match.Along, p.Match.Across = within(parts[i].Key, p.Match.Along), within(parts[i].Key, p.Match.Across)
			r.Pieces = append(r.Pieces, p)
		}
		for _, f := range parts[i].Report.Findings {
			if !left {
				break
			}
			f.Name = w.F("%s: %s", name, f.Name)
			r.Report.Findings = append(r.Report.Findings, f)
		}
	}
	return r
}

// within is a name that is not met with in another part.
func within(key, name string) string {
	if name == "" {
		return ""
	}
	return key + "." + name
}

// partNames tells the parts apart: by their tickets, and where several have one, or
// none has any, by what is made and a number.
func partNames(parts []Part, w *say.Words) []string {
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = p.Job.Name
	}
	once := func(name string) bool {
		n := 0
		for _, other := range names {
			if other == name {
				n++
			}
		}
		return n == 1 && name != ""
	}
	var titles []string
	for i, p := range parts {
		title := names[i]
		if !once(title) {
			title = Title(p.Result)
		}
		titles = append(titles, title)
	}
	names = titles
	numbered := make([]string, len(names))
	for i, name := range names {
		numbered[i] = name
		if before := slices.Index(names, name); !once(name) {
			n := 1
			for _, other := range names[before:i] {
				if other == name {
					n++
				}
			}
			numbered[i] = w.F("%s (%d)", name, n)
		}
	}
	return numbered
}

// Kinds are the kinds of cloth that the pieces are cut from, in their order.
func (r *Result) Kinds() []piece.Cloth {
	var kinds []piece.Cloth
	for _, p := range r.Pieces {
		if k := kindOf(p.Cloth); !slices.Contains(kinds, k) {
			kinds = append(kinds, k)
		}
	}
	return kinds
}
