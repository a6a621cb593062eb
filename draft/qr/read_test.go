//go:build !js

package qr

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// reader is a reader of QR codes for the tests, which .ci/install fetches.
const reader = "../../.build/jsqr-1.4.0/jsQR.js"

// reads has another program read pictures: rows of 0 and 1 in, texts out.
const reads = `
const jsQR = require(process.argv[1]);
const all = JSON.parse(require("fs").readFileSync(0, "utf8"));
console.log(JSON.stringify(all.map((rows) => {
	const scale = 3, edge = 4, side = (rows.length + 2 * edge) * scale;
	const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
	for (let y = 0; y < side; y++)
		for (let x = 0; x < side; x++)
			if (rows[Math.floor(y / scale) - edge]?.[Math.floor(x / scale) - edge] === "1")
				pixels.fill(0, 4 * (y * side + x), 4 * (y * side + x) + 3);
	return jsQR(pixels, side, side)?.data ?? "";
})));`

// Every version is read by another program.
func TestIsReadAgain(t *testing.T) {
	node, err := exec.LookPath("node")
	if _, missing := os.Stat(reader); err != nil || missing != nil {
		if os.Getenv("CHALKFOLD_BROWSER") == "need" {
			t.Fatal("node or the reader of codes is missing: run .ci/install")
		}
		t.Skip("node or the reader of codes is missing: run .ci/install")
	}
	var texts []string
	var pictures [][]string
	for v := 1; v <= mostVersion; v++ {
		text := strings.Repeat("https://stall.example/#draft=x18Ba-_Q7", 20)[:room(v)]
		c, err := Of(text)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, text)
		var rows []string
		for y := range c.Size {
			var row strings.Builder
			for x := range c.Size {
				row.WriteByte("01"[one(c.Dark(x, y))])
			}
			rows = append(rows, row.String())
		}
		pictures = append(pictures, rows)
	}
	in, err := json.Marshal(pictures)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, "-e", reads, reader)
	cmd.Stdin = strings.NewReader(string(in))
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	var got []string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	for i, want := range texts {
		if got[i] != want {
			t.Errorf("version %d is read as %q", i+1, got[i])
		}
	}
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}
