package body

import (
	"fmt"

	"chalkfold/draft/unit"
)

// kneeAboveHalf is how far the knee lies above the middle of the inside leg
// (common practice: 2 in).
const kneeAboveHalf = 2 * unit.Inch

func (c *completion) plus(a, b ID) (Value, error) {
	return c.add(a, b, 1, "plus")
}

func (c *completion) less(a, b ID) (Value, error) {
	return c.add(a, b, -1, "less")
}

func (c *completion) add(a, b ID, sign unit.Length, word string) (Value, error) {
	p, err := c.body(a)
	if err != nil {
		return Value{}, err
	}
	q, err := c.body(b)
	if err != nil {
		return Value{}, err
	}
	return Value{Length: p + sign*q, How: c.term(a) + " " + word + " " + c.term(b)}, nil
}

// term names a measurement in a How, with what was done to it.
func (c *completion) term(id ID) string {
	t, ok := c.takings.taken(id)
	switch {
	case !ok:
		return c.name(id) + " (itself an estimate)"
	case t.Of == OfGarment:
		if least, most := ease(id); most > 0 {
			return fmt.Sprintf("%s of the garment without %s ease", c.name(id), unit.Format{}.Text((least+most)/2))
		}
	}
	return c.name(id)
}

// share is part in the proportion to whole that the survey expects of both.
func (c *completion) share(part, whole ID) (Value, error) {
	w, err := c.body(whole)
	if err != nil {
		return Value{}, err
	}
	_, p, ok := c.expected(part)
	_, q, okWhole := c.expected(whole)
	if !ok || !okWhole {
		return Value{}, c.unsurveyed(part)
	}
	return Value{
		Length: w * p / q,
		How:    fmt.Sprintf("%s in the proportion %s has in the survey of %s", c.term(whole), c.name(part), c.people()),
	}, nil
}

func (c *completion) between(a, b ID) (Value, error) {
	v, err := c.plus(a, b)
	if err != nil {
		return Value{}, err
	}
	return Value{Length: v.Length / 2, How: "halfway between " + c.term(a) + " and " + c.term(b)}, nil
}

func (c *completion) kneeFromInside() (Value, error) {
	inside, err := c.body(InsideLegLength)
	if err != nil {
		return Value{}, err
	}
	return Value{
		Length: inside/2 + kneeAboveHalf,
		How:    "half of " + c.term(InsideLegLength) + " plus " + unit.Format{}.Text(kneeAboveHalf),
	}, nil
}

// surveyed is what the survey expects, from the natural waist.
func (c *completion) surveyed(id ID) (Value, error) {
	m, l, ok := c.expected(id)
	if !ok {
		return Value{}, c.unsurveyed(id)
	}
	how := fmt.Sprintf("from %s, as in the survey of %s", m, c.people())
	if r := raised(id); r != 0 {
		word := "more"
		if r < 0 {
			r, word = -r, "less"
		}
		how += fmt.Sprintf(", and %s %s because the survey's waist is at the navel", unit.Format{}.Text(r), word)
	}
	return Value{Length: l, How: how}, nil
}

// expected is the mean of what the halves of the survey expect, from the natural
// waist; not ok when it would rest on nothing that was taken.
func (c *completion) expected(id ID) (model, unit.Length, bool) {
	m, halves := predict(c.figure, id, c.known)
	if len(halves) == 0 || m == onNothing {
		return m, 0, false
	}
	var sum float64
	for _, p := range halves {
		sum += p.mm
	}
	return m, unit.Length(sum/float64(len(halves))) + raised(id), true
}

func (c *completion) unsurveyed(id ID) error {
	if _, ok := c.find(id); !ok {
		return &Missing{ID: id, Why: "no such measurement; correct its name"}
	}
	if c.has(HipGirth) {
		return &Missing{ID: id, Why: "not taken, and nothing taken tells it; measure the " + c.name(id)}
	}
	return &Missing{ID: id, Why: "not taken; measure it, or the hip girth to estimate it from"}
}

// people names those whom an estimate was averaged over.
func (c *completion) people() string {
	if len(c.figure.halves()) > 1 {
		return c.figure.surveyed() + " (women and men averaged)"
	}
	return c.figure.surveyed()
}
