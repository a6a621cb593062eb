package main

import (
	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// draftedJSON is a whole draft. Lengths are in mm unless the key says
// otherwise; x grows to the side, y to the hem.
type draftedJSON struct {
	Name      string            `json:"name"`
	Garment   string            `json:"garment"`
	Method    string            `json:"method"`
	Drafting  string            `json:"drafting"`
	Stopped   bool              `json:"stopped"` // a finding stops the cut
	Measured  []measuredJSON    `json:"measurements"`
	Doubts    []doubtJSON       `json:"doubts"`
	Rules     []ruleJSON        `json:"rules"`
	Style     map[string]string `json:"style"`
	Pieces    []pieceJSON       `json:"pieces"`
	Seams     []seamJSON        `json:"seams"`
	Girths    []girthJSON       `json:"girths"`
	Findings  []findingJSON     `json:"findings"` // worst first
	Steps     []stepJSON        `json:"steps"`
	Changes   []changeJSON      `json:"changes"` // what truing did to the draft as it is spoken
	Estimates []string          `json:"estimates"`
}

type measuredJSON struct {
	Name  string  `json:"name"`
	MM    float64 `json:"value_mm"`
	Given string  `json:"given,omitempty"`
	Of    string  `json:"of"`
	How   string  `json:"estimated,omitempty"`
}

type doubtJSON struct {
	Name  string  `json:"name"`
	Level string  `json:"level"`
	Low   float64 `json:"low_mm"`
	High  float64 `json:"high_mm"`
	Say   string  `json:"say"`
}

type ruleJSON struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	Level string `json:"level"`
}

type pieceJSON struct {
	ID    string       `json:"id"`
	Name  string       `json:"name"`
	Count int          `json:"count"`
	Cloth string       `json:"cloth"`
	Note  string       `json:"note,omitempty"`
	Sew   [][2]float64 `json:"sew_line_mm"`
	Cut   [][2]float64 `json:"cut_line_mm"`
	Area  float64      `json:"area_mm2"`
}

type seamJSON struct {
	Name    string  `json:"name"`
	A       float64 `json:"a_mm"`
	B       float64 `json:"b_mm"`
	Allowed float64 `json:"allowed_mm"`
}

type girthJSON struct {
	Name      string  `json:"name"`
	Body      float64 `json:"body_mm"`
	Draft     float64 `json:"draft_mm"`
	Ease      float64 `json:"ease_mm"`
	Estimated bool    `json:"estimated,omitempty"`
}

// findingJSON is one check. Figures are in mm, or in degrees where Unit says so.
type findingJSON struct {
	Check     string      `json:"check"`
	Level     string      `json:"level"`
	Figure    float64     `json:"figure"`
	Want      float64     `json:"want"`
	Tolerance float64     `json:"tolerance"`
	Least     *float64    `json:"least,omitempty"` // of a figure that must lie between two others
	Most      *float64    `json:"most,omitempty"`
	Unit      string      `json:"unit"`
	Say       string      `json:"say"`
	Mend      string      `json:"mend"`
	Panel     string      `json:"panel,omitempty"`
	At        *[2]float64 `json:"at_mm,omitempty"`
}

type stepJSON struct {
	Name    string      `json:"name"`
	Label   string      `json:"label"`
	Part    string      `json:"part"`
	Kind    string      `json:"kind"`
	Formula string      `json:"formula"`
	Sum     string      `json:"sum,omitempty"`
	MM      *float64    `json:"value_mm,omitempty"` // a length
	Value   *float64    `json:"value,omitempty"`    // a plain number
	From    string      `json:"from"`
	Way     string      `json:"way,omitempty"`
	Why     string      `json:"why,omitempty"`
	Truing  string      `json:"truing,omitempty"`
	At      *[2]float64 `json:"at_mm,omitempty"`
	Was     *[2]float64 `json:"was_mm,omitempty"`
}

type changeJSON struct {
	Truing string  `json:"truing"`
	Step   string  `json:"step"`
	Label  string  `json:"label"`
	By     float64 `json:"by_mm"`
	Why    string  `json:"why"`
}

func mm(l unit.Length) float64    { return round3(l.MM()) }
func xy(p geom.Pt) [2]float64     { return [2]float64{round3(p.X), round3(p.Y)} }
func xyPtr(p geom.Pt) *[2]float64 { v := xy(p); return &v }
func ring(pts []geom.Pt) [][2]float64 {
	out := make([][2]float64, len(pts))
	for i, p := range pts {
		out[i] = xy(p)
	}
	return out
}

