package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// timed uses times in the ways that are left, and in those that are not.
const timed = `package main

import (
	"fmt"
	"time"
)

func main() {
	t := time.Unix(1_700_000_000, 0).UTC()
	fmt.Println(t, t.Format(time.RFC3339), t.Add(time.Hour).Sub(t), <-time.After(time.Millisecond) != t)
	fmt.Printf("%#v\n", t)
}
`

const timedSays = `unix 1700000000 2023-11-14T22:13:20Z 1h0m0s true
unix 1700000000
`

// TestTimesAsTextFailLoudly compiles against the changed standard library.
func TestTimesAsTextFailLoudly(t *testing.T) {
	dir := t.TempDir()
	overlay, err := writeOverlay(filepath.Join("..", ".."), dir)
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(dir, "timed.go")
	if err := os.WriteFile(name, []byte(timed), 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("go", "run", "-overlay="+overlay, name)
	cmd.Env = append(os.Environ(), "GOFLAGS=", "GOWORK=off")
	out, err := cmd.CombinedOutput()
	if err != nil || string(out) != timedSays {
		t.Errorf("%v\n%s", err, out)
	}
}
