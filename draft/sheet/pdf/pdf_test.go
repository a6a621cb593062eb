package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/sheettest"
)

// set is what every file here is made with.
func set() pdf.Options { return pdf.Options{Font: noto.Sans()} }

// poppler runs a program of Debian's poppler-utils.
func poppler(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is not here; install the Debian package poppler-utils", name)
	}
	var fail bytes.Buffer
	cmd := exec.Command(name, args...)
	cmd.Stderr = &fail
	out, err := cmd.Output()
	if err != nil || fail.Len() > 0 {
		t.Fatalf("%s %v: %v\n%s", name, args, err, fail.String())
	}
	return string(out)
}

func tiles(t *testing.T, pieces []piece.Piece, paper sheet.Paper) sheet.Tiled {
	t.Helper()
	d, err := sheet.OnPaper(pieces, paper, sheet.Options{Job: "Alto 3"}, sheet.TileOptions{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	out, err := sheet.Tiles(d, paper, sheet.TileOptions{Job: "Alto 3"})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// save writes the pages to a file and returns its path.
func save(t *testing.T, title string, pages []sheet.Drawing) string {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, title, pages, set()); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "out.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestPageBoxesAreThePaper(t *testing.T) {
	for _, p := range sheet.Papers() {
		for _, paper := range []sheet.Paper{p, p.Turned()} {
			out := tiles(t, sheettest.Pieces(), paper)
			info := poppler(t, "pdfinfo", "-box", "-f", "1", "-l", "999", save(t, "Ọ̀kan", out.Drawings()))
			if !regexp.MustCompile(fmt.Sprintf(`Pages: +%d\n`, out.Sheets)).MatchString(info) {
				t.Errorf("%s: want %d pages:\n%s", paper.Name, out.Sheets, info)
			}
			if !strings.Contains(info, "Ọ̀kan") {
				t.Errorf("title not read back:\n%s", info)
			}
			for _, box := range []string{"MediaBox", "CropBox", "TrimBox"} {
				want := fmt.Sprintf("0.00 0.00 %.2f %.2f", paper.Width.In()*72, paper.Height.In()*72)
				n := 0
				for _, l := range strings.Split(info, "\n") {
					if _, rest, ok := strings.Cut(l, box+":"); ok {
						n++
						if got := strings.Join(strings.Fields(rest), " "); got != want {
							t.Errorf("%s: %s %s, want %s", paper.Name, box, got, want)
						}
					}
				}
				if n != out.Sheets {
					t.Errorf("%s: %d pages have a %s, want %d", paper.Name, n, box, out.Sheets)
				}
			}
		}
	}
}

func TestTextIsFound(t *testing.T) {
	p := sheettest.Pocket()
	p.Note = "⅛ ¼ ⅜ ½ ⅝ ¾ ⅞ Ọ ọ Ẹ ẹ Ṣ ṣ Ɓɓ Ɗɗ Ƙƙ Ƴƴ ị ụ ṅ é ç ã õ œ ₦ € – × · “ ’"
	tiled := tiles(t, []piece.Piece{sheettest.Front(), p}, sheet.A4())
	first := fmt.Sprintf("row %d / column %d", tiled.Pages[0].Row, tiled.Pages[0].Col)
	path := save(t, "Alto 3", tiled.Drawings())
	text := poppler(t, "pdftotext", "-enc", "UTF-8", path, "-")
	for _, want := range []string{"Pocket bag ẹọṣ", "Front", "cut 2, one pair", p.Note, "measure this: 100 mm", first} {
		// The spacing of what is read back is the reader's own.
		if !strings.Contains(closed(text), closed(want)) {
			t.Errorf("%q is not found in\n%s", want, text)
		}
	}
	fonts := poppler(t, "pdffonts", path)
	// name, type, encoding, embedded, subset, to Unicode
	if !regexp.MustCompile(`CHALKF\+NotoSans-Regular +CID TrueType +Identity-H +yes yes yes`).MatchString(fonts) {
		t.Errorf("font is not embedded with its letters:\n%s", fonts)
	}
}

func closed(s string) string { return strings.Join(strings.Fields(s), "") }

func TestSameBytes(t *testing.T) {
	write := func() []byte {
		var b bytes.Buffer
		if err := pdf.Write(&b, "Alto 3", tiles(t, sheettest.Pieces(), sheet.A4()).Drawings(), set()); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	first := write()
	if !bytes.Equal(first, write()) {
		t.Error("two writes differ")
	}
	if !bytes.Contains(first, []byte("/PrintScaling/None")) {
		t.Error("readers are not asked to print at true size")
	}
	if bytes.Contains(first, []byte("Date")) {
		t.Error("the file carries a date")
	}
}

func TestWriteRefuses(t *testing.T) {
	page := func(w, h float64) sheet.Drawing {
		return sheet.Drawing{Bounds: geom.Rect{Max: geom.Pt{X: w, Y: h}}}
	}
	for _, tt := range []struct {
		name  string
		pages []sheet.Drawing
		want  string
	}{
		{"none", nil, "no pages"},
		{"empty", []sheet.Drawing{page(210, 297), page(0, 297)}, "page 2 is 0.0 by 297.0 mm"},
		{"vast", []sheet.Drawing{page(210, 6000)}, "page 1 is 210.0 by 6000.0 mm"},
	} {
		if err := pdf.Write(&bytes.Buffer{}, "x", tt.pages, set()); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want %q", tt.name, err, tt.want)
		}
	}
	if err := pdf.Write(broken{}, "x", []sheet.Drawing{page(210, 297)}, set()); err == nil || !strings.Contains(err.Error(), "disk full") {
		t.Errorf("error %v", err)
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }
