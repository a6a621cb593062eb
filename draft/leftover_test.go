package draft_test

import (
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"chalkfold/draft"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
)

func polygon(t testing.TB, ring []geom.Pt) sf.Geometry {
	t.Helper()
	var at []float64
	for _, p := range append(ring, ring[0]) {
		at = append(at, p.X, p.Y)
	}
	p := sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(at, sf.DimXY))})
	if err := p.Validate(); err != nil {
		t.Fatalf("the outline is no outline: %v", err)
	}
	return p.AsGeometry()
}

// What is left over is cloth: no piece lies in it, by an independent library; it
// can be laid on, and it reaches to the end of the cloth.
func TestLeftoverIsCloth(t *testing.T) {
	for _, tt := range []struct {
		width, long string
		fold        job.Fold
	}{
		{"60", "108", job.Open},
		{"60", "108", job.Lengthwise},
		{"45", "140", job.Crosswise},
		{"36", "144", job.Open},
	} {
		if testing.Short() && tt.fold != job.Crosswise {
			continue
		}
		c := job.Cloth{Width: length(t, tt.width), Length: length(t, tt.long), Fold: tt.fold, Name: "blue drill"}
		c.Flaws = []job.Flaw{{FromSelvedge: length(t, "20"), FromEdge: length(t, tt.long[:len(tt.long)-1]+"1"), Across: length(t, "3"), Along: length(t, "1")}}
		if tt.fold == job.Crosswise {
			c.Flaws = nil
		}
		r, l := laid(t, c)
		left, rect, ok := draft.Leftover(r, 0, l)
		if !ok || left.Name != "blue drill" || left.Fold != job.Open {
			t.Errorf("%+v: nothing left of %s in", tt, tt.long)
			continue
		}
		var ring []geom.Pt
		far := 0.0
		for _, k := range left.Outline {
			p := geom.Pt{X: k.Across.Length().MM(), Y: k.Along.Length().MM()}
			ring, far = append(ring, p), max(far, p.Y)
		}
		// Back to where it lay: its end is the end of the cloth, its left side
		// that of the cloth when the whole width is left.
		if b := geom.BoundsOf(ring); b.W() < c.Width.Length().MM()-20 {
			t.Errorf("%+v: the remnant is %.0f mm wide of %.0f mm", tt, b.W(), c.Width.Length().MM())
		}
		back := geom.Translate(geom.Vec{Y: c.Length.Length().MM() - far})
		remnant := polygon(t, geom.MapPts(ring, back))
		mid := c.Width.Length().MM() / 2
		for _, p := range l.Placements {
			one := p.Ring(l.Items)
			views := [][]geom.Pt{one}
			switch {
			case tt.fold == job.Crosswise:
				views[0] = geom.MapPts(one, geom.Translate(geom.Vec{Y: l.FoldedTo.MM()}))
			case tt.fold == job.Lengthwise && !p.Opened:
				views[0] = geom.MapPts(one, geom.Translate(geom.Vec{X: mid}))
				views = append(views, geom.MapPts(views[0], geom.MirrorX(mid)))
			}
			for _, v := range views {
				both, err := sf.Intersection(remnant, polygon(t, v))
				if err == nil && both.Area() > 1 {
					t.Errorf("%+v: %s lies in the remnant by %.0f mm²", tt, l.Items[p.Item].Name, both.Area())
				}
			}
		}
		box, err := sf.Difference(polygon(t, geom.MapPts([]geom.Pt{rect.Min, {X: rect.Max.X, Y: rect.Min.Y}, rect.Max, {X: rect.Min.X, Y: rect.Max.Y}}, back)), remnant)
		if err != nil || box.Area() > 2*r.Format.Finest().MM()*(rect.W()+rect.H()) { // but for the rounding of the corners, at both ends
			t.Errorf("%+v: the rectangle %v is not in the remnant: %.0f mm² outside, %v", tt, rect, box.Area(), err)
		}
		if len(left.Flaws) != len(c.Flaws) {
			t.Errorf("%+v: %d flaws in the remnant, want %d", tt, len(left.Flaws), len(c.Flaws))
		}
		// A later job lays pocketing on it.
		j := r.Job.Clone()
		j.Cloth = []job.Cloth{left, {Width: length(t, "60")}}
		later, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := draft.LayAll(later, lay.Options{Work: 30}); err != nil {
			t.Errorf("%+v: the remnant cannot be laid on: %v", tt, err)
		}
	}
}

// Nothing is left of a bolt, nor of cloth that is used up.
func TestNothingLeftOver(t *testing.T) {
	r, l := laid(t, job.Cloth{Width: length(t, "60")})
	if _, _, ok := draft.Leftover(r, 0, l); ok {
		t.Error("the bolt leaves a remnant")
	}
	r, l = laid(t, job.Cloth{Width: length(t, "60"), Length: length(t, "40")})
	if left, _, ok := draft.Leftover(r, 0, l); ok {
		t.Errorf("%.0f mm of 40 in leave %v", l.Length.MM(), left.Outline)
	}
}
