package ui

import (
	"chalkfold/draft"
	"chalkfold/draft/unit"
	"chalkfold/ui/bench"
)

func (d *Desk) benchView() bench.View {
	v := bench.View{
		Words: d.Words, Fractions: d.fractions,
		Steps: d.milestones(Cut, Sewn), OnMilestone: d.tick,
		OnPiece: func(id string) {
			d.job.CutPiece(id)
			d.changed("")
		},
		OnMadeUp: func(text string) {
			d.job.SetMadeUp(text)
			d.changed(madeUp)
		},
	}
	r := d.work.Result
	if r == nil {
		return v
	}
	v.Ready, v.Stopped = true, r.Report.Stopped()
	v.Pieces, v.Notches = bench.List(r.Pieces, d.job.Pieces, d.Words), bench.Pairs(r.Pieces, d.Words)
	cut := 0
	for _, p := range v.Pieces {
		if p.Cut {
			cut++
		}
	}
	v.Said = d.N(cut, "%d of %d pieces is cut.", "%d of %d pieces are cut.", len(v.Pieces))
	v.Band, v.Order = d.bandView(), d.orderView()
	v.Took = d.tookView()
	v.Needed, v.OnNotion = d.notionsNow(), d.tickNotion
	return v
}

// bandView compares the waist that was sewn with the drafted one, for a garment
// that has a band.
func (d *Desk) bandView() *bench.Band {
	r, j := d.work.Result, d.job
	as, ok := draft.BandFor(r, unit.Metre) // for what is drafted alone
	if !ok {
		return nil
	}
	b := &bench.Band{Drafted: r.Format.Text(as.Drafted), Text: j.text(madeUp, j.bare(j.MadeUp))}
	if j.Unread[madeUp] != "" {
		b.Bad = d.F("“%s” is no length; correct it.", j.Unread[madeUp])
		return b
	}
	if m, ok := draft.BandFor(r, j.MadeUp.Length()); ok {
		b.Compare(m, r.Format)
	}
	return b
}
