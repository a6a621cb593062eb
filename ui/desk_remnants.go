package ui

import (
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/unit"
	"chalkfold/ui/book"
	"chalkfold/ui/cloth"
	"chalkfold/ui/kit"
)

// remnantName is how a remnant is called where the name cannot be empty.
func (d *Desk) remnantName(r *remnant) string {
	if r.err != nil {
		return d.T("Cannot be read")
	}
	if name := strings.TrimSpace(r.Cloth(0).Name); name != "" {
		return kit.Sentence(name)
	}
	return cloth.KindName(d.Words, kindOf(r.Cloth(0)))
}

// sizeOf is how large a remnant is, over all.
func (d *Desk) sizeOf(r *Remnant) string {
	if r.Fault(d.Words) != "" {
		return ""
	}
	var wide, long unit.Length
	for _, k := range r.Corners() {
		wide, long = max(wide, k[0]), max(long, k[1])
	}
	f := r.File.Units.Format()
	f.Words = d.Words
	if len(r.Cloth(0).Outline) > 0 {
		return d.F("%s by %s over all", f.Text(wide), f.Text(long))
	}
	return d.F("%s by %s", f.Text(wide), f.Text(long))
}

// usedLine says which jobs a remnant is the cloth of already.
func (d *Desk) usedLine(id, but string) string {
	used := d.usedBy(id, but)
	if len(used) == 0 {
		return ""
	}
	return d.F("Used already for %s", strings.Join(used, ", "))
}

// listRemnants lists the cloth in the book, or shows one of it.
func (d *Desk) listRemnants(v *book.View) {
	v.OnCloth = func(id string) { d.view.book.cloth, d.view.book.sure = id, "" }
	v.OnNewCloth = func() { d.view.book.cloth = d.newRemnant(job.Cloth{Fold: job.Open}, "").id }
	if r := d.remnant(d.view.book.cloth); r != nil && r.Deleted == 0 && r.err == nil {
		v.Cloth = d.oneRemnant(r)
		return
	}
	w := d.window()
	for _, r := range d.remnants {
		if r.Deleted > 0 || !w.takes() {
			continue
		}
		e := book.Entry{ID: r.id, Name: d.remnantName(r), Bad: r.err != nil, State: d.usedLine(r.id, "")}
		if r.err != nil {
			e.State = d.Err(r.err)
		} else if e.Changed = d.sizeOf(r.Remnant); e.Changed == "" {
			e.Changed = d.T("Not measured yet")
		}
		v.Cloths = append(v.Cloths, e)
	}
	v.Left = min(w.left, atOnce)
}

// oneRemnant is a remnant to be entered.
func (d *Desk) oneRemnant(r *remnant) *book.Cloth {
	c := r.Cloth(0)
	v := &book.Cloth{
		ID: r.id, Name: c.Name, Fractions: d.fractionsOfCloth, Sure: d.view.book.sure == r.id, Cornered: len(c.Outline) > 0,
		Used: d.usedLine(r.id, ""), Fault: r.Fault(d.Words), Corners: len(c.Outline),
		OnName: d.changeRemnant(func(r *remnant, text string) { r.change(func(c *job.Cloth) { c.Name = clip(text) }) }),
		OnLength: func(key, text string) {
			d.changeRemnant(func(r *remnant, text string) { r.enterLength(key, text) })(text)
		},
		OnCorners: func(yes bool) { d.changeRemnant(func(r *remnant, _ string) { r.setCornered(yes) })("") },
		OnCorner:  func() { d.changeRemnant(func(r *remnant, _ string) { r.addCorner() })("") },
		OnNoCorner: func(i int) {
			d.changeRemnant(func(r *remnant, _ string) {
				r.change(func(c *job.Cloth) { c.Outline = slices.Delete(slices.Clone(c.Outline), i, i+1) })
				r.forgetCorners()
			})("")
		},
		OnDelete: func() {
			at := &d.view.book
			if at.sure != at.cloth {
				at.sure = at.cloth
				return
			}
			d.changeRemnant(func(r *remnant, _ string) { r.Deleted = d.deps.Now().UnixMilli() })("")
			at.cloth, at.sure = "", ""
		},
	}
	if s := d.onShelf(r.From); s != nil {
		v.From = d.F("Left over from %s", d.ticket(s.Ticket))
	}
	if v.Fault == "" || v.Cornered {
		v.Drawing = book.Outline(r.Corners(), v.Cornered)
	}
	for _, key := range r.keys() {
		v.Fields = append(v.Fields, book.Length{Key: key, Text: r.ClothText(0, key, *r.figure(&c, key)), Bad: d.remnantFault(r, key)})
	}
	return v
}

