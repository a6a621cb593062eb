package sheet_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
	"chalkfold/draft/unit"
)

func TestPieceDrawsItsLines(t *testing.T) {
	p := sheettest.Front()
	d := sheet.Piece(p, sheet.Options{Job: "Alto 3"})
	cut := shapes(d, sheet.CutLine)
	if len(cut) != 1 || !cut[0].Closed {
		t.Fatalf("cut lines %v, want one closed", len(cut))
	}
	for _, q := range p.Cut {
		if _, off := cut[0].Path.Nearest(q); off > 1e-9 {
			t.Fatalf("cut point %v stands %.3f mm off the cut line", q, off)
		}
	}
	sewn := 0.0
	for _, s := range shapes(d, sheet.SewLine) {
		sewn += s.Path.Len()
	}
	want := 0.0
	for _, e := range p.Edges {
		want += e.Sew.Len()
	}
	if math.Abs(sewn-want) > 1e-6 {
		t.Errorf("sew line %.3f mm, want %.3f", sewn, want)
	}
	for role, n := range map[sheet.Role]int{
		sheet.CreaseLine: 1, sheet.DartLine: 2, sheet.InnerLine: 1,
		sheet.Grain:     3, // the line and two heads
		sheet.MarkPoint: 6, // a ring and a cross at each of two marks
		sheet.NotchLine: len(p.Notches),
	} {
		if got := len(shapes(d, role)); got != n {
			t.Errorf("%s: %d shapes, want %d", sheet.StyleOf(role).Name, got, n)
		}
	}
	if g := shapes(d, sheet.Grain)[0].Path; math.Abs(g.StartDir().X) > 1e-9 {
		t.Errorf("grain runs %v, want along y", g.StartDir())
	}
}

func TestNotchesCrossTheAllowance(t *testing.T) {
	p := sheettest.Front()
	d := sheet.Piece(p, sheet.Options{})
	for i, s := range shapes(d, sheet.NotchLine) {
		n := p.Notches[i]
		if !near(s.Path.Start(), n.At, 1e-9) {
			t.Errorf("notch %d starts at %v, want on the sew line at %v", n.Number, s.Path.Start(), n.At)
		}
		// The made-up front has ½ in everywhere but at the hem.
		if l := s.Path.Len(); math.Abs(l-12.7) > 0.2 {
			t.Errorf("notch %d is %.2f mm long, want the allowance of 12.7", n.Number, l)
		}
		if !hasText(d, string(rune('0'+n.Number))) {
			t.Errorf("notch %d has no number", n.Number)
		}
	}
}

func TestLabelsStandInsideAndCanBeRead(t *testing.T) {
	words := map[string][]string{
		"front":      {"Front", "cut 2, one pair", "main cloth", "Alto 3"},
		"waistband":  {"Waistband", "cut 1 on the straight", "across the grain if it is short"},
		"pocket-bag": {"Pocket bag ẹọṣ", "cut 2 on the fold", "lining", "along or across the grain", "mouth 6⅝ in"},
		"loop-strip": {"Belt loop strip", "cut 1", "along or across the grain"},
		"loop":       {"Belt loop", "cut 6 on the straight", "main cloth", "Alto 3"},
		"welt":       {"Welt", "cut 2 on the straight", "main cloth", "Alto 3"},
		"fly-facing": {"Fly facing", "cut 2, one pair"},
		"back":       {"Back"},
	}
	for _, p := range sheettest.Pieces() {
		t.Run(p.ID, func(t *testing.T) {
			d := sheet.Piece(p, sheet.Options{Job: "Alto 3"})
			all := ""
			for _, x := range texts(d) {
				all += x.S + "\n"
				if x.Size < sheet.MinText {
					t.Errorf("%q is set at %.2f mm, under 7 pt", x.S, x.Size.MM())
				}
				b := x.Box()
				for _, q := range []geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
					if !geom.Contains(p.Cut, q) {
						t.Errorf("%q reaches out of the piece at %v", x.S, q)
					}
				}
			}
			if len(words[p.ID]) == 0 {
				t.Fatal("no words are expected of this piece")
			}
			for _, w := range words[p.ID] {
				if !strings.Contains(all, w) {
					t.Errorf("%q is not written; written is\n%s", w, all)
				}
			}
		})
	}
}

func TestTextsDoNotRunIntoEachOther(t *testing.T) {
	for _, p := range sheettest.Pieces() {
		tt := texts(sheet.Piece(p, sheet.Options{Job: "Alto 3"}))
		for i, a := range tt {
			for _, b := range tt[i+1:] {
				if a.Box().Overlaps(b.Box()) && a.Dir == b.Dir && a.Dir.Y*a.Dir.X == 0 {
					t.Errorf("%s: %q runs into %q", p.ID, a.S, b.S)
				}
			}
		}
	}
}

func TestFoldIsNotACutLine(t *testing.T) {
	p := sheettest.Pocket()
	d := sheet.Piece(p, sheet.Options{})
	fold := shapes(d, sheet.FoldLine)
	if len(fold) != 1 {
		t.Fatalf("%d fold lines, want 1", len(fold))
	}
	mid, _ := fold[0].Path.At(fold[0].Path.Len() / 2)
	cut := 0.0
	for _, s := range shapes(d, sheet.CutLine) {
		cut += s.Path.Len()
		if _, off := s.Path.Nearest(mid); off < 20 {
			t.Errorf("a cut line runs %.1f mm from the middle of the fold", off)
		}
	}
	whole := 0.0
	for i, q := range p.Cut {
		whole += q.Dist(p.Cut[(i+1)%len(p.Cut)])
	}
	// The fold of the piece as cut: the sew line's and both allowances.
	want := whole - (11*25.4 + 2*12.7)
	if math.Abs(cut-want) > 1 {
		t.Errorf("cut line %.1f mm, want %.1f", cut, want)
	}
}

func TestPieceWithoutEdges(t *testing.T) {
	ring := []geom.Pt{{}, {X: 100}, {X: 100, Y: 60}, {Y: 60}}
	d := sheet.Piece(piece.Piece{ID: "bare", Name: "Bare", Count: 1, Cut: ring, Sew: ring}, sheet.Options{})
	if len(shapes(d, sheet.CutLine)) != 1 || !hasText(d, "Bare") {
		t.Errorf("items %v", d.Items)
	}
}

func TestTextWidth(t *testing.T) {
	for _, tt := range []struct {
		s    string
		size unit.Length
		want float64
	}{
		{"", 10, 0},
		{"A", 10, 6.39}, // font table hmtx: 639 of 1000
		{"AA", 5, 6.39},
		{"e\u0301", 10, 5.64}, // the accent stands on the e
	} {
		if got := sheet.TextWidth(tt.s, tt.size).MM(); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%q at %v: %.3f mm, want %.3f", tt.s, tt.size, got, tt.want)
		}
	}
}
