package ui

import (
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
)

// clothDecimals are the figures without a unit that a cloth has, by their keys
// in the job file.
func clothDecimals() []string { return []string{"shrinks_along", "shrinks_across", "tilt"} }

func decimalOf(c *job.Cloth, key string) *job.Decimal {
	switch key {
	case "shrinks_along":
		return &c.ShrinksAlong
	case "shrinks_across":
		return &c.ShrinksAcross
	}
	return &c.Tilt
}

// flawFigures are the figures of a flaw, by their keys in the job file.
func flawFigures() []string { return []string{"from_selvedge", "from_edge", "across", "along"} }

// flawOf is where a cloth has a figure of one of its flaws; nil when the key is
// of none.
func flawOf(c *job.Cloth, key string) *unit.Quantity {
	number, figure, _ := strings.Cut(strings.TrimPrefix(key, "flaws["), "].")
	i, err := strconv.Atoi(number)
	if err != nil || i < 0 || i >= len(c.Flaws) {
		return nil
	}
	f := &c.Flaws[i]
	switch figure {
	case "from_selvedge":
		return &f.FromSelvedge
	case "from_edge":
		return &f.FromEdge
	case "across":
		return &f.Across
	}
	return &f.Along
}

// clothFields are the fields of a cloth as they are shown.
func (d *Desk) clothFields(at int, c job.Cloth) (fields []cloth.Field, bad bool) {
	add := func(key, text, fault string) {
		fields = append(fields, cloth.Field{Key: key, Text: text, Bad: fault})
		bad = bad || fault != ""
	}
	for _, key := range clothLengths() {
		add(key, d.job.ClothText(at, key, *lengthOf(&c, key)), d.clothFault(at, key))
		if key == "length" {
			fields[len(fields)-1].Doubt = d.tooLittle(c.Length)
		}
	}
	for _, key := range clothDecimals() {
		add(key, d.job.text(clothPath(at, key), string(*decimalOf(&c, key))), d.clothFault(at, key))
	}
	for i := range c.Flaws {
		for _, figure := range flawFigures() {
			key := cloth.FlawKey(i, figure)
			add(key, d.job.ClothText(at, key, *flawOf(&c, key)), d.clothFault(at, key))
		}
	}
	return fields, bad
}

// tooLittle asks about a length of cloth so short that its unit may be meant otherwise:
// a tape counts inches or centimetres, a shop yards or metres.
func (d *Desk) tooLittle(long unit.Quantity) string {
	if s := long.System(); !long.Set() || long.Length() <= 0 || long.Length() > 12*unit.Inch || s != unit.Inches && s != unit.Centimetres {
		return ""
	}
	figure, _, _ := strings.Cut(long.In(d.Words), " ")
	return d.F("Only %s? For yards or metres write it so: %s, %s", long, figure+" "+unit.Yards.In(d.Words), figure+" "+unit.Metres.In(d.Words))
}

// enterCloth takes what was typed for a figure of the cloth.
func (d *Desk) enterCloth(key, text string) {
	at := d.clothAt()
	d.changeCloth(key, func(c *job.Cloth) {
		switch {
		case slices.Contains(clothDecimals(), key):
			*decimalOf(c, key) = d.job.enterDecimal(clothPath(at, key), text)
		case strings.HasPrefix(key, "flaws"):
			c.Flaws = slices.Clone(c.Flaws)
			// A flaw has all its figures: one that is not there yet leaves the last.
			if q := d.job.EnterCloth(at, key, text); q.Set() {
				if into := flawOf(c, key); into != nil {
					*into = q
				}
			}
		default:
			*lengthOf(c, key) = d.job.EnterCloth(at, key, text)
		}
	})
}

// enterDecimal reads a figure typed at a path. What cannot be read is kept
// beside the file.
func (j *Job) enterDecimal(path, text string) job.Decimal {
	j.typed[path] = text
	delete(j.Unread, path)
	if strings.TrimSpace(text) == "" {
		return ""
	}
	got, why := job.ReadDecimal(text)
	if !why.None() {
		j.Unread[path] = text
	}
	return got
}

// flawSize is how large a flaw is until its figures are given.
func (d *Desk) flawSize() unit.Quantity {
	text := "2 in"
	if d.job.System().Metric() {
		text = "5 cm"
	}
	q, err := unit.Parse(text, unit.Inches)
	if err != nil {
		panic("ui: " + err.Error())
	}
	return q
}

// addFlaw adds a flaw about a place of the unfolded cloth, mm.
func (d *Desk) addFlaw(at geom.Pt) {
	size := d.flawSize()
	half := size.Length() / 2
	from := func(mm float64) unit.Quantity {
		l := max(0, unit.Length(mm)-half)
		f := d.work.Result.Format
		f.Words = nil // as it is written, not as it is read
		q, err := unit.Parse(f.Plain(l), f.System)
		if err != nil {
			return size
		}
		return q
	}
	d.changeCloth("", func(c *job.Cloth) {
		c.Flaws = append(slices.Clone(c.Flaws), job.Flaw{FromSelvedge: from(at.X), FromEdge: from(at.Y), Across: size, Along: size})
	})
}

// markFlaw adds a flaw where the drawing was tapped. Under a fold that is the
// layer on the right of it.
func (d *Desk) markFlaw(where geom.Pt) {
	d.view.cloth.marking = false
	if l := d.laying; l != nil && l.shown != nil {
		if l.shown.Cloth.Fold == lay.Lengthwise {
			where.X += l.shown.Cloth.Folded().MM()
		}
		d.addFlaw(where)
	}
}

// removeFlaw takes a flaw out.
func (d *Desk) removeFlaw(i int) {
	at := d.clothAt()
	for path := range d.job.Unread {
		if strings.HasPrefix(path, clothPath(at, "flaws[")) {
			delete(d.job.Unread, path)
		}
	}
	for path := range d.job.typed {
		if strings.HasPrefix(path, clothPath(at, "flaws[")) {
			delete(d.job.typed, path)
		}
	}
	d.changeCloth("", func(c *job.Cloth) {
		if i < len(c.Flaws) {
			c.Flaws = slices.Delete(slices.Clone(c.Flaws), i, i+1)
		}
	})
}
