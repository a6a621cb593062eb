package pack_test

import (
	"errors"
	"math"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet/pack"
	"chalkfold/draft/sheet/sheettest"
)

func box(w, h float64) []geom.Pt { return []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}} }

func ell() []geom.Pt {
	return []geom.Pt{{}, {X: 90}, {X: 90, Y: 180}, {X: 180, Y: 180}, {X: 180, Y: 270}, {Y: 270}}
}

func pieces() [][]geom.Pt {
	var out [][]geom.Pt
	for _, p := range sheettest.Pieces() {
		out = append(out, p.Cut)
	}
	return out
}

// cellsOf counts the cells that hold some of a ring, seen at points 3 mm apart.
func cellsOf(rings [][]geom.Pt, sheet geom.Vec) int {
	cells := map[[2]float64]bool{}
	for _, r := range rings {
		b := geom.BoundsOf(r)
		for x := b.Min.X + 0.5; x < b.Max.X; x += 3 {
			for y := b.Min.Y + 0.5; y < b.Max.Y; y += 3 {
				if geom.Contains(r, geom.Pt{X: x, Y: y}) {
					cells[[2]float64{math.Floor(x / sheet.X), math.Floor(y / sheet.Y)}] = true
				}
			}
		}
	}
	return len(cells)
}

func placed(t *testing.T, rings [][]geom.Pt, sheet geom.Vec, opt pack.Options) [][]geom.Pt {
	t.Helper()
	at, err := pack.Place(rings, sheet, opt)
	if err != nil {
		t.Fatal(err)
	}
	out := make([][]geom.Pt, len(rings))
	for i, r := range rings {
		if det := at[i].A*at[i].D - at[i].B*at[i].C; math.Abs(det-1) > 1e-9 {
			t.Errorf("ring %d is stretched or turned over: %v", i, at[i])
		}
		out[i] = geom.MapPts(r, at[i])
	}
	return out
}

func TestFewCells(t *testing.T) {
	sheet := geom.Vec{X: 190, Y: 277}
	tests := []struct {
		name  string
		rings [][]geom.Pt
		most  int
	}{
		{"one that fits", [][]geom.Pt{box(180, 270)}, 1},
		{"one that fits turned", [][]geom.Pt{box(270, 180)}, 1},
		{"two that share", [][]geom.Pt{box(180, 130), box(130, 180)}, 1},
		{"a square in the nook", [][]geom.Pt{ell(), box(80, 170)}, 1},
		// The bound by area is 21 (sheettest), the sheets alone 31.
		{"a pair of trousers", pieces(), 22},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := placed(t, tt.rings, sheet, pack.Options{Work: 1000})
			if n := cellsOf(got, sheet); n > tt.most {
				t.Errorf("%d cells, want %d at most", n, tt.most)
			}
			for i, a := range got {
				for j, b := range got[:i] {
					if near(a, b) < 1 {
						t.Errorf("rings %d and %d are %.2f mm apart, want 1", j, i, near(a, b))
					}
				}
			}
		})
	}
}

// near is the least distance of a point of a from b, or 0 when one holds a point
// of the other.
func near(a, b []geom.Pt) float64 {
	if geom.Contains(a, b[0]) || geom.Contains(b, a[0]) {
		return 0
	}
	least := math.Inf(1)
	for _, pq := range [2][2][]geom.Pt{{a, b}, {b, a}} {
		for _, p := range pq[0] {
			for i, c := range pq[1] {
				d := pq[1][(i+1)%len(pq[1])].Sub(c)
				k := math.Min(1, math.Max(0, p.Sub(c).Dot(d)/d.Dot(d)))
				least = math.Min(least, p.Dist(c.Add(d.Scale(k))))
			}
		}
	}
	return least
}

func TestMoreWorkIsNoWorse(t *testing.T) {
	sheet := geom.Vec{X: 190, Y: 277}
	last := math.MaxInt
	for _, work := range []int{1, 500, 1000} {
		n := cellsOf(placed(t, pieces(), sheet, pack.Options{Work: work, Seed: 3}), sheet)
		if n > last {
			t.Errorf("%d cells after %d steps, %d before", n, work, last)
		}
		last = n
	}
}

func TestSamePlaces(t *testing.T) {
	sheet := geom.Vec{X: 190, Y: 277}
	first, again := placed(t, pieces(), sheet, pack.Options{Work: 50}), placed(t, pieces(), sheet, pack.Options{Work: 50})
	for i := range first {
		if first[i][0] != again[i][0] || first[i][1] != again[i][1] {
			t.Fatalf("ring %d lies elsewhere the second time", i)
		}
	}
}

func TestPlaceRefuses(t *testing.T) {
	sheet := geom.Vec{X: 190, Y: 277}
	if _, err := pack.Place([][]geom.Pt{box(4000, 20)}, sheet, pack.Options{}); !errors.Is(err, pack.ErrTooLong) {
		t.Errorf("4 m: %v", err)
	}
	left := 5
	_, err := pack.Place(pieces(), sheet, pack.Options{Work: 1e6, Step: func() bool { left--; return left > 0 }})
	if !errors.Is(err, pack.ErrStopped) {
		t.Errorf("stopped: %v", err)
	}
	if at, err := pack.Place(nil, sheet, pack.Options{}); err != nil || at != nil {
		t.Errorf("nothing: %v, %v", at, err)
	}
}

func BenchmarkPlace(b *testing.B) {
	rings := pieces()
	for b.Loop() {
		if _, err := pack.Place(rings, geom.Vec{X: 190, Y: 277}, pack.Options{Work: pack.QuickWork}); err != nil {
			b.Fatal(err)
		}
	}
}

// Between the sheets in use no row or column is left empty.
func TestNoEmptyRows(t *testing.T) {
	sheet := geom.Vec{X: 190, Y: 277}
	for seed := range uint64(8) {
		rows, cols := map[int]bool{}, map[int]bool{}
		for _, r := range placed(t, [][]geom.Pt{box(180, 700), box(170, 250), box(180, 270)}, sheet, pack.Options{Work: 30, Seed: seed}) {
			b := geom.BoundsOf(r)
			for row := int(b.Min.Y / sheet.Y); float64(row)*sheet.Y < b.Max.Y; row++ {
				rows[row] = true
			}
			for col := int(b.Min.X / sheet.X); float64(col)*sheet.X < b.Max.X; col++ {
				cols[col] = true
			}
		}
		for _, in := range []map[int]bool{rows, cols} {
			for k := range len(in) {
				if !in[k] {
					t.Errorf("seed %d: rows %v, columns %v", seed, rows, cols)
				}
			}
		}
	}
}
