package sheet_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
	"chalkfold/draft/unit"
)

func everyPaper() []sheet.Paper {
	papers := sheet.Papers()
	if testing.Short() {
		papers = papers[:1]
	}
	var out []sheet.Paper
	for _, p := range papers {
		out = append(out, p, p.Turned())
	}
	return out
}

func tiled(t *testing.T, pieces []piece.Piece, p sheet.Paper, o sheet.TileOptions) (sheet.Drawing, sheet.Tiled) {
	t.Helper()
	d, err := sheet.OnPaper(pieces, p, sheet.Options{Job: "Alto 3"}, o)
	if err != nil {
		t.Fatal(err)
	}
	out, err := sheet.Tiles(d, p, o)
	if err != nil {
		t.Fatal(err)
	}
	return d, out
}

// onto returns the map from the drawing to the paper of a page with a margin
// of 10 mm.
func onto(p sheet.Page) geom.Affine {
	return geom.Translate(geom.Pt{X: 10, Y: 10}.Sub(p.Window.Min))
}

func inside(r geom.Rect, q geom.Pt) bool {
	return q.X >= r.Min.X && q.X <= r.Max.X && q.Y >= r.Min.Y && q.Y <= r.Max.Y
}

func TestEveryCutPointIsOnASheet(t *testing.T) {
	for _, paper := range everyPaper() {
		d, out := tiled(t, sheettest.Pieces(), paper, sheet.TileOptions{Work: 1})
		lost := 0
		for _, cut := range shapes(d, sheet.CutLine) {
			for _, q := range cut.Path.Flatten(piece.FlattenTol) {
				if !drawnAt(out, q) {
					lost++
				}
			}
		}
		if lost > 0 {
			t.Errorf("%s: %d points of cut lines are on no sheet", paper.Name, lost)
		}
	}
}

// drawnAt reports whether a sheet draws a cut line through q.
func drawnAt(out sheet.Tiled, q geom.Pt) bool {
	for _, p := range out.Pages {
		if !inside(p.Window, q) {
			continue
		}
		at := onto(p).Pt(q)
		for _, s := range shapes(p.Sheet, sheet.CutLine) {
			if b := s.Box(); !inside(b, at) {
				continue
			}
			if _, off := s.Path.Nearest(at); off < 1e-6 {
				return true
			}
		}
	}
	return false
}

func TestJoinMarksMatch(t *testing.T) {
	_, out := tiled(t, sheettest.Pieces(), sheet.A4(), sheet.TileOptions{Work: 50})
	if len(out.Joins) < out.Sheets-8 { // eight pieces at most stand alone
		t.Fatalf("%d joins for %d sheets", len(out.Joins), out.Sheets)
	}
	codes := map[string]bool{}
	for _, j := range out.Joins {
		if codes[j.Code] {
			t.Errorf("code %s is used twice", j.Code)
		}
		codes[j.Code] = true
		from, to := out.Pages[j.From], out.Pages[j.To]
		if j.Across && (to.Row != from.Row || to.Col != from.Col+1) || !j.Across && (to.Col != from.Col || to.Row != from.Row+1) {
			t.Errorf("join %s: row %d column %d to row %d column %d", j.Code, from.Row, from.Col, to.Row, to.Col)
		}
		// Trimmed, the second sheet begins on the line.
		if on := to.Window.Min; j.Across && math.Abs(j.At.X-on.X) > 1e-9 || !j.Across && math.Abs(j.At.Y-on.Y) > 1e-9 {
			t.Errorf("join %s at %v is not where row %d column %d begins, %v", j.Code, j.At, to.Row, to.Col, on)
		}
		for _, p := range []sheet.Page{from, to} {
			at := onto(p).Pt(j.At)
			if !markAt(p.Sheet, at) {
				t.Errorf("join %s: no mark at %v on row %d column %d", j.Code, at, p.Row, p.Col)
			}
			if !codeBy(p.Sheet, at, j.Code) {
				t.Errorf("join %s: code not written by its mark on row %d column %d", j.Code, p.Row, p.Col)
			}
		}
	}
}

func markAt(d sheet.Drawing, at geom.Pt) bool {
	for _, s := range shapes(d, sheet.Frame) {
		if len(s.Path) != 4 {
			continue
		}
		if c := s.Path[0].A.Lerp(s.Path[2].A, 0.5); near(c, at, 1e-9) {
			return true
		}
	}
	return false
}

func codeBy(d sheet.Drawing, at geom.Pt, code string) bool {
	for _, x := range texts(d) {
		if x.S == code && near(x.At, at, 8) {
			return true
		}
	}
	return false
}

