package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// alike takes addresses as a browser writes them apart and together, with the
// package of the slim copy and with net/url, and tells where they differ.
const alike = `package main

import (
	"errors"
	"fmt"
	"net/url"

	slimerrors "slim/errors"
	slim "slim/url"
)

func main() {
	for _, s := range []string{
		"http://127.0.0.1:8765/", "http://127.0.0.1:8765/#tape", "https://shop.example/#cloth", "http://localhost",
		"https://shop.example/index.html?job=1&x=%20#chalk", "#bench", "/", "/#share=a:b/c", "", "https://shop.example?x#y",
		"mailto:ada@shop.example", "blob:http://127.0.0.1:8765/9b1c-4d", "HTTPS://shop.example/",
	} {
		a, err := url.Parse(s)
		b, slimErr := slim.Parse(s)
		if err != nil || slimErr != nil {
			fmt.Println(s, err, slimErr)
			continue
		}
		if got, want := fmt.Sprintf("%q", []string{b.Scheme, b.Opaque, b.Host, b.Path, b.RawQuery, b.Fragment, b.Hostname(), b.String()}),
			fmt.Sprintf("%q", []string{a.Scheme, a.Opaque, a.Host, a.Path, a.RawQuery, a.Fragment, a.Hostname(), a.String()}); got != want {
			fmt.Printf("%q: %s, net/url says %s\n", s, got, want)
		}
		a.Fragment, b.Fragment = "style", "style"
		a.Host, b.Host = "127.0.0.1:1", "127.0.0.1:1"
		if a.Opaque == "" && a.String() != b.String() {
			fmt.Printf("%q changed: %q, net/url says %q\n", s, b, a)
		}
	}

	cause := errors.New("no cloth")
	first := slimerrors.New("cutting failed").WithTag("piece", "fly")
	second := first.WithTag("mm", 3).Wrap(cause)
	_ = first.WithTag("mm", 4)
	if !errors.Is(second, cause) || second.Error() != "cutting failed piece=fly mm=3: no cloth" || first.Error() != "cutting failed piece=fly" {
		fmt.Println(first, second)
	}
}
`

func TestStandInsDoTheSame(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod": "module slim\n\ngo 1.26\n", "main.go": alike, "url/url.go": slimURL, "errors/errors.go": slimErrors,
	} {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("go", "run", ".")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOFLAGS=", "GOWORK=off")
	if out, err := cmd.CombinedOutput(); err != nil || strings.TrimSpace(string(out)) != "" {
		t.Errorf("%v\n%s", err, out)
	}
}
