package ui

import (
	"slices"
	"strings"

	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/ui/bench"
)

func (d *Desk) benchView() bench.View {
	v := bench.View{
		Words: d.Words,
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
	v.Band = d.bandView(r.Pieces, r.Report.Girths)
	return v
}

// bandView compares the waist that was sewn with the drafted one, for a garment
// that has a band.
func (d *Desk) bandView(pieces []piece.Piece, girths []proof.Girth) *bench.Band {
	i := slices.IndexFunc(girths, func(g proof.Girth) bool { return g.Name == "waist" })
	if i < 0 || !slices.ContainsFunc(pieces, func(p piece.Piece) bool { return strings.HasPrefix(p.ID, "waistband") }) {
		return nil
	}
	f, j := d.work.Result.Format, d.job
	b := &bench.Band{Drafted: f.Text(girths[i].Draft), Text: j.text(madeUp, j.bare(j.MadeUp))}
	switch {
	case j.Unread[madeUp] != "":
		b.Bad = d.F("“%s” is no length; correct it.", j.Unread[madeUp])
	case j.MadeUp.Set():
		b.Says, b.Even = bench.Compare(girths[i].Draft, j.MadeUp.Length(), f)
	}
	return b
}
