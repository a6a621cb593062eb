package roster

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Row is one job.
type Row struct {
	Client, Ticket, Garment, Note string
	Figure                        body.Figure
	Taken, Due                    string // days by ISO 8601; empty when they are not known
	Takings                       body.Takings
}

// A Problem is a cell that cannot be read. The rest of its row can.
type Problem struct {
	Row    int // as a spreadsheet counts them: the headings are row 1
	Column string
	Value  string
	Why    say.Msg
}

// In tells it.
func (p Problem) In(w *say.Words) string {
	return w.F("Row %d, %s: “%s” %s", p.Row, p.Column, p.Value, p.Why)
}

// The columns that are no measurement.
const (
	client    = "client"
	ticket    = "ticket"
	garment   = "garment"
	figure    = "figure"
	taken     = "taken"
	due       = "due"
	note      = "note"
	ofGarment = "of_a_garment"
)

// mark is what spreadsheets know UTF-8 by.
const mark = "\ufeff"

// Write writes the rows, their lengths in a unit, the decimals as language w
// writes them, and separated as spreadsheets of that language expect it.
func Write(rows []Row, in unit.System, w *say.Words) ([]byte, error) {
	var ids []body.ID
	for _, d := range body.Defs() {
		if slices.ContainsFunc(rows, func(r Row) bool { return r.Takings[d.ID].Value.Set() }) {
			ids = append(ids, d.ID)
		}
	}
	var b bytes.Buffer
	b.WriteString(mark)
	out := csv.NewWriter(&b)
	out.UseCRLF = true
	if w.Decimal(".") == "," {
		out.Comma = ';'
	}
	head := []string{client, ticket, garment, figure, taken, due, note, ofGarment}
	for _, id := range ids {
		head = append(head, string(id)+" ("+in.String()+")")
	}
	lines := [][]string{head}
	for _, r := range rows {
		var garments []string
		var cells []string
		for _, id := range ids {
			t := r.Takings[id]
			cells = append(cells, cell(t.Value, in, w))
			if t.Of == body.OfGarment {
				garments = append(garments, string(id))
			}
		}
		line := []string{text(r.Client), text(r.Ticket), r.Garment, string(r.Figure), r.Taken, r.Due, text(r.Note), strings.Join(garments, " ")}
		lines = append(lines, append(line, cells...))
	}
	if err := out.WriteAll(lines); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// cell is a length in the column's unit, as a bare figure; one that was entered in
// another unit keeps it.
func cell(q unit.Quantity, in unit.System, w *say.Words) string {
	switch {
	case !q.Set():
		return ""
	case q.System() != in:
		return q.String()
	}
	const most = 6 // decimals: a 64th of an inch has as many
	return w.Decimal(strconv.FormatFloat(round(float64(q.Length())/float64(in.One()), most), 'f', -1, 64))
}

func round(v float64, decimals int) float64 {
	s, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', decimals, 64), 64)
	if err != nil {
		return v
	}
	return s
}

// formula are the letters that begin a formula.
const formula = "=+-@\t\r"

// text is a text that no spreadsheet takes for a formula.
func text(s string) string {
	if s != "" && strings.ContainsRune(formula+"'", rune(s[0])) {
		return "'" + s
	}
	return s
}

// asText is what text was made of.
func asText(s string) string {
	s = strings.TrimSpace(s)
	if len(s) > 1 && s[0] == '\'' && strings.ContainsRune(formula+"'", rune(s[1])) {
		return s[1:]
	}
	return s
}

// What is wrong with a file as a whole.
var (
	ErrEmpty  = say.Errorf("the table is empty: its first row names the columns, such as client and hip_girth (in)")
	ErrNoCSV  = say.Errorf("this is no table in CSV: save it from the spreadsheet as CSV")
	ErrNoBody = say.Errorf("no column of the table is known here: name them as in a table that was saved here, such as client and hip_girth (in)")
)

// mostRows is how many rows are read of one table.
const mostRows = 5000

// Read reads a table. Lengths whose column names no unit are in the unit given.
// Cells that cannot be read are told in problems, and left out. The error is about
// the file as a whole.
func Read(data []byte, assume unit.System) (rows []Row, problems []Problem, err error) {
	s := strings.TrimPrefix(string(data), mark)
	first, _, _ := strings.Cut(s, "\n")
	if strings.TrimSpace(first) == "" {
		return nil, nil, ErrEmpty
	}
	in := csv.NewReader(strings.NewReader(s))
	in.FieldsPerRecord = -1
	in.LazyQuotes = true
	for _, c := range []rune{';', '\t'} {
		if strings.Count(first, string(c)) > strings.Count(first, string(in.Comma)) {
			in.Comma = c
		}
	}
	head, err := in.Read()
	if err != nil {
		return nil, nil, ErrNoCSV
	}
	columns, known := make([]column, len(head)), false
	for i, h := range head {
		columns[i] = columnOf(h, assume)
		known = known || columns[i].key != "" || columns[i].id != ""
	}
	if !known {
		return nil, nil, ErrNoBody
	}
	for no := 2; ; no++ {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return rows, problems, nil
		}
		if err != nil {
			return nil, nil, ErrNoCSV
		}
		if len(rows) == mostRows {
			return nil, nil, say.Errorf("the table has more than %d rows: take it in by parts", mostRows)
		}
		r := reading{no: no}
		r.Takings = body.Takings{}
		for i, c := range cells {
			if i < len(columns) && strings.TrimSpace(c) != "" {
				r.take(columns[i], c)
			}
		}
		problems = append(problems, r.problems...)
		if !r.blank() {
			r.mark()
			rows = append(rows, r.Row)
		}
	}
}