func draftJSON(r *draft.Result) draftedJSON {
	d := draftedJSON{
		Name: r.Job.Name, Garment: r.Garment.ID, Method: string(r.Job.Method), Drafting: string(r.Job.Drafting),
		Stopped: r.Report.Stopped(), Style: r.Style,
		Measured: measuredOf(r), Doubts: []doubtJSON{}, Rules: []ruleJSON{}, Pieces: []pieceJSON{},
		Seams: []seamJSON{}, Girths: []girthJSON{}, Findings: findingsJSON(r.Report.Findings),
		Steps: []stepJSON{}, Changes: []changeJSON{}, Estimates: []string{},
	}
	for _, x := range r.Doubts {
		d.Doubts = append(d.Doubts, doubtJSON{string(x.ID), x.Level.String(), mm(x.Low), mm(x.High), r.Format.Words.Say(x.Text)})
	}
	for _, def := range r.Rules.Defs() {
		d.Rules = append(d.Rules, ruleJSON{string(def.ID), r.Rules.Text(def.ID), r.Rules.Level(def.ID).String()})
	}
	for _, p := range r.Pieces {
		d.Pieces = append(d.Pieces, pieceJSON{
			p.ID, p.Name, p.Count, string(p.Cloth), p.Note, ring(p.Sew), ring(p.Cut), round2(p.Area()),
		})
	}
	for _, s := range r.Report.Seams {
		d.Seams = append(d.Seams, seamJSON{s.Name, mm(s.A), mm(s.B), mm(s.Allowed)})
	}
	for _, g := range r.Report.Girths {
		d.Girths = append(d.Girths, girthJSON{g.Name, mm(g.Body), mm(g.Draft), mm(g.Ease), g.Estimated})
	}
	for _, s := range r.Record.Steps() {
		d.Steps = append(d.Steps, stepOf(r, s))
	}
	for _, c := range r.Record.Changes() {
		d.Changes = append(d.Changes, changeJSON{c.Truing, c.Step, c.Label, mm(c.By), c.Why})
	}
	for _, e := range r.Estimates {
		d.Estimates = append(d.Estimates, string(e.ID))
	}
	return d
}

func findingsJSON(all []proof.Finding) []findingJSON {
	out := []findingJSON{}
	for _, f := range all {
		j := findingJSON{
			Check: f.Check, Level: f.Level.String(), Figure: round3(f.Figure.V), Want: round3(f.Want.V),
			Tolerance: round3(f.Tolerance.V), Unit: "mm", Say: f.Say, Mend: f.Mend, Panel: f.Panel,
		}
		if f.Least != nil {
			v := round3(f.Least.V)
			j.Least = &v
		}
		if f.Most != nil {
			v := round3(f.Most.V)
			j.Most = &v
		}
		if f.Figure.Degrees {
			j.Unit = "degrees"
		}
		if f.At != nil {
			j.At = xyPtr(*f.At)
		}
		out = append(out, j)
	}
	return out
}

func stepOf(r *draft.Result, s construct.Step) stepJSON {
	j := stepJSON{
		Name: s.Name, Label: s.Label, Part: s.Part, Kind: s.Kind.String(), Formula: s.Formula.String(),
		Sum: r.Record.SumOf(s, r.Format), From: s.From, Way: s.Way, Why: s.Why, Truing: s.Truing,
	}
	if v := round3(s.Value); s.Length {
		j.MM = &v
	} else if s.Kind == construct.KindValue {
		j.Value = &v
	}
	switch s.Kind {
	case construct.KindPoint:
		j.At = xyPtr(s.At)
	case construct.KindMove:
		j.At, j.Was = xyPtr(s.At), xyPtr(s.Was)
	case construct.KindValue, construct.KindCurve:
	}
	return j
}

func measuredOf(r *draft.Result) []measuredJSON {
	out := []measuredJSON{}
	for _, l := range bodyLines(r) {
		out = append(out, measuredJSON{string(l.def.ID), mm(l.value.Length), l.value.Given.String(), l.value.Of.String(), r.Format.Words.Say(l.value.How)})
	}
	return out
}

// impossibleJSON is a draft that cannot be made, as the one finding there is.
func impossibleJSON(no *garment.Impossible) draftedJSON {
	return draftedJSON{
		Stopped: true, Measured: []measuredJSON{}, Doubts: []doubtJSON{}, Rules: []ruleJSON{}, Style: map[string]string{},
		Pieces: []pieceJSON{}, Seams: []seamJSON{}, Girths: []girthJSON{}, Steps: []stepJSON{}, Changes: []changeJSON{}, Estimates: []string{},
		Findings: []findingJSON{{Check: "can be drafted", Level: proof.Stops.String(), Unit: "mm", Say: no.What, Mend: no.Mend}},
	}
}
