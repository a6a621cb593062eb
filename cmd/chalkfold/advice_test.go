package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden advice anew") //nolint:gochecknoglobals // a flag

// The trousers of the README on less cloth than they take, as it is printed.
// The lay is a short one, so that the advice is quick and what it says is
// not owed to the last turn of the search; -update writes it anew, to be read.
func TestGoldenAdvice(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "alto-3.json"))
	if err != nil {
		t.Fatal(err)
	}
	short := strings.Replace(string(data), `"2¼ yd"`, `"1⅜ yd"`, 1)
	short = strings.Replace(short, `"½ yd"`, `"¾ yd"`, 1)
	file := filepath.Join(t.TempDir(), "short.json")
	if err := os.WriteFile(file, []byte(short), 0o600); err != nil {
		t.Fatal(err)
	}
	var out, errs bytes.Buffer
	if status := dispatch(t.Context(), []string{"lay", file, "-advice", "-work", "60"}, &out, &errs); status != 1 || errs.Len() > 0 {
		t.Fatalf("status %d: %s", status, &errs)
	}
	golden := filepath.Join("..", "..", "testdata", "golden", "advice.txt")
	if *update {
		if err := os.WriteFile(golden, out.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(out.Bytes(), want) {
		t.Errorf("the advice is not as kept in %s; read it, and run go test -update if it is right:\n%s", golden, &out)
	}
}
