package draft

import (
	"cmp"
	"fmt"
	"slices"

	"chalkfold/draft/chalk"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// Chalk is the guide for chalking the draft straight onto the cloth.
func Chalk(r *Result) []chalk.Section {
	return chalk.Of(r.Record, r.Panels, r.Pieces, r.Format)
}

// Laid is pieces on one cloth of the job. Without a Result nothing is laid yet.
type Laid struct {
	Cloth lay.Cloth
	Items []lay.Item
	// LetGo are the pieces that the job keeps in places where they cannot lie.
	LetGo []LetGo
	lay.Result
}

// Spread is one cloth of the job, counted from nought, with what is to be laid
// on it. The error is a *job.Bad when the job has no such cloth or one that
// nothing can be laid on.
func Spread(r *Result, cloth int) (*Laid, error) {
	c, err := clothOf(r.Job, cloth)
	if err != nil {
		return nil, err
	}
	c = r.opened(c)
	items, err := lay.Items(r.Pieces, c)
	if err != nil {
		return nil, fmt.Errorf("lay: %w", err)
	}
	if len(items) == 0 {
		return nil, bad(&job.Problem{
			Path: fmt.Sprintf("cloth[%d].kind", cloth), Value: string(c.Kind),
			Why: say.Of("no piece is cut from it in this style; take this cloth out, or correct its kind"),
		})
	}
	if len(c.Outline) > 0 && !slices.ContainsFunc(items, c.Takes) {
		return nil, bad(&job.Problem{
			Path: fmt.Sprintf("cloth[%d].outline", cloth),
			Why:  say.Of("no piece goes on it; take this cloth out, or correct its corners"),
		})
	}
	l := &Laid{Cloth: c, Items: items}
	l.keep(r.Job.Cloth[cloth].Kept)
	return l, nil
}

// opened is the cloth as it is laid on the table: open where left and right are
// no pairs, which would waste the other layer.
func (r *Result) opened(c lay.Cloth) lay.Cloth {
	if slices.ContainsFunc(r.Pieces, func(p piece.Piece) bool {
		return (p.Hand != piece.BothHands || len(p.Halves) > 0) && p.Cloth == cmp.Or(c.Kind, piece.Main)
	}) {
		c.Fold = lay.Open
	}
	return c
}

// Lay lays the pieces on a cloth of the job. The error is as for Spread, or a
// *lay.TooWideError when a piece does not fit across. Cloth that is too short
// is no error: see Fits and ShortBy. Its pieces lie on figures that the tape
// shows, where they can.
func Lay(r *Result, cloth int, opt lay.Options) (*Laid, error) {
	l, err := Spread(r, cloth)
	if err != nil {
		return nil, err
	}
	if err := l.pack(r, opt); err != nil {
		return nil, err
	}
	return l, nil
}

// Prefer is which of two lays of these items is the better one for whoever cuts
// it, in lengths as f shows them.
func (l *Laid) Prefer(f unit.Format) func(r, than lay.Result) bool {
	return func(r, than lay.Result) bool {
		merit := func(r lay.Result) lay.Merit { return lay.MeritOf(l.Cloth, l.Items, r, f.Finest()) }
		return merit(r).Compare(merit(than)) < 0
	}
}

// Drawing draws the lay, its lengths as f shows them.
func (l *Laid) Drawing(f unit.Format, opt sheet.Options) sheet.Drawing {
	return l.drawing(f, opt, nil, nil)
}

// drawing draws the lay; with notes under it, it shows the grain lines too. Where there
// are numbers by placement, these stand for the names.
func (l *Laid) drawing(f unit.Format, opt sheet.Options, notes []string, no map[int]int) sheet.Drawing {
	shape := sheet.ClothShape{
		Name: l.Cloth.Name, Width: l.Cloth.Width, Length: l.Cloth.Length, Used: l.Length,
		FoldedTo: l.FoldedTo, Outline: l.Cloth.Outline, Flaws: l.Cloth.Flaws, Lengths: f, Notes: notes,
	}
	switch l.Cloth.Fold {
	case lay.Lengthwise:
		shape.Fold = sheet.Lengthwise
	case lay.Crosswise:
		shape.Fold = sheet.Crosswise
	case lay.Open:
	}
	var laid []sheet.Laid
	for i, p := range l.Placements {
		it := l.Items[p.Item]
		one := sheet.Laid{ID: it.Piece, No: no[i], Lines: []string{f.Words.T(it.Name)}, Ring: it.Ring, At: p.At, Opened: p.Opened}
		if it.Double {
			one.Lines = append(one.Lines, f.Words.T("through both layers"))
		}
		if len(notes) > 0 || no != nil {
			one.Grain = it.Grain
		}
		laid = append(laid, one)
	}
	return sheet.Lay(shape, laid, opt)
}

// Title names a draft in a file.
func Title(r *Result) string {
	w := r.Format.Words
	if n := len(r.Of); n > 0 {
		if r.Job.Name == "" {
			return w.N(n, "%d garment", "%d garments")
		}
		return r.Job.Name
	}
	if r.Job.Name == "" {
		return w.T(r.Garment.Name)
	}
	return w.F("%s, %s", r.Job.Name, say.Within(r.Garment.Name))
}
