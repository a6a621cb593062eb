package draft_test

import (
	"bytes"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/svg"
	"chalkfold/draft/unit"
	"chalkfold/testdata/golden"
)

// extreme is a rule by which the most extreme body of the survey is found: that of
// the greatest figure. The styles go with what is hard to draft for it.
type extreme struct {
	name   string
	of     func(mm func(body.ID) float64) float64
	style  map[string]string
	method job.Method
}

// extremeRules are the rules, two by two: the least and the greatest.
func extremeRules() []extreme {
	less := func(of func(func(body.ID) float64) float64) func(func(body.ID) float64) float64 {
		return func(mm func(body.ID) float64) float64 { return -of(mm) }
	}
	hip := func(mm func(body.ID) float64) float64 { return mm(body.HipGirth) }
	overWaist := func(mm func(body.ID) float64) float64 { return mm(body.HipGirth) - mm(body.WaistGirth) }
	tall := func(mm func(body.ID) float64) float64 { return mm(body.Stature) }
	thigh := func(mm func(body.ID) float64) float64 { return mm(body.ThighGirth) / mm(body.HipGirth) }
	rise := func(mm func(body.ID) float64) float64 { return mm(body.BodyRise) / mm(body.Stature) }
	behind := func(mm func(body.ID) float64) float64 { return mm(body.BackCrotchLength) / mm(body.TotalCrotchLength) }
	return []extreme{
		{"least hip", less(hip), nil, job.Quarter},
		{"greatest hip", hip, nil, job.Quarter},
		{"hip least over the waist", less(overWaist), map[string]string{"leg": "wide"}, job.Balanced},
		{"hip most over the waist", overWaist, map[string]string{"back_dart": "two", "closure": "side_zip", "pocket": "none"}, job.Balanced},
		{"least stature", less(tall), map[string]string{"front_dart": "pleat"}, job.Balanced},
		{"greatest stature", tall, map[string]string{"crease": "tuck"}, job.Balanced},
		{"thigh least for the hip", less(thigh), map[string]string{"leg": "tapered"}, job.Quarter},
		{"thigh greatest for the hip", thigh, map[string]string{"leg": "tapered"}, job.Balanced},
		{"rise least for the stature", less(rise), map[string]string{"pocket": "straight_slant"}, job.Balanced},
		{"rise greatest for the stature", rise, map[string]string{"back_pocket": "two"}, job.Balanced},
		{"back fork least of the whole", less(behind), map[string]string{"leg": "flared"}, job.Balanced},
		{"back fork greatest of the whole", behind, map[string]string{"front_dart": "pleats", "pocket": "seam"}, job.Balanced},
	}
}

// extremeOf is the body of that rule; the first of equals.
func extremeOf(t *testing.T, all []prove.Body, e extreme) prove.Body {
	t.Helper()
	best, most := 0, 0.0
	for i, b := range all {
		v := e.of(func(id body.ID) float64 {
			taken, ok := b.Taken[id]
			if !ok {
				t.Fatalf("body %s has no %s", b.ID, id)
			}
			return taken.Value.Length().MM()
		})
		if i == 0 || v > most {
			best, most = i, v
		}
	}
	return all[best]
}

// testdata/golden/extremes.svg has the panels of trousers for twelve extreme bodies
// of the survey on one sheet, to be looked at as a cutter would when it changes:
// the fork curve smooth and meeting at the joins, the hip smooth, dart legs equal,
// the waist square to the seams, notches, grain, knee and hem sane, no pocket mouth
// across another line. -update rewrites it.
func TestExtremes(t *testing.T) {
	const across, gap = 4, 60.0
	all := provetest.Bodies(t, 1)
	var d sheet.Drawing
	var m draft.Maker
	at, row := geom.Pt{}, 0.0
	for i, e := range extremeRules() {
		b := extremeOf(t, all, e)
		r, err := m.Make(prove.Style{Style: e.style, Method: e.method}.Job(b))
		if err != nil {
			t.Fatalf("%s, body %s: %v", e.name, b.ID, err)
		}
		for _, f := range r.Report.At(proof.Stops) {
			t.Errorf("%s, body %s: %s stops the cut", e.name, b.ID, f.Check)
		}
		var panels []piece.Piece
		for _, p := range r.Pieces {
			if p.On == p.ID {
				panels = append(panels, p)
			}
		}
		one := sheet.Draft(panels, sheet.Options{Text: 5 * unit.Millimetre * 4})
		one.Play(&d, geom.Translate(geom.Vec{X: at.X - one.Bounds.Min.X, Y: at.Y - one.Bounds.Min.Y}))
		d.Text(sheet.Text{Role: sheet.Label, At: geom.Pt{X: at.X + 10, Y: at.Y + one.Bounds.H() + 40}, Size: 30, S: e.name + " (" + string(b.Figure) + " " + b.ID + ")"})
		d.Bounds = d.Bounds.Union(geom.Rect{Min: at, Max: geom.Pt{X: at.X + one.Bounds.W(), Y: at.Y + one.Bounds.H() + 60}})
		at.X += one.Bounds.W() + gap
		row = max(row, one.Bounds.H()+60)
		if i%across == across-1 {
			at, row = geom.Pt{Y: at.Y + row + gap}, 0
		}
	}
	var got bytes.Buffer
	if err := svg.Write(&got, d, svg.Options{Screen: true, Title: "Trousers for twelve extreme bodies"}); err != nil {
		t.Fatal(err)
	}
	golden.Is(t, "extremes.svg", got.Bytes(), *update)
}
