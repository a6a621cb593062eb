package pdf_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
)

// dpi of the renderings: ten pixels to the millimetre.
const dpi = 254

// raster is a rendered page, one byte of grey to the pixel.
type raster struct {
	w, h int
	px   []byte
}

func render(t *testing.T, path string, page int) raster {
	t.Helper()
	root := filepath.Join(t.TempDir(), "page")
	n := strconv.Itoa(page)
	poppler(t, "pdftoppm", "-gray", "-r", strconv.Itoa(dpi), "-f", n, "-l", n, "-singlefile", path, root)
	data, err := os.ReadFile(root + ".pgm")
	if err != nil {
		t.Fatal(err)
	}
	var r raster
	var most int
	in := bytes.NewReader(data)
	if _, err := fmt.Fscanf(in, "P5\n%d %d\n%d\n", &r.w, &r.h, &most); err != nil || most != 255 {
		t.Fatalf("not a grey picture: %v", err)
	}
	r.px = data[len(data)-in.Len():]
	return r
}

// lines returns the middles, in mm, of the dark stretches between from and to
// along the row (or column) at mm.
func (r raster) lines(at float64, upright bool, from, to float64) []float64 {
	grey := func(i int) float64 {
		x, y := i, int(at*dpi/25.4)
		if upright {
			x, y = y, x
		}
		return 255 - float64(r.px[y*r.w+x])
	}
	var out []float64
	sum, moment := 0.0, 0.0
	for i := int(from * dpi / 25.4); i <= int(to*dpi/25.4); i++ {
		if g := grey(i); g > 20 {
			sum, moment = sum+g, moment+g*(float64(i)+0.5)
		} else if sum > 0 {
			out = append(out, moment/sum*25.4/dpi)
			sum, moment = 0, 0
		}
	}
	return out
}

// squaresOf returns where the recorded squares stand on a page.
func squaresOf(d sheet.Drawing) geom.Rect {
	for _, it := range d.Items {
		if s, ok := it.(sheet.Shape); ok && s.Role == sheet.Gauge {
			return geom.BoundsOf(s.Path.Flatten(1)) // the first is that of 100 mm
		}
	}
	return geom.Rect{}
}

// The squares measured from the rendering, within 0.2 mm on both axes, on
// every paper.
func TestSquaresMeasured(t *testing.T) {
	small := []piece.Piece{sheettest.Oblong("a", "Loop", 120, 12, 1, false)}
	for _, p := range sheet.Papers() {
		for _, paper := range []sheet.Paper{p, p.Turned()} {
			t.Run(paper.Name, func(t *testing.T) {
				out := tiles(t, small, paper)
				if out.Sheets != 1 {
					t.Fatalf("%d sheets", out.Sheets)
				}
				r := render(t, save(t, "squares", out.Drawings()), 1)
				if w, h := paper.Width.MM()*dpi/25.4, paper.Height.MM()*dpi/25.4; math.Abs(float64(r.w)-w) > 1 || math.Abs(float64(r.h)-h) > 1 {
					t.Errorf("page %d by %d px, want %.0f by %.0f", r.w, r.h, w, h)
				}
				box := squaresOf(out.Pages[0].Sheet)
				// Between the figures: 5 mm from the corner that both share.
				across := r.lines(box.Max.Y-5, false, box.Min.X-1, box.Max.X+2.2)
				down := r.lines(box.Min.X+5, true, box.Min.Y-3.2, box.Max.Y+1)
				if len(across) != 3 || len(down) != 3 {
					t.Fatalf("lines across %v, down %v, want three each", across, down)
				}
				for _, m := range []struct {
					name      string
					got, want float64
				}{
					{"100 mm across", across[1] - across[0], 100},
					{"4 in across", across[2] - across[0], 4 * 25.4},
					{"100 mm down", down[2] - down[1], 100},
					{"4 in down", down[2] - down[0], 4 * 25.4},
				} {
					if math.Abs(m.got-m.want) > 0.2 {
						t.Errorf("%s measures %.3f mm, want %.1f", m.name, m.got, m.want)
					}
				}
			})
		}
	}
}

