package share

import (
	"strconv"
	"strings"

	"chalkfold/draft/say"
	"chalkfold/ui/chalk"
)

// Text is the chalk guide as a message: one line for each mark.
func Text(title string, g chalk.Guide, w *say.Words) string {
	var b strings.Builder
	b.WriteString(title + "\n" + w.T("Chalk guide") + "\n")
	for _, s := range g.Sections {
		b.WriteString("\n" + strings.ToUpper(s.Title) + "\n")
		if s.Note != "" {
			b.WriteString(s.Note + "\n")
		}
		for _, m := range g.Marks[s.First : s.First+s.Count] {
			b.WriteString(strconv.Itoa(m.No) + ". " + told(m, w) + "\n")
			for _, p := range m.Points {
				b.WriteString("   " + p.Along + " → " + p.Off + " " + p.Side + "\n")
			}
		}
	}
	return b.String()
}

// told is one mark: its name, what is measured, and from where.
func told(m chalk.Mark, w *say.Words) string {
	figure := m.Figure
	if figure != "" {
		figure += " " + m.Unit
	}
	how := words(figure, m.How, m.Then, m.From)
	if how == "" {
		return m.Name
	}
	return w.F("%s: %s", m.Name, how)
}

func words(parts ...string) string {
	var some []string
	for _, p := range parts {
		if p != "" {
			some = append(some, p)
		}
	}
	return strings.Join(some, ", ")
}
