package draft

import (
	"fmt"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// readCloth reads what is said of cloth number i of a job; the reader has what is wrong
// with it. Where no step is said that it is sold by, it is that of the job's units.
func readCloth(j job.Job, i int, from job.Cloth) (*clothReader, lay.Cloth) {
	r := &clothReader{from: from, path: fmt.Sprintf("cloth[%d]", i)}
	c := r.cloth()
	if c.SoldBy == 0 {
		c.SoldBy = j.Units.Format().SoldBy()
	}
	return r, c
}

// clothOf is a cloth of the job as lay takes it. The error is a *job.Bad.
func clothOf(j job.Job, i int) (lay.Cloth, error) {
	if i < 0 || i >= len(j.Cloth) {
		why := say.Of("the job has %d; name one of them", len(j.Cloth))
		if len(j.Cloth) == 0 {
			why = say.Of(`missing; add the cloth at hand, such as [{"width": "60 in", "length": "2 yd", "fold": "lengthwise"}]`)
		}
		return lay.Cloth{}, bad(&job.Problem{Path: "cloth", Why: why})
	}
	r, c := readCloth(j, i, j.Cloth[i])
	if len(r.problems) == 0 {
		if err := c.Check(); err != nil {
			r.refuse("", "", say.Of("%s", err))
			r.problems[0].Err = err
		}
	}
	if len(r.problems) > 0 {
		return c, bad(r.problems...)
	}
	return c, nil
}

// CheckCloth says what keeps a cloth from being laid on, whose lengths are in
// those units. The error is a *job.Bad.
func CheckCloth(c job.Cloth, u job.Units) error {
	_, err := clothOf(job.Job{Units: u, Cloth: []job.Cloth{c}}, 0)
	return err
}

// clothReader takes a cloth of the job up and gathers what is wrong with it,
// each at its key.
type clothReader struct {
	from     job.Cloth
	path     string
	problems []*job.Problem
}

func (r *clothReader) refuse(key, value string, why say.Msg) {
	path := r.path
	if key != "" {
		path += "." + key
	}
	r.problems = append(r.problems, &job.Problem{Path: path, Value: value, Why: why})
}

func (r *clothReader) cloth() lay.Cloth {
	from := r.from
	c := lay.Cloth{
		Name: from.Name, Kind: from.Kind, Width: from.Width.Length(), Length: from.Length.Length(),
		OneWay: from.OneWay, Margin: from.Margin.Length(), Gap: from.Gap.Length(),
	}
	if c.Kind == "" {
		c.Kind = piece.Main
	}
	switch from.Fold {
	case job.Lengthwise:
		c.Fold = lay.Lengthwise
	case job.Crosswise:
		c.Fold = lay.Crosswise
	case job.Open:
	}
	if len(from.Outline) > 0 {
		r.outline(&c)
	} else {
		r.size(c)
	}
	r.flaws(&c)
	r.weave(&c)
	return c
}

// size refuses cloth without width or length, or all margin.
func (r *clothReader) size(c lay.Cloth) {
	from := r.from
	switch {
	case !from.Width.Set():
		r.refuse("width", "", say.Of("missing; give the width from selvedge to selvedge, such as 60 in"))
	case c.Width == 0:
		r.refuse("width", from.Width.String(), say.Of("no cloth at all; give the width from selvedge to selvedge, such as 60 in"))
	case 2*c.Margin >= c.Folded():
		r.refuse("margin", from.Margin.String(), say.Of("leaves nothing of cloth that lies %s wide; give less", from.Width))
	}
	if from.Length.Set() && c.Length == 0 {
		r.refuse("length", from.Length.String(), say.Of("no cloth at all; give the length at hand, or leave it out when it comes off the bolt"))
	}
}

// outline takes up the outline of a remnant.
func (r *clothReader) outline(c *lay.Cloth) {
	for _, k := range r.from.Outline {
		c.Outline = append(c.Outline, geom.Pt{X: k.Across.Length().MM(), Y: k.Along.Length().MM()})
	}
	at, crosses := geom.SelfCross(c.Outline)
	f := r.format()
	switch {
	case crosses:
		r.refuse("outline", "", say.Of("the edge crosses itself %s from the left and %s along; give the corners in order round the remnant", f.Told(unit.Length(at.X)), f.Told(unit.Length(at.Y))))
	case len(c.Outline) < 3 || geom.Area(c.Outline) == 0:
		r.refuse("outline", "", say.Of("no cloth lies between its corners; give three or more, in order round the remnant"))
	case c.Fold != lay.Open:
		r.refuse("fold", string(r.from.Fold), say.Of("a remnant with an outline is laid open; write \"open\""))
	}
}

// format is the format of the unit in which a remnant's corners were taken.
func (r *clothReader) format() unit.Format {
	return unit.Format{System: r.from.Outline[0].Across.System()}
}

// flaws takes up the flaws.
func (r *clothReader) flaws(c *lay.Cloth) {
	for i, f := range r.from.Flaws {
		x, y := f.FromSelvedge.Length(), f.FromEdge.Length()
		w, h := f.Across.Length(), f.Along.Length()
		key := fmt.Sprintf("flaws[%d]", i)
		switch whole := len(c.Outline) == 0; {
		case w == 0:
			r.refuse(key+".across", f.Across.String(), say.Of("no size; give how far the flaw reaches across, or take it out"))
		case h == 0:
			r.refuse(key+".along", f.Along.String(), say.Of("no size; give how far the flaw reaches along, or take it out"))
		case whole && c.Width > 0 && x >= c.Width:
			r.refuse(key+".from_selvedge", f.FromSelvedge.String(), say.Of("beside the cloth, which is %s wide; measure from the left selvedge", r.from.Width))
		case whole && c.Length > 0 && y >= c.Length:
			r.refuse(key+".from_edge", f.FromEdge.String(), say.Of("past the end of the cloth, which is %s long; measure from the cut edge", r.from.Length))
		}
		a, b := geom.Pt{X: x.MM(), Y: y.MM()}, geom.Pt{X: (x + w).MM(), Y: (y + h).MM()}
		c.Flaws = append(c.Flaws, []geom.Pt{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}})
	}
}

