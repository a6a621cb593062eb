package pdf_test

import (
	"math"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// A line of 600 mm that runs over several sheets, with ticks across its ends,
// measured from the renderings laid edge to edge: within 0.5 mm. On a printer
// that errs, the rendering stands for what is sent, and what comes out is the
// error times that.
func TestLineAcrossJoins(t *testing.T) {
	for _, tt := range []struct {
		name    string
		printer sheet.Correction
	}{{"true", sheet.Correction{}}, {"erring", measured(t, "99.2", "100.6")}} {
		t.Run(tt.name, func(t *testing.T) {
			for _, down := range []bool{false, true} {
				if got := assembled(t, tt.printer, down); math.Abs(got-600) > 0.5 {
					t.Errorf("down %v: %.3f mm, want 600", down, got)
				}
			}
		})
	}
}

func measured(t *testing.T, across, along string) sheet.Correction {
	t.Helper()
	var sides [2]unit.Quantity
	for i, text := range []string{across, along} {
		q, err := unit.Parse(text, unit.Millimetres)
		if err != nil {
			t.Fatal(err)
		}
		sides[i] = q
	}
	c, err := sheet.Correction{}.Measured(sides[0], sides[1])
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// assembled returns how long the line of 600 mm is, as it is printed with c on a
// printer that needs c.
func assembled(t *testing.T, c sheet.Correction, down bool) float64 {
	t.Helper()
	at := func(along, aside float64) geom.Pt {
		if down {
			return geom.Pt{X: 60 + aside, Y: 33 + along}
		}
		return geom.Pt{X: 33 + along, Y: 60 + aside}
	}
	var d sheet.Drawing
	for _, tick := range [2]float64{0, 600} {
		d.Path(sheet.Shape{Role: sheet.CutLine, Path: geom.Polyline(at(tick, -6), at(tick, 6))})
	}
	d.Path(sheet.Shape{Role: sheet.SewLine, Path: geom.Polyline(at(0, 0), at(600, 0))})
	d.Bounds.Max = geom.Pt{X: 190 * 4, Y: 277 * 3}
	out, err := sheet.Tiles(d, sheet.A4(), sheet.TileOptions{Printer: c})
	if err != nil {
		t.Fatal(err)
	}
	path := save(t, "line", out.Drawings())
	kx, ky := 1.0, 1.0
	if c != (sheet.Correction{}) {
		kx, ky = c.Across, c.Along
	}
	// Trimmed at the frame, the sheets lie edge to edge: a place on a sheet counts
	// on from where its cell begins.
	var ends []float64
	for i, p := range out.Pages {
		r := render(t, path, i+1)
		cell := p.Window.Min.X
		scan := (10 + (at(0, 3).Y-p.Window.Min.Y)*ky)
		k, cells := kx, p.Col-1
		step := (210.0 - 20) / kx
		if down {
			cell = p.Window.Min.Y
			scan = 10 + (at(0, 3).X-p.Window.Min.X)*kx
			k, cells, step = ky, p.Row-1, (297.0-20)/ky
		}
		for _, tick := range [2]float64{0, 600} {
			want := at(tick, 0).X
			if down {
				want = at(tick, 0).Y
			}
			on := 10 + (want-cell)*k
			if on < 12 || on > 10+step*k-2 {
				continue
			}
			lines := r.lines(scan, down, on-1, on+1)
			if len(lines) != 1 {
				t.Fatalf("sheet %d: lines %v about %.1f, want one", i+1, lines, on)
			}
			ends = append(ends, float64(cells)*step+(lines[0]-10)/k)
		}
	}
	if len(ends) != 2 {
		t.Fatalf("ends %v, want two", ends)
	}
	return ends[1] - ends[0]
}