func TestEverySheetCarriesBothSquares(t *testing.T) {
	for _, paper := range everyPaper() {
		_, out := tiled(t, sheettest.Pieces(), paper, sheet.TileOptions{Job: "Alto 3", Work: 1})
		cautions, full := 0, 0
		for i, p := range out.Pages {
			squares := shapes(p.Sheet, sheet.Gauge)
			if len(squares) < 2 {
				t.Fatalf("%s sheet %d: %d squares", paper.Name, i+1, len(squares))
			}
			mm := math.Round(geom.BoundsOf(squares[0].Path.Flatten(1)).W())
			for k, want := range []float64{mm, mm / 25 * 25.4} {
				b := geom.BoundsOf(squares[k].Path.Flatten(1))
				if math.Abs(b.W()-want) > 1e-9 || math.Abs(b.H()-want) > 1e-9 {
					t.Errorf("%s sheet %d: square %.2f by %.2f, want %.1f", paper.Name, i+1, b.W(), b.H(), want)
				}
				for _, role := range patternRoles() {
					for _, s := range shapes(p.Sheet, role) {
						if crosses(s.Path, b) {
							t.Errorf("%s sheet %d: the square of %.1f mm lies over a line: %s", paper.Name, i+1, want, sheet.StyleOf(role).Name)
						}
					}
				}
				own := rect(10, 10, paper.Width.MM()-20, paper.Height.MM()-20)
				if !inside(own, b.Min) || !inside(own, b.Max) {
					t.Errorf("%s sheet %d: square %v reaches out of %v", paper.Name, i+1, b, own)
				}
			}
			words := map[string]int{}
			for _, x := range texts(p.Sheet) {
				words[x.S]++
				if x.Size < sheet.MinText {
					t.Errorf("%s sheet %d: %q is under 7 pt", paper.Name, i+1, x.S)
				}
			}
			inner, outer := fmt.Sprintf("measure this: %.0f mm", mm), fmt.Sprintf("%.0f in, the outer square", mm/25)
			if mm == 25 {
				inner, outer = "25 mm", "1 in"
			}
			if words[inner] != 2 || words[outer] != 2 || words["Alto 3"] == 0 {
				t.Errorf("%s sheet %d: both squares named on both axes, and the job, not found in %v", paper.Name, i+1, words)
			}
			cautions += words["Check one square before you cut."] + words["Print at 100 %, no fit-to-page."]
			if mm == 100 {
				full++
			}
		}
		if cautions != 2 || full == 0 {
			t.Errorf("%s: %d cautions and %d sheets with the full squares, want 2 and some", paper.Name, cautions, full)
		}
	}
}

// patternRoles are the lines of a pattern that no square may lie over.
func patternRoles() []sheet.Role {
	return []sheet.Role{
		sheet.CutLine, sheet.SewLine, sheet.Grain, sheet.NotchLine, sheet.FoldLine,
		sheet.CreaseLine, sheet.DartLine, sheet.InnerLine, sheet.MarkPoint,
	}
}

// crosses reports whether a path runs through the box.
func crosses(p geom.Path, b geom.Rect) bool {
	pts := p.Flatten(0.1)
	for i := 1; i < len(pts); i++ {
		n := int(pts[i-1].Dist(pts[i])) + 1
		for k := range n + 1 {
			if inside(b, pts[i-1].Lerp(pts[i], float64(k)/float64(n))) {
				return true
			}
		}
	}
	return false
}

func TestSheetCounts(t *testing.T) {
	box := func(w, h float64) []piece.Piece {
		ring := []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}
		return []piece.Piece{{ID: "box", Name: "Box", Count: 1, Cut: ring, Sew: ring}}
	}
	tests := []struct {
		name          string
		pieces        []piece.Piece
		paper         sheet.Paper
		opt           sheet.TileOptions
		sheets, bound int
	}{
		{"one sheet", box(170, 250), sheet.A4(), sheet.TileOptions{Work: 50}, 1, 1},
		{"turned to fit one", box(250, 170), sheet.A4(), sheet.TileOptions{Work: 50}, 1, 1},
		// 500 mm over the diagonal of 190 by 277, 336 mm: 2 sheets.
		{"long", box(40, 500), sheet.A4(), sheet.TileOptions{Work: 50}, 2, 2},
		// Upright 3 rows of 277 mm in one column; askew, so that it is 2 rows high, 2
		// columns of 190 mm, so 3 sheets as well.
		{"a strip", box(30, 600), sheet.A4(), sheet.TileOptions{Work: 50}, 3, 3},
		// 700 · 500 over 190 · 277 = 6.65: 7; turned, 4 by 2.
		{"large", box(500, 700), sheet.A4(), sheet.TileOptions{Work: 50}, 8, 7},
		{"wider margin", box(170, 250), sheet.A4(), sheet.TileOptions{Margin: 20, Work: 50}, 2, 1},
		{"A3", box(250, 380), sheet.Papers()[1], sheet.TileOptions{Work: 50}, 1, 1},
		{"two small", append(box(80, 100), box(80, 100)...), sheet.A4(), sheet.TileOptions{Work: 50}, 1, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, out := tiled(t, tt.pieces, tt.paper, tt.opt)
			if out.Sheets != tt.sheets || out.Bound.Sheets() != tt.bound || len(out.Pages) != out.Sheets {
				t.Errorf("%d sheets, bound %d, want %d and %d", out.Sheets, out.Bound.Sheets(), tt.sheets, tt.bound)
			}
		})
	}
}

