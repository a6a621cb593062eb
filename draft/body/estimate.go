package body

import (
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// kneeAboveHalf is how far the knee lies above the middle of the inside leg
// (common practice: 2 in).
const kneeAboveHalf = 2 * unit.Inch

// What is added to a part of another measurement to estimate one of the upper
// body that was not taken (common practice; the tests hold the neck and the back
// against the survey, the others are from memory).
const (
	neckBase   = 13.0 / 8 * unit.Inch // to the neck girth
	backWidth  = 7 * unit.Inch        // to a fifth of the chest
	scyeDepth  = 33.0 / 8 * unit.Inch // to a tenth of the chest
	neckToBust = 3.0 / 2 * unit.Inch  // to a quarter of the chest
	bustPoints = 1.0 / 4 * unit.Inch  // to a fifth of the chest
	frontWaist = 7.0 / 4 * unit.Inch  // to the back waist length
)

// part is a measurement over parts, and more.
func (c *completion) part(of ID, parts int, more unit.Length) (Value, error) {
	whole, err := c.body(of)
	if err != nil {
		return Value{}, err
	}
	v := Value{Length: whole/unit.Length(parts) + more, How: say.Of("%s ÷ %d plus %s", c.term(of), parts, unit.Format{}.Told(more))}
	if parts == 1 {
		v.How = say.Of("%s plus %s", c.term(of), unit.Format{}.Told(more))
	}
	return v, nil
}

func (c *completion) plus(a, b ID) (Value, error) {
	how := say.Of("%s plus %s", c.term(a), c.term(b))
	return c.add(a, b, 1, how)
}

func (c *completion) less(a, b ID) (Value, error) {
	how := say.Of("%s less %s", c.term(a), c.term(b))
	return c.add(a, b, -1, how)
}

func (c *completion) add(a, b ID, sign unit.Length, how say.Msg) (Value, error) {
	p, err := c.body(a)
	if err != nil {
		return Value{}, err
	}
	q, err := c.body(b)
	if err != nil {
		return Value{}, err
	}
	return Value{Length: p + sign*q, How: how}, nil
}

// term names a measurement in a How, with what was done to it.
func (c *completion) term(id ID) say.Told {
	t, ok := c.takings.taken(id)
	switch {
	case !ok:
		return say.Of("%s (itself an estimate)", c.name(id))
	case t.Of == OfGarment:
		if least, most := ease(id); most > 0 {
			return say.Of("%s of the garment without %s ease", c.name(id), unit.Format{}.Told((least+most)/2))
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
		How:    say.Of("%s in the proportion %s has in the survey of %s", c.term(whole), c.name(part), c.people()),
	}, nil
}

func (c *completion) between(a, b ID) (Value, error) {
	v, err := c.plus(a, b)
	if err != nil {
		return Value{}, err
	}
	return Value{Length: v.Length / 2, How: say.Of("halfway between %s and %s", c.term(a), c.term(b))}, nil
}

func (c *completion) kneeFromInside() (Value, error) {
	inside, err := c.body(InsideLegLength)
	if err != nil {
		return Value{}, err
	}
	return Value{
		Length: inside/2 + kneeAboveHalf,
		How:    say.Of("half of %s plus %s", c.term(InsideLegLength), unit.Format{}.Told(kneeAboveHalf)),
	}, nil
}

// surveyed is what the survey expects, from the natural waist.
func (c *completion) surveyed(id ID) (Value, error) {
	m, l, ok := c.expected(id)
	if !ok {
		return Value{}, c.unsurveyed(id)
	}
	v := Value{Length: l, How: say.Of("from %s, as in the survey of %s", say.Name(m.String()), c.people())}
	switch r := raised(id); {
	case r > 0:
		v.How = say.Of("%s, and %s more because the survey's waist is at the navel", v.How, unit.Format{}.Told(r))
	case r < 0:
		v.How = say.Of("%s, and %s less because the survey's waist is at the navel", v.How, unit.Format{}.Told(-r))
	}
	return v, nil
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
		return &Missing{ID: id, Why: say.Of("no such measurement; correct its name")}
	}
	if c.has(HipGirth) {
		return &Missing{ID: id, Why: say.Of("not taken, and nothing taken tells it; measure the %s", c.name(id))}
	}
	return &Missing{ID: id, Why: say.Of("not taken; measure it, or the hip girth to estimate it from")}
}

// people names those whom an estimate was averaged over.
func (c *completion) people() say.Told {
	if len(c.figure.halves()) > 1 {
		return say.Of("%s (women and men averaged)", say.Name(c.figure.surveyed()))
	}
	return say.Name(c.figure.surveyed())
}
