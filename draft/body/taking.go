package body

import (
	"errors"
	"maps"
	"slices"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Of tells what was measured.
type Of uint8

// A garment that fits already holds its ease, so none is added to what was
// measured of it.
const (
	OfBody Of = iota
	OfGarment
)

// String is "body" or "garment".
func (o Of) String() string {
	if o == OfGarment {
		return "garment"
	}
	return "body"
}

// Taking is one measurement as entered. One whose Value is not set was not taken.
type Taking struct {
	Value unit.Quantity
	Of    Of
}

// Takings are measurements as entered.
type Takings map[ID]Taking

// taken is the entry for id when there is one.
func (t Takings) taken(id ID) (Taking, bool) {
	got, ok := t[id]
	return got, ok && got.Value.Set()
}

// ApartBy is how far two takings of one measurement may differ before both are
// shown (common practice: 3/8 in, about 1 cm).
const ApartBy = unit.Centimetre

// Apart tells whether two takings of one measurement should be shown side by side.
func Apart(a, b Taking) bool {
	d := a.Value.Length() - b.Value.Length()
	return a.Of == b.Of && (d > ApartBy || d < -ApartBy)
}

// BadTaking is a measurement that is refused, with the reason and what to do.
type BadTaking struct {
	ID    ID
	Value unit.Quantity
	Why   say.Msg
}

func (e *BadTaking) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *BadTaking) In(w *say.Words) string {
	if !e.Value.Set() { // an estimate, named in the reason
		return string(e.ID) + ": " + e.Why.In(w)
	}
	return string(e.ID) + ": " + e.Value.In(w) + ": " + e.Why.In(w)
}

// Limits refuses measurements that no body can have and names that are not
// known, each as a *BadTaking, joined. What was not taken is passed over.
func Limits(t Takings) error {
	var bad []error
	for _, id := range slices.Sorted(maps.Keys(t)) {
		got, ok := t.taken(id)
		if !ok {
			continue
		}
		d, ok := Find(id)
		if !ok {
			bad = append(bad, &BadTaking{ID: id, Value: got.Value, Why: say.Of("no such measurement; take it out or correct its name")})
			continue
		}
		if l := got.Value.Length(); l < d.Min || l > d.Max {
			f := shown(got.Value)
			bad = append(bad, &BadTaking{ID: id, Value: got.Value, Why: say.Of(
				"%s must be from %s to %s; check the figure and its unit", say.Name(d.Name), f.Told(d.Min), f.Told(d.Max))})
		}
	}
	return errors.Join(bad...)
}

// shown is the tape a figure was read from, for saying other lengths beside it.
func shown(q unit.Quantity) unit.Format {
	if q.System().Metric() {
		return unit.Format{System: unit.Centimetres}
	}
	return unit.Format{System: unit.Inches}
}
