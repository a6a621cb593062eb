package draft

import (
	"strings"

	"chalkfold/draft/lesson"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// MarkSheets is what a student's way through a lesson came to, on as few pages of
// that paper as it fits on. Figures are those of f's tape.
func MarkSheets(title string, s lesson.Sitting, paper sheet.Paper, f unit.Format) []sheet.Drawing {
	w := f.Words
	m := s.Marks(w)
	var rows []sheet.BillRow
	for _, r := range m.Rows {
		rows = append(rows, sheet.BillRow{Name: r.Label, Sum: w.F("%s (%s)", r.Hers, r.Said), Amount: r.Is, Strong: !r.Right})
	}
	for pages := 1; ; pages++ {
		var out []sheet.Drawing
		each := (len(rows) + pages - 1) / pages
		for rest := rows; len(out) < pages; {
			n := min(each, len(rest))
			page := sheet.Bill{Head: marksHead(title, s, m, f), Rows: append([]sheet.BillRow{
				{Strong: true, Name: w.T("asked"), Sum: w.T("answered"), Amount: w.T("right")}, {Break: true},
			}, rest[:n]...)}
			rest = rest[n:]
			d, ok := page.Draw(paper)
			if !ok && n > 1 {
				break
			}
			out = append(out, d)
		}
		if len(out) == pages {
			return out
		}
	}
}

func marksHead(title string, s lesson.Sitting, m lesson.Marks, f unit.Format) []string {
	w := f.Words
	head := []string{w.F("Marks: %s", title)}
	if s.Student != "" {
		head = append(head, s.Student)
	}
	tape := w.T("Lengths are in inches.")
	if f.System.Metric() {
		tape = w.T("Lengths are in centimetres.")
	}
	return append(head, m.Say(w), tape)
}

// MarksMessage is the same as a text to send.
func MarksMessage(title string, s lesson.Sitting, f unit.Format) string {
	m := s.Marks(f.Words)
	var b strings.Builder
	b.WriteString(strings.Join(marksHead(title, s, m, f), "\n") + "\n")
	for _, r := range m.Rows {
		b.WriteString("\n" + r.Sign() + " " + f.Words.F("%s: %s; right: %s (%s)", r.Label, r.Hers, r.Is, r.Said))
	}
	return b.String() + "\n"
}
