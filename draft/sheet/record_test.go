package sheet_test

import (
	"math"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
)

// shapes returns the recorded shapes of a role.
func shapes(d sheet.Drawing, role sheet.Role) []sheet.Shape {
	var out []sheet.Shape
	for _, it := range d.Items {
		if s, ok := it.(sheet.Shape); ok && s.Role == role {
			out = append(out, s)
		}
	}
	return out
}

func texts(d sheet.Drawing) []sheet.Text {
	var out []sheet.Text
	for _, it := range d.Items {
		if s, ok := it.(sheet.Text); ok {
			out = append(out, s)
		}
	}
	return out
}

func hasText(d sheet.Drawing, s string) bool {
	for _, t := range texts(d) {
		if t.S == s {
			return true
		}
	}
	return false
}

func near(a, b geom.Pt, tol float64) bool { return a.Dist(b) <= tol }

func rect(x0, y0, x1, y1 float64) geom.Rect {
	return geom.Rect{Min: geom.Pt{X: x0, Y: y0}, Max: geom.Pt{X: x1, Y: y1}}
}

func TestPlayRecordsWhatWasDrawn(t *testing.T) {
	var d sheet.Drawing
	d.Begin(sheet.Group{ID: "a", Title: "A", Clip: &geom.Rect{Max: geom.Pt{X: 10, Y: 20}}})
	d.Path(sheet.Shape{Role: sheet.CutLine, Path: geom.Polyline(geom.Pt{}, geom.Pt{X: 10})})
	d.Text(sheet.Text{At: geom.Pt{X: 1, Y: 2}, Size: 3, S: "text"})
	d.End()

	tests := []struct {
		name     string
		at       geom.Affine
		end, txt geom.Pt
		reads    geom.Vec
		clip     geom.Rect
		size     float64
	}{
		{"as is", geom.Identity(), geom.Pt{X: 10}, geom.Pt{X: 1, Y: 2}, geom.Vec{X: 1}, rect(0, 0, 10, 20), 3},
		{"moved", geom.Translate(geom.Vec{X: 5, Y: 7}), geom.Pt{X: 15, Y: 7}, geom.Pt{X: 6, Y: 9}, geom.Vec{X: 1}, rect(5, 7, 15, 27), 3},
		{"quarter turn", geom.Affine{B: 1, C: -1}, geom.Pt{Y: 10}, geom.Pt{X: -2, Y: 1}, geom.Vec{Y: 1}, rect(-20, 0, 0, 10), 3},
		{"half size", geom.Affine{A: 0.5, D: 0.5}, geom.Pt{X: 5}, geom.Pt{X: 0.5, Y: 1}, geom.Vec{X: 1}, rect(0, 0, 5, 10), 1.5},
		{"turned over", geom.MirrorX(0), geom.Pt{X: -10}, geom.Pt{X: -1, Y: 2}, geom.Vec{X: -1}, rect(-10, 0, 0, 20), 3},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got sheet.Drawing
			d.Play(&got, tt.at)
			if len(got.Items) != 4 {
				t.Fatalf("%d items, want 4", len(got.Items))
			}
			g, _ := got.Items[0].(sheet.Group)
			if g.ID != "a" || g.Clip == nil || !near(g.Clip.Min, tt.clip.Min, 1e-9) || !near(g.Clip.Max, tt.clip.Max, 1e-9) {
				t.Errorf("group %v clip %v, want clip %v", g, g.Clip, tt.clip)
			}
			if p := shapes(got, sheet.CutLine)[0].Path.End(); !near(p, tt.end, 1e-9) {
				t.Errorf("line ends at %v, want %v", p, tt.end)
			}
			x := texts(got)[0]
			if !near(x.At, tt.txt, 1e-9) || x.Dir.Plus(tt.reads.Neg()).Len() > 1e-9 || x.Size.MM() != tt.size {
				t.Errorf("text at %v reads %v size %v, want %v %v %v", x.At, x.Dir, x.Size, tt.txt, tt.reads, tt.size)
			}
		})
	}
}

// Text must stand out from white by 7 to 1, and text is drawn in the grey of
// its role: relative luminance and contrast after WCAG 2.2.
func TestTextContrast(t *testing.T) {
	luminance := func(g uint8) float64 {
		c := float64(g) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	for _, r := range []sheet.Role{sheet.Label, sheet.Note} {
		st := sheet.StyleOf(r)
		if got := 1.05 / (luminance(st.Grey) + 0.05); got < 7 {
			t.Errorf("%s: contrast %.1f to 1, want 7", st.Name, got)
		}
	}
}

func TestStylesAreNamedOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range sheet.Styles() {
		if s.Name == "" || seen[s.Name] {
			t.Errorf("style name %q is empty or used twice", s.Name)
		}
		seen[s.Name] = true
	}
	// Drawing practice: the cut line is solid, the sew line dashed.
	if cut, sew := sheet.StyleOf(sheet.CutLine), sheet.StyleOf(sheet.SewLine); cut.Dash != nil || sew.Dash == nil {
		t.Errorf("cut dash %v, sew dash %v", cut.Dash, sew.Dash)
	}
}
