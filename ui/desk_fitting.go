package ui

import (
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/sketch"
	"chalkfold/draft/unit"
	"chalkfold/ui/fitting"
)

// fitViewed is how the fitting is looked at.
type fitViewed struct {
	side    garment.View
	sign    string      // that was tapped
	alter   string      // that is tried
	alters  job.Side    // on which side
	by      unit.Length // and by how much
	drawn   []string    // the signs of that side on the garment ...
	drawnOf drawnOf     // ... of this
	trial   *fitting.Trial
	lessons []lesson
	learned int // the work that they were learned at
}

// drawnOf tells drawings of one draft and side from those of another.
type drawnOf struct {
	gen  int
	side garment.View
}

func (d *Desk) fittingView() fitting.View {
	v := fitting.View{
		Words: d.Words,
		On:    d.job.Fitting, Today: d.today(), Seen: d.job.Seen,
		Photos: d.photosView("fitting", d.T("Photos of the fitting"), ofFitting),
		Steps:  d.milestones(Fitted, Paid), OnMilestone: d.tick,
		OnDay: func(days int) {
			d.job.Fitting = d.moved(d.job.Fitting, days)
			d.changed("")
		},
		OnNoDay: func() {
			d.job.Fitting = ""
			d.changed("")
		},
		OnSeen: func(text string) {
			d.job.Seen = clipTo(text, longest)
			d.changed("seen")
		},
		Open: d.view.fit.side, Cut: d.job.Reached[Cut] != "",
		OnGroup:   func(side garment.View) { d.view.fit.side = side },
		OnSign:    d.openSign,
		OnAlter:   d.tryAlteration,
		OnAmount:  d.stepAlteration,
		OnSides:   d.sideAlteration,
		OnKeep:    d.alter,
		OnTakeOut: d.takeOut,
		OnHouse:   d.makeHouse,
	}
	if c := d.client(d.job.Client); c != nil {
		v.Client = c.Name
	}
	if r := d.work.Result; r != nil {
		v.Ready = true
		v.Girths, v.Rooms = fitting.Girths(r.Report.Girths, r.Format), fitting.Rooms(r.Panels, r.Pieces, r.Format)
		d.fillSigns(&v, r)
	}
	v.Altered = d.altered()
	for _, l := range d.lessons() {
		v.Learned = append(v.Learned, d.sayLesson(l))
	}
	return v
}

// altered lists the alterations of the job.
func (d *Desk) altered() []fitting.Altered {
	var out []fitting.Altered
	for _, a := range d.job.File.Alterations {
		def, ok := d.garment.Alter(a.Kind)
		name := a.Kind
		if ok {
			name = def.Named(d.Words, draft.HandOf(a.Side))
		}
		out = append(out, fitting.Altered{
			Name: name, By: d.Say(a.By), Hers: a.For == job.ForClient,
			InCut: d.job.Reached[Cut] != "" && slices.Contains(d.job.CutAs, a),
		})
	}
	return out
}

// fillSigns gives the view the signs of the garment, drawn where they are shown.
func (d *Desk) fillSigns(v *fitting.View, r *draft.Result) {
	if r.Garment.Signs == nil {
		return
	}
	at := &d.view.fit
	all := r.Garment.Signs()
	flat, ok := sketch.Of(r.Panels, r.Darts, r.Worn)
	if !ok {
		return
	}
	for _, side := range []garment.View{garment.FromFront, garment.FromSide, garment.FromBack} {
		g := fitting.Group{View: side, Name: [...]string{d.T("Front"), d.T("Side"), d.T("Back")}[side]}
		for _, s := range all {
			if s.View == side {
				g.Signs = append(g.Signs, fitting.Sign{ID: s.ID, Name: d.T(s.Name)})
			}
		}
		v.Groups = append(v.Groups, g)
	}
	if of := (drawnOf{d.work.Gen, at.side}); at.drawnOf != of {
		at.drawnOf, at.drawn = of, nil
		for _, s := range all {
			if s.View == at.side {
				at.drawn = append(at.drawn, fitting.Picture(flat, s))
			}
		}
	}
	for i := range v.Groups {
		if v.Groups[i].View == at.side {
			for n := range v.Groups[i].Signs {
				v.Groups[i].Signs[n].SVG = at.drawn[n]
			}
		}
	}
	if i := slices.IndexFunc(all, func(s garment.Sign) bool { return s.ID == at.sign }); i >= 0 {
		v.Sign = d.signView(all[i], fitting.Picture(flat, all[i]))
	}
}

