package draft

import (
	"fmt"
	"slices"
	"strconv"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Find is the garment of that ID.
func Find(id string) (garment.Garment, bool) {
	all := Garments()
	i := slices.IndexFunc(all, func(g garment.Garment) bool { return g.ID == id })
	if i < 0 {
		return garment.Garment{}, false
	}
	return all[i], true
}

// Result is a job drafted and proved. It is not changed once made.
type Result struct {
	Job       job.Job
	Garment   garment.Garment
	Body      body.Values   // taken, and estimated where the garment needs it
	Estimates []Estimate    // what of the body the draft rests on that nobody measured
	Doubts    []body.Doubt  // measurements to take again or keep; they stop nothing
	Rules     rules.Set     // every rule with its value and level
	Style     garment.Style // every option answered
	Altered   []garment.Altered
	Record    *construct.Record
	Panels    []piece.Panel
	Pieces    []piece.Piece
	Darts     []piece.Dart // in the panels
	Seams     []piece.Seam // as they are claimed
	Worn      piece.Worn
	Curves    []construct.Card // that a tape cannot draw: see Cards
	Notions   []piece.Notion   // besides the cloths
	Report    proof.Report
	Format    unit.Format // how the job's lengths are shown
	Of        []Part      // what is cut together; none for one garment: see Join
}

// Estimate is a measurement that was not taken. Its name is English, to be said.
type Estimate struct {
	ID   body.ID
	Name string
	Is   unit.Length
	How  say.Msg
}

// Maker makes drafts, one after the other, and keeps what does not change
// between them. The zero value is ready; it is not for two goroutines at once.
type Maker struct {
	// Words are those that drafts are told in; nil is English.
	Words *say.Words

	formulas construct.Formulas
	kept     kept
}

// Make drafts and proves a job. The error is a *job.Bad when the job cannot be
// used, with every problem found; a *garment.Impossible when no draft can be
// made of it; anything else is a fault of the program.
func Make(j job.Job) (*Result, error) { return new(Maker).Make(j) }

// Make is as the function Make.
func (m *Maker) Make(j job.Job) (*Result, error) {
	r, prove, err := m.Begin(j)
	if err != nil {
		return nil, err
	}
	prove()
	return r, nil
}

// Begin drafts a job as Make does, and leaves the proof to prove, which fills in the
// report: for whoever has something else to do between the two, or wants a picture, by
// which nobody cuts. Nothing but prove may change the result.
func (m *Maker) Begin(j job.Job) (r *Result, prove func(), err error) {
	r, claims, err := m.draft(j)
	if err != nil {
		return nil, nil, err
	}
	return r, func() {
		// On nothing but the finished outlines and what is claimed of them.
		r.Report = proof.Of(r.Panels, r.Pieces, claims, m.Words)
	}, nil
}

// draft drafts a job, and returns what is claimed of it.
func (m *Maker) draft(j job.Job) (r *Result, claims piece.Claims, err error) {
	g, ok := m.kept.garment(j.Garment)
	if !ok {
		return nil, claims, bad(&job.Problem{Path: "garment", Value: j.Garment, Why: say.Of("not known; write %s", garmentIDs())})
	}
	j = j.Clone() // the result is not changed by what its job's owner does next
	r = &Result{Job: j, Garment: g, Format: j.Units.Format()}
	r.Format.Words = m.Words

	method := string(j.Method)
	if method == "" {
		method = g.Methods[0].ID
	}
	if !g.Has(method) {
		return nil, claims, bad(&job.Problem{Path: "method", Value: method, Why: say.Of("not a way of drafting %s; write %s", g.ID, choices(g.Methods))})
	}

	// What was given: all that is wrong with it is said at once.
	var style, truings, ruled, fitted error
	limits := body.Limits(j.Measurements)
	r.Style, style = g.Complete(j.Style)
	if style == nil {
		style = g.Check(r.Style)
	}
	truings = g.CheckTruings(j.Untrued)
	r.Rules, ruled = m.kept.rules(g, j.Rules, j.Units.System.Metric())
	r.Altered, fitted = altered(g, j.Alterations)
	if err := refuse(j, limits, truings, style, ruled, fitted); err != nil {
		return nil, claims, err
	}

	r.Rules = g.Figured(r.Rules, r.Style)

	// The body: doubts are kept for the maker to answer, gaps are filled.
	r.Doubts = body.Check(j.Figure, j.Measurements)
	if r.Body, err = body.Complete(j.Figure, j.Measurements, g.Needed(method)); err != nil {
		return nil, claims, refuse(j, err)
	}
	r.Estimates = estimates(g.Needed(method), r.Body)

	// Construction, sew lines, pieces.
	in := r.input()
	in.Formulas = &m.formulas
	d, err := g.Draft(in)
	if err != nil {
		return nil, claims, fmt.Errorf("%s: %w", g.ID, err)
	}
	r.Record, r.Panels, r.Pieces = d.Record, d.Panels, d.Pieces
	r.Darts, r.Seams, r.Worn, r.Curves, r.Notions = d.Claims.Darts, d.Claims.Seams, d.Worn, d.Cards, d.Notions
	return r, d.Claims, nil
}

// input is what the garment is drafted of.
func (r *Result) input() garment.Input {
	method := string(r.Job.Method)
	if method == "" {
		method = r.Garment.Methods[0].ID
	}
	return garment.Input{
		Body: r.Body, Rules: r.Rules, Style: r.Style, Method: method,
		Spoken: r.Job.Drafting == job.Spoken, Untrued: r.Job.Untrued, Altered: r.Altered, Format: r.Format,
	}
}

// estimates are the measurements that the garment needs and nobody took.
func estimates(needs []body.ID, values body.Values) []Estimate {
	var out []Estimate
	for _, id := range needs {
		if v := values[id]; v.Estimated {
			d, _ := body.Find(id)
			out = append(out, Estimate{ID: id, Name: d.Name, Is: v.Length, How: v.How})
		}
	}
	return out
}

func choices(all []garment.Choice) say.Msg {
	var ids []string
	for _, c := range all {
		ids = append(ids, strconv.Quote(c.ID))
	}
	return say.Either(ids...)
}

func garmentIDs() say.Msg {
	var ids []string
	for _, g := range Garments() {
		ids = append(ids, strconv.Quote(g.ID))
	}
	return say.Either(ids...)
}
