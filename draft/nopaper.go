package draft

import (
	"io"
	"strconv"
	"strings"

	"chalkfold/draft/chalk"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet/strip"
	"chalkfold/draft/unit"
)

// Message is a chalk guide (see Chalk, ChalkOnCards) as plain text to send:
// short lines with no layout, so that no chat breaks it. It names no client and
// tells no measurement but those that the marks are made of.
func Message(r *Result, sections []chalk.Section) string {
	g := spoken{r.Format.Words, r.Format}
	var b strings.Builder
	b.WriteString(g.F("%s: chalk guide", Title(r)) + "\n")
	for _, s := range chalk.Compact(sections, r.Pieces, r.Format) {
		b.WriteString("\n" + strings.ToUpper(s.Title) + "\n")
		if s.Note != "" {
			b.WriteString(s.Note + "\n")
		}
		for _, m := range s.Marks {
			b.WriteString(strconv.Itoa(m.No) + ". " + g.name(m) + "\n")
			for _, line := range g.how(m) {
				b.WriteString(line + "\n")
			}
			if sum := g.sum(m); sum != "" {
				b.WriteString("(" + sum + ")\n")
			}
		}
	}
	return b.String()
}

// Strip writes a chalk guide as a picture for a receipt printer (see package
// strip), the figures large enough to be read at arm's length, with their sums.
// font is the font of PDFs.
func Strip(w io.Writer, font []byte, r *Result, sections []chalk.Section) error {
	g := spoken{r.Format.Words, r.Format}
	lines := []strip.Line{{Weight: strip.Heading, S: Title(r)}}
	add := func(weight strip.Weight, s string) {
		if s != "" {
			lines = append(lines, strip.Line{Weight: weight, S: s})
		}
	}
	for _, s := range chalk.Compact(sections, r.Pieces, r.Format) {
		lines = append(lines, strip.Line{Weight: strip.Rule})
		add(strip.Heading, s.Title)
		add(strip.Small, s.Note)
		for _, m := range s.Marks {
			lines = append(lines, strip.Line{Weight: strip.Rule})
			add(strip.Text, strconv.Itoa(m.No)+"  "+g.name(m))
			figure := strip.Line{Weight: strip.Text, S: g.held(m)}
			if m.Measure != 0 {
				figure = strip.Line{Weight: strip.Figure, S: g.f.Text(m.Measure), Then: g.held(m)}
			}
			lines = append(lines, figure)
			if m.ThenWay != "" {
				lines = append(lines, strip.Line{Weight: strip.Figure, S: g.f.Text(m.Then), Then: m.ThenWay})
			}
			for i, o := range m.Ordinates {
				lines = append(lines, strip.Line{Weight: strip.Text, S: g.ordinate(o), Beside: i > 0})
			}
			add(strip.Text, g.corner(m))
			add(strip.Small, g.sum(m))
		}
	}
	return strip.Write(w, font, lines)
}

// spoken puts marks in words.
type spoken struct {
	*say.Words
	f unit.Format
}

// name is what is marked, with its letter on the curve cards.
func (g spoken) name(m chalk.Mark) string {
	if m.Letter != "" {
		return g.F("(%s) %s", m.Letter, m.Name)
	}
	return m.Name
}

// how is what the hand does, in lines.
func (g spoken) how(m chalk.Mark) []string {
	var out []string
	add := func(s string) {
		if s != "" {
			out = append(out, s)
		}
	}
	way := m.Way
	if m.Measure != 0 {
		way = strings.TrimSpace(g.f.Text(m.Measure) + " " + way)
	}
	if m.ThenWay != "" {
		way = g.F("%s, then %s %s", way, g.f.Text(m.Then), m.ThenWay)
	}
	add(way)
	add(g.from(m))
	for _, o := range m.Ordinates {
		add(g.ordinate(o))
	}
	add(g.corner(m))
	return out
}

// from is where the tape is held.
func (g spoken) from(m chalk.Mark) string {
	switch {
	case m.From != "" && m.To != "":
		return g.F("from %s to %s", m.From, m.To)
	case m.From != "":
		return g.F("from %s", m.From)
	}
	return ""
}

// held is which way the tape runs, and from where.
func (g spoken) held(m chalk.Mark) string {
	if from := g.from(m); from != "" && m.Way != "" {
		return g.F("%s, %s", m.Way, from)
	}
	return m.Way + g.from(m)
}

// ordinate is a place of a curve: how far along, how far off.
func (g spoken) ordinate(o chalk.Ordinate) string {
	if o.Side == "" || g.f.Round(o.Off) == 0 {
		return g.F("at %s, %s", g.f.Bare(o.Along), g.T("on the line"))
	}
	return g.F("at %s, %s", g.f.Bare(o.Along), g.f.Bare(o.Off)+" "+o.Side)
}

func (g spoken) corner(m chalk.Mark) string {
	if m.Corner == 0 {
		return ""
	}
	return g.F("from %s straight to the curve, %s", m.CornerAt, g.f.Text(m.Corner))
}

// sum is how a figure comes about; a reason that is no sum is left out.
func (g spoken) sum(m chalk.Mark) string {
	if strings.Contains(m.Because, " = ") || strings.Contains(m.Because, " ≈ ") {
		return m.Because
	}
	return ""
}
