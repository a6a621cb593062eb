package main

import (
	"context"
	"errors"
	"io"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	taught "chalkfold/draft/lesson"
	"chalkfold/draft/say"
)

// runLesson prints the questions of a lesson on a job, as the page asks them: for the
// table where there is no phone, or for whoever marks.
func runLesson(_ context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("lesson", "JOB [-blank] [-language TAG]", "Ask a draft number by number, with the sums and answers; JOB is a job file, or - for standard input.", errs)
	blank := flags.Bool("blank", false, "leave the sums and answers open, to be filled in")
	language := languageFlag(flags)
	file, err := jobArg(flags, args, errs)
	if errors.Is(err, errHelp) {
		return nil
	}
	if err != nil {
		return err
	}
	r, err := openJob("lesson", file, *language, errs)
	if err != nil {
		return err
	}
	p := prose{r.Format.Words, out}
	lesson{p, r}.title()
	l := taught.Of(r.Record, r.Format)
	for i, n := l.Next(0), 1; i < l.Steps(); i, n = l.Next(i+1), n+1 {
		writeQuestion(p, r, l, i, n, *blank)
	}
	return nil
}

// writeQuestion prints the question of a step, the nth, and, unless it is left blank, the
// sum that answers it.
func writeQuestion(p prose, r *draft.Result, l *taught.Lesson, step, n int, blank bool) {
	q := l.Question(step)
	p.line(0, "")
	p.line(5, "%3d  %s", n, asked(p.Words, q.Step))
	const open = "______"
	for _, g := range q.Given {
		if blank && g.Source == "" {
			g.Figure = open // it was asked for before
		}
		p.line(7, "     %s", p.F("%s: %s", g.Label, g.Figure))
	}
	if blank {
		p.line(5, "     = %s", open)
		return
	}
	p.line(7, "     %s", r.Record.Because(q.Step.Name, r.Format))
}

// asked is what a step asks for.
func asked(w *say.Words, s construct.Step) string {
	if s.Why == "" {
		return s.Label
	}
	return w.F("%s: %s", s.Label, s.Why)
}