// keys are the figures of a remnant, by their keys in the job file.
func (r *Remnant) keys() []string {
	keys := []string{"width", "length"}
	for i := range r.Cloth(0).Outline {
		keys = append(keys, cornerKey(i, "across"), cornerKey(i, "along"))
	}
	return keys
}

// figure is where a cloth has one of its figures; nil when there is none.
func (r *Remnant) figure(c *job.Cloth, key string) *unit.Quantity {
	if strings.HasPrefix(key, "outline") {
		return outlineOf(c, key)
	}
	return lengthOf(c, key)
}

func (d *Desk) remnantFault(r *remnant, key string) string {
	text, ok := r.Unread[clothPath(0, key)]
	if !ok {
		return ""
	}
	_, err := unit.Parse(text, r.System())
	if err == nil {
		return ""
	}
	return sentenceOf(whyUnread(err, d.Words))
}

// changeRemnant is a change of the remnant that is looked at by a text.
func (d *Desk) changeRemnant(change func(r *remnant, text string)) func(text string) {
	return func(text string) {
		if r := d.remnant(d.view.book.cloth); r != nil {
			change(r, text)
			d.keepRemnant(r)
		}
	}
}

// change changes its cloth.
func (r *Remnant) change(change func(c *job.Cloth)) {
	c := r.Cloth(0)
	change(&c)
	r.SetCloth(0, c)
}

// enterLength takes what was typed for a figure. A corner has both its figures:
// one that cannot be read leaves the last.
func (r *Remnant) enterLength(key, text string) {
	q := r.EnterCloth(0, key, text)
	r.change(func(c *job.Cloth) {
		c.Outline = slices.Clone(c.Outline)
		if into := r.figure(c, key); into != nil && (q.Set() || into == lengthOf(c, key)) {
			*into = q
		}
	})
}

// setCornered makes it a remnant of corners, at first those of the rectangle
// that it was; or a rectangle as large as it reaches.
func (r *Remnant) setCornered(yes bool) {
	corners := r.Corners()
	r.forgetCorners()
	r.change(func(c *job.Cloth) {
		if yes == (len(c.Outline) > 0) {
			return
		}
		if yes {
			zero := r.between(unit.Quantity{}, unit.Quantity{})
			w, l := or(c.Width, zero), or(c.Length, zero)
			c.Outline = []job.Corner{{Across: zero, Along: zero}, {Across: w, Along: zero}, {Across: w, Along: l}, {Across: zero, Along: l}}
			return
		}
		for i, k := range corners {
			if k[0] > c.Width.Length() {
				c.Width = c.Outline[i].Across
			}
			if k[1] > c.Length.Length() {
				c.Length = c.Outline[i].Along
			}
		}
		c.Outline = nil
	})
}

// addCorner adds a corner midway between the last and the first.
func (r *Remnant) addCorner() {
	r.forgetCorners()
	r.change(func(c *job.Cloth) {
		first, last := c.Outline[0], c.Outline[len(c.Outline)-1]
		c.Outline = append(slices.Clone(c.Outline), job.Corner{
			Across: r.between(first.Across, last.Across), Along: r.between(first.Along, last.Along),
		})
	})
}

