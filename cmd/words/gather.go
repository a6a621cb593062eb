package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// roots are the folders whose texts are shown.
func roots() []string { return []string{"draft", "ui", "cmd/chalkfold"} }

// A text is one that the program says.
type text struct {
	where   []string // the packages that say it
	english string
	many    string // of more than one; "" when it does not count
	verbs   bool   // it is set with figures
}

// key is what it is looked up by.
func (t text) key() string {
	if t.many != "" {
		return t.many
	}
	return t.english
}

// said is every text of the program, and what is wrong with how some are said.
type said struct {
	texts  []text
	at     map[string]int
	faults []string
}

func (s *said) add(t text, where string) {
	i, ok := s.at[t.key()]
	if !ok {
		i = len(s.texts)
		s.at[t.key()] = i
		s.texts = append(s.texts, t)
	}
	known := &s.texts[i]
	if known.many != t.many || known.english != t.english {
		s.faults = append(s.faults, fmt.Sprintf("%s: %q is said as one text and counted as another", where, t.key()))
	}
	known.verbs = known.verbs || t.verbs
	if !slices.Contains(known.where, where) {
		known.where = append(known.where, where)
	}
}

// gather reads the sources below dir, and then the tables.
func gather(dir string) (*said, error) {
	s := &said{at: map[string]int{}}
	for _, root := range roots() {
		err := filepath.WalkDir(filepath.Join(dir, root), func(file string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go") {
				return err
			}
			rel, err := filepath.Rel(dir, file)
			if err != nil {
				return err
			}
			return s.source(file, path.Dir(filepath.ToSlash(rel)))
		})
		if err != nil {
			return nil, err
		}
	}
	s.tables()
	return s, nil
}

// source gathers the texts of one file.
func (s *said) source(file, where string) error {
	fset := token.NewFileSet()
	parsed, err := parser.ParseFile(fset, file, nil, parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) == 0 {
			return true
		}
		at := fset.Position(call.Pos()).String()
		switch fn := call.Fun.(type) {
		case *ast.SelectorExpr:
			pkg, _ := fn.X.(*ast.Ident)
			if where != "draft/say" { // which says what it is given
				s.call(call, fn.Sel.Name, pkg != nil && pkg.Name == "say", where, at)
			}
		case *ast.Ident:
			if where == "draft/say" && fn.Name == "Of" {
				s.call(call, fn.Name, true, where, at)
			}
		}
		return true
	})
	return nil
}

// call gathers the text of one call, if it says one. Only T may be given a name
// that is kept elsewhere: in a table, or marked by Word.
func (s *said) call(call *ast.CallExpr, name string, ofSay bool, where, at string) {
	first, literal := literalOf(call.Args[0])
	switch {
	case ofSay && (name == "Name" || name == "Within"):
		if literal {
			s.add(text{english: first}, where)
		}
		return
	case ofSay && name == "Word", !ofSay && name == "T" && len(call.Args) == 1:
		_, glued := call.Args[0].(*ast.BinaryExpr)
		if !literal && (name == "Word" || glued) {
			s.faults = append(s.faults, at+": a text is a literal, so that it can be found")
		}
		if literal && first != "" {
			s.add(text{english: first}, where)
		}
		return
	case ofSay && (name == "Of" || name == "Errorf"), !ofSay && name == "F":
	case !ofSay && name == "N" && len(call.Args) >= 3:
		one, ok1 := literalOf(call.Args[1])
		many, ok2 := literalOf(call.Args[2])
		if !ok1 || !ok2 {
			s.faults = append(s.faults, at+": a text is a literal, so that it can be found")
			return
		}
		s.add(text{english: one, many: many, verbs: true}, where)
		return
	default:
		return
	}
	if !literal {
		s.faults = append(s.faults, at+": a text is a literal, so that it can be found")
		return
	}
	if t := (text{english: first, verbs: len(call.Args) > 1}); spoken(t) {
		s.add(t, where)
	}
}

// literalOf is the value of a string literal.
func literalOf(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	v, err := strconv.Unquote(l.Value)
	return v, err == nil
}

// spoken reports whether there is anything to translate beside the figures.
func spoken(t text) bool {
	rest := t.english
	for _, v := range verbsOf(rest) {
		rest = strings.Replace(rest, v.text, "", 1)
	}
	return !t.verbs || strings.Trim(rest, " .,:;()") != "" || len(verbsOf(t.english)) > 1
}
