package main

import (
	"errors"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"chalkfold/wasm/browser"
)

func TestMain(m *testing.M) {
	testscript.Main(browser.Sharing{M: m}, map[string]func(){"chalkfold": main})
}

// The command line, by scripts: JOBS is the folder of example jobs, PACKING
// that of the packing problems, BODIES the survey.
func TestScripts(t *testing.T) {
	root, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir: filepath.Join(root, "script"),
		Setup: func(env *testscript.Env) error {
			env.Setenv("JOBS", filepath.Join(root, "jobs"))
			env.Setenv("PACKING", filepath.Join(root, "packing"))
			env.Setenv("BODIES", filepath.Join(root, "body", "ansur2_garment_columns.csv"))
			return nil
		},
		RequireExplicitExec: true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

// exits runs a command that must end with the status named first.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS COMMAND [ARGUMENT ...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var ended *exec.ExitError
		if !errors.As(err, &ended) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		got = ended.ExitCode()
	}
	if got != want {
		ts.Fatalf("%q ends with status %d, want %d", args[1:], got, want)
	}
}