// A piece of known size, measured from the rendering: nothing between the
// drawing and the paper changes its scale or moves it.
func TestPieceMeasured(t *testing.T) {
	d := sheet.Piece(sheettest.Oblong("a", "Box", 120, 60, 1, false), sheet.Options{})
	d.Bounds = geom.Rect{Min: geom.Pt{X: -30, Y: -40}, Max: geom.Pt{X: 180, Y: 257}}
	r := render(t, save(t, "box", []sheet.Drawing{d}), 1)
	// The cut line stands 12.7 mm outside the sew line, which starts 30 and
	// 40 mm from the paper's corner. The scans cross the allowance at the top
	// and the sides, away from every dash.
	across := r.lines(40-6, false, 5, 200)
	if len(across) != 2 || math.Abs(across[0]-17.3) > 0.1 || math.Abs(across[1]-162.7) > 0.1 {
		t.Errorf("cut line across at %v, want 17.3 and 162.7", across)
	}
	down := r.lines(30-6, true, 5, 290)
	if len(down) != 2 || math.Abs(down[0]-27.3) > 0.1 || math.Abs(down[1]-112.7) > 0.1 {
		t.Errorf("cut line down at %v, want 27.3 and 112.7", down)
	}
}

// A curve card, measured from the rendering: every place on its curve is where
// the curve is, however the card is turned, and so is its square.
func TestCardMeasured(t *testing.T) {
	bowed := geom.Path{{A: geom.Pt{X: 10, Y: 20}, B: geom.Pt{X: 30, Y: 90}, C: geom.Pt{X: 90, Y: 160}, D: geom.Pt{X: 200, Y: 170}}}
	card := piece.Card{No: 1, Name: "fork", Panel: "front", Path: bowed, Marks: []piece.CardMark{
		{Letter: "A", At: bowed.Start()}, {Letter: "B", At: bowed.End()},
	}}
	out, ok := sheet.Cards([]piece.Card{card}, sheet.A4(), sheet.CardOptions{})
	if !ok || len(out.Sheets) != 1 {
		t.Fatalf("%d sheets", len(out.Sheets))
	}
	page := out.Sheets[0]
	r := render(t, save(t, "card", out.Sheets), 1)
	var drawn geom.Path
	var marks []geom.Pt // where the ticks begin
	for _, it := range page.Items {
		if s, ok := it.(sheet.Shape); ok && s.Role == sheet.CutLine {
			drawn = s.Path
		} else if ok && s.Role == sheet.NotchLine {
			marks = append(marks, s.Path.Start())
		}
	}
	if want := bowed.Start().Dist(bowed.End()); len(marks) != 2 || math.Abs(marks[0].Dist(marks[1])-want) > 1e-6 {
		t.Fatalf("end marks at %v, want them %.3f mm apart", marks, want)
	}
	from, _ := drawn.Nearest(marks[0])
	to, _ := drawn.Nearest(marks[1])
	if got, want := math.Abs(to-from), bowed.Len(); math.Abs(got-want) > 0.1 {
		t.Errorf("the curve is drawn %.2f mm long, want %.2f", got, want)
	}
	for k := 1; k < 20; k++ {
		at, dir := drawn.At(from + (to-from)*float64(k)/20)
		if off := r.offLine(at, dir.Left(), 1.5); math.Abs(off) > 0.2 {
			t.Errorf("at %v the curve is %.2f mm off", at, off)
		}
	}
	box := squaresOf(page)
	if across := r.lines(box.Max.Y-8, false, box.Min.X-1, box.Max.X+2.6); len(across) != 3 || math.Abs(across[1]-across[0]-100) > 0.2 {
		t.Errorf("lines of the square at %v, want 100 mm between the first two", across)
	}
}

// offLine is how far from at, along n, the middle of the dark stretch lies that
// is found within reach.
func (r raster) offLine(at geom.Pt, n geom.Vec, reach float64) float64 {
	sum, moment := 0.0, 0.0
	for d := -reach; d <= reach; d += 0.05 {
		p := at.Add(n.Scale(d))
		g := 255 - float64(r.px[int(p.Y*dpi/25.4)*r.w+int(p.X*dpi/25.4)])
		if g > 20 {
			sum, moment = sum+g, moment+g*d
		}
	}
	if sum == 0 {
		return math.Inf(1)
	}
	return moment / sum
}
