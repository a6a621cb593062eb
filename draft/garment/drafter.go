package garment

import (
	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Eased names the rule that gives room over a measurement. A measurement taken
// of a garment that fits holds its ease already, so that rule is nought then.
type Eased struct {
	Rule rules.ID
	Of   body.ID
}

// Drafter lays the steps of one draft. It is a construct.Builder that knows the
// input.
type Drafter struct {
	*construct.Builder
	In Input
}

// NewDrafter starts a draft in which formulas may use every measurement and
// every rule by its ID; eased are those that give room.
func NewDrafter(in Input, eased []Eased) *Drafter {
	return &Drafter{Builder: construct.New(quantities(in, eased), in.Formulas, in.Format.Words), In: in}
}

// Trued lays body under a truing's name when that truing is on.
func (d *Drafter) Trued(name string, body func()) {
	if d.In.Trues(name) {
		d.Truing(name, body)
	}
}

// MaybeTrued lays body under a truing's name when it is on, and as spoken when
// it is off.
func (d *Drafter) MaybeTrued(name string, body func()) {
	if d.In.Trues(name) {
		d.Truing(name, body)
		return
	}
	body()
}

// Has reports whether a question of style is answered so.
func (d *Drafter) Has(option, choice string) bool { return d.In.Style[option] == choice }

// Taken reports whether a measurement was taken, not estimated.
func (d *Drafter) Taken(id body.ID) bool {
	v, ok := d.In.Body[id]
	return ok && !v.Estimated
}

// LiftSide moves the side of a part at the waist where one hip is higher than the
// other, and as was seen at a fitting. The mark is the part's waist_side.
func (d *Drafter) LiftSide(part string) {
	side := part + ".waist_side"
	defer d.Alter(side)
	sum, falls := d.In.LiftSum()
	if sum == "" {
		return
	}
	way, why := construct.Up(d.T("straight up")), d.T("this hip is the higher one: half of the difference, since the centre lies in the middle")
	if falls {
		way, why = construct.Down(d.T("straight down")), d.T("this hip is the lower one: half of the difference, since the centre lies in the middle")
	}
	d.Shift(side+"_lifted", d.F("%s side at the waist, by the hip of its side", d.T(part)), side, way, sum, why)
}

// Why is the reason of an earlier step, for a mark that carries its sum on.
func (d *Drafter) Why(value string) string {
	rec, _ := d.Record()
	s, _ := rec.Find(value)
	return s.Why
}

// Length is the value of an earlier step.
func (d *Drafter) Length(name string) unit.Length { return unit.Length(d.Get(name)) }

func quantities(in Input, eased []Eased) []construct.Quantity {
	w := in.Format.Words
	var out []construct.Quantity
	for _, def := range body.Defs() {
		v, ok := in.Body[def.ID]
		if !ok {
			continue
		}
		source := w.T("measured")
		if v.Estimated {
			source = w.F("estimated: %s", v.How)
		} else if v.Of == body.OfGarment {
			source = w.T("measured, of a garment that fits")
		}
		out = append(out, construct.Quantity{
			Name: string(def.ID), Label: w.T(def.Name), Value: v.Length.MM(), Length: true, Source: source,
		})
	}
	for _, def := range in.Rules.Defs() {
		q := construct.Quantity{
			Name: string(def.ID), Label: w.T(def.Name), Source: w.F("rule (%s)", say.Name(in.Rules.Level(def.ID).String())),
		}
		if reasons, was := in.Rules.MovedFor(def.ID); len(reasons) > 0 {
			q.Source = w.F("rule (%s): %s, changed for %s", say.Name(in.Rules.Level(def.ID).String()), def.Told(was), reason(w, reasons))
		}
		q.Value, q.Length = ruleValue(in, def)
		for _, e := range eased {
			if def.ID == e.Rule && in.Body[e.Of].Of == body.OfGarment {
				q.Value, q.Source = 0, w.T("none: the measurement of the garment holds its ease")
			}
		}
		out = append(out, q)
	}
	return append(out, in.amounts()...)
}

// reason are the figures that a rule was moved for.
func reason(w *say.Words, names []string) string {
	out := w.T(names[0])
	for _, n := range names[1:] {
		out = w.F("%s and %s", out, say.Name(n))
	}
	return out
}

func ruleValue(in Input, def rules.Def) (v float64, isLength bool) {
	switch def.Kind {
	case rules.Length:
		return in.Rules.Length(def.ID).MM(), true
	case rules.Switch:
		if in.Rules.On(def.ID) {
			return 1, false
		}
		return 0, false
	case rules.Ratio, rules.Count:
	}
	return in.Rules.Number(def.ID), false
}
