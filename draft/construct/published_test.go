package construct_test

import (
	"encoding/json"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// worked is one entry of testdata/body/trouser_worked_examples.json. What is
// Published was printed beside the rule; Derived and Computed follow from the
// printed rules and inputs.
type worked struct {
	ID, Unit, Source, Kind       string
	Inputs                       map[string]float64
	Published, Derived, Computed map[string]float64
	Tolerance                    float64
}

func workedExamples(t *testing.T) map[string]worked {
	t.Helper()
	text, err := os.ReadFile("../../testdata/body/trouser_worked_examples.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Examples []worked }
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	out := map[string]worked{}
	for _, e := range file.Examples {
		out[e.ID] = e
	}
	return out
}

// system is a published system being drawn: its own unit, its rules as
// quantities, and how each printed number is measured on the drawing.
type system struct {
	*construct.Builder
	t    *testing.T
	rec  *construct.Record
	unit float64 // mm
}

// mm is how many millimetres the unit of an entry is.
func (w worked) mm() float64 { return map[string]float64{"in": 25.4, "cm": 10}[w.Unit] }

// begin opens a construction over the inputs of the entry and the rules of
// its system: lengths in its unit, parts plain.
func (w worked) begin(t *testing.T, lengths, parts map[string]float64) *system {
	t.Helper()
	if w.mm() == 0 {
		t.Fatalf("entry %q has unit %q", w.ID, w.Unit)
	}
	var q []construct.Quantity
	for _, n := range slices.Sorted(maps.Keys(w.Inputs)) {
		q = append(q, construct.Quantity{Name: n, Label: n, Value: w.Inputs[n] * w.mm(), Length: true, Source: "printed"})
	}
	for _, n := range slices.Sorted(maps.Keys(lengths)) {
		q = append(q, construct.Quantity{Name: n, Label: n, Value: lengths[n] * w.mm(), Length: true, Source: "rule of the system"})
	}
	for _, n := range slices.Sorted(maps.Keys(parts)) {
		q = append(q, construct.Quantity{Name: n, Label: n, Value: parts[n], Source: "rule of the system"})
	}
	return &system{Builder: construct.New(q, nil, nil), t: t, unit: w.mm()}
}

func (s *system) finish() {
	s.t.Helper()
	rec, err := s.Record()
	if err != nil {
		s.t.Fatal(err)
	}
	s.rec = rec
}

// dist measures from one mark to another on the drawing, in the system's unit.
func (s *system) dist(a, b string) float64 {
	return s.rec.Point(a).Dist(s.rec.Point(b)) / s.unit
}

// measures says where each number is measured: two marks "A B", or a sum of
// its own.
type measures map[string]any

// check measures every number of the entry, each of them, on the drawing.
func (s *system) check(w worked, printed map[string]float64, tol float64, at measures) {
	s.t.Helper()
	for _, n := range slices.Sorted(maps.Keys(printed)) {
		var got float64
		switch m := at[n].(type) {
		case string:
			a, b, _ := strings.Cut(m, " ")
			got = s.dist(a, b)
		case func() float64:
			got = m()
		default:
			s.t.Errorf("%s: nothing on the drawing is measured for %s", w.ID, n)
			continue
		}
		if !(math.Abs(got-printed[n]) <= tol) {
			s.t.Errorf("%s: %s measures %.4f %s on the drawing, printed %v, %v allowed", w.ID, n, got, w.Unit, printed[n], tol)
		}
	}
}

func toFront(words string) construct.Way { return construct.Fixed(words, geom.Vec{X: 1}) }
func toBack(words string) construct.Way  { return construct.Fixed(words, geom.Vec{X: -1}) }
func downTo(words string) construct.Way  { return construct.Fixed(words, geom.Vec{Y: 1}) }
func upTo(words string) construct.Way    { return construct.Fixed(words, geom.Vec{Y: -1}) }

// lettered lays the marks that both lessons of the book begin with: A at the
// top of the side, B below it at the rise, H and I out from B, U the other
// way. Printed "1-6 of hip" is on the scale of half the hip: a twelfth.
func (s *system) lettered() {
	s.Part("front")
	s.Origin("A", "A", geom.Pt{}, "the top of the side")
	s.Measure("B", "B", "A", downTo("down"), "rise", "A to B is the rise")
	s.Measure("H", "H", "B", toFront("out"), "hip/quarter", "a quarter of the hip")
	s.Value("fork", "H to I", "hip/fork_part", "a twelfth of the hip")
	s.Measure("I", "I", "H", toFront("on"), "fork", "the fork")
	s.Measure("U", "U", "B", toBack("out at the side"), "side_out", "room at the side")
}

// Rosenfeld, The Practical Designer for Women's and Misses' Underwear, 1918,
// Lesson 411: bloomers, front. The results are published, printed beside each
// rule in sixteenths or coarser.
func TestPublishedBloomersFront1918(t *testing.T) {
	w := workedExamples(t)["rosenfeld1918_L411_bloomers_front"]
	s := w.begin(t, map[string]float64{"side_out": 1.5, "top_room": 2, "top_up": 0.5, "top_down": 0.5, "hollow": 0.5, "hem_in": 0.5},
		map[string]float64{"quarter": 4, "fork_part": 12, "waist_part": 4})
	s.lettered()
	s.Measure("C", "C", "A", downTo("down"), "outside", "A to C is the outside length")
	s.Measure("R", "R", "H", upTo("square up to the top line"), "rise", "the centre front")
	s.Measure("O", "O", "R", toBack("back"), "waist/waist_part", "a quarter of the waist")
	s.Measure("P", "P", "O", toBack("on"), "top_room", "room at the top")
	s.Measure("Q", "Q", "P", upTo("up"), "top_up", "the side stands higher")
	s.Measure("X", "X", "R", downTo("down"), "top_down", "the front dips")
	s.Measure("J", "J", "H", upTo("up"), "fork", "as far up as the fork reaches out")
	s.Mid("M", "M", "J", "I", "half way along the slant")
	s.Measure("N", "N", "M", construct.Towards("towards H", "H"), "hollow", "the hollow of the fork")
	s.Measure("V", "V", "I", toBack("in"), "hem_in", "the leg leans in")
	s.Straight("top", "waist", "from the side to the centre front", "Q", "X")
	// The fork curve leaves the centre at J, runs through N and into I.
	h := s.Point("M").Dist(s.Point("N")) * 8 / 3 / math.Sqrt2
	j, i := s.Point("J"), s.Point("I")
	s.Curve("fork_curve", "fork curve", geom.Path{{A: j, B: j.Add(geom.Vec{Y: h}), C: i.Add(geom.Vec{X: -h}), D: i}}, "through N")
	s.finish()

	at := measures{
		"A_B": "A B", "A_C": "A C", "B_H": "B H", "H_I": "H I", "R_O": "R O", "O_P": "O P", "P_Q": "P Q", "R_X": "R X",
		"B_U": "B U", "H_J": "H J", "M_N": "M N", "I_V": "I V",
		"B_I": "B I", "U_I": "U I", "R_P": "R P", "exact_H_I": "H I",
	}
	s.check(w, w.Published, w.Tolerance, at)
	s.check(w, w.Derived, w.Tolerance, at)
	// Computed here from the published rule: the twelfth, not as rounded.
	s.check(w, map[string]float64{"exact_H_I": w.Derived["exact_H_I"]}, 0.0001, at)
	if _, off := s.rec.Path("fork_curve").Nearest(s.rec.Point("N")); off > 0.01 {
		t.Errorf("the fork curve passes N at %v mm", off)
	}
	if got, want := s.rec.Sum("H", unit.Format{}), "hip ÷ quarter = 43 ÷ 4 = 10¾"; got != want {
		t.Errorf("B to H is told as %q, want %q", got, want)
	}
	// On its own tape the fork reads what the book prints.
	if got, want := s.rec.Sum("I", unit.Format{}), "H to I ≈ 3⅝"; got != want {
		t.Errorf("H to I is told as %q, want %q", got, want)
	}
}

// The same book, Lesson 427: drawers, front. The results are published; the
// entry gives no tolerance of its own, so that of the other lesson is used.
func TestPublishedDrawersFront1918(t *testing.T) {
	all := workedExamples(t)
	w := all["rosenfeld1918_L427_drawers_front"]
	s := w.begin(t, map[string]float64{"side_out": 1.5, "knee_up": 2, "calf_down": 6},
		map[string]float64{"quarter": 4, "fork_part": 12, "leg_part": 4})
	s.lettered()
	s.Measure("G", "G", "A", downTo("down"), "outside", "A to G is the outside length")
	s.Mid("Y", "Y", "B", "G", "half way from rise to foot")
	s.Measure("C", "C", "Y", upTo("up"), "knee_up", "the knee")
	s.Measure("E", "E", "C", downTo("down"), "calf_down", "the calf")
	s.Mid("S", "S", "B", "I", "the middle of the leg")
	for _, l := range []struct{ name, level, sum string }{
		{"knee", "C", "knee/leg_part"}, {"calf", "E", "calf/leg_part"}, {"ankle", "G", "ankle/leg_part"},
	} {
		s.Place(l.name+"_mid", l.name+" at the centre line", "S", "straight down", geom.Pt{X: s.Point("S").X, Y: s.Point(l.level).Y}, "the centre line of the leg")
		s.Measure(l.name+"_out", l.name+", side", l.name+"_mid", toBack("to the side"), l.sum, "a quarter on each side of the centre")
		s.Measure(l.name+"_in", l.name+", inside", l.name+"_mid", toFront("to the inside"), l.sum, "a quarter on each side of the centre")
	}
	s.Straight("inside", "inside leg", "through the marks", "I", "knee_in", "calf_in", "ankle_in")
	s.Straight("side", "side", "through the marks", "U", "knee_out", "calf_out", "ankle_out")
	s.finish()

	at := measures{
		"A_B": "A B", "A_G": "A G", "Y_C": "Y C", "C_E": "C E", "B_U": "B U",
		"knee_half": "knee_mid knee_out", "calf_half": "calf_mid calf_in", "ankle_half": "ankle_mid ankle_out",
		"B_G": "B G", "B_Y": "B Y", "B_C": "B C", "B_S": "B S",
		"knee_front": "knee_out knee_in", "calf_front": "calf_out calf_in", "ankle_front": "ankle_out ankle_in",
	}
	tol := all["rosenfeld1918_L411_bloomers_front"].Tolerance
	s.check(w, w.Published, tol, at)
	s.check(w, w.Derived, tol, at)
	// The centre line lies in the middle of the leg, all the way down.
	for _, l := range []string{"knee", "calf", "ankle"} {
		if d := s.dist(l+"_mid", l+"_in") - s.dist(l+"_mid", l+"_out"); math.Abs(d) > 1e-9 {
			t.Errorf("the %s lies %v in off the centre line", l, d)
		}
	}
}

// Every entry of the file is drawn by one of these tests, and no printed
// number is left out: check fails on a number it has no measure for.
func TestEveryWorkedExampleIsDrawn(t *testing.T) {
	drawn := []string{
		"cm_plain_front_topside", "hertzer1892_scale_38", "rosenfeld1918_L411_bloomers_front",
		"rosenfeld1918_L427_drawers_front", "wikibooks_pants_front",
	}
	if got := slices.Sorted(maps.Keys(workedExamples(t))); !slices.Equal(got, drawn) {
		t.Errorf("the file holds %q, drawn are %q", got, drawn)
	}
}
