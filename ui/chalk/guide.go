package chalk

import (
	"strconv"
	"strings"

	"chalkfold/draft/chalk"
	"chalkfold/draft/unit"
)

// Mark is one mark to make, in words and figures.
type Mark struct {
	No      int
	Section int    // which section it belongs to
	Key     string // tells it from other marks when the draft is made again
	What    string // "mark", "curve"
	Name    string // "front side at the hip"
	Figure  string // "11", to be read at arm's length; "" when nothing is measured
	Unit    string
	How     string // "square out to the side"
	Then    string // a second measure: "9⅜ in down"
	From    string // "from hip line at the centre front"
	Because string
	// Points are for a curve: how far along the straight line, how far off.
	Points []Point
	Corner string // the diagonal at the corner
	Of     chalk.Mark
}

// Point is one place on a curve.
type Point struct{ Along, Off, Side string }

// Section is the marks of one piece.
type Section struct {
	Title, Piece, Note string
	First, Count       int // index of its first mark, how many
}

// Guide is the whole guide as shown.
type Guide struct {
	Sections []Section
	Marks    []Mark
}

// Read puts the guide in words.
func Read(sections []chalk.Section, f unit.Format) Guide {
	var g Guide
	for i, s := range sections {
		g.Sections = append(g.Sections, Section{s.Title, s.Piece, s.Note, len(g.Marks), len(s.Marks)})
		for _, m := range s.Marks {
			g.Marks = append(g.Marks, mark(m, i, s.Piece, f))
		}
	}
	return g
}

func mark(m chalk.Mark, section int, piece string, f unit.Format) Mark {
	out := Mark{
		No: m.No, Section: section, Key: strings.Join([]string{piece, m.Kind.String(), m.Name, m.Step}, "/"),
		What: m.Kind.String(), Name: m.Name, How: m.Way, Because: m.Because, Of: m,
	}
	if m.Measure != 0 {
		out.Figure, out.Unit = f.Bare(m.Measure), f.System.String()
	}
	if m.From != "" {
		out.From = "from " + m.From
	}
	if m.To != "" {
		out.From += " to " + m.To
	}
	if m.ThenWay != "" {
		out.Then = f.Text(m.Then) + " " + m.ThenWay
	}
	for _, o := range m.Ordinates {
		p := Point{Along: f.Bare(o.Along), Off: f.Bare(o.Off), Side: o.Side}
		if o.Side == "" || f.Round(o.Off) == 0 {
			p.Off, p.Side = "0", "on the line"
		}
		out.Points = append(out.Points, p)
	}
	if len(out.Points) > 0 {
		out.How = "straight between its ends"
	}
	if m.Corner > 0 {
		out.Corner = f.Text(m.Corner)
	}
	return out
}

// Find returns the index of the mark with that key; the first mark when there
// is none.
func (g Guide) Find(key string) int {
	for i, m := range g.Marks {
		if m.Key == key {
			return i
		}
	}
	return 0
}

// Place says where in the guide a mark is: "11 of 96".
func (g Guide) Place(i int) string {
	return strconv.Itoa(i+1) + " of " + strconv.Itoa(len(g.Marks))
}
