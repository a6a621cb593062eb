package tape

import (
	"errors"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

// Entry is what stands for one measurement.
type Entry struct {
	Text string // as typed
	Of   body.Of
	Kept string // the text that was kept when it was asked about
}

// Row is one measurement as shown.
type Row struct {
	ID    body.ID
	Name  string
	HowTo string
	Text  string // as typed
	Of    body.Of
	More  bool // the garment can do without it, estimate and all
	// Echo is the length as it was understood, in the other unit: "= 86.4 cm".
	Echo string
	// Bad says why the text cannot be used; Doubts what to look at again.
	Bad    string
	Doubts []string
	Kept   bool // the doubts were answered: it is kept
	// Estimate says what the draft takes in its place when it was not taken.
	Estimate string
}

// Sheet is what was typed, understood.
type Sheet struct {
	Rows    []Row
	Takings body.Takings // those that could be read and are within limits
	Taken   int          // how many rows have a usable figure
}

// Read understands what was typed. The measurements that the garment needs come
// first, then what else can be taken of the same part of the body, in the order
// in which they are best taken. assume is the unit of figures that name none.
func Read(needs []body.ID, typed map[body.ID]Entry, figure body.Figure, assume unit.System) Sheet {
	s := Sheet{Takings: body.Takings{}}
	for _, more := range []bool{false, true} {
		for _, d := range asked(needs, typed, more) {
			row := Row{ID: d.ID, Name: d.Name, HowTo: d.HowTo, Text: typed[d.ID].Text, Of: typed[d.ID].Of, More: more}
			s.read(&row, assume)
			s.Rows = append(s.Rows, row)
		}
	}
	for _, doubt := range body.Check(figure, s.Takings) {
		i := slices.IndexFunc(s.Rows, func(r Row) bool { return r.ID == doubt.ID })
		if i >= 0 {
			r := &s.Rows[i]
			r.Doubts = append(r.Doubts, doubt.Text.String())
			r.Kept = typed[r.ID].Kept == r.Text
		}
	}
	return s
}

// asked are the measurements of one half of the sheet.
func asked(needs []body.ID, typed map[body.ID]Entry, more bool) []body.Def {
	var out []body.Def
	upper := false // Defs go from the waist down and come to the upper body last
	for _, d := range body.Defs() {
		upper = upper || d.ID == body.NeckGirth
		need := slices.Contains(needs, d.ID)
		if need != more && (need || !upper || typed[d.ID].Text != "") {
			out = append(out, d)
		}
	}
	return out
}

func (s *Sheet) read(row *Row, assume unit.System) {
	if strings.TrimSpace(row.Text) == "" {
		return
	}
	q, err := unit.Parse(row.Text, assume)
	taking := body.Taking{Value: q, Of: row.Of}
	if err == nil {
		err = body.Limits(body.Takings{row.ID: taking})
	}
	if err != nil {
		row.Bad = why(err)
		return
	}
	s.Takings[row.ID] = taking
	s.Taken++
	row.Echo = "= " + other(q).Text(q.Length())
}

// other is the unit that the quantity was not written in.
func other(q unit.Quantity) unit.Format {
	if q.System().Metric() {
		return unit.Format{System: unit.Inches}
	}
	return unit.Format{System: unit.Centimetres}
}

// why is the reason alone, without the text that stands in the field anyway.
func why(err error) string {
	var parse *unit.ParseError
	var taking *body.BadTaking
	switch {
	case errors.As(err, &parse):
		return parse.Why.String()
	case errors.As(err, &taking):
		return taking.Why.String()
	}
	return err.Error()
}

// Fractions are the eighths that a tape in inches shows, as keys.
func Fractions() []string { return []string{"⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"} }

// Append puts a fraction behind the figure typed so far, or in place of the
// fraction it ends with: 34 and ½ is 34½, and ¾ after that 34¾.
func Append(text, fraction string) string {
	text = strings.TrimRight(text, " ")
	for _, f := range Fractions() {
		if rest, ok := strings.CutSuffix(text, f); ok {
			if f == fraction { // the same key again takes it away
				return rest
			}
			return rest + fraction
		}
	}
	return text + fraction
}
