package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// buildWasm compiles a program against the slim copy of the ui module into
// out. work is a scratch folder below root. The collector of memory is the one
// of before Go 1.26: the newer gains where there are many cores, and is 10 kB more.
func buildWasm(root, work, out, pkg string, cut bool) error {
	moduleDir, err := findUIModule(root)
	if err != nil {
		return err
	}
	slim := filepath.Join(work, "slim")
	if err := writeSlim(moduleDir, slim); err != nil {
		return err
	}
	modfile, err := writeModfile(root, work, slim)
	if err != nil {
		return err
	}
	args := []string{"build", "-modfile=" + modfile, "-trimpath", "-ldflags=-s -w", "-o", out}
	if cut {
		overlay, err := writeOverlay(root, work)
		if err != nil {
			return err
		}
		args = append(args, "-overlay="+overlay)
	}
	args = append(args, inlining()...)
	args = append(args, pkg)
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=-buildvcs=false", "GOWORK=off", "GOEXPERIMENT=nogreenteagc")
	cmd.Stdout, cmd.Stderr = os.Stderr, os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("go build %s: %w", pkg, err)
	}
	return nil
}

// inlining switches inlining off, and on again where it is worth most to a
// draft made again at every key. In kB of the pressed program, and ms of such a
// draft as measured under node:
//
//	off everywhere                                 -26 kB    13 ms
//	on for the sums of geometry and for maps         0 kB     8.6 ms
//	on for the other stages of the core as well    +17 kB     7.9 ms
//	on for the runtime and sorting as well         +85 kB     6 ms
func inlining() []string {
	flags := []string{"-gcflags=all=-l"}
	for _, hot := range []string{"chalkfold/draft/geom", "math", "math/bits", "internal/runtime/maps", "internal/runtime/math", "internal/runtime/sys"} {
		flags = append(flags, "-gcflags="+hot+"=")
	}
	return flags
}

func findUIModule(root string) (string, error) {
	cmd := exec.Command("go", "mod", "download", "-json", uiModule)
	cmd.Dir = root
	cmd.Stderr = os.Stderr
	text, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go mod download %s: %w", uiModule, err)
	}
	var m struct{ Dir, Version string }
	if err := json.Unmarshal(text, &m); err != nil {
		return "", fmt.Errorf("go mod download %s: %w", uiModule, err)
	}
	if m.Version != uiVersion {
		return "", fmt.Errorf("go.mod asks for %s %s, the cuts in slim.go were read against %s: read them again", uiModule, m.Version, uiVersion)
	}
	if m.Dir == "" {
		return "", errors.New("the module cache does not hold " + uiModule)
	}
	return m.Dir, nil
}

// writeModfile writes a go.mod that is the project's own, but with the ui
// module replaced by its slim copy. (An overlay cannot do it: go build refuses
// to lay anything over the module cache.)
func writeModfile(root, work, slim string) (string, error) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return "", err
	}
	sum, err := os.ReadFile(filepath.Join(root, "go.sum"))
	if err != nil {
		return "", err
	}
	rel, err := filepath.Rel(root, slim)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.Write(mod)
	fmt.Fprintf(&b, "\nreplace %s => ./%s\n", uiModule, filepath.ToSlash(rel))
	modfile := filepath.Join(work, "go.mod")
	if err := os.WriteFile(filepath.Join(work, "go.sum"), sum, 0o644); err != nil {
		return "", err
	}
	return modfile, os.WriteFile(modfile, []byte(b.String()), 0o644)
}
