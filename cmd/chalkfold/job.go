package main

import (
	"errors"
	"flag"
	"fmt"
	"io"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/proof"
)

// jobArg takes the one argument of a subcommand that works on a job.
func jobArg(flags *flag.FlagSet, args []string, errs io.Writer) (string, error) {
	rest, err := parse(flags, args)
	switch {
	case err != nil:
		return "", err
	case len(rest) == 0:
		return "", usageError(flags, errs, "no job given: name a job file, or - for standard input")
	case len(rest) > 1:
		return "", usageError(flags, errs, "one job at a time, got %q", rest)
	}
	return rest[0], nil
}

// openJob reads and drafts a job. It has said what was wrong, key by key, when
// it returns errUsage; that no draft can be made of it is an *garment.Impossible.
func openJob(command, file string, errs io.Writer) (*draft.Result, error) {
	in, err := openInput(file)
	if err != nil {
		return nil, refusal(errs, command, err)
	}
	defer in.Close()
	j, err := job.Decode(in)
	if err != nil {
		return nil, badJob(command, file, err, errs)
	}
	r, err := draft.Make(j)
	if err != nil {
		return nil, badJob(command, file, err, errs)
	}
	return r, nil
}

// badJob says each problem of a job on a line of its own; other errors it
// hands on.
func badJob(command, file string, err error, errs io.Writer) error {
	var bad *job.Bad
	if !errors.As(err, &bad) {
		return err
	}
	if file == "-" {
		file = "the job"
	}
	for _, p := range bad.Problems {
		fmt.Fprintf(errs, "chalkfold %s: %s: %v\n", command, file, p)
	}
	return errUsage
}

// impossible is err as a reason why no draft can be made.
func impossible(err error) (*garment.Impossible, bool) {
	var no *garment.Impossible
	ok := errors.As(err, &no)
	return no, ok
}

// warnStopped says on errs that a draft must not be cut, and returns
// errStopped; it does nothing for a draft that may be.
func warnStopped(command string, r *draft.Result, errs io.Writer) error {
	stops := r.Report.At(proof.Stops)
	if len(stops) == 0 {
		return nil
	}
	for _, f := range stops {
		fmt.Fprintf(errs, "chalkfold %s: do not cut yet: %s: %s; %s\n", command, f.Name, f.Say, f.Mend)
	}
	return errStopped
}
