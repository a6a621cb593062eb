package ui

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/rules"
	"chalkfold/ui/kit"
)

// garments are those that can be made. A job that is cut stays what it is.
func (d *Desk) garments() []kit.Choice {
	if d.job.Reached[Cut] != "" {
		return nil
	}
	if len(d.makes) < 2 {
		return nil
	}
	var out []kit.Choice
	for _, g := range d.makes {
		out = append(out, kit.Choice{ID: g.ID, Name: d.T(g.Name)})
	}
	return out
}

// makeOf is the garment of that ID; of none that can be made it has nothing.
func (d *Desk) makeOf(id string) garment.Garment {
	for _, g := range d.makes {
		if g.ID == id {
			return g
		}
	}
	return garment.Garment{}
}

// chooseGarment has the open job be another garment.
func (d *Desk) chooseGarment(id string) {
	g := d.makeOf(id)
	if g.ID == "" || id == d.job.File.Garment {
		return
	}
	d.garment = g
	hers, build := d.job.File.Rules.Client, d.job.build()
	if c := d.client(d.job.Client); c != nil {
		hers, build = c.Rules, builtOn(c.Build, build)
	}
	d.job.SetGarment(g, d.houseValues(), hers)
	d.job.File.Style = builtOn(d.job.File.Style, figured(g, build))
	if c := d.client(d.job.Client); c != nil {
		d.takeCorrections(c)
		d.taught = d.job.hers() // they are of this garment, and she has them
	}
	d.leaveLay()
	d.leaveShare()
	d.view.style, d.view.draft = styleViewed{folded: d.view.style.folded}, draftViewed{}
	d.changed("")
}

// SetGarment has the job be another garment, by the rules of the house and those
// of its client. Measurements and cloth stay, and so does each answer, rule and
// truing that the garment knows too.
func (j *Job) SetGarment(g garment.Garment, house, hers rules.Values) {
	f := &j.File
	style := map[string]string{}
	for _, o := range g.Options {
		for _, c := range o.Choices {
			if f.Style[o.ID] == c.ID {
				style[o.ID] = c.ID
			}
		}
	}
	var untrued []string
	for _, t := range g.Truings {
		for _, off := range f.Untrued {
			if off == t.ID {
				untrued = append(untrued, off)
			}
		}
	}
	f.Garment, f.Method, f.Style, f.Untrued, f.Alterations = g.ID, "", style, untrued, nil
	f.Rules.House, f.Rules.Client, f.Rules.Job = house, known(g, hers), known(g, f.Rules.Job)
	clear(j.Pieces)
	clear(j.Sewing.Done)
	clear(j.Sewing.Drawer)
	j.Mark = ""
	j.forgetTyped()
}

// known are the values of the rules that a garment knows.
func known(g garment.Garment, values rules.Values) rules.Values {
	var out rules.Values
	for _, def := range g.Rules {
		if v, ok := values[def.ID]; ok {
			if out == nil {
				out = rules.Values{}
			}
			out[def.ID] = v
		}
	}
	return out
}

// withKnown is values with those that a garment knows as they are in of.
func withKnown(g garment.Garment, values, of rules.Values) rules.Values {
	out := rules.Values{}
	for id, v := range values {
		out[id] = v
	}
	for _, def := range g.Rules {
		delete(out, def.ID)
		if v, ok := of[def.ID]; ok {
			out[def.ID] = v
		}
	}
	return out
}
