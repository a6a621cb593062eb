package main

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/static/words/wordstest"
)

// What the commands print of a job is looked up, every word of it.
func TestPrintedWordsAreLookedUp(t *testing.T) {
	files, err := filepath.Glob("../../testdata/jobs/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal(err, files)
	}
	own := regexp.MustCompile(`\([a-z]+\)|out\.(pdf|svg)`) // truings by their keys; files
	m := draft.Maker{Words: wordstest.Marked(t)}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		r, err := m.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := writeLesson(&out, r); err != nil {
			t.Fatal(err)
		}
		if err := writeChalk(&out, r, draft.Chalk(r)); err != nil {
			t.Fatal(err)
		}
		if laid, err := draft.Lay(r, 0, lay.Options{Work: 1}); err == nil {
			writeLay(&out, r, laid)
		}
		printedJSON{File: "out.pdf", Paper: "A4"}.write(&out, m.Words)
		printedJSON{File: "out.svg"}.write(&out, m.Words)
		if err := warnStopped("draft", r, &out); err != nil && !errors.Is(err, errStopped) {
			t.Fatal(err)
		}
		text := own.ReplaceAllString(strings.ToLower(out.String()), "")
		for _, name := range append([]string{j.Name, "chalkfold draft:", "a4"}, clothNames(j)...) {
			text = strings.ReplaceAll(text, strings.ToLower(name), "")
		}
		for line := range strings.SplitSeq(text, "\n") {
			if rest := wordstest.Bare(line); rest != "" {
				t.Errorf("%s: %q is not looked up in %q", filepath.Base(file), rest, line)
			}
		}
	}
}

func clothNames(j job.Job) []string {
	var out []string
	for _, c := range j.Cloth {
		if c.Name != "" {
			out = append(out, c.Name)
		}
	}
	return out
}

// The language is chosen by its tag, and one that is not there is refused.
func TestLanguage(t *testing.T) {
	const file = "../../testdata/jobs/alto-3.json"
	var out, errs bytes.Buffer
	if status := dispatch(t.Context(), []string{"draft", "-language", "fr", file}, &out, &errs); status != 0 {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	for _, want := range []string{"tour de bassin", "42 po", "0,55"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in French", want)
		}
	}
	if status := dispatch(t.Context(), []string{"draft", "-language", "xx", file}, &out, &errs); status != 2 || !strings.Contains(errs.String(), `"xx"`) {
		t.Errorf("status %d, %q", status, errs.String())
	}
}
