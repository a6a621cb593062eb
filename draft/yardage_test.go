package draft_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// The cloth that a pair of trousers takes on one width and on another stand to
// each other as in a widely reprinted chart of equivalent lengths
// (testdata/body/yardage_width_conversion_yards.csv, source in SOURCES.md
// there), as an order of magnitude: the chart speaks of garments at large.
func TestYardageAcrossWidths(t *testing.T) {
	natively(t)
	const within = 0.3 // of the chart's length
	f, err := os.Open(filepath.Join("..", "testdata", "body", "yardage_width_conversion_yards.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := func(width string) int {
		for i, h := range rows[0] {
			if strings.HasPrefix(h, "w"+width) {
				return i
			}
		}
		t.Fatalf("the chart has no width %s", width)
		return 0
	}
	cell := func(row, col int) float64 {
		v, err := strconv.ParseFloat(rows[row][col], 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	need := func(inches string) float64 {
		r := example(t, "alto-3.json")
		j := r.Job.Clone()
		width, err := unit.Parse(inches+" in", unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		j.Cloth = []job.Cloth{{Width: width, Fold: job.Open}}
		made, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		l, err := draft.Lay(made, 0, lay.Options{})
		if err != nil {
			t.Fatal(err)
		}
		return float64(l.Length / unit.Yard)
	}
	from := need("45")
	// The row of the chart nearest to what 45 in takes.
	row, col := 1, column("44")
	for i := range rows[1:] {
		if math.Abs(cell(i+1, col)-from) < math.Abs(cell(row, col)-from) {
			row = i + 1
		}
	}
	for chart, inches := range map[string]string{"35": "36", "50": "50", "52": "54", "58": "60"} {
		got, want := need(inches), cell(row, column(chart))
		if math.Abs(got-want) > within*want {
			t.Errorf("%s in wide: %.2f yd, by the chart about %.2f (45 in takes %.2f)", inches, got, want, from)
		}
		t.Logf("%s in wide: %.2f yd, chart %.2f", inches, got, want)
	}
}
