package rules

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// value is one rule's value, read once.
type value struct {
	text   string
	number float64       // mm for a Length, 1 or 0 for a Switch
	length unit.Quantity // Length only
	level  Level
	moved  []string // the reasons for which it was moved from what it was
	was    string
}

// Set is every rule of a garment with its value. The zero value has no rules.
// A Set is never changed, so it may be shared and kept.
type Set struct {
	defs   []Def
	values map[ID]value
}

// Resolve lays house, client and job over the defaults of defs. Rules that are
// unknown, of the wrong kind or out of range are refused, all of them at once,
// each as a *BadRule. It panics when a definition itself is wrong (two of one
// name, a default out of its range), which is the garment's mistake.
func Resolve(defs []Def, house, client, job Values) (Set, error) {
	s := Set{defs: slices.Clone(defs), values: make(map[ID]value, len(defs))}
	known := make(map[ID]Def, len(defs))
	for _, d := range defs {
		if _, twice := known[d.ID]; twice {
			panic(fmt.Sprintf("rules: %s is defined twice", d.ID))
		}
		known[d.ID] = d
		s.values[d.ID] = d.built()
	}
	var bad []error
	for _, l := range []struct {
		level  Level
		values Values
	}{{House, house}, {Client, client}, {Job, job}} {
		for _, id := range slices.Sorted(maps.Keys(l.values)) {
			v, err := set(known, id, l.values[id], l.level)
			if err != nil {
				bad = append(bad, err)
				continue
			}
			s.values[id] = v
		}
	}
	if len(bad) > 0 {
		return Set{}, errors.Join(bad...)
	}
	return s, nil
}

// set reads one value for one rule; the error is a *BadRule.
func set(known map[ID]Def, id ID, text string, level Level) (value, error) {
	text = strings.TrimSpace(text)
	bad := &BadRule{ID: id, Level: level, Value: text}
	d, ok := known[id]
	if !ok {
		bad.Why = nearest(known, id)
		return value{}, bad
	}
	v, why := d.read(text)
	if why.None() {
		why = d.within(v)
	}
	if !why.None() {
		bad.Why = why
		return value{}, bad
	}
	v.level = level
	return v, nil
}

// With is the set with one rule changed; the receiver stays as it was. The
// error is a *BadRule.
func (s Set) With(id ID, text string, level Level) (Set, error) {
	known := make(map[ID]Def, len(s.defs))
	for _, d := range s.defs {
		known[d.ID] = d
	}
	v, err := set(known, id, text, level)
	if err != nil {
		return Set{}, err
	}
	changed := Set{defs: s.defs, values: maps.Clone(s.values)}
	changed.values[id] = v
	return changed, nil
}

// Length is the value of a Length rule. It panics for any other.
func (s Set) Length(id ID) unit.Length { return s.want(id, Length).length.Length() }

// Quantity is the value of a Length rule as it was written.
func (s Set) Quantity(id ID) unit.Quantity { return s.want(id, Length).length }

// Number is the value of a Ratio or Count rule. It panics for any other.
func (s Set) Number(id ID) float64 { return s.want(id, Ratio, Count).number }

// On is the value of a Switch rule. It panics for any other.
func (s Set) On(id ID) bool { return s.want(id, Switch).number != 0 }

// Level tells which level the value of a rule came from.
func (s Set) Level(id ID) Level { return s.get(id).level }

// Text is the value as it was written.
func (s Set) Text(id ID) string { return s.get(id).text }

// Told is the value as a figure of a text.
func (s Set) Told(id ID) say.Told { return s.Def(id).Told(s.Text(id)) }

// Told is a value of the rule, as it was written, as a figure of a text: a
// length in the signs of the language.
func (d Def) Told(text string) say.Told {
	switch d.Kind {
	case Length:
		if q, err := unit.ParseSigned(text, unit.Inches); err == nil {
			return q
		}
	case Switch:
		return say.Name(text)
	case Ratio, Count:
	}
	return figure(text)
}

// figure is a plain number as it was written.
type figure string

// In writes the number with the decimal sign of w.
func (f figure) In(w *say.Words) string { return w.Decimal(string(f)) }

// Defs are the definitions, in the garment's own order.
func (s Set) Defs() []Def { return slices.Clone(s.defs) }

// Def is the definition of one rule. It panics when there is none.
func (s Set) Def(id ID) Def {
	for _, d := range s.defs {
		if d.ID == id {
			return d
		}
	}
	panic(fmt.Sprintf("rules: no rule %s is defined", id))
}

// Has tells whether the garment defines such a rule.
func (s Set) Has(id ID) bool {
	_, ok := s.values[id]
	return ok
}

func (s Set) get(id ID) value {
	v, ok := s.values[id]
	if !ok {
		panic(fmt.Sprintf("rules: no rule %s is defined", id))
	}
	return v
}

func (s Set) want(id ID, kinds ...Kind) value {
	v := s.get(id)
	if k := s.Def(id).Kind; !slices.Contains(kinds, k) {
		panic(fmt.Sprintf("rules: %s is %s", id, k))
	}
	return v
}
