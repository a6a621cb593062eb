package lesson

import (
	"slices"
	"strings"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

// Sitting is one student's way through a lesson. The zero Sitting has just
// begun.
type Sitting struct {
	Student string
	At      string // name of the step that she has come to; empty is the first
	Over    bool   // she wants no more
	Answers []Answer
}

// Answer is what she said to one question.
type Answer struct {
	Step  string // its name
	Label string // and its words, for when there is no such step any more
	Is    string // the right answer, as it was told
	Tries []string
	Right bool // the last of them is
	Shown bool // it was shown to her
}

// Place is the step that she has come to, by its number.
func (s *Sitting) Place(l *Lesson) int {
	for i, st := range l.r.Steps() {
		if st.Name == s.At {
			return i
		}
	}
	return 0
}

// Go goes to a step, held to those there are. Past the last one it is over.
func (s *Sitting) Go(l *Lesson, i int) {
	s.Over = i >= l.Steps()
	s.At = l.r.Steps()[min(max(i, 0), l.Steps()-1)].Name
}

// Answer is her answer to a step; the zero Answer where she gave none.
func (s *Sitting) Answer(l *Lesson, i int) Answer {
	name := l.r.Steps()[i].Name
	if k := slices.IndexFunc(s.Answers, func(a Answer) bool { return a.Step == name }); k >= 0 {
		return s.Answers[k]
	}
	return Answer{}
}

// Try marks an answer. Once it is right or was shown, no more count.
func (s *Sitting) Try(l *Lesson, i int, text string) (Reply, error) {
	reply, err := l.Check(i, text)
	if err == nil {
		s.change(l, i, func(a *Answer) { a.Tries, a.Right = append(slices.Clip(a.Tries), strings.TrimSpace(text)), reply.Right })
	}
	return reply, err
}

// Show marks that she was shown the answer.
func (s *Sitting) Show(l *Lesson, i int) { s.change(l, i, func(a *Answer) { a.Shown = true }) }

func (s *Sitting) change(l *Lesson, i int, do func(*Answer)) {
	a := s.Answer(l, i)
	if a.Right || a.Shown {
		return
	}
	st := l.r.Steps()[i]
	do(&a)
	a.Step, a.Label, a.Is = st.Name, st.Label, l.Right(i)
	s.Answers = append(slices.DeleteFunc(slices.Clone(s.Answers), func(o Answer) bool { return o.Step == a.Step }), a)
}

// Marks is what a sitting came to.
type Marks struct {
	First, Later, Shown int // right at once, after more tries, and shown
	Rows                []Row
}

// Row is one question: what was asked, what she said, what is right.
type Row struct {
	Label, Hers, Is string
	Right           bool // she found it herself
	Said            string
}

// Marks are told in w.
func (s *Sitting) Marks(w *say.Words) Marks {
	var m Marks
	for _, a := range s.Answers {
		row := Row{Label: a.Label, Hers: strings.Join(a.Tries, "; "), Is: a.Is, Right: a.Right}
		if row.Hers == "" {
			row.Hers = "–"
		}
		switch n := len(a.Tries); {
		case a.Right && n == 1:
			m.First++
			row.Said = w.T("at once")
		case a.Right:
			m.Later++
			row.Said = w.N(n, "%d try", "%d tries")
		case a.Shown:
			m.Shown++
			row.Said = w.T("shown")
		default:
			row.Said = w.T("not found yet")
		}
		m.Rows = append(m.Rows, row)
	}
	return m
}

// Say is the marks in one line.
func (m Marks) Say(w *say.Words) string {
	return w.F("%d of %d right at once, %d after more tries, %d shown.", m.First, len(m.Rows), m.Later, m.Shown)
}

// Sign stands before a row, for who cannot tell colours.
func (r Row) Sign() string {
	if r.Right {
		return "✓"
	}
	return "✕"
}

// Write writes a sitting as part of a record, after its other keys; see Read.
func (s *Sitting) Write(w *plain.Writer) {
	w.TextIf("student", s.Student)
	w.TextIf("at", s.At)
	w.TruthIf("over", s.Over)
	if len(s.Answers) == 0 {
		return
	}
	w.Key("answers").Open('[')
	for _, a := range s.Answers {
		w.Next().Open('{')
		w.Key("id").Text(a.Step)
		w.TextIf("label", a.Label)
		w.TextIf("is", a.Is)
		w.Key("tries").Open('[')
		for _, t := range a.Tries {
			w.Next().Text(t)
		}
		w.Shut(']')
		w.TruthIf("right", a.Right)
		w.TruthIf("shown", a.Shown)
		w.Shut('}')
	}
	w.Shut(']')
}

// Read reads one key of a sitting.
func (s *Sitting) Read(key string, r *plain.Reader) {
	switch key {
	case "student":
		s.Student = r.Text()
	case "at":
		s.At = r.Text()
	case "over":
		s.Over = r.Truth()
	case "answers":
		s.Answers = nil
		for range r.List() {
			s.Answers = append(s.Answers, readAnswer(r))
		}
	}
}

func readAnswer(r *plain.Reader) (a Answer) {
	for key := range r.Object() {
		switch key {
		case "id":
			a.Step = r.Text()
		case "label":
			a.Label = r.Text()
		case "is":
			a.Is = r.Text()
		case "tries":
			for range r.List() {
				a.Tries = append(a.Tries, r.Text())
			}
		case "right":
			a.Right = r.Truth()
		case "shown":
			a.Shown = r.Truth()
		}
	}
	return a
}

// Decode reads a sitting out of a record that has it among other keys.
func Decode(data []byte) (s Sitting, err error) {
	r := plain.Read(data)
	for key := range r.Object() {
		s.Read(key, r)
	}
	return s, r.End()
}
