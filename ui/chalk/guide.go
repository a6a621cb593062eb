package chalk

import (
	"strconv"
	"strings"

	"chalkfold/draft/chalk"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Mark is one mark to make, in words and figures.
type Mark struct {
	No      int
	Section int    // which section it belongs to
	Key     string // tells it from other marks when the draft is made again, in whatever language
	What    string // "mark", "curve"
	Name    string // "front side at the hip"
	Figure  string // "11", to be read at arm's length; "" when nothing is measured
	Unit    string
	How     string // "square out to the side"
	Then    string // a second measure: "9⅜" ...
	ThenHow string // ... "down"; "" when there is none
	From    string // "from hip line at the centre front"
	Because string
	// Points are for a curve: how far along the straight line, how far off.
	Points []Point
	Corner string // the diagonal at the corner
	Of     chalk.Mark
	// Held is where the tape is held, when that is a place on the piece.
	Held    geom.Pt
	HasHeld bool
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

// Read puts the guide in words, those of f.
func Read(sections []chalk.Section, f unit.Format) Guide {
	var g Guide
	times := map[string]int{}      // that a key was given
	places := map[string]geom.Pt{} // of the marks made so far, where they came to stand
	for i, s := range sections {
		g.Sections = append(g.Sections, Section{s.Title, s.Piece, s.Note, len(g.Marks), len(s.Marks)})
		last := ""
		for _, m := range s.Marks {
			out := mark(m, i, f)
			key := strings.Join([]string{s.Piece, m.Kind.String(), m.Step + m.Of}, "/")
			if times[key]++; times[key] > 1 {
				key += "/" + strconv.Itoa(times[key])
			}
			out.Key = key
			out.Held, out.HasHeld = places[m.From]
			switch m.Kind {
			case chalk.Point:
				if !out.HasHeld && m.ThenWay != "" { // from the corner of the box
					out.Held, out.HasHeld = geom.Pt{X: m.At.X - m.Measure.MM(), Y: m.At.Y - m.Then.MM()}, true
				}
				last = m.Name
				places[last] = m.At
			case chalk.Move:
				out.Held, out.HasHeld = places[last], true
				places[last] = m.At
			case chalk.Line, chalk.Curve, chalk.Notch, chalk.Allow:
			}
			g.Marks = append(g.Marks, out)
		}
	}
	return g
}

func mark(m chalk.Mark, section int, f unit.Format) Mark {
	w := f.Words
	out := Mark{
		No: m.No, Section: section,
		What: w.T(m.Kind.String()), Name: m.Name, How: m.Way, Because: m.Because, Of: m,
	}
	if m.Measure != 0 {
		out.Figure, out.Unit = f.Bare(m.Measure), f.System.In(w)
	}
	switch {
	case m.From != "" && m.To != "":
		out.From = w.F("from %s to %s", m.From, m.To)
	case m.From != "":
		out.From = w.F("from %s", m.From)
	}
	if m.ThenWay != "" {
		out.Then, out.ThenHow = f.Bare(m.Then), m.ThenWay
	}
	for _, o := range m.Ordinates {
		p := Point{Along: f.Bare(o.Along), Off: f.Bare(o.Off), Side: o.Side}
		if o.Side == "" || f.Round(o.Off) == 0 {
			p.Off, p.Side = "0", w.T("on the line")
		}
		out.Points = append(out.Points, p)
	}
	if len(out.Points) > 0 {
		out.How = w.T("straight between its ends")
	}
	if m.Corner > 0 {
		out.Corner = w.F("From the corner, %s, straight to the curve: %s", m.CornerAt, f.Text(m.Corner))
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
