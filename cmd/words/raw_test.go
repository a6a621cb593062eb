package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// shown are the arguments of a call that are shown or told as they are.
func shown(call *ast.CallExpr) []ast.Expr {
	args := call.Args
	from, to := len(args), len(args)
	switch called(call) {
	case "Text":
		if len(args) == 1 { // with more it is a pen's, and begins with its class
			from = 0
		}
	case "H2", "Note", "Button":
		from = 0
	case "Stage", "Views":
		from, to = 0, 1
	case "Label", "Choose", "Disclose", "Progress":
		from = 1
	case "Act":
		from = 2
	case "Aria", "Attr":
		if name, ok := literalOf(args[0]); ok && heard(name) {
			from = 1
		}
	}
	return args[min(from, to):to]
}

// heard reports whether the value of an attribute is told to somebody.
func heard(attribute string) bool {
	return slices.Contains([]string{"label", "description", "valuetext", "title", "placeholder", "alt"}, attribute)
}

var (
	// letters are those of a word, as against a sign or a figure.
	letters = regexp.MustCompile(`\pL\pL`)
	// sentence is what no class, key or name of the browser looks like.
	sentence = regexp.MustCompile(`^[A-Z].*\pL \pL|\pL \pL.*[.:;…]|\pL[.:;…] |…$`)
)

// raws are the texts of one file that are shown and not looked up.
func raws(fset *token.FileSet, file *ast.File) []string {
	var out []string
	tell := func(l *ast.BasicLit) { out = append(out, fset.Position(l.Pos()).String()+": "+l.Value) }
	spared := map[ast.Node]bool{} // looked up, or told already
	for _, decl := range file.Decls {
		f, ok := decl.(*ast.FuncDecl)
		if !ok || f.Body == nil {
			continue
		}
		ast.Inspect(f.Body, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				if called(n) == "panic" {
					return false
				}
				if lookedUp(called(n)) {
					for _, a := range n.Args {
						spared[a] = true
					}
				}
				for _, a := range shown(n) {
					if s, ok := literalOf(a); ok && letters.MatchString(s) {
						tell(a.(*ast.BasicLit))
						spared[a] = true
					}
				}
			case *ast.KeyValueExpr:
				key, _ := n.Key.(*ast.Ident)
				s, ok := literalOf(n.Value)
				if ok && key != nil && slices.Contains([]string{"Label", "Hint", "Title", "Name"}, key.Name) && letters.MatchString(s) {
					tell(n.Value.(*ast.BasicLit))
					spared[n.Value] = true
				}
			case *ast.BasicLit:
				if s, ok := literalOf(n); ok && !spared[n] && letters.MatchString(s) && sentence.MatchString(s) && !strings.Contains(s, "<") {
					tell(n)
				}
			}
			return true
		})
	}
	return out
}

// lookedUp reports whether a function looks its text up, or has it looked up.
func lookedUp(name string) bool {
	return slices.Contains([]string{"T", "F", "N", "Of", "Errorf", "Word", "Name", "Within"}, name)
}

func called(n *ast.CallExpr) string {
	switch fn := n.Fun.(type) {
	case *ast.SelectorExpr:
		return fn.Sel.Name
	case *ast.Ident:
		return fn.Name
	}
	return ""
}

// Nothing is shown in the page that was not looked up.
func TestNothingRawInThePage(t *testing.T) {
	fset := token.NewFileSet()
	files := 0
	err := filepath.WalkDir("../../ui", func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files++
		for _, r := range raws(fset, file) {
			t.Errorf("%s: goes through T, F or N", r)
		}
		return nil
	})
	if err != nil || files < 80 {
		t.Errorf("%d files read: %v", files, err)
	}
}

func TestRaws(t *testing.T) {
	for _, tt := range []struct {
		code string
		raw  bool
	}{
		{`kit.P().Text("raw")`, true},
		{`kit.P().Text(v.T("said"))`, false},
		{`kit.P().Text("?")`, false},
		{`kit.Note(kit.Stop, v.T("said"), "raw text")`, true},
		{`kit.Key().Aria("label", "raw")`, true},
		{`kit.Key().Aria("controls", "stages")`, false},
		{`kit.Key().Class("held dot")`, false},
		{`kit.Label("an-id", "Raw")`, true},
		{`_ = kit.Field{Hint: "raw"}`, true},
		{`d.fault = "It was not done: " + why`, true},
		{`return "Saving…"`, true},
		{`return d.F("It was not done: %s", why)`, false},
		{`return say.Errorf("it was not done: %v", err)`, false},
		{`window.Get("Uint8Array")`, false},
	} {
		fset := token.NewFileSet()
		file, err := parser.ParseFile(fset, "a.go", "package a\nfunc f() {\n"+tt.code+"\n}", 0)
		if err != nil {
			t.Fatal(err)
		}
		if got := raws(fset, file); (len(got) > 0) != tt.raw {
			t.Errorf("%s: found %q", tt.code, got)
		}
	}
}
