package ui

import (
	"slices"
	"strconv"

	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
)

// clothViewed is how the cloth is looked at.
type clothViewed struct {
	at int
}

func (d *Desk) clothView() cloth.View {
	all, names := d.cloths()
	at := d.view.cloth.at
	c := all[at]
	v := cloth.View{
		Words:  d.Words,
		Cloths: names, At: at, Key: clothKey(all, at),
		Width: d.job.ClothText(at, "width", c.Width), BadWidth: d.clothFault(at, "width"),
		Length: d.job.ClothText(at, "length", c.Length), BadLength: d.clothFault(at, "length"),
		Fold: c.Fold, OneWay: c.OneWay,
		OnAt: func(i int) {
			d.view.cloth.at = i
			d.wantLay()
		},
		OnWidth:  func(text string) { d.enterCloth("width", text) },
		OnLength: func(text string) { d.enterCloth("length", text) },
		OnFold: func(fold job.Fold) {
			d.changeCloth("", func(i int, c job.Cloth) {
				c.Fold = fold
				d.job.SetCloth(i, c)
			})
		},
		OnOneWay: func(yes bool) {
			d.changeCloth("", func(i int, c job.Cloth) {
				c.OneWay = yes
				d.job.SetCloth(i, c)
			})
		},
	}
	l := d.laying
	switch {
	case d.work.Result == nil:
		v.Missing = "The pieces are laid here once the draft is made."
	case v.BadWidth != "" || v.BadLength != "":
		v.Missing = "The cloth cannot be read yet."
	case l == nil || l.cloth != at || l.gen != d.work.Gen:
		v.Working = true
	default:
		v.Working, v.Missing = !l.done, sentenceOf(l.missing)
		if l.laid != nil && l.drawing != "" {
			v.Drawing, v.List = l.drawing, l.list
			v.Tone, v.Verdict, v.Lines = cloth.Say(l.laid, d.work.Result.Format)
		}
	}
	return v
}

// enterCloth takes what was typed for a length of the cloth.
func (d *Desk) enterCloth(key, text string) {
	all, _ := d.cloths()
	d.changeCloth(clothKey(all, d.view.cloth.at)+"."+key, func(i int, c job.Cloth) { d.job.EnterCloth(i, c, key, text) })
}

// changeCloth changes the cloth that is looked at. One that the job did not
// have yet becomes its last.
func (d *Desk) changeCloth(field string, change func(i int, c job.Cloth)) {
	all, _ := d.cloths()
	c := all[d.view.cloth.at]
	d.view.cloth.at = min(d.view.cloth.at, len(d.job.File.Cloth))
	change(d.view.cloth.at, c)
	d.changed(field)
}

// cloths are the cloths of the job and then, by kind, those that the pieces
// want besides, with their names.
func (d *Desk) cloths() (all []job.Cloth, names []string) {
	all = slices.Clone(d.job.File.Cloth)
	wanted := []piece.Cloth{piece.Main}
	if r := d.work.Result; r != nil {
		for _, p := range r.Pieces {
			if !slices.Contains(wanted, p.Cloth) {
				wanted = append(wanted, p.Cloth)
			}
		}
	}
	for _, kind := range wanted {
		if !slices.ContainsFunc(all, func(c job.Cloth) bool { return kindOf(c) == kind }) {
			all = append(all, job.Cloth{Kind: kind, Fold: job.Lengthwise})
		}
	}
	for _, c := range all {
		name := c.Name
		if name == "" {
			name = map[piece.Cloth]string{piece.Main: "main cloth"}[kindOf(c)]
		}
		if name == "" {
			name = string(c.Kind)
		}
		names = append(names, name)
	}
	if d.view.cloth.at >= len(all) {
		d.view.cloth.at = 0
	}
	return all, names
}

func kindOf(c job.Cloth) piece.Cloth {
	if c.Kind == "" {
		return piece.Main
	}
	return c.Kind
}

// clothKey names one of the cloths for its fields: it stays the same when a
// cloth that was wanting is added to the job.
func clothKey(all []job.Cloth, at int) string {
	before := 0
	for _, c := range all[:at] {
		if kindOf(c) == kindOf(all[at]) {
			before++
		}
	}
	key := string(kindOf(all[at]))
	if before > 0 {
		key += "-" + strconv.Itoa(before+1)
	}
	return key
}

// clothFault says why what was typed for a cloth cannot be read.
func (d *Desk) clothFault(i int, key string) string {
	text, ok := d.job.Unread[clothPath(i, key)]
	if !ok {
		return ""
	}
	if _, err := unit.Parse(text, d.job.System()); err != nil {
		return sentenceOf(whyUnread(err, d.Words))
	}
	return ""
}