func (d *Desk) signView(s garment.Sign, svg string) *fitting.Sign {
	out := &fitting.Sign{ID: s.ID, Name: d.T(s.Name), SVG: svg, Trial: d.view.fit.trial}
	for _, c := range s.Causes {
		cause := fitting.Cause{Why: d.T(c.Why)}
		for _, id := range c.Alter {
			if a, ok := d.garment.Alter(id); ok {
				cause.Alters = append(cause.Alters, fitting.Alter{
					ID: id, Name: d.T(a.Name), Does: d.T(a.Does), Chosen: id == d.view.fit.alter, OneSide: a.OneSide != nil, Side: d.view.fit.alters,
				})
			}
		}
		out.Causes = append(out.Causes, cause)
	}
	return out
}

// openSign shows the page of a sign; none leaves it.
func (d *Desk) openSign(id string) {
	at := &d.view.fit
	at.sign, at.alter, at.alters, at.trial = id, "", "", nil
	d.ctx.Defer(toTop)
}

// amountStep is how much more or less an alteration is chosen by: an eighth, or a
// millimetre.
func (d *Desk) amountStep() unit.Length {
	if d.job.System().Metric() {
		return unit.Millimetre
	}
	return unit.Inch / 8
}

// tryAlteration tries an alteration by its usual amount; tapped again, it is left.
func (d *Desk) tryAlteration(id string) {
	at := &d.view.fit
	def, ok := d.garment.Alter(id)
	if !ok || at.alter == id {
		at.alter, at.trial = "", nil
		return
	}
	step := d.amountStep()
	at.alter, at.by = id, step*unit.Length(int(def.Usual/step+0.5))
	if def.OneSide == nil {
		at.alters = ""
	}
	d.tryOut()
}

// stepAlteration tries it by a step more or less.
func (d *Desk) stepAlteration(up bool) {
	at := &d.view.fit
	step := d.amountStep()
	if !up {
		step = -step
	}
	at.by += step
	d.tryOut()
}

// sideAlteration tries it on that side alone, or on both.
func (d *Desk) sideAlteration(side job.Side) {
	d.view.fit.alters = side
	d.tryOut()
}

// amount is how much is tried, as it is written.
func (d *Desk) amount(by unit.Length) unit.Quantity {
	q, _ := unit.Parse(d.job.File.Units.Format().Text(by), d.job.System()) // it was written here
	return q
}

// altering is the job with one alteration more.
func (d *Desk) altering(kind string, side job.Side, by unit.Length, f job.For) job.Job {
	j := d.job.File.Clone()
	j.Alterations = append(j.Alterations, job.Alteration{Kind: kind, By: d.amount(by), Side: side, For: f})
	return j
}

// alter makes the alteration that is tried: one change, which can be undone.
func (d *Desk) alter(hers bool) {
	at := &d.view.fit
	if at.alter == "" {
		return
	}
	f := job.ForJob
	if hers {
		f = job.ForClient
	}
	d.job.File = d.altering(at.alter, at.alters, at.by, f)
	at.sign, at.alter, at.alters, at.trial = "", "", "", nil
	d.changed("")
	d.ctx.Defer(toTop)
}

// takeOut takes an alteration out.
func (d *Desk) takeOut(n int) {
	if all := d.job.File.Alterations; n < len(all) {
		d.job.File.Alterations = slices.Delete(slices.Clone(all), n, n+1)
		d.changed("")
	}
}
