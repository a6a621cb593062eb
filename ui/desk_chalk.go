package ui

import (
	"slices"

	core "chalkfold/draft/chalk"
	"chalkfold/draft/piece"
	"chalkfold/ui/chalk"
)

// chalkViewed is how the marks are looked at.
type chalkViewed struct {
	list bool
}

func (d *Desk) chalkView() chalk.View {
	v := chalk.View{
		Words: d.Words,
		List:  d.view.chalk.list, Missing: "The marks are listed here once the draft is made.",
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
	}
	r := d.work.Result
	if r == nil {
		return v
	}
	v.Guide, v.Stopped = d.work.Marks(), r.Report.Stopped()
	v.At = v.Guide.Find(d.job.Mark)
	m := v.Guide.Marks[v.At]
	s := v.Guide.Sections[m.Section]
	i := slices.IndexFunc(r.Pieces, func(p piece.Piece) bool { return p.ID == s.Piece })
	if i >= 0 && !v.List {
		var before []core.Mark
		for _, b := range v.Guide.Marks[s.First:v.At] {
			before = append(before, b.Of)
		}
		v.Drawing = chalk.Picture(r.Pieces[i], before, m.Of)
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
