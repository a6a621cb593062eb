package main

import (
	"context"
	"errors"
	"io"
)

// runDraft drafts a job and prints it, for the eye or as JSON.
func runDraft(_ context.Context, args []string, out, errs io.Writer) error {
	flags := newFlags("draft", "JOB [-json] [-language TAG]", "Draft a job and prove it; JOB is a job file, or - for standard input.", errs)
	asJSON := flags.Bool("json", false, "print everything as JSON")
	language := languageFlag(flags)
	file, err := jobArg(flags, args, errs)
	if errors.Is(err, errHelp) {
		return nil
	}
	if err != nil {
		return err
	}
	r, err := openJob("draft", file, *language, errs)
	if no, ok := impossible(err); ok && *asJSON {
		if err := writeJSON(out, impossibleJSON(no)); err != nil {
			return err
		}
		return errStopped
	}
	if err != nil {
		return err
	}
	if *asJSON {
		err = writeJSON(out, draftJSON(r))
	} else {
		err = writeLesson(out, r)
	}
	if err == nil && r.Report.Stopped() {
		return errStopped
	}
	return err
}
