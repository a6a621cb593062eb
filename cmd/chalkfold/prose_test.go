package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
)

func TestWrap(t *testing.T) {
	long := strings.Repeat("word ", 20)
	for _, tt := range []struct {
		name, text string
		hang       int
		want       []string
	}{
		{"short", "  in one line", 4, []string{"  in one line"}},
		{"empty", "", 4, []string{""}},
		{"long", "  " + long, 4, []string{
			"  " + strings.TrimSpace(strings.Repeat("word ", 15)), "    " + strings.TrimSpace(strings.Repeat("word ", 5)),
		}},
		{"columns are kept", "  hip      42 in", 4, []string{"  hip      42 in"}},
		{"signs are one column wide", strings.Repeat("½", 80), 2, []string{strings.Repeat("½", 80)}},
		{"a word that is too long", strings.Repeat("x", 90) + " y", 2, []string{strings.Repeat("x", 90), "  y"}},
	} {
		got := wrap(tt.text, tt.hang)
		for i := range got {
			got[i] = strings.TrimRight(got[i], " ")
		}
		if strings.Join(got, "\n") != strings.Join(tt.want, "\n") {
			t.Errorf("%s:\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
	}
}

// What is printed fits a terminal of 80 columns, for every example job.
func TestPrintedTextFitsTheTerminal(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "jobs", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no example jobs: %v", err)
	}
	for _, file := range files {
		in, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Decode(in)
		in.Close()
		if err != nil {
			t.Fatal(err)
		}
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		var text strings.Builder
		if err := writeLesson(&text, r); err != nil {
			t.Fatal(err)
		}
		if err := writeChalk(&text, r, draft.Chalk(r)); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(text.String(), "\n") {
			if width(line) > columns {
				t.Errorf("%s: %d columns: %s", file, width(line), line)
			}
			if strings.HasSuffix(line, " ") {
				t.Errorf("%s: a blank at the end: %q", file, line)
			}
		}
	}
}
