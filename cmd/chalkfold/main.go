// Chalkfold is the one binary: it serves the page with everything embedded,
// and works the drafting core from the command line.
//
//	chalkfold serve          # the page, on this machine only
//	chalkfold help           # what else there is
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
)

// A command is one subcommand; each lives in a file of its own. run gets the
// arguments after the name. It writes what was asked for to out and remarks to
// errs, and returns the exit status through its error: nil is 0, errStopped 1,
// errUsage 2, any other is printed and 1.
type command struct {
	name    string
	summary string // one line, shown by help
	run     func(ctx context.Context, args []string, out, errs io.Writer) error
}

// commands is the table of what the binary can do, in the order of help.
func commands() []command {
	return []command{
		{"draft", "draft a job and prove it: sums, pieces, findings", runDraft},
		{"lesson", "ask a draft number by number: questions, sums, answers", runLesson},
		{"chalk", "guide the hand: every mark in order, from where and why", runChalk},
		{"lay", "lay the pieces of a job on its cloth", runLay},
		{"print", "write the pieces of a job as sheets, true to scale", runPrint},
		{"prove", "draft for every body of a survey and count what the proofs say", runProve},
		{"serve", "serve the page, and keep second copies of workshops", runServe},
		{"backup", "copy the store of second copies, while it is served", runBackup},
		{"restore", "put a backup in the place of a store that is not served", runRestore},
	}
}

var (
	errUsage   = errors.New("usage")   // said already; exit status 2
	errStopped = errors.New("stopped") // a finding stops the cut; said already; exit status 1
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	status := dispatch(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// dispatch runs the subcommand named first in args and returns the exit status.
func dispatch(ctx context.Context, args []string, out, errs io.Writer) int {
	if len(args) == 0 {
		help(errs)
		return 2
	}
	if args[0] == "help" || args[0] == "-h" || args[0] == "-help" || args[0] == "--help" {
		help(out)
		return 0
	}
	for _, c := range commands() {
		if c.name != args[0] {
			continue
		}
		switch err := c.run(ctx, args[1:], out, errs); {
		case err == nil:
			return 0
		case errors.Is(err, errUsage):
			return 2
		case errors.Is(err, errStopped):
			return 1
		default:
			fmt.Fprintf(errs, "chalkfold %s: %v\n", c.name, err)
			return 1
		}
	}
	fmt.Fprintf(errs, "chalkfold: there is no %q; see `chalkfold help`\n", args[0])
	return 2
}

func help(w io.Writer) {
	fmt.Fprintln(w, "usage: chalkfold COMMAND [flags] [arguments]")
	for _, c := range commands() {
		fmt.Fprintf(w, "  %-8s %s\n", c.name, c.summary)
	}
	fmt.Fprintln(w, "`chalkfold COMMAND -h` shows the flags of one.")
}