// However a strip lies, by any turn and move, it touches as many sheets as its bound
// says, or more.
func TestNoPlacingBeatsTheBoundByReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(5, 40).Draw(t, "w"), rapid.Float64Range(100, 1500).Draw(t, "h")
		bend := rapid.Float64Range(-300, 300).Draw(t, "bend")
		ring := []geom.Pt{{}, {X: w}, {X: w + bend, Y: h / 2}, {X: w, Y: h}, {Y: h}, {X: bend, Y: h / 2}}
		ring = geom.MapPts(ring, geom.RotateAbout(geom.Pt{}, rapid.Float64Range(0, 2*math.Pi).Draw(t, "turn")))
		first := geom.Pt{X: rapid.Float64Range(0, 190).Draw(t, "x"), Y: rapid.Float64Range(0, 277).Draw(t, "y")}
		ring = geom.MapPts(ring, geom.Translate(first.Sub(geom.BoundsOf(ring).Min)))
		d := sheet.Drawing{Outlines: []sheet.Outline{{Ring: ring}}, Bounds: geom.Rect{Max: geom.BoundsOf(ring).Max}}
		out, err := sheet.Tiles(d, sheet.A4(), sheet.TileOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if out.Bound.ByReach > out.Sheets {
			t.Fatalf("a bound of %d, and it lies on %d sheets", out.Bound.ByReach, out.Sheets)
		}
	})
}

func TestBlankSheetsAreLeftOut(t *testing.T) {
	// Two far corners of a drawing: nothing lies between them.
	var d sheet.Drawing
	for _, at := range []geom.Pt{{}, {X: 700, Y: 900}} {
		p := at.Add(geom.Vec{X: 50, Y: 50})
		d.Path(sheet.Shape{Role: sheet.CutLine, Path: geom.Polyline(at, p)})
		d.Bounds = d.Bounds.Union(geom.Rect{Min: at, Max: p})
	}
	out, err := sheet.Tiles(d, sheet.A4(), sheet.TileOptions{})
	if err != nil {
		t.Fatal(err)
	}
	if out.Sheets >= out.Rows*out.Cols || out.Sheets > 4 {
		t.Errorf("%d sheets of %d", out.Sheets, out.Rows*out.Cols)
	}
	// Inside a piece no sheet is left out, line or not: the paper must hold.
	_, solid := tiled(t, []piece.Piece{{ID: "a", Name: "A", Count: 1, Cut: []geom.Pt{{}, {X: 900}, {X: 900, Y: 1300}, {Y: 1300}}}},
		sheet.A4(), sheet.TileOptions{Work: 1})
	if solid.Sheets != solid.Rows*solid.Cols {
		t.Errorf("%d sheets of %d under one large piece", solid.Sheets, solid.Rows*solid.Cols)
	}
}

func TestPiecesOnPaperDoNotOverlap(t *testing.T) {
	for _, paper := range everyPaper() {
		d, out := tiled(t, sheettest.Pieces(), paper, sheet.TileOptions{Work: 1})
		for i, a := range d.Outlines {
			for _, b := range d.Outlines[i+1:] {
				if cross(a.Ring, b.Ring) || geom.Contains(a.Ring, b.Ring[0]) || geom.Contains(b.Ring, a.Ring[0]) {
					t.Errorf("%s: %s lies on %s", paper.Name, a.ID, b.ID)
				}
			}
			if geom.Area(a.Ring) <= 0 {
				t.Errorf("%s: %s is turned over", paper.Name, a.ID)
			}
		}
		if out.Sheets < out.Bound.Sheets() {
			t.Errorf("%s: %d sheets, under the bound of %d", paper.Name, out.Sheets, out.Bound.Sheets())
		}
	}
}

func cross(a, b []geom.Pt) bool {
	for i, p := range a {
		for j, q := range b {
			if _, ok := geom.SegCross(p, a[(i+1)%len(a)], q, b[(j+1)%len(b)]); ok {
				return true
			}
		}
	}
	return false
}

func TestPaperIsRefused(t *testing.T) {
	tests := []struct {
		name  string
		paper sheet.Paper
		opt   sheet.TileOptions
		want  string
	}{
		{"margin", sheet.A4(), sheet.TileOptions{Margin: 5}, "margin 5.0 mm"},
		{"printer", sheet.A4(), sheet.TileOptions{Printer: sheet.Correction{Across: 1.2}}, "printer correction"},
		{"small", sheet.Paper{Name: "A6", Width: 105, Height: 148}, sheet.TileOptions{}, "use larger paper"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := sheet.Tiles(sheet.Drawing{}, tt.paper, tt.opt)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %v, want %q", err, tt.want)
			}
			if _, err := sheet.OnPaper(nil, tt.paper, sheet.Options{}, tt.opt); err == nil {
				t.Error("OnPaper took it")
			}
		})
	}
}

func TestPapers(t *testing.T) {
	p, ok := sheet.PaperNamed("Letter")
	if !ok || p.Width != 8.5*unit.Inch || p.Turned().Height != 8.5*unit.Inch {
		t.Errorf("Letter %v %v", p, ok)
	}
	if _, ok := sheet.PaperNamed("A9"); ok {
		t.Error("A9 is offered")
	}
}
