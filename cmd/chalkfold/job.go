package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/proof"
	"chalkfold/draft/say"
	"chalkfold/static/words"
)

// jobArg takes the one argument of a subcommand that works on a job.
func jobArg(flags *flag.FlagSet, args []string, errs io.Writer) (string, error) {
	rest, err := parse(flags, args)
	if err != nil {
		return "", err
	}
	return oneJob(flags, rest, errs)
}

// oneJob takes the one argument left when the flags are read.
func oneJob(flags *flag.FlagSet, rest []string, errs io.Writer) (string, error) {
	switch {
	case len(rest) == 0:
		return "", noJob(flags, errs)
	case len(rest) > 1:
		return "", usageError(flags, errs, "one job at a time, got %q", rest)
	}
	return rest[0], nil
}

func noJob(flags *flag.FlagSet, errs io.Writer) error {
	return usageError(flags, errs, "no job given: name a job file, or - for standard input")
}

// languageFlag asks in which language a job is told.
func languageFlag(flags *flag.FlagSet) *string {
	var tags []string
	for _, l := range say.Offered() {
		tags = append(tags, l.ID)
	}
	return flags.String("language", say.English().ID, "`tag` of the language to tell it in: "+strings.Join(tags, ", "))
}

// openJob reads and drafts a job, told in a language. It has said what was wrong, key by key, when
// it returns errUsage; that no draft can be made of it is an *garment.Impossible.
func openJob(command, file, language string, errs io.Writer) (*draft.Result, error) {
	w, err := words.Of(language)
	if err != nil {
		return nil, refusal(errs, command, fmt.Errorf("-language: %w", err))
	}
	in, err := openInput(file)
	if err != nil {
		return nil, refusal(errs, command, err)
	}
	defer in.Close()
	j, err := job.Decode(in)
	if err != nil {
		return nil, badJob(command, file, err, w, errs)
	}
	r, err := (&draft.Maker{Words: w}).Make(j)
	if err != nil {
		return nil, badJob(command, file, err, w, errs)
	}
	return r, nil
}

// openJobs is openJob for one job, or for several that are laid together on the cloths
// of the first. What of them is kept in its place on the cloth of one is laid anew.
func openJobs(command string, files []string, language string, errs io.Writer) (*draft.Result, error) {
	var parts []draft.Part
	for i, file := range files {
		r, err := openJob(command, file, language, errs)
		if err != nil {
			return nil, err
		}
		if len(files) == 1 {
			return r, nil
		}
		parts = append(parts, draft.Part{Key: strconv.Itoa(i + 1), Result: r})
	}
	on := parts[0].Job.Clone()
	on.Name = ""
	for i := range on.Cloth {
		on.Cloth[i].Kept = nil
	}
	return draft.Join(on, parts, parts[0].Format.Words), nil
}

// badJob says each problem of a job on a line of its own; other errors it
// hands on.
func badJob(command, file string, err error, w *say.Words, errs io.Writer) error {
	var bad *job.Bad
	if !errors.As(err, &bad) {
		return err
	}
	if file == "-" {
		file = w.T("the job")
	}
	for _, p := range bad.Problems {
		fmt.Fprintf(errs, "chalkfold %s: %s: %s\n", command, file, p.In(w))
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
		fmt.Fprintf(errs, "chalkfold %s: %s\n", command, r.Format.Words.F("do not cut yet: %s: %s; %s", f.Name, f.Say, f.Mend))
	}
	return errStopped
}
