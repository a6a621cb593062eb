//go:build !js

package dxf_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/dxf"
	"chalkfold/draft/sheet/sheettest"
)

// entity is what dxf-parser reads of one.
type entity struct {
	Type, Layer, Text, Name string
	Shape                   bool // closed
	Vertices                []geom.Pt
	Position                geom.Pt
}

// read reads a file with dxf-parser, a general-purpose reader that .ci/install
// fetches, in node.
func read(t *testing.T, data []byte) (blocks map[string][]entity, inserted []entity) {
	t.Helper()
	reader, err := filepath.Abs("../../../.build/dxf-parser-1.1.2/dxf-parser.js")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(reader); err != nil {
		t.Fatal("the reader is not here; run .ci/install")
	}
	path := filepath.Join(t.TempDir(), "out.dxf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	const script = `const P = require(process.argv[1]); const d = new (P.DxfParser || P.default || P)().parseSync(require("fs").readFileSync(process.argv[2], "utf8")); process.stdout.write(JSON.stringify(d))`
	var fail bytes.Buffer
	cmd := exec.Command("node", "-e", script, reader, path)
	cmd.Stderr = &fail
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, fail.String())
	}
	var told struct {
		Blocks   map[string]struct{ Entities []entity }
		Entities []entity
	}
	if err := json.Unmarshal(out, &told); err != nil {
		t.Fatal(err)
	}
	blocks = map[string][]entity{}
	for name, b := range told.Blocks {
		blocks[name] = b.Entities
	}
	return blocks, told.Entities
}

func write(t *testing.T, form dxf.Form) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := dxf.Write(&b, sheettest.Pieces(), form, sheet.Options{Job: "Alto 3"}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func length(pts []geom.Pt, closed bool) float64 {
	sum := 0.0
	for i := 1; i < len(pts); i++ {
		sum += pts[i-1].Dist(pts[i])
	}
	if closed {
		sum += pts[len(pts)-1].Dist(pts[0])
	}
	return sum
}

func lengthOn(es []entity, layer string) float64 {
	sum := 0.0
	for _, e := range es {
		if e.Layer == layer && e.Type == "POLYLINE" {
			sum += length(e.Vertices, e.Shape)
		}
	}
	return sum
}

// The lengths of the cut lines as the reader has them, within 0.01 mm, and where
// every corner lies, upside down as DXF has it.
func TestReadBack(t *testing.T) {
	for _, tt := range []struct {
		form     dxf.Form
		cut, sew string
	}{{dxf.Plain, "CUT", "SEW"}, {dxf.Exchange, "1", "14"}} {
		blocks, inserted := read(t, write(t, tt.form))
		if len(inserted) != len(sheettest.Pieces()) {
			t.Errorf("%d pieces inserted, want %d", len(inserted), len(sheettest.Pieces()))
		}
		for _, p := range sheettest.Pieces() {
			b := blocks[strings.ToUpper(p.ID)]
			want := length(p.Cut, true)
			if tt.form == dxf.Plain {
				want -= folded(p)
			}
			if got := lengthOn(b, tt.cut); math.Abs(got-want) > 0.01 {
				t.Errorf("form %d, %s: cut line %.4f mm, want %.4f", tt.form, p.ID, got, want)
			}
			sewn := 0.0
			for _, e := range p.Edges {
				if !e.Fold || tt.form == dxf.Exchange {
					sewn += e.Sew.Len()
				}
			}
			// Exchange has the ring that stands up to piece.FlattenTol off its curves.
			if got := lengthOn(b, tt.sew); math.Abs(got-sewn) > 0.3 {
				t.Errorf("form %d, %s: sew line %.4f mm, want %.4f", tt.form, p.ID, got, sewn)
			}
			for _, e := range b {
				if e.Type != "POLYLINE" || e.Layer != tt.cut {
					continue
				}
				for _, v := range e.Vertices {
					if off := offRing(p.Cut, geom.Pt{X: v.X, Y: -v.Y}); off > 1e-4 {
						t.Fatalf("form %d, %s: corner %v stands %.5f mm off the cut line", tt.form, p.ID, v, off)
					}
				}
			}
		}
	}
}

// folded is the length of the cut ring that lies on a fold and is not cut.
func folded(p piece.Piece) float64 {
	sum := 0.0
	for _, it := range sheet.Piece(p, sheet.Options{}).Items {
		if s, ok := it.(sheet.Shape); ok && s.Role == sheet.FoldLine {
			sum += s.Path.Len()
		}
	}
	return sum
}

func offRing(ring []geom.Pt, q geom.Pt) float64 {
	_, off := geom.Polyline(append(ring, ring[0])...).Nearest(q)
	return off
}

func TestExchangeLayers(t *testing.T) {
	blocks, _ := read(t, write(t, dxf.Exchange))
	front, p := blocks["FRONT"], sheettest.Front()
	count := map[string]int{}
	texts := ""
	for _, e := range front {
		count[e.Layer+" "+e.Type]++
		texts += e.Text + "\n"
	}
	for what, n := range map[string]int{
		"1 POLYLINE": 1, "4 POINT": len(p.Notches), "7 POLYLINE": 1,
		"8 POLYLINE": len(p.Lines), "13 POINT": len(p.Marks), "14 POLYLINE": 1,
	} {
		if count[what] != n {
			t.Errorf("%d of %s, want %d; there are %v", count[what], what, n, count)
		}
	}
	if n := count["2 POINT"] + count["3 POINT"]; n != len(p.Cut) || count["2 POINT"] < 4 {
		t.Errorf("%d turn points and %d curve points on a boundary of %d", count["2 POINT"], count["3 POINT"], len(p.Cut))
	}
	for _, want := range []string{"PIECE NAME: Front", "QUANTITY: 2", "ANNOTATION: Alto 3"} {
		if !strings.Contains(texts, want+"\n") {
			t.Errorf("%q is not written in\n%s", want, texts)
		}
	}
	folded := 0
	for _, p := range sheettest.Pieces() {
		for _, e := range p.Edges {
			if e.Fold {
				folded++
				if got := lengthOn(blocks[strings.ToUpper(p.ID)], "6"); math.Abs(got-e.Sew.Len()) > 0.01 {
					t.Errorf("%s: %.3f mm of mirror line, want %.3f", p.ID, got, e.Sew.Len())
				}
			}
		}
	}
	if folded == 0 {
		t.Error("no piece lies on a fold")
	}
	if n := write(t, dxf.Exchange); !bytes.Contains(n, []byte(`Pocket bag \U+1EB9\U+1ECD\U+1E63`)) {
		t.Error("letters outside ASCII are not written as the format has them")
	}
}

func TestSameBytes(t *testing.T) {
	for _, form := range []dxf.Form{dxf.Plain, dxf.Exchange} {
		if first := write(t, form); !bytes.Equal(first, write(t, form)) {
			t.Errorf("form %d: two writes differ", form)
		}
	}
}