// column is what a column holds.
type column struct {
	head string
	key  string      // of those that are no measurement
	id   body.ID     // of a measurement
	in   unit.System // its unit
}

func columnOf(head string, assume unit.System) column {
	c := column{head: strings.TrimSpace(head), in: assume}
	name, unitName := c.head, ""
	if at := strings.IndexAny(name, "(["); at >= 0 {
		name, unitName = name[:at], strings.Trim(name[at:], "()[] ")
	}
	name = strings.ToLower(strings.TrimSpace(name))
	for _, s := range []unit.System{unit.Inches, unit.Centimetres, unit.Millimetres, unit.Metres} {
		if strings.EqualFold(unitName, s.String()) {
			c.in = s
		}
	}
	under := strings.ReplaceAll(name, " ", "_")
	if slices.Contains([]string{client, ticket, garment, figure, taken, due, note, ofGarment}, under) {
		c.key = under
		return c
	}
	for _, d := range body.Defs() {
		if under == string(d.ID) || name == strings.ToLower(d.Name) {
			c.id = d.ID
		}
	}
	return c
}

// reading is a row being read.
type reading struct {
	Row
	no       int
	garments []string
	problems []Problem
}

func (r *reading) wrong(c column, value string, why say.Msg) {
	r.problems = append(r.problems, Problem{r.no, c.head, clip(value), why})
}

func (r *reading) take(c column, value string) {
	s := asText(value)
	switch c.key {
	case client:
		r.Client = s
	case ticket:
		r.Ticket = s
	case garment:
		r.Garment = strings.ToLower(s)
	case note:
		r.Note = s
	case figure:
		switch f := body.Figure(strings.ToLower(s)); f {
		case body.Women, body.Men:
			r.Figure = f
		case body.Unknown:
		default:
			r.wrong(c, s, say.Of("is none: write women or men, or leave it empty"))
		}
	case taken, due:
		day, ok := dayOf(s)
		if !ok {
			r.wrong(c, s, say.Of("is no day: write it as 2031-05-17"))
		}
		if c.key == taken {
			r.Taken = day
		} else {
			r.Due = day
		}
	case ofGarment:
		r.garments = strings.Fields(s)
	default:
		if c.id == "" {
			return // a column of the maker's own
		}
		q, err := unit.Parse(tidy(s, c.in), c.in)
		if err != nil || q.Length() <= 0 {
			r.wrong(c, s, say.Of("is no length"))
			return
		}
		r.Takings[c.id] = body.Taking{Value: q}
	}
}

// tidy writes a decimal as a tape has it where it is that even, in eighths to
// 64ths of an inch, since spreadsheets write decimals to many places.
func tidy(s string, in unit.System) string {
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || v <= 0 || v > 1e5 {
		return s
	}
	const finest, near = 64, 1e-4
	if n := math.Round(v * finest); !in.Metric() && math.Abs(n/finest-v) < near {
		whole, part, den := int(n)/finest, int(n)%finest, finest
		for part > 0 && part%2 == 0 {
			part, den = part/2, den/2
		}
		if part == 0 {
			return strconv.Itoa(whole)
		}
		return strconv.Itoa(whole) + " " + strconv.Itoa(part) + "/" + strconv.Itoa(den)
	}
	return strconv.FormatFloat(round(v, 4), 'f', -1, 64)
}

// mark marks what was taken of a garment.
func (r *reading) mark() {
	for _, id := range r.garments {
		if t, ok := r.Takings[body.ID(id)]; ok {
			t.Of = body.OfGarment
			r.Takings[body.ID(id)] = t
		}
	}
}

func (r *reading) blank() bool {
	return r.Client == "" && r.Ticket == "" && len(r.Takings) == 0
}

// dayOf reads a day as spreadsheets write it where that can mean one day alone.
func dayOf(s string) (iso string, ok bool) {
	s, _, _ = strings.Cut(s, " ") // a time of the day
	parts := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune("-./", r) })
	if len(parts) != 3 {
		return "", false
	}
	var n [3]int
	for i, p := range parts {
		v, err := strconv.Atoi(p)
		if err != nil || v < 1 {
			return "", false
		}
		n[i] = v
	}
	y, m, d := n[0], n[1], n[2]
	if len(parts[0]) != 4 {
		y, m, d = n[2], n[1], n[0]
		if strings.Contains(s, "/") { // the day first, or the month?
			switch {
			case n[0] == n[1] || n[0] > 12:
			case n[1] > 12:
				m, d = n[0], n[1]
			default:
				return "", false
			}
		}
	}
	if y < 1900 || y > 9999 || m > 12 || d > 31 {
		return "", false
	}
	two := func(v int) string { return strconv.Itoa(100 + v)[1:] }
	return strconv.Itoa(y) + "-" + two(m) + "-" + two(d), true
}

func clip(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
