package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// verified are requirements of the OWASP Application Security Verification Standard
// 5.0 and the tests that hold them. What each asks for is told from memory.
func verified() map[string][]string {
	return map[string][]string{
		"2.4.1 against automated asking":                 {"TestRate", "TestGuess", "TestFlight"},
		"availability: whoever sends or reads slowly":    {"TestDrip", "TestGone"},
		"3.4.1 Strict-Transport-Security":                {"TestWithoutStore"},
		"3.4.2 no other origin may read an answer":       {"TestRefused", "TestRefusesBadHints"},
		"3.4.3 a policy of content":                      {"TestPage"},
		"3.4.4 no guessing of types":                     {"TestPage", "TestServedCopies"},
		"3.4.5 nothing to the referrer":                  {"TestPage"},
		"3.4.6 in no frame":                              {"TestPage"},
		"7.2.3 tokens of 128 bits at least":              {"TestServedCopies"},
		"12.1.1 TLS of today alone":                      {"TestCertificates"},
		"14.2.1 nothing secret in an address":            {"TestServedCopies"},
		"14.3.2 nothing kept by caches":                  {"TestServedCopies"},
		"16.3.3 what was refused is in the log":          {"TestServedCopies"},
		"availability: a store that is damaged or newer": {"TestUnfit", "TestServeRefuses"},
	}
}

// TestVerified: the tests that are said to hold the requirements are there.
func TestVerified(t *testing.T) {
	there := map[string]bool{}
	err := filepath.WalkDir(filepath.Join("..", ".."), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && strings.HasPrefix(d.Name(), ".") && d.Name() != ".." {
			if d != nil && d.IsDir() && err == nil {
				return filepath.SkipDir
			}
			return err
		}
		if !strings.HasSuffix(path, "_test.go") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, decl := range f.Decls {
			if fn, ok := decl.(*ast.FuncDecl); ok {
				there[fn.Name.Name] = true
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for item, tests := range verified() {
		for _, name := range tests {
			if !there[name] {
				t.Errorf("%s: there is no %s", item, name)
			}
		}
	}
}
