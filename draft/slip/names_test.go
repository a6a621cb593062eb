package slip

import (
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
)

var update = flag.Bool("update", false, "add the names that have no number yet to names.go") //nolint:gochecknoglobals // a flag

// firstNames are the names of the first slips. Their numbers stand in links out
// there.
const firstNames = "testdata/names"

// No number ever means another name.
func TestNumbersKeepTheirMeaning(t *testing.T) {
	data, err := os.ReadFile(firstNames)
	if err != nil {
		t.Fatal(err)
	}
	first, all := strings.Fields(string(data)), names()
	if len(first) != 158 {
		t.Fatalf("%s has %d names, the first slips had 158: it is never changed", firstNames, len(first))
	}
	for i, name := range first {
		if i >= len(all) || all[i] != name {
			t.Fatalf("number %d is no longer %s: add names at the end of names.go, and leave the others where they are", i, name)
		}
	}
	if len(numbers()) != len(all) {
		t.Error("a name has two numbers")
	}
}

// Every name of the core has a number. With -update those without are added.
func TestAllNamesHaveNumbers(t *testing.T) {
	var want []string
	for _, d := range body.Defs() {
		want = append(want, string(d.ID))
	}
	for _, g := range draft.Garments() {
		want = append(want, g.ID)
		for _, c := range append(slices.Clone(g.Methods), g.Truings...) {
			want = append(want, c.ID)
		}
		for _, o := range g.Options {
			want = append(want, o.ID)
			for _, c := range o.Choices {
				want = append(want, c.ID)
			}
		}
		for _, a := range g.Alterations() {
			want = append(want, a.ID)
		}
		for _, r := range g.Rules {
			want = append(want, string(r.ID))
		}
	}
	known := numbers()
	var missing []string
	for _, name := range want {
		if _, ok := known[name]; !ok && !slices.Contains(missing, name) {
			missing = append(missing, name)
		}
	}
	if len(missing) == 0 {
		return
	}
	if !*update {
		t.Fatalf("%s have no number, so that links with them are longer: go test ./draft/slip -update adds them", strings.Join(missing, ", "))
	}
	source, err := os.ReadFile("names.go")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Join(regexp.MustCompile(`.{1,100}( |$)`).FindAllString(strings.Join(missing, " "), -1), "\n")
	text := strings.Replace(string(source), "\n`\n", "\n"+strings.ReplaceAll(lines, " \n", "\n")+"\n`\n", 1)
	if err := os.WriteFile("names.go", []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}
