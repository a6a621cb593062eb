package rules

import (
	"maps"
	"math"

	"chalkfold/draft/unit"
)

// Move is by how much a rule goes up or down from where the house has it.
type Move struct {
	ID ID
	By float64 // inches for a Length, else a plain number
}

// Moved is the set with rules moved for a reason, in English and within a
// sentence: "a flat seat". A rule is held within its range, written in the unit
// that it had, and stays at its level; what is set for the client or the job is
// not moved. The receiver stays as it was.
func (s Set) Moved(reason string, moves []Move) Set {
	changed := Set{defs: s.defs, values: maps.Clone(s.values)}
	for _, m := range moves {
		v, d := s.want(m.ID, Length, Ratio, Count), s.Def(m.ID)
		if v.level >= Client {
			continue
		}
		metric, by := false, m.By
		if d.Kind == Length {
			metric, by = v.length.System().Metric(), by*unit.Inch.MM()
		}
		low, high := d.Range()
		to, why := d.read(d.write(math.Max(low, math.Min(high, v.number+by)), metric))
		if !why.None() || to.text == v.text {
			continue
		}
		to.level, to.was, to.moved = v.level, v.unmoved(), append(v.moved[:len(v.moved):len(v.moved)], reason)
		changed.values[m.ID] = to
	}
	return changed
}

// unmoved is the value as it was written before anything moved it.
func (v value) unmoved() string {
	if len(v.moved) > 0 {
		return v.was
	}
	return v.text
}

// MovedFor are the reasons for which a rule was moved, and its value before;
// none when it was not.
func (s Set) MovedFor(id ID) (reasons []string, was string) {
	v := s.get(id)
	return v.moved, v.unmoved()
}
