package tape

import (
	"errors"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Entry is what stands for one measurement.
type Entry struct {
	Text   string // as typed
	Of     body.Of
	Kept   string    // the text that was kept when it was asked about
	Day    string    // on which it was entered, as it is said; "" when it was not noted
	Today  bool      // it was entered today
	Before []Earlier // the newest first
	// Differ are the takings of two phones that are not the same, that which counts
	// now first; Aside those that were not chosen.
	Differ []Differing
	Aside  []Differing
}

// Differing is a taking of another phone, as it is said.
type Differing struct {
	Figure  string
	Garment bool // of a garment that fits
	Day     string
}

// Earlier is a taking of the same measurement for another job.
type Earlier struct {
	Taking body.Taking
	Day    string // as it is said; "" when it was not noted
	Ticket string
}

// Row is one measurement as shown.
type Row struct {
	Entry
	ID    body.ID
	Name  string
	HowTo string
	More  bool // the garment can do without it, estimate and all
	// Echo is the length as it was understood, in the other unit: "= 86.4 cm".
	Echo string
	// Bad says why the text cannot be used; Doubts what to look at again, with
	// Insist where it is far from usual.
	Bad    string
	Begun  bool // a figure more may make it one that can be used
	Doubts []string
	Insist bool
	Kept   bool // the doubts were answered: it is kept
	// Now is the figure as understood, with its unit; Apart whether the earlier
	// taking is so far from it that both must be looked at.
	Now   string
	Apart bool
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
// in which they are best taken. f is the tape, whose unit figures have that name
// none, and how the reader is spoken to.
func Read(needs []body.ID, typed map[body.ID]Entry, figure body.Figure, f unit.Format) Sheet {
	s := Sheet{Takings: body.Takings{}}
	for _, more := range []bool{false, true} {
		for _, d := range asked(needs, typed, more) {
			row := Row{Entry: typed[d.ID], ID: d.ID, Name: f.Words.T(d.Name), HowTo: f.Words.T(d.HowTo), More: more}
			s.read(&row, f)
			s.Rows = append(s.Rows, row)
		}
	}
	for _, doubt := range body.Check(figure, s.Takings) {
		if i := s.index(doubt.ID); i >= 0 {
			r := &s.Rows[i]
			r.Doubts = append(r.Doubts, kit.Sentence(f.Words.Say(doubt.Text)))
			r.Insist = r.Insist || doubt.Level == body.Insist
			r.Kept = r.Entry.Kept == r.Text
		}
	}
	return s
}

// index is where the row of a measurement is; -1 when it has none.
func (s Sheet) index(id body.ID) int {
	return slices.IndexFunc(s.Rows, func(r Row) bool { return r.ID == id })
}

// Needed is how many rows the garment needs; they are the first.
func (s Sheet) Needed() int {
	n := 0
	for _, r := range s.Rows {
		if !r.More {
			n++
		}
	}
	return n
}

// Step is the measurement so many rows on from another; the other where the
// sheet ends.
func (s Sheet) Step(id body.ID, by int) body.ID {
	if i := s.index(id) + by; i >= 0 && i < len(s.Rows) {
		return s.Rows[i].ID
	}
	return id
}

// Next is the first measurement that is still to be taken; the first of all when
// none is.
func (s Sheet) Next() body.ID {
	for _, r := range s.Rows {
		if strings.TrimSpace(r.Text) == "" {
			return r.ID
		}
	}
	return s.Rows[0].ID
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

func (s *Sheet) read(row *Row, f unit.Format) {
	if strings.TrimSpace(row.Text) == "" {
		return
	}
	q, err := unit.Parse(row.Text, f.System)
	taking := body.Taking{Value: q, Of: row.Of}
	if err == nil {
		err = body.Limits(body.Takings{row.ID: taking})
	}
	if err != nil {
		row.Bad, row.Begun = kit.Sentence(why(err, f.Words)), begun(row.ID, row.Text, f.System)
		return
	}
	s.Takings[row.ID] = taking
	s.Taken++
	row.Now = q.In(f.Words)
	row.Echo = "= " + other(q, f).Text(q.Length())
	row.Apart = len(row.Before) > 0 && body.Apart(taking, row.Before[0].Taking)
}

// begun reports whether a text is the first figures of a length within the limits, as
// the 3 of 34 is: nothing is said of it while it is typed.
func begun(id body.ID, text string, tape unit.System) bool {
	if strings.Trim(text, "0123456789") != "" {
		return false
	}
	for _, rest := range []string{"0", "5", "9", "00", "50", "99"} {
		q, err := unit.Parse(text+rest, tape)
		if err == nil && body.Limits(body.Takings{id: {Value: q}}) == nil {
			return true
		}
	}
	return false
}

// other shows lengths in the unit that the quantity was not written in.
func other(q unit.Quantity, f unit.Format) unit.Format {
	f.System = otherOf(q.System())
	return f
}

// why is the reason alone, without the text that stands in the field anyway.
func why(err error, w *say.Words) string {
	var parse *unit.ParseError
	var taking *body.BadTaking
	switch {
	case errors.As(err, &parse):
		return w.Say(parse.Why)
	case errors.As(err, &taking):
		return w.Say(taking.Why)
	}
	return w.Err(err)
}
