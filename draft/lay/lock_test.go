package lay_test

import (
	"math"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// TestLockedOnOpenedRest: what is locked there keeps its place from where the
// cloth is opened out, wherever that comes to be, and the others go round it.
func TestLockedOnOpenedRest(t *testing.T) {
	at := func(x, y float64) *lay.Spot {
		return &lay.Spot{At: geom.Translate(geom.Vec{X: x, Y: y}), Opened: true}
	}
	ring := func(x, y, w, h float64) []geom.Pt {
		return []geom.Pt{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
	}
	pieces := []piece.Piece{box("pair", 4, true, 300, 400), box("tab", 1, false, 200, 100), box("sheet", 1, false, 700, 150)}
	for _, tt := range []struct {
		name           string
		cloth          lay.Cloth
		tab            *lay.Spot
		folded, length float64
	}{
		// Two pairs lie one after the other on the 500 mm of folded cloth. The sheet
		// goes beside the tab, whose 200 mm leave it 800, or after it.
		{"at its beginning", lay.Cloth{Fold: lay.Lengthwise}, at(0, 0), 800, 950},
		{"in the middle", lay.Cloth{Fold: lay.Lengthwise}, at(400, 0), 800, 1050},
		{"further on", lay.Cloth{Fold: lay.Lengthwise}, at(400, 180), 800, 1080},
		{"crosswise", lay.Cloth{Fold: lay.Crosswise}, at(0, 20), 400, 950},
		// The flaw is 820 mm from the cut edge: the rest begins past it, since the
		// tab would lie on it before.
		{"on a flaw", lay.Cloth{Fold: lay.Lengthwise, Flaws: [][]geom.Pt{ring(100, 820, 30, 10)}}, at(0, 0), 830, 980},
		{"short", lay.Cloth{Fold: lay.Lengthwise, Length: 900}, at(0, 0), 800, 950},
		{"short, what has no room left out", lay.Cloth{Fold: lay.Lengthwise, Length: 900, LeaveOut: true}, at(0, 0), 800, 900},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := tt.cloth
			c.Width = 1000
			its := items(t, pieces, c)
			tab := -1
			for i := range its {
				if its[i].Piece == "tab" {
					tab, its[i].Locked = i, tt.tab
				}
			}
			if gone := lay.Hold(c, its); len(gone) > 0 {
				t.Fatalf("let go %v", gone)
			}
			r, err := lay.Pack(c, its, lay.Options{Work: 3000})
			if err != nil {
				t.Fatal(err)
			}
			if err := lay.Verify(c, its, r); err != nil {
				t.Fatal(err)
			}
			if math.Abs(r.FoldedTo.MM()-tt.folded) > 0.1 || math.Abs(r.Length.MM()-tt.length) > 0.1 {
				t.Errorf("folded to %.1f mm, %.1f in all; want %.0f and %.0f", r.FoldedTo.MM(), r.Length.MM(), tt.folded, tt.length)
			}
			for i, p := range r.Placements {
				if p.Item != tab {
					continue
				}
				if want := tt.tab.OnTable(r.FoldedTo); p.Spot != want {
					t.Errorf("it lies at %v, want %v", p.At, want.At)
				}
				r.Placements[i].At.E++
			}
			if lay.Verify(c, its, r) == nil {
				t.Error("moved aside, nothing is said")
			}
		})
	}
}

// TestToTheOtherPart: the hand takes a single from under the fold to where the
// cloth is opened out, and back.
func TestToTheOtherPart(t *testing.T) {
	c := lay.Cloth{Width: 1000, Fold: lay.Lengthwise}
	its, r := mustPack(t, []piece.Piece{box("pair", 2, true, 300, 800), box("tab", 1, false, 150, 200)}, c)
	table, err := lay.NewTable(c, its, r)
	if err != nil {
		t.Fatal(err)
	}
	if l, ok := table.Lift(0); !ok || its[0].Piece != "pair" {
		t.Fatal("no pair")
	} else if _, ok := l.OtherPart(l.Was); ok {
		t.Error("what is cut through both layers is laid where there is one")
	}
	l, ok := table.Lift(1)
	if !ok || l.Was.Opened {
		t.Fatal("the tab does not lie under the fold")
	}
	to, ok := l.OtherPart(l.Was)
	if !ok || !to.Opened {
		t.Fatalf("the tab goes to %v, %t", to, ok)
	}
	for _, tt := range []struct {
		spot   lay.Spot
		length unit.Length
	}{{to, 1000}, {l.Was, 800}} {
		down := l.Down(tt.spot)
		if err := lay.Verify(c, its, down); err != nil || down.Length != tt.length {
			t.Errorf("%.1f mm, want %.1f: %v", down.Length.MM(), tt.length.MM(), err)
		}
	}
	if back, ok := l.OtherPart(to); !ok || back.Opened || !l.Free(back) {
		t.Errorf("back under the fold: %v, %t", back, ok)
	}
}
