package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
)

// newFlags is the flag set of a subcommand; usage is what stands after its
// name, and explain one line on what it does.
func newFlags(name, usage, explain string, errs io.Writer) *flag.FlagSet {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.Usage = func() {
		fmt.Fprintf(errs, "usage: chalkfold %s %s\n%s\n", name, usage, explain)
		flags.PrintDefaults()
	}
	return flags
}

// errHelp says that help was asked for and given.
var errHelp = errors.New("help given")

// parse reads flags that may stand before, between or after the arguments, and
// returns the arguments. It has said what was wrong when it returns errUsage.
func parse(flags *flag.FlagSet, args []string) ([]string, error) {
	var rest []string
	for {
		switch err := flags.Parse(args); {
		case errors.Is(err, flag.ErrHelp):
			return nil, errHelp
		case err != nil:
			return nil, errUsage
		}
		if flags.NArg() == 0 {
			return rest, nil
		}
		left := flags.Args()
		if len(left) < len(args) && args[len(args)-len(left)-1] == "--" {
			return append(rest, left...), nil
		}
		rest, args = append(rest, left[0]), left[1:]
	}
}

// usageError says what is wrong with the arguments of a subcommand.
func usageError(flags *flag.FlagSet, errs io.Writer, format string, args ...any) error {
	fmt.Fprintf(errs, "chalkfold %s: %s; see `chalkfold %s -h`\n", flags.Name(), fmt.Sprintf(format, args...), flags.Name())
	return errUsage
}
