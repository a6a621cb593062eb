package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
	"chalkfold/draft/sheet/svg"
)

// element is one XML element with its attributes and its own text.
type element struct {
	name string
	attr map[string]string
	text string
}

func write(t *testing.T, d sheet.Drawing, opt svg.Options) string {
	t.Helper()
	var b strings.Builder
	if err := svg.Write(&b, d, opt); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func parse(t *testing.T, s string) []element {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(s))
	var out []element
	var open []int
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		switch v := tok.(type) {
		case xml.StartElement:
			e := element{name: v.Name.Local, attr: map[string]string{}}
			if v.Name.Space != "http://www.w3.org/2000/svg" {
				t.Fatalf("%s is in namespace %q", v.Name.Local, v.Name.Space)
			}
			for _, a := range v.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			open = append(open, len(out))
			out = append(out, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				out[open[len(open)-1]].text += string(v)
			}
		}
	}
}

func mm(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSuffix(s, "mm"), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestSizeIsTrue(t *testing.T) {
	d := sheet.Piece(sheettest.Oblong("band", "Band", 300, 100, 1, false), sheet.Options{})
	root := parse(t, write(t, d, svg.Options{}))[0]
	// 12.7 mm of allowance all round, and the width of the cut line.
	if w, h := mm(t, root.attr["width"]), mm(t, root.attr["height"]); math.Abs(w-325.9) > 0.001 || math.Abs(h-125.9) > 0.001 {
		t.Errorf("%v by %v mm, want 325.9 by 125.9", w, h)
	}
	if !strings.HasSuffix(root.attr["width"], "mm") {
		t.Errorf("width %q is not in mm", root.attr["width"])
	}
	box := strings.Fields(root.attr["viewBox"])
	if len(box) != 4 || mm(t, box[2]) != mm(t, root.attr["width"]) || mm(t, box[3]) != mm(t, root.attr["height"]) {
		t.Errorf("viewBox %v for width %s height %s: one unit is not 1 mm", box, root.attr["width"], root.attr["height"])
	}
}

func TestCutLineKeepsItsPlace(t *testing.T) {
	d := sheet.Piece(sheettest.Oblong("band", "Band", 300, 100, 1, false), sheet.Options{})
	for _, e := range parse(t, write(t, d, svg.Options{})) {
		if e.attr["class"] == "cut" {
			if got, want := e.attr["d"], "M312.7 -12.7L312.7 112.7L-12.7 112.7L-12.7 -12.7Z"; got != want {
				t.Errorf("cut line %s, want %s", got, want)
			}
			if e.attr["stroke-width"] != "0.5" || e.attr["stroke-dasharray"] != "" {
				t.Errorf("cut line %v, want solid 0.5", e.attr)
			}
			return
		}
	}
	t.Error("no cut line")
}

func TestGroupsAreNamedOnce(t *testing.T) {
	d := sheet.Draft(append(sheettest.Pieces(), sheettest.Front()), sheet.Options{})
	all := parse(t, write(t, d, svg.Options{Prefix: "job-", Title: "A draft"}))
	seen := map[string]int{}
	for i, e := range all {
		if id := e.attr["id"]; id != "" {
			seen[id]++
			if all[i+1].name != "title" || all[i+1].text == "" {
				t.Errorf("%s has no title", id)
			}
		}
	}
	for _, id := range []string{"job-front", "job-front-2", "job-waistband"} {
		if seen[id] != 1 {
			t.Errorf("id %s stands %d times, want once", id, seen[id])
		}
	}
	for id, n := range seen {
		if n != 1 {
			t.Errorf("id %s stands %d times", id, n)
		}
	}
}

func TestNoStyleAndNoScript(t *testing.T) {
	for _, screen := range []bool{false, true} {
		d := sheet.Draft(sheettest.Pieces(), sheet.Options{})
		for _, e := range parse(t, write(t, d, svg.Options{Screen: screen})) {
			if e.name == "style" || e.name == "script" || e.attr["style"] != "" {
				t.Fatalf("%s %v: a strict content security policy forbids it", e.name, e.attr)
			}
			if e.name == "path" && e.attr["stroke"] != "" && (e.attr["vector-effect"] == "non-scaling-stroke") != screen {
				t.Fatalf("screen %v: vector-effect %q", screen, e.attr["vector-effect"])
			}
			if e.name == "svg" && (e.attr["width"] == "") != screen {
				t.Errorf("screen %v: width %q", screen, e.attr["width"])
			}
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	const rude = `<b>"Tom & 'Ọlá'</b> 6⅝`
	p := sheettest.Oblong("a", rude, 300, 100, 1, false)
	all := parse(t, write(t, sheet.Piece(p, sheet.Options{}), svg.Options{Title: rude}))
	found := 0
	for _, e := range all {
		if e.text == rude {
			found++
		}
	}
	if found != 3 { // both titles and the label
		t.Errorf("%d texts read back, want 3", found)
	}
}

func TestWhatXMLCannotHold(t *testing.T) {
	var d sheet.Drawing
	d.Text(sheet.Text{Size: 5, S: "a\x00b\x1bc\ufffe\xff"})
	for _, e := range parse(t, write(t, d, svg.Options{})) {
		if e.name == "text" && e.text != "a\ufffdb\ufffdc\ufffd\ufffd" {
			t.Errorf("text %q", e.text)
		}
	}
}

func TestClip(t *testing.T) {
	out, err := sheet.Tiles(sheet.Piece(sheettest.Front(), sheet.Options{}), sheet.A4(), sheet.TileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	all := parse(t, write(t, out.Pages[0].Sheet, svg.Options{}))
	for i, e := range all {
		if e.name == "clipPath" {
			r := all[i+1].attr
			if r["x"] != "10" || r["y"] != "10" || r["width"] != "190" || r["height"] != "277" {
				t.Errorf("clip %v", r)
			}
			if want := "url(#" + e.attr["id"] + ")"; all[i+2].attr["clip-path"] != want {
				t.Errorf("group %v does not use %s", all[i+2].attr, want)
			}
			return
		}
	}
	t.Error("no clip")
}

func TestTextTurns(t *testing.T) {
	var d sheet.Drawing
	d.Text(sheet.Text{At: geom.Pt{X: 3, Y: 4}, Size: 5, Anchor: sheet.Middle, Dir: geom.Vec{Y: -1}, S: "up"})
	for _, e := range parse(t, write(t, d, svg.Options{})) {
		if e.name == "text" && (e.attr["transform"] != "rotate(-90 3 4)" || e.attr["text-anchor"] != "middle") {
			t.Errorf("text %v", e.attr)
		}
	}
}

func TestSameBytes(t *testing.T) {
	d := sheet.Draft(sheettest.Pieces(), sheet.Options{})
	first := write(t, d, svg.Options{})
	for range 3 {
		if write(t, sheet.Draft(sheettest.Pieces(), sheet.Options{}), svg.Options{}) != first {
			t.Fatal("two writes of one draft differ")
		}
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteFails(t *testing.T) {
	if err := svg.Write(broken{}, sheet.Drawing{}, svg.Options{}); err == nil || !strings.Contains(err.Error(), "disk full") {
		t.Errorf("error %v", err)
	}
	var b bytes.Buffer
	if err := svg.Write(&b, sheet.Drawing{}, svg.Options{}); err != nil || b.Len() == 0 {
		t.Errorf("empty drawing: %v", err)
	}
}