// between is the length midway between two, as finely as lengths are shown.
func (r *Remnant) between(a, b unit.Quantity) unit.Quantity {
	f := r.File.Units.Format()
	q, err := unit.Parse(f.Plain((a.Length()+b.Length())/2), f.System)
	if err != nil {
		panic("ui: " + err.Error())
	}
	return q
}

func or(q, otherwise unit.Quantity) unit.Quantity {
	if q.Set() {
		return q
	}
	return otherwise
}

// keepLeftover keeps in the book what the lay leaves of the cloth, in place of
// what was kept of it before.
func (d *Desk) keepLeftover() {
	l := d.laying
	if !d.laid() || d.keeper == nil {
		return
	}
	c, _, ok := draft.Leftover(l.r, l.cloth, l.shown)
	if !ok {
		return
	}
	c = asRectangle(c)
	if c.Name == "" {
		c.Name = cloth.KindName(d.Words, kindOf(c))
	}
	r := d.leftover(c.Name)
	if r == nil {
		r = d.newRemnant(c, d.keeper.id)
	} else {
		r.SetCloth(0, c)
		d.keepRemnant(r)
	}
	d.view.cloth.keptAs = d.F("Kept in the Book: %s, %s.", d.remnantName(r), d.sizeOf(r.Remnant))
}

// leftover is what was kept of a cloth of the open job before; nil when nothing
// was.
func (d *Desk) leftover(name string) *remnant {
	i := slices.IndexFunc(d.remnants, func(r *remnant) bool {
		return r.From == d.keeper.id && r.Deleted == 0 && r.err == nil && r.Cloth(0).Name == name && len(d.usedBy(r.id, "")) == 0
	})
	if i < 0 {
		return nil
	}
	return d.remnants[i]
}

// takeRemnant makes a remnant the cloth that is looked at.
func (d *Desk) takeRemnant(id string) {
	r := d.remnant(id)
	if r == nil || r.Fault(d.Words) != "" {
		return
	}
	d.job.forgetTyped()
	d.changeCloth("", func(c *job.Cloth) {
		kind := kindOf(*c)
		*c = r.Cloth(0)
		c.Kind, c.Remnant, c.Kept = kind, id, nil
	})
}

// leaveRemnant takes a remnant from the job again.
func (d *Desk) leaveRemnant() {
	d.job.forgetTyped()
	d.changeCloth("", func(c *job.Cloth) { *c = job.Cloth{Kind: kindOf(*c), Fold: job.Lengthwise} })
}

// remnantView is what the stage Cloth shows of remnants.
func (d *Desk) remnantView(c job.Cloth) cloth.Remnants {
	v := cloth.Remnants{Is: c.Remnant != "" || len(c.Outline) > 0, Cornered: len(c.Outline) > 0, OnTake: d.takeRemnant, OnLeave: d.leaveRemnant, OnKeep: d.keepLeftover, Told: d.view.cloth.keptAs}
	mine := ""
	if d.keeper != nil {
		mine = d.keeper.id
	}
	if v.Is {
		as := NewRemnant(d.units(), c, "")
		v.Name, v.Size = d.T("A remnant"), d.sizeOf(as)
		if r := d.remnant(c.Remnant); r != nil {
			v.Name = d.F("From the Book: %s", d.remnantName(r))
		}
		v.Used = d.usedLine(c.Remnant, mine)
		return v
	}
	for _, r := range d.remnants {
		if r.Deleted > 0 || r.err != nil || r.Fault(d.Words) != "" {
			continue
		}
		name := d.remnantName(r) + " · " + d.sizeOf(r.Remnant)
		if used := d.usedLine(r.id, mine); used != "" {
			name += " · " + used
		}
		v.Offers = append(v.Offers, kit.Choice{ID: r.id, Name: name})
	}
	if d.laid() && d.keeper != nil {
		_, _, v.CanKeep = draft.Leftover(d.laying.r, d.laying.cloth, d.laying.shown)
	}
	return v
}
