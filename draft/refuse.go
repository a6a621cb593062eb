package draft

import (
	"errors"
	"fmt"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
)

func bad(p ...*job.Problem) error { return &job.Bad{Problems: p} }

// refuse gathers what the stages found wrong with what they were given as
// problems of the job, each at its key. It is nil when they found nothing.
func refuse(j job.Job, found ...error) error {
	var all []*job.Problem
	for _, err := range found {
		for _, e := range each(err) {
			all = append(all, problem(j, e))
		}
	}
	if len(all) == 0 {
		return nil
	}
	return bad(all...)
}

// each takes joined errors apart.
func each(err error) []error {
	if err == nil {
		return nil
	}
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []error{err}
	}
	var all []error
	for _, e := range joined.Unwrap() {
		all = append(all, each(e)...)
	}
	return all
}

// problem says at which key of the job a stage's error lies.
func problem(j job.Job, err error) *job.Problem {
	var (
		taking  *body.BadTaking
		missing *body.Missing
		rule    *rules.BadRule
		style   *garment.BadStyle
		truing  *garment.BadTruing
		alter   *garment.BadAlteration
	)
	switch {
	case errors.As(err, &taking):
		return &job.Problem{Path: "measurements." + string(taking.ID), Value: taking.Value.String(), Why: taking.Why, Err: err}
	case errors.As(err, &missing):
		return &job.Problem{Path: "measurements." + string(missing.ID), Why: missing.Why, Err: err}
	case errors.As(err, &rule):
		return &job.Problem{Path: "rules." + rule.Level.String() + "." + string(rule.ID), Value: rule.Value, Why: rule.Why, Err: err}
	case errors.As(err, &truing):
		return &job.Problem{Path: fmt.Sprintf("untrued[%d]", slices.Index(j.Untrued, truing.Name)), Value: truing.Name, Why: truing.Why, Err: err}
	case errors.As(err, &alter):
		return &job.Problem{Path: fmt.Sprintf("alterations[%d].%s", alter.At, alter.Field), Value: alter.Value, Why: alter.Why, Err: err}
	case errors.As(err, &style):
		return &job.Problem{Path: "style." + style.Option, Value: style.Value, Why: style.Why, Err: err}
	}
	return &job.Problem{Why: say.Of("%v", err), Err: err}
}
