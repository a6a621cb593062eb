package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/chalk"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// runChalk prints the guide for chalking a job straight onto the cloth.
func runChalk(_ context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("chalk", "JOB [-cards [-paper a4]] [-json] [-language TAG]\n   or: chalkfold chalk JOB... -lay [-cloth N] [-json] [-language TAG]", "Guide the hand: every mark in order, from which edge, how far, and why.", errs)
	asJSON := flags.Bool("json", false, "print the marks as JSON")
	language := languageFlag(flags)
	onLay := flags.Bool("lay", false, "say where each piece is chalked on the cloth instead, of one job or of several laid together")
	cloth := flags.Int("cloth", 1, "which `cloth` of the job that is, from 1")
	cards := flags.Bool("cards", false, "lay curve cards (print -form cards) instead of measuring the curves out")
	on := flags.String("paper", "a4", "`paper` of the cards: "+strings.Join(paperNames(), ", "))
	rest, err := parse(flags, args)
	if errors.Is(err, errHelp) {
		return nil
	}
	if err == nil && (!*onLay || len(rest) < 2) {
		_, err = oneJob(flags, rest, errs)
	}
	if err != nil {
		return err
	}
	paper, known := sheet.PaperNamed(*on)
	if !known {
		return usageError(flags, errs, "-paper %s: take one of %s", *on, strings.Join(paperNames(), ", "))
	}
	r, err := openJobs("chalk", rest, *language, errs)
	if err != nil {
		return err
	}
	if *onLay {
		return runChalkLay(rest[0], r, *cloth-1, *asJSON, out, errs)
	}
	sections := draft.Chalk(r)
	if *cards {
		sections = draft.ChalkOnCards(r, paper)
	}
	if *asJSON {
		err = writeJSON(out, chalkJSON(sections, r.Format))
	} else {
		err = writeChalk(out, r, sections)
	}
	if err != nil {
		return err
	}
	return warnStopped("chalk", r, errs)
}

type sectionJSON struct {
	Title string     `json:"title"`
	Piece string     `json:"piece"`
	Note  string     `json:"note,omitempty"`
	Marks []markJSON `json:"marks"`
}

type markJSON struct {
	No        int            `json:"no"`
	Kind      string         `json:"kind"`
	Name      string         `json:"name"`
	From      string         `json:"from"`
	To        string         `json:"to,omitempty"`
	Measure   string         `json:"measure"`
	MeasureMM float64        `json:"measure_mm"`
	Way       string         `json:"way"`
	Then      *float64       `json:"then_mm,omitempty"` // a second measure, from where the first ends
	ThenWay   string         `json:"then_way,omitempty"`
	Because   string         `json:"because"`
	Step      string         `json:"step,omitempty"`
	At        [2]float64     `json:"at_mm"`
	Ordinates []ordinateJSON `json:"ordinates,omitempty"`
	Corner    float64        `json:"corner_mm,omitempty"` // the diagonal from corner_at to the curve
	CornerAt  string         `json:"corner_at,omitempty"`
	Card      int            `json:"card,omitempty"`   // that draws the curve
	Letter    string         `json:"letter,omitempty"` // on the cards
	Length    float64        `json:"length_mm,omitempty"`
}

type ordinateJSON struct {
	Along   string  `json:"along"`
	Off     string  `json:"off"`
	AlongMM float64 `json:"along_mm"`
	OffMM   float64 `json:"off_mm"`
	Side    string  `json:"side,omitempty"`
}

func chalkJSON(all []chalk.Section, f unit.Format) any {
	sections := []sectionJSON{}
	for _, s := range all {
		j := sectionJSON{s.Title, s.Piece, s.Note, []markJSON{}}
		for _, m := range s.Marks {
			k := markJSON{
				No: m.No, Kind: m.Kind.String(), Name: m.Name, From: m.From, To: m.To, Measure: f.Text(m.Measure), MeasureMM: mm(m.Measure),
				Way: m.Way, Because: m.Because, Step: m.Step, At: xy(m.At), Corner: mm(m.Corner), CornerAt: m.CornerAt, Length: mm(m.Length), Card: m.Card, Letter: m.Letter,
			}
			if m.ThenWay != "" {
				then := mm(m.Then)
				k.Then, k.ThenWay = &then, m.ThenWay
			}
			for _, o := range m.Ordinates {
				k.Ordinates = append(k.Ordinates, ordinateJSON{f.Text(o.Along), f.Text(o.Off), mm(o.Along), mm(o.Off), o.Side})
			}
			j.Marks = append(j.Marks, k)
		}
		sections = append(sections, j)
	}
	return map[string]any{"sections": sections}
}

func writeChalk(w io.Writer, r *draft.Result, sections []chalk.Section) error {
	var b strings.Builder
	p := prose{r.Format.Words, &b}
	p.line(0, "%s", p.F("%s: chalk guide", draft.Title(r)))
	for _, s := range sections {
		p.heading(s.Title)
		if s.Note != "" {
			p.line(2, "  %s", s.Note)
		}
		for _, m := range s.Marks {
			chalkMark(p, m, r.Format)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// chalkMark prints one mark: what, from where, how far which way, and why.
func chalkMark(p prose, m chalk.Mark, f unit.Format) {
	const hang = 6
	no := fmt.Sprintf("%4d. ", m.No)
	tape := f.Text(m.Measure)
	if m.Measure == 0 && m.ThenWay == "" {
		tape = ""
	}
	words := strings.Join(strings.Fields(tape+" "+m.Way), " ")
	from := ""
	if m.From != "" {
		from = p.F("from %s", m.From)
	}
	if m.To != "" {
		from = p.F("from %s to %s", m.From, m.To)
	}
	if m.ThenWay != "" {
		words = p.F("%s, then %s %s", words, f.Text(m.Then), m.ThenWay)
	}
	name := m.Name
	if m.Letter != "" {
		name = p.F("(%s) %s", m.Letter, name)
	}
	p.line(hang, "%s%s", no, p.sentence(name, strings.TrimSpace(from), words))
	if len(m.Ordinates) > 0 {
		var at []string
		for _, o := range m.Ordinates {
			off := p.T("on the line")
			if o.Side != "" && f.Round(o.Off) != 0 {
				off = f.Bare(o.Off) + " " + o.Side
			}
			at = append(at, p.F("at %s, %s", f.Bare(o.Along), off))
		}
		if m.Corner > 0 {
			at = append(at, p.F("from %s straight to the curve, %s", m.CornerAt, f.Text(m.Corner)))
		}
		p.line(hang+2, "      %s", p.F("curve: %s", p.list(at)))
	}
	switch {
	case strings.Contains(m.Because, " = ") || strings.Contains(m.Because, " ≈ "):
		p.line(hang+2, "      %s", p.F("because %s", m.Because))
	case m.Because != "":
		p.line(hang+2, "      %s", m.Because)
	}
}

// sentence puts what is marked, from where and how far together, leaving out
// what is not said.
func (p prose) sentence(name, from, how string) string {
	out := name
	for i, s := range []string{from, how} {
		switch {
		case s == "":
		case out == name && i < 2:
			out = p.F("%s: %s", out, s)
		default:
			out = p.F("%s, %s", out, s)
		}
	}
	return out
}
