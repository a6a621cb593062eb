package ui

import (
	"math"
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Correction is what a client's fittings taught of one kind of garment.
type Correction struct {
	Kind string
	By   unit.Quantity
	Side job.Side
	// Over is the value that the house's rule for the same had then; "" where no
	// rule does the same. Once the rule has grown, less is to be corrected.
	Over string
}

func (c Correction) write(w *plain.Writer) {
	w.Open('{')
	w.Key("kind").Text(c.Kind)
	w.Key("by").Text(c.By.String())
	w.TextIf("side", string(c.Side))
	w.TextIf("over", c.Over)
	w.Shut('}')
}

func readCorrection(r *plain.Reader) (c Correction) {
	for key := range r.Object() {
		switch key {
		case "kind":
			c.Kind = r.Text()
		case "by":
			c.By = readQuantity(r)
		case "side":
			c.Side = job.Side(r.Text())
		case "over":
			c.Over = r.Text()
		}
	}
	return c
}

// writeAlterations and readAlterations keep alterations beside a job: as it was
// cut.
func writeAlterations(w *plain.Writer, key string, all []job.Alteration) {
	if len(all) == 0 {
		return
	}
	w.Key(key).Open('[')
	for _, a := range all {
		Correction{a.Kind, a.By, a.Side, string(a.For)}.write(w.Next())
	}
	w.Shut(']')
}

func readAlterations(r *plain.Reader) []job.Alteration {
	var out []job.Alteration
	for range r.List() {
		c := readCorrection(r)
		out = append(out, job.Alteration{Kind: c.Kind, By: c.By, Side: c.Side, For: job.For(c.Over)})
	}
	return out
}

// lasting are the alterations that are kept with the client.
func (j *Job) lasting() []job.Alteration {
	var out []job.Alteration
	for _, a := range j.File.Alterations {
		if a.For == job.ForClient {
			out = append(out, a)
		}
	}
	return out
}

// houseValue is the value of a rule in the rules of a job, as the house has it;
// false for a rule that is no length.
func houseValue(g garment.Garment, id rules.ID, values rules.Values) (text string, mm float64, ok bool) {
	i := slices.IndexFunc(g.Rules, func(d rules.Def) bool { return d.ID == id })
	if i < 0 {
		return "", 0, false
	}
	text = valueOf(g.Rules[i], values)
	q, err := unit.ParseSigned(text, unit.Inches)
	return text, q.Length().MM(), err == nil
}

// corrections are the lasting alterations of a job as its client keeps them.
func corrections(g garment.Garment, j *Job) []Correction {
	var out []Correction
	for _, a := range j.lasting() {
		c := Correction{Kind: a.Kind, By: a.By, Side: a.Side}
		if def, ok := g.Alter(a.Kind); ok && def.House != "" && a.Side == "" { // no rule does one side
			c.Over, _, _ = houseValue(g, def.House, j.File.Rules.House)
		}
		out = append(out, c)
	}
	return out
}

// leastCorrection is the least that is corrected: less than a tape shows.
const leastCorrection = 1.5 // mm

// corrected are the alterations that a new job of a client starts from. What the
// house's rule does by now is not done twice.
func corrected(g garment.Garment, all []Correction, house rules.Values, f unit.Format) []job.Alteration {
	var out []job.Alteration
	for _, c := range all {
		def, ok := g.Alter(c.Kind)
		if !ok {
			continue
		}
		by := c.By.Length().MM()
		if more := grown(g, def, c.Over, house); math.Abs(more) > 0.01 {
			by -= more
			if by < 0 {
				def, ok = g.Alter(def.Against)
				by = -by
			}
			if by < leastCorrection || !ok {
				continue
			}
			if q, err := unit.Parse(f.Text(unit.Length(by)), f.System); err == nil {
				c.By = q
			}
		}
		out = append(out, job.Alteration{Kind: def.ID, By: c.By, Side: c.Side, For: job.ForClient})
	}
	return out
}

// grown is how much of an alteration the rule of the house does by now, since it
// was over: mm.
func grown(g garment.Garment, def garment.Alteration, over string, house rules.Values) float64 {
	if def.House == "" || over == "" || def.PerHouse == 0 {
		return 0
	}
	_, now, ok := houseValue(g, def.House, house)
	was, err := unit.ParseSigned(over, unit.Inches)
	if !ok || err != nil {
		return 0
	}
	return (now - was.Length().MM()) / def.PerHouse
}

// hers are the alterations of the job that come from its client's fittings, as
// they are shown on the draft.
func (d *Desk) hers() []kit.Choice {
	var out []kit.Choice
	for _, a := range d.job.lasting() {
		if def, ok := d.garment.Alter(a.Kind); ok {
			id := a.Kind
			if a.Side != "" {
				id += "." + string(a.Side)
			}
			out = append(out, kit.Choice{ID: id, Name: d.F("Hers: %s, %s", def.Named(d.Words, draft.HandOf(a.Side)), a.By)})
		}
	}
	return out
}

// takeHersOut takes an alteration that came from the client's fittings out of the
// job, and so out of what her next ones start from.
func (d *Desk) takeHersOut(id string) {
	kind, side, _ := strings.Cut(id, ".")
	d.job.File.Alterations = slices.DeleteFunc(slices.Clone(d.job.File.Alterations), func(a job.Alteration) bool {
		return a.Kind == kind && string(a.Side) == side && a.For == job.ForClient
	})
	d.changed("")
}
