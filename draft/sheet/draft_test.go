package sheet_test

import (
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/sheettest"
)

func TestDraftSetsPiecesApart(t *testing.T) {
	pieces := sheettest.Pieces()
	d := sheet.Draft(pieces, sheet.Options{})
	if len(d.Outlines) != len(pieces) {
		t.Fatalf("%d outlines, want %d", len(d.Outlines), len(pieces))
	}
	boxes := map[string]geom.Rect{}
	for i, o := range d.Outlines {
		b := geom.BoundsOf(o.Ring)
		boxes[o.ID] = b
		want := pieces[i].Bounds()
		if diff := b.W() - want.W() + b.H() - want.H(); diff > 1e-6 || diff < -1e-6 {
			t.Errorf("%s: %.1f by %.1f mm, want true size %.1f by %.1f", o.ID, b.W(), b.H(), want.W(), want.H())
		}
		if b.Min.X < d.Bounds.Min.X || b.Max.X > d.Bounds.Max.X || b.Min.Y < d.Bounds.Min.Y || b.Max.Y > d.Bounds.Max.Y {
			t.Errorf("%s reaches out of the drawing", o.ID)
		}
		for _, e := range d.Outlines[i+1:] {
			if b.Overlaps(geom.BoundsOf(e.Ring)) {
				t.Errorf("%s lies on %s", o.ID, e.ID)
			}
		}
		if !hasText(d, pieces[i].Name) {
			t.Errorf("%q is not written", pieces[i].Name)
		}
	}
	if f, b := boxes["front"], boxes["back"]; f.Max.X > b.Min.X || f.Max.Y != b.Max.Y {
		t.Errorf("front %v and back %v do not stand beside each other, hems level", f, b)
	}
	for _, x := range texts(d) {
		b := x.Box()
		if b.Min.X < d.Bounds.Min.X || b.Max.X > d.Bounds.Max.X || b.Max.Y > d.Bounds.Max.Y {
			t.Errorf("%q reaches out of the drawing", x.S)
		}
		// 360 px is a narrow phone; text under 9 px is not read there.
		if px := x.Size.MM() / d.Bounds.W() * 360; px < 9 {
			t.Errorf("%q is %.1f px high on a phone", x.S, px)
		}
	}
}

func TestDraftOfNothing(t *testing.T) {
	if d := sheet.Draft(nil, sheet.Options{}); len(d.Items) != 0 {
		t.Errorf("items %v", d.Items)
	}
}
