package trouser_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
)

const (
	largeMan   = "waist_girth 46, hip_girth 48, thigh_girth 27, knee_girth 17, outside_leg_length 44, body_rise 11 1/2"
	smallWoman = "waist_girth 26, hip_girth 36, thigh_girth 21, knee_girth 13, outside_leg_length 38, body_rise 9 1/2, waist_to_hips 7"
)

// The pieces of the default pair, with how many to cut and of what
// (section 6 of the trade's list: common practice).
func TestPieceList(t *testing.T) {
	type cut struct {
		count int
		cloth piece.Cloth
	}
	full := map[string]cut{
		"front": {2, piece.Main}, "back": {2, piece.Main}, "waistband": {1, piece.Main}, "fly-facing": {1, piece.Main}, "fly-shield": {1, piece.Main},
		"pocket-mouth-facing": {2, piece.Main}, "side-facing": {2, piece.Main}, "pocket-bag-front": {2, piece.Lining}, "pocket-bag-back": {2, piece.Lining},
		"loop-strip": {1, piece.Main}, "band-interfacing": {1, piece.Interfacing}, "fly-interfacing": {1, piece.Interfacing},
	}
	for _, tt := range []struct {
		name  string
		style garment.Style
		rules rules.Values
		less  []string
	}{
		{"as it comes", nil, nil, nil},
		{"no pocket", garment.Style{"pocket": "none"}, nil, []string{"pocket-mouth-facing", "side-facing", "pocket-bag-front", "pocket-bag-back"}},
		{"no loops", nil, rules.Values{"belt_loops": "0"}, []string{"loop-strip"}},
	} {
		m := order{Body: measured(t, hip42), Style: tt.style, Rules: tt.rules}.draft(t)
		seen := map[string]bool{}
		for _, p := range m.Pieces {
			want, ok := full[p.ID]
			if !ok || slices.Contains(tt.less, p.ID) || seen[p.ID] {
				t.Errorf("%s: a piece %q that is not wanted", tt.name, p.ID)
			} else if p.Count != want.count || p.Cloth != want.cloth {
				t.Errorf("%s: %s is cut %d times of %s, want %d of %s", tt.name, p.ID, p.Count, p.Cloth, want.count, want.cloth)
			}
			if p.Name == "" || !p.Grain.IsLine() || p.Grain.A == p.Grain.D {
				t.Errorf("%s: %q has name %q and grain %v", tt.name, p.ID, p.Name, p.Grain)
			}
			seen[p.ID] = true
		}
		if len(seen) != len(full)-len(tt.less) {
			t.Errorf("%s: %d pieces, want %d", tt.name, len(seen), len(full)-len(tt.less))
		}
	}
}

