package ui

import (
	"cmp"
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/piece"
	"chalkfold/ui/chalk"
	"chalkfold/ui/cloth"
	"chalkfold/ui/kit"
)

// chalkViewed is how the marks are looked at.
type chalkViewed struct {
	list  bool
	whole bool // the mark has the screen to itself
	lies  bool // where the pieces lie on the cloth is out
}

func (d *Desk) chalkView() chalk.View {
	v := chalk.View{
		Words: d.Words,
		List:  d.view.chalk.list, Whole: d.view.chalk.whole, Missing: d.T("The marks are listed here once the draft is made."),
		OnAt: func(i int) {
			d.view.chalk.list = false
			d.chalkAt(i)
		},
		OnStep: func(by int) {
			d.view.chalk.list = false
			d.chalkAt(d.work.Marks().Find(d.job.Mark) + by)
		},
		OnSection: d.chalkAt,
		OnList:    func() { d.view.chalk.list = !d.view.chalk.list },
		OnWhole: func(whole bool) {
			d.view.chalk.whole = whole
			chalk.Fill(whole)
		},
	}
	r := d.work.Result
	if v.Several = d.ordering(); r == nil || v.Several {
		v.Lies = d.liesView()
		return v
	}
	v.Guide, v.Stopped, v.Lies = d.work.Marks(), r.Report.Stopped(), d.liesView()
	v.At = v.Guide.Find(d.job.Mark)
	m := v.Guide.Marks[v.At]
	s := v.Guide.Sections[m.Section]
	pieces := piece.Halved(r.Pieces)
	i := slices.IndexFunc(pieces, func(p piece.Piece) bool { return p.ID == s.Piece })
	if i >= 0 && !v.List {
		before := v.Guide.Marks[s.First:v.At]
		v.Drawing, v.Near = chalk.Picture(pieces[i], before, m), chalk.Close(pieces[i], before, m)
	}
	return v
}

// liesView tells where the pieces lie on the cloth that was laid last.
func (d *Desk) liesView() chalk.Lies {
	v := chalk.Lies{
		Out:   d.view.chalk.lies,
		OnOut: func() { d.view.chalk.lies = !d.view.chalk.lies },
		OnLay: func() { d.turn(stageCloth) },
	}
	if !d.laid() {
		return v
	}
	l := d.laying
	_, names := d.cloths()
	v.Cloth = names[l.cloth]
	guide := draft.LayGuide(l.shown, l.r.Format)
	slices.SortStableFunc(guide, func(a, b draft.Guide) int { return cmp.Compare(a.Along, b.Along) })
	for _, g := range guide {
		v.Pieces = append(v.Pieces, chalk.Lie{
			Piece: l.shown.Items[l.shown.Placements[g.Placement].Item].Piece, Name: kit.Sentence(g.Name),
			Where: d.Join(cloth.Chalked(g)),
		})
	}
	return v
}

// chalkAt turns to a mark, and has the place kept.
func (d *Desk) chalkAt(i int) {
	marks := d.work.Marks().Marks
	if i < 0 || i >= len(marks) {
		return
	}
	d.job.Mark = marks[i].Key
	d.keep()
}

// bare is the class of the page where a mark has the screen to itself.
func (d *Desk) bare() string {
	if d.stage == stageChalk && d.view.chalk.whole {
		return "bare"
	}
	return ""
}
