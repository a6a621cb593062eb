package main

import (
	"encoding/json"
	"fmt"
	"go/version"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// noSettings stands in for the settings by which a program asks the standard
// library to behave as an older one did. They come from the environment, and a
// page has none; reading them, counting their use and searching by halves for
// the call that breaks is 23 kB of the pressed program.
const noSettings = `package godebug

type Setting struct{ name string }

func New(name string) *Setting { return &Setting{name} }

func (s *Setting) Name() string { return s.name }

func (s *Setting) Undocumented() bool { return false }

func (s *Setting) String() string { return s.name + "=" }

func (s *Setting) IncNonDefault() {}

func (s *Setting) Value() string { return "" }
`

// settingsFile is the file of the standard library that noSettings replaces. A
// library that asks for more of it does not compile against it.
const settingsFile = "src/internal/godebug/godebug.go"

// writeOverlay writes into work what go build lays over the standard library,
// and returns the name of the list. It refuses if the project asks for an older
// behaviour, since the program would not have it.
func writeOverlay(root, work string) (string, error) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return "", err
	}
	if err := refuseOlder(string(mod), runtime.Version()); err != nil {
		return "", err
	}
	goroot, err := findGoroot()
	if err != nil {
		return "", err
	}
	was := filepath.Join(goroot, filepath.FromSlash(settingsFile))
	if _, err := os.Stat(was); err != nil {
		return "", fmt.Errorf("the standard library has no %s any more: read overlay.go against it: %w", settingsFile, err)
	}
	now, err := filepath.Abs(filepath.Join(work, "godebug.go"))
	if err != nil {
		return "", err
	}
	if err := os.WriteFile(now, []byte(noSettings), 0o644); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {was: now}})
	if err != nil {
		return "", err
	}
	name, err := filepath.Abs(filepath.Join(work, "overlay.json"))
	if err != nil {
		return "", err
	}
	return name, os.WriteFile(name, list, 0o644)
}

// refuseOlder returns an error if a go.mod asks for another behaviour than that
// of the compiler: by the version it names, or by a godebug line.
func refuseOlder(mod, compiler string) error {
	asked := ""
	for line := range strings.Lines(mod) {
		fields := strings.Fields(line)
		switch {
		case len(fields) > 0 && fields[0] == "godebug":
			return fmt.Errorf("go.mod says %q, which the page's program would not heed: see overlay.go", strings.TrimSpace(line))
		case len(fields) == 2 && fields[0] == "go":
			asked = "go" + fields[1]
		}
	}
	if asked == "" || version.Lang(asked) != version.Lang(compiler) {
		return fmt.Errorf("go.mod asks for the behaviour of %q, the compiler is %s: let it ask for that", asked, compiler)
	}
	return nil
}