// The straight pieces as cut (common practice): band 2 × width + 2 allowances
// by made-up waist + lap + 2 allowances; fly facing and shield 4 wide; loops
// of band + 1 from a strip of 1.
func TestSizesAsCut(t *testing.T) {
	size := func(m made, id string) (w, h float64) {
		b := m.Must(t, id).Bounds()
		return b.W() / 25.4, b.H() / 25.4
	}
	m := order{Body: measured(t, hip42)}.draft(t)
	for _, tt := range []struct {
		id   string
		w, h float64
	}{
		{"waistband", 2*2 + 2*0.5, 34.5 + 1.5 + 2*0.5},
		{"loop-strip", 1, 5 * (2 + 1)},
	} {
		w, h := size(m, tt.id)
		about(t, tt.id+" width", w, tt.w, 1e-3)
		about(t, tt.id+" length", h, tt.h, 1e-3)
	}
	for _, id := range []string{"fly-facing", "fly-shield"} {
		w, h := size(m, id)
		about(t, id+" width", w, 4, 1e-3)
		if h <= 6.5 { // the fly of 6 and the allowance at the waist
			t.Errorf("%s is %.2f in long, and must close below a fly of 6", id, h)
		}
	}
	o := order{Body: measured(t, hip42), Rules: rules.Values{"waistband_width": "2 1/2 in", "belt_loops": "7", "loop_strip_width": "1 1/2 in", "fly_width": "3 1/2 in", "band_lap": "1 in"}}
	m = o.draft(t)
	w, h := size(m, "waistband")
	about(t, "a band of 2½", w, 2*2.5+1, 1e-3)
	about(t, "a lap of 1", h, 34.5+1+1, 1e-3)
	w, h = size(m, "loop-strip")
	about(t, "a strip of 1½", w, 1.5, 1e-3)
	about(t, "seven loops", h, 7*3.5, 1e-3)
	w, _ = size(m, "fly-shield")
	about(t, "a shield of 3½", w, 3.5, 1e-3)
	// what the record says is cut is what the pieces measure
	for _, as := range []struct{ id, w, h string }{
		{"waistband", "band.cut_width", "band.cut_length"}, {"fly-facing", "fly.cut_width", "fly.cut_length"}, {"loop-strip", "loop_strip_width", "loops.strip"},
	} {
		w, h := size(m, as.id)
		about(t, as.w+" of the "+as.id, w, m.Record.Value(as.w)/25.4, 1e-3)
		about(t, as.h+" of the "+as.id, h, m.Record.Value(as.h)/25.4, 1e-3)
	}
	// a wider band leaves the cloth below it shorter
	about(t, "hip line below a band of 2½", m.Record.Value("hip_level")/25.4, 9-2.5, 1e-9)
}

// specs are the published figures of testdata/body/construction_specs.csv for
// an item, in inches.
func specs(t *testing.T, item string) (out []float64) {
	t.Helper()
	f, err := os.Open("../../../testdata/body/construction_specs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		if r[1] == item {
			v, err := strconv.ParseFloat(r[2], 64)
			if err != nil {
				t.Fatalf("%s: %v", r, err)
			}
			out = append(out, v)
		}
	}
	if len(out) == 0 {
		t.Fatalf("no specification of %q", item)
	}
	return out
}

// The default pair against published specifications, as drawn: the mouth is
// no smaller than the largest minimum, the bag hangs within the depths asked
// for, band and hem are as published. Sources: testdata/body/construction_specs.csv.
func TestPublishedSpecifications(t *testing.T) {
	for name, b := range map[string]string{"hip 42": hip42, "large man": largeMan, "small woman": smallWoman} {
		m := order{Body: measured(t, b)}.draft(t)
		mouth := m.Record.Path("front.pocket_mouth")
		if got, least := mouth.Len()/25.4, slices.Max(specs(t, "front pocket opening")); got < least {
			t.Errorf("%s: pocket mouth %.2f in, published at least %.2f", name, got, least)
		}
		low := mouth.End().Y
		deep := specs(t, "front pocket depth")
		deep = append(deep, specs(t, "front pocket depth below opening")...)
		bag := m.Must(t, "pocket-bag-back")
		bottom := 0.0
		for _, q := range bag.Sew {
			bottom = math.Max(bottom, q.Y)
		}
		if got := (bottom - low) / 25.4; got < slices.Min(deep) || got > slices.Max(deep) {
			t.Errorf("%s: the bag hangs %.2f in below the mouth, published %v", name, got, deep)
		}
		// Ohio's; folded, the band is half of what lies between its allowances
		about(t, name+": finished band", (m.Must(t, "waistband").Bounds().W()/25.4-1)/2, specs(t, "waistband finished")[0], 1e-3)
		front := m.Must(t, "front")
		deepHem := 0.0
		for _, q := range front.Cut {
			deepHem = math.Max(deepHem, q.Y-m.Record.Point("front.crease_hem").Y)
		}
		about(t, name+": hem allowance", deepHem/25.4, specs(t, "plain hem allowance")[0], 1e-3)
		if most := specs(t, "hem turn-up on women slacks, max")[0]; deepHem/25.4 > most+1e-3 {
			t.Errorf("%s: %.2f in turned up, published at most %.2f", name, deepHem/25.4, most)
		}
	}
}