// weave takes up repeats, shrinkage, tilt and the step it is sold by.
func (r *clothReader) weave(c *lay.Cloth) {
	from := r.from
	wide, long := c.Width, c.Length
	if len(c.Outline) > 0 {
		b := geom.BoundsOf(c.Outline)
		wide, long = unit.Length(b.W()), unit.Length(b.H())
	}
	for _, p := range []struct {
		key  string
		from unit.Quantity
		of   unit.Length
		into *unit.Length
	}{
		{"repeat_across", from.RepeatAcross, wide, &c.RepeatAcross},
		{"repeat_along", from.RepeatAlong, long, &c.RepeatAlong},
	} {
		*p.into = p.from.Length()
		switch {
		case p.from.Set() && *p.into <= 0:
			r.refuse(p.key, p.from.String(), say.Of("no repeat; give the distance from a stripe to the next one like it, or leave it out"))
		case p.of > 0 && *p.into > p.of:
			r.refuse(p.key, p.from.String(), say.Of("larger than the cloth; give the distance from a stripe to the next one like it"))
		}
	}
	for _, p := range []struct {
		key  string
		from job.Decimal
		into *float64
	}{
		{"shrinks_along", from.ShrinksAlong, &c.ShrinksAlong},
		{"shrinks_across", from.ShrinksAcross, &c.ShrinksAcross},
	} {
		if *p.into = p.from.Float(); *p.into >= lay.MostShrinkage {
			r.refuse(p.key, string(p.from), say.Of("cloth that shrinks so much is spoilt; give less than %.0f per cent, or wash it before it is cut and leave this out", lay.MostShrinkage))
		}
	}
	c.Tilt = lay.Degrees(from.Tilt.Float())
	switch {
	case c.Tilt > lay.MostTilt:
		r.refuse("tilt", string(from.Tilt), say.Of("a piece so far off the grain hangs askew; give at most %.0f degrees", float64(lay.MostTilt)))
	case c.Tilt > 0 && (from.RepeatAcross.Set() || from.RepeatAlong.Set()):
		r.refuse("tilt", string(from.Tilt), say.Of("a tilt is seen on stripes and checks; leave it out"))
	}
	if c.SoldBy = from.SoldBy.Length(); from.SoldBy.Set() && c.SoldBy <= 0 {
		r.refuse("sold_by", from.SoldBy.String(), say.Of("no step; give the least length that the shop cuts off, such as 1/4 yd, or leave it out"))
	}
}
