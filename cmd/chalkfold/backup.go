package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"

	"chalkfold/sync/ledger/sqlite"
)

// storeFlags reads the flags of a command that works on a store: both files must
// be named.
func storeFlags(name, other, usage string, args []string, errs io.Writer) (store, file string, err error) {
	flags := flag.NewFlagSet("chalkfold "+name, flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.StringVar(&store, "store", "", "the `file` that serve keeps copies in")
	flags.StringVar(&file, other, "", usage)
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return "", "", err
		}
		return "", "", errUsage
	}
	if store == "" || file == "" || flags.NArg() > 0 {
		fmt.Fprintf(errs, "chalkfold %s needs -store and -%s, and nothing else\n", name, other)
		return "", "", errUsage
	}
	return store, file, nil
}

// runBackup writes a backup of a store, which may be served meanwhile.
func runBackup(ctx context.Context, args []string, out, errs io.Writer) error {
	store, to, err := storeFlags("backup", "to", "the `file` to write; it must not be there yet", args, errs)
	if errors.Is(err, flag.ErrHelp) {
		return nil
	} else if err != nil {
		return err
	}
	if err := sqlite.There(store); err != nil {
		return err
	}
	db, err := sqlite.Open(ctx, store)
	if err != nil {
		return err
	}
	if err := errors.Join(db.Backup(ctx, to), db.Close()); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s is written, and was looked through.\n", to)
	return nil
}

// runRestore puts a backup in the place of a store.
func runRestore(ctx context.Context, args []string, out, errs io.Writer) error {
	store, from, err := storeFlags("restore", "from", "the backup `file`", args, errs)
	if errors.Is(err, flag.ErrHelp) {
		return nil
	} else if err != nil {
		return err
	}
	kept, err := sqlite.Restore(ctx, from, store, clock())
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s is what %s holds. Phones send what it lacks when they next come.\n", store, from)
	if kept != "" {
		fmt.Fprintf(out, "What was there before is kept in %s.\n", kept)
	}
	return nil
}