// A tape laid round the cut pieces: what is sewn together has its notches at
// equal distances along the seam, by number.
func TestNotchesMeet(t *testing.T) {
	for name, b := range map[string]string{"hip 42": hip42, "large man": largeMan, "small woman": smallWoman} {
		for _, s := range []garment.Style{{}, {"pocket": "none"}, {"crease": "tuck", "leg": "tapered"}} {
			m := order{Body: measured(t, b), Style: s}.draft(t)
			for _, seam := range []string{"side", "inseam"} {
				at := map[string]map[int]float64{}
				for _, part := range []string{"front", "back"} {
					at[part] = map[int]float64{}
					sew := m.Edge(t, part, seam)
					for _, n := range m.Must(t, part).Notches {
						if s, off := sew.Nearest(n.At); off < 0.01 && n.Number > 0 && s > 0.01 && s < sew.Len()-0.01 {
							at[part][n.Number] = s
						}
					}
				}
				if len(at["back"]) == 0 {
					t.Errorf("%s %v: no notch on the %s of the back", name, s, seam)
				}
				for n, want := range at["back"] {
					if got, ok := at["front"][n]; ok && math.Abs(got-want) > 1 {
						t.Errorf("%s %v: notch %d of the %s lies %.2f mm along the front and %.2f along the back", name, s, n, seam, got, want)
					}
				}
			}
			for _, p := range m.Pieces {
				for _, n := range p.Notches {
					if d := dist(p.Sew, n.At); d > 0.1 {
						t.Errorf("%s %v: notch %d %q of the %s lies %.2f mm off its sew line", name, s, n.Number, n.Name, p.Name, d)
					}
					if math.Abs(n.Out.Len()-1) > 1e-9 || inside(p.Sew, n.At.Add(n.Out.Scale(2))) {
						t.Errorf("%s %v: notch %d %q of the %s points inwards", name, s, n.Number, n.Name, p.Name)
					}
				}
			}
		}
	}
}

// The band's marks come where the seams come: half the front each side, half
// the back each side, lap beyond.
func TestBandMarks(t *testing.T) {
	m := order{Body: measured(t, hip42)}.draft(t)
	band := m.Must(t, "waistband")
	front, back := 34.5/4, 34.5/4
	var got []float64
	for _, n := range band.Notches {
		got = append(got, n.At.Y/25.4)
	}
	slices.Sort(got)
	want := []float64{front, front + back, front + 2*back, 2*front + 2*back}
	for i := range want {
		if len(got) != len(want) || math.Abs(got[i]-want[i]) > 1e-3 {
			t.Fatalf("the band is marked at %v in, want %v", got, want)
		}
	}
}

func dist(ring []geom.Pt, q geom.Pt) float64 {
	d, ok := sf.Distance(polygon(ring).Boundary(), point(q))
	if !ok {
		return math.Inf(1)
	}
	return d
}

func inside(ring []geom.Pt, q geom.Pt) bool { return sf.Intersects(polygon(ring), point(q)) }

// polygon hands a ring to the independent geometry library.
func polygon(pts []geom.Pt) sf.Geometry {
	var xy []float64
	for i := range len(pts) + 1 {
		xy = append(xy, pts[i%len(pts)].X, pts[i%len(pts)].Y)
	}
	return sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(xy, sf.DimXY))}).AsGeometry()
}

func point(p geom.Pt) sf.Geometry {
	return sf.NewPoint(sf.Coordinates{XY: sf.XY{X: p.X, Y: p.Y}}).AsGeometry()
}

// The front that laps over is named by the side it is on, as worn; the cloth
// is the same either way round.
func TestLap(t *testing.T) {
	left := order{Body: measured(t, hip42), Style: garment.Style{"closure": "fly_left"}}.draft(t)
	right := order{Body: measured(t, hip42), Style: garment.Style{"closure": "fly_right"}}.draft(t)
	sameCloth(t, "lapped the other way", left, right)
	for side, m := range map[string]made{"left": left, "right": right} {
		if n := m.Must(t, "fly-facing").Note; !strings.Contains(n, side) {
			t.Errorf("the facing of a fly that laps %s over says %q", side, n)
		}
	}
}
