package tape

import (
	"errors"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

// Typed holds the text of each measurement as it was typed.
type Typed map[body.ID]string

// Row is one measurement as shown.
type Row struct {
	ID    body.ID
	Name  string
	HowTo string
	Text  string // as typed
	// Echo is the length as it was understood, in the other unit: "= 86.4 cm".
	Echo string
	// Bad says why the text cannot be used; Doubts what to look at again.
	Bad    string
	Doubts []string
}

// Sheet is what was typed, understood.
type Sheet struct {
	Rows    []Row
	Takings body.Takings // those that could be read and are within limits
	Taken   int          // how many rows have a usable figure
}

// Read understands what was typed for the measurements asked for. assume is
// the unit of figures that name none.
func Read(needs []body.ID, typed Typed, figure body.Figure, assume unit.System) Sheet {
	s := Sheet{Takings: body.Takings{}}
	for _, id := range needs {
		d, ok := body.Find(id)
		if !ok {
			continue
		}
		row := Row{ID: id, Name: d.Name, HowTo: d.HowTo, Text: typed[id]}
		if strings.TrimSpace(row.Text) != "" {
			q, err := unit.Parse(row.Text, assume)
			if err == nil {
				err = body.Limits(body.Takings{id: {Value: q}})
			}
			if err == nil {
				s.Takings[id] = body.Taking{Value: q}
				s.Taken++
				row.Echo = "= " + other(q).Text(q.Length())
			} else {
				row.Bad = why(err)
			}
		}
		s.Rows = append(s.Rows, row)
	}
	for _, doubt := range body.Check(figure, s.Takings) {
		i := slices.IndexFunc(s.Rows, func(r Row) bool { return r.ID == doubt.ID })
		if i >= 0 {
			s.Rows[i].Doubts = append(s.Rows[i].Doubts, doubt.Text)
		}
	}
	return s
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
		return parse.Why
	case errors.As(err, &taking):
		return taking.Why
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
