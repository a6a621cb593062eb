package lay_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft/lay"
	"chalkfold/draft/lay/published"
	"chalkfold/draft/unit"
)

const packing = "../../testdata/packing"

func instance(t testing.TB, name string) published.Problem {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(packing, name+".json"))
	if err != nil {
		t.Fatal(err)
	}
	in, err := published.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

// records returns the best published density of each instance, in per cent
// (published_densities.csv, column gvw2025_best; see SOURCES.md beside it).
func records(t *testing.T) map[string]float64 {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(packing, "published_densities.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(string(b))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]float64{}
	for _, r := range rows[1:] {
		if out[r[0]], err = strconv.ParseFloat(r[2], 64); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// TestPublishedInstances makes a quick lay of every instance. The floors
// are what the lay reached when it was written, less half a point; the
// ceiling is the best density ever published, which a quick lay that beat it
// would put in doubt. The dighe jigsaws can be laid at 100.
func TestPublishedInstances(t *testing.T) {
	best := records(t)
	for _, tt := range []struct {
		name  string
		items int // SOURCES.md, "pieces"
		floor float64
	}{
		{"albano", 24, 84.5},
		{"shirts", 99, 84.5},
		{"trousers", 64, 85.6},
		{"swim", 48, 70.1},
		{"fu", 12, 85.8},
		{"jakobs1", 25, 81.1},
		{"shapes0", 43, 63.2},
		{"shapes1", 43, 65.5},
		{"han", 23, 76.2},
		{"dighe1", 16, 82.1},
		{"dighe2", 10, 99.4},
	} {
		if testing.Short() && tt.name != "albano" {
			continue
		}
		t.Run(tt.name, func(t *testing.T) {
			in := instance(t, tt.name)
			if len(in.Items) != tt.items {
				t.Fatalf("%d items, want %d", len(in.Items), tt.items)
			}
			r, err := lay.Pack(in.Cloth, in.Items, lay.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if err := lay.Verify(in.Cloth, in.Items, r); err != nil {
				t.Error(err)
			}
			ceiling := 100.0
			if b, ok := best[tt.name]; ok {
				ceiling = b
			}
			t.Logf("length %.2f, density %.2f %% (best published %.2f)", r.Length, r.Density, ceiling)
			if r.Density < tt.floor || r.Density > ceiling {
				t.Errorf("density %.2f, want %.2f to %.2f", r.Density, tt.floor, ceiling)
			}
		})
	}
}

func TestMoreWorkIsNeverWorse(t *testing.T) {
	in := instance(t, "trousers")
	s, err := lay.NewSearch(in.Cloth, in.Items, 7)
	if err != nil {
		t.Fatal(err)
	}
	var stream []lay.Result
	s.Run(4*s.FixedWork(), nil, func(r lay.Result) { stream = append(stream, r) })
	if len(stream) < 3 {
		t.Fatalf("%d lays streamed, want the first and some better ones", len(stream))
	}
	for i := 1; i < len(stream); i++ {
		if stream[i].Length >= stream[i-1].Length || stream[i].Work <= stream[i-1].Work {
			t.Errorf("lay %d: length %.3f at %d after %.3f at %d", i, stream[i].Length, stream[i].Work, stream[i-1].Length, stream[i-1].Work)
		}
	}
	if !reflect.DeepEqual(s.Best(), stream[len(stream)-1]) {
		t.Error("the best lay is not the last one streamed")
	}
	if err := lay.Verify(in.Cloth, in.Items, s.Best()); err != nil {
		t.Error(err)
	}
}

func TestSameSeedSameLay(t *testing.T) {
	in := instance(t, "fu")
	pack := func(seed uint64) lay.Result {
		r, err := lay.Pack(in.Cloth, in.Items, lay.Options{Seed: seed, Work: 3000})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	if !reflect.DeepEqual(pack(3), pack(3)) {
		t.Error("two runs with one seed differ")
	}
	if reflect.DeepEqual(pack(3).Placements, pack(4).Placements) {
		t.Error("two seeds find the same lay to the last bit: is the seed used?")
	}
	whole, parts := search(t, in, 3), search(t, in, 3)
	whole.Run(2000, nil, nil)
	for range 8 {
		parts.Run(250, nil, nil)
	}
	if whole.Work() != parts.Work() || !reflect.DeepEqual(whole.Best(), parts.Best()) {
		t.Error("stopping and running on finds another lay")
	}
}

func search(t *testing.T, in published.Problem, seed uint64) *lay.Search {
	t.Helper()
	s, err := lay.NewSearch(in.Cloth, in.Items, seed)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestStopEndsWithAWholeLay(t *testing.T) {
	in := instance(t, "shirts")
	asked := 0
	r, err := lay.Pack(in.Cloth, in.Items, lay.Options{Work: 1 << 30, Stop: func() bool { asked++; return asked > 50 }})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Placements) != len(in.Items) || asked != 51 {
		t.Errorf("%d of %d laid, asked %d times", len(r.Placements), len(in.Items), asked)
	}
	if err := lay.Verify(in.Cloth, in.Items, r); err != nil {
		t.Error(err)
	}
}

func TestReadProblemRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"not JSON":  "strip",
		"no strip":  `{"name":"a","items":[{"demand":1,"shape":[[0,0],[1,0],[0,1]]}]}`,
		"no items":  `{"name":"a","strip_height":10,"items":[]}`,
		"no demand": `{"name":"a","strip_height":10,"items":[{"shape":[[0,0],[1,0],[0,1]]}]}`,
	} {
		if _, err := published.Read([]byte(text)); err == nil {
			t.Errorf("%s: read without complaint", name)
		}
	}
}

func BenchmarkPack(b *testing.B) {
	for _, name := range []string{"trousers", "shirts", "swim", "albano"} {
		in := instance(b, name)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := lay.Pack(in.Cloth, in.Items, lay.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	for _, c := range []lay.Cloth{{Width: 60 * unit.Inch}, {Width: 60 * unit.Inch, Fold: lay.Lengthwise}} {
		its := items(b, trousers(), c)
		b.Run("one pair, "+c.Fold.String(), func(b *testing.B) {
			for b.Loop() {
				if _, err := lay.Pack(c, its, lay.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
