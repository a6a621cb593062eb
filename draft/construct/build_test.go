package construct_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
)

func pt(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }

func downward() construct.Way { return construct.Fixed("down", geom.Vec{Y: 1}) }
func outward() construct.Way  { return construct.Fixed("square out", geom.Vec{X: 1}) }

func near(t *testing.T, what string, got, want geom.Pt) {
	t.Helper()
	if got.Dist(want) > 1e-9 {
		t.Errorf("%s stands at %v, want %v", what, got, want)
	}
}

func TestMarks(t *testing.T) {
	b := construct.New(sheet(), nil, nil)
	b.Part("front")
	b.Origin("a", "A", pt(10, 20), "from the edges of the cloth")
	b.Measure("b", "B", "a", downward(), "3 in", "")
	b.Measure("c", "C", "b", outward(), "4 in", "")
	b.Measure("back", "back from C", "c", construct.Towards("towards A", "a"), "5 in", "")
	b.Mid("m", "M", "a", "c", "")
	b.Swing("s", "S", "a", "b", -1, "swing the tape", "5 in", "")
	b.Place("p", "P", "c", "on the drawing", pt(0, 0), "")
	rec, err := b.Record()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "A", rec.Point("a"), pt(10, 20))
	near(t, "B", rec.Point("b"), pt(10, 20+3*in))
	near(t, "C", rec.Point("c"), pt(10+4*in, 20+3*in))
	near(t, "5 in from C towards A (the 3-4-5 triangle)", rec.Point("back"), pt(10, 20))
	near(t, "M", rec.Point("m"), pt(10+2*in, 20+1.5*in))
	near(t, "S, the other 3-4-5 triangle", rec.Point("s"), pt(10-4*in, 20+3*in))
	near(t, "P", rec.Point("p"), pt(0, 0))

	for _, tt := range []struct {
		name, from, way string
		kind            construct.Kind
		mm              float64
	}{
		{"a", "", "", construct.KindPoint, 0},
		{"b", "a", "down", construct.KindPoint, 3 * in},
		{"m", "a", "half way to C", construct.KindPoint, 2.5 * in},
		{"s", "a", "swing the tape", construct.KindPoint, 5 * in},
		{"p", "c", "on the drawing", construct.KindPoint, math.Hypot(10+4*in, 20+3*in)},
	} {
		s, ok := rec.Find(tt.name)
		if !ok {
			t.Fatalf("no step %q", tt.name)
		}
		if s.From != tt.from || s.Way != tt.way || s.Kind != tt.kind || s.Part != "front" {
			t.Errorf("%s: from %q, way %q, %v, part %q; want from %q, way %q, %v, part front", tt.name, s.From, s.Way, s.Kind, s.Part, tt.from, tt.way, tt.kind)
		}
		if math.Abs(s.Mm().MM()-tt.mm) > 1e-9 {
			t.Errorf("%s: %v mm, want %v", tt.name, s.Mm().MM(), tt.mm)
		}
	}
}

// Every mark can be found by hand: from its From, its value along its way.
func TestMarksAreMeasuredFromEarlierOnes(t *testing.T) {
	rec := smallDraft(t)
	laid := map[string]bool{}
	for _, s := range rec.Steps() {
		if s.From != "" && !laid[s.From] {
			t.Errorf("%q is measured from %q, which is not marked yet", s.Name, s.From)
		}
		for _, n := range s.Formula.Names() {
			if _, isQuantity := rec.Quantity(n); !isQuantity && !laid[n] {
				t.Errorf("%q sums %q, which is not worked out yet", s.Name, n)
			}
		}
		if s.Kind == construct.KindPoint && s.From != "" {
			if got := rec.Point(s.From).Dist(s.At); math.Abs(got-s.Value) > 1e-9 {
				t.Errorf("%q stands %v mm from %q, its sum says %v", s.Name, got, s.From, s.Value)
			}
		}
		laid[s.Name] = true
	}
}

// smallDraft is a quarter of a hip with an extension, one truing moving it.
func smallDraft(t *testing.T) *construct.Record {
	t.Helper()
	b := construct.New(sheet(), nil, nil)
	b.Value("quarter", "hip quarter", "hip/4", "a quarter of the hip")
	b.Part("front")
	b.Origin("centre", "centre front", pt(0, 0), "")
	b.Measure("side", "side", "centre", outward(), "quarter", "the quarter, out")
	b.Measure("tip", "fork tip", "centre", construct.Fixed("beyond", geom.Vec{X: -1}), "hip/part", "a sixteenth")
	b.Truing("hip", func() {
		b.Solved("found", "found length", 12.5, "found on the drawing")
		b.Shift("side_out", "side, moved out", "side", outward(), "0.5 in", "hip kept")
		b.Move("tip_down", "tip, dropped", "tip", "straight down", pt(-2.625*in, 6), "inseams agree")
	})
	b.Straight("line", "fork line", "straight", "tip", "side")
	rec, err := b.Record()
	if err != nil {
		t.Fatal(err)
	}
	return rec
}

func TestMovedMarks(t *testing.T) {
	rec := smallDraft(t)
	near(t, "side", rec.Point("side"), pt(11*in, 0))
	near(t, "tip", rec.Point("tip"), pt(-2.625*in, 6))
	s, _ := rec.Find("side")
	near(t, "side as first laid", s.At, pt(10.5*in, 0))
	m, _ := rec.Find("side_out")
	if m.Kind != construct.KindMove || m.Moves != "side" || m.Truing != "hip" || m.Kind.String() != "move" {
		t.Errorf("the move is %+v", m)
	}
	near(t, "line's end", rec.Path("line").End(), pt(11*in, 0))
	line, _ := rec.Find("line")
	if want := math.Hypot(13.625*in, 6); math.Abs(line.Value-want) > 1e-4 {
		t.Errorf("fork line is %v mm, want %v", line.Value, want)
	}
	if line.Truing != "" {
		t.Errorf("a step after a truing carries its name, %q", line.Truing)
	}
}

// The first mistake is kept, and nothing is laid after it.
func TestFirstMistakeIsKept(t *testing.T) {
	b := construct.New(sheet(), nil, nil)
	b.Origin("a", "A", pt(0, 0), "")
	b.Measure("b", "B", "a", downward(), "bust/4", "")
	b.Measure("c", "C", "nowhere", downward(), "hip/0", "")
	b.Value("d", "D", "hip/4", "")
	b.Curve("e", "E", nil, "")
	b.Mid("f", "F", "a", "g", "")
	b.Shift("h", "H", "a", downward(), "1 in", "")
	b.Place("i", "I", "a", "", pt(1, 1), "")
	b.Straight("j", "J", "", "a", "b")
	rec, err := b.Record()
	if err == nil || !strings.Contains(err.Error(), `step "b"`) || !strings.Contains(err.Error(), `"bust"`) {
		t.Errorf("the mistake kept is %v, want that of step b", err)
	}
	if b.Err() == nil || b.Err().Error() != err.Error() {
		t.Errorf("Err says %v, Record %v", b.Err(), err)
	}
	if n := len(rec.Steps()); n != 1 {
		t.Errorf("%d steps were laid, want the one before the mistake", n)
	}
	if b.Get("a") != 0 || b.Point("a") != (geom.Pt{}) {
		t.Error("after a mistake values are still given out")
	}
}

func TestMistakesOfMarks(t *testing.T) {
	for _, tt := range []struct {
		name string
		lay  func(b *construct.Builder)
		say  string
	}{
		{"a name twice", func(b *construct.Builder) { b.Value("quarter", "", "hip/4", ""); b.Value("quarter", "", "waist/4", "") }, `step "quarter": this name is taken`},
		{"a mark named as a sum", func(b *construct.Builder) { b.Value("q", "", "hip/4", ""); b.Origin("q", "", pt(0, 0), "") }, "this name is taken"},
		{"a mark named as a measurement", func(b *construct.Builder) { b.Origin("hip", "", pt(0, 0), "") }, `step "hip": this name is a measurement's or a rule's`},
		{"a sum named as a rule", func(b *construct.Builder) { b.Value("part", "", "hip/4", "") }, "this name is a measurement's or a rule's"},
		{"a move named as a mark", func(b *construct.Builder) { b.Move("a", "", "a", "", pt(1, 1), "") }, "this name is taken"},
		{"from nowhere", func(b *construct.Builder) { b.Measure("b", "", "nowhere", downward(), "1 in", "") }, `step "nowhere": no such mark yet`},
		{"from a sum", func(b *construct.Builder) {
			b.Value("q", "", "hip/4", "")
			b.Measure("b", "", "q", downward(), "1 in", "")
		}, "no such mark"},
		{"towards nowhere", func(b *construct.Builder) { b.Measure("b", "", "a", construct.Towards("", "nowhere"), "1 in", "") }, "no such mark"},
		{"half way to nowhere", func(b *construct.Builder) { b.Mid("b", "", "a", "nowhere", "") }, "no such mark"},
		{"a mark moved before it is laid", func(b *construct.Builder) { b.Move("b", "", "later", "", pt(0, 0), "") }, "no such mark"},
		{"a mark shifted before it is laid", func(b *construct.Builder) { b.Shift("b", "", "later", downward(), "1 in", "") }, "no such mark"},
		{"a tape too short", func(b *construct.Builder) {
			b.Origin("deep", "", pt(0, 200), "")
			b.Swing("b", "", "a", "deep", 1, "", "5 in", "")
		}, "does not reach the line"},
		{"an empty line", func(b *construct.Builder) { b.Curve("b", "", nil, "") }, "an empty line"},
		{"a line through one mark", func(b *construct.Builder) { b.Straight("b", "", "", "a") }, "an empty line"},
		{"a line to nowhere", func(b *construct.Builder) { b.Straight("b", "", "", "a", "nowhere") }, "no such mark"},
		{"a length that is no number", func(b *construct.Builder) { b.Solved("b", "", math.NaN(), "") }, `step "b": it comes to no number`},
		{"a length without end", func(b *construct.Builder) { b.Solved("b", "", math.Inf(1), "") }, "comes to no number"},
		{"a mark that is nowhere", func(b *construct.Builder) { b.Move("b", "", "a", "", pt(0, math.NaN()), "") }, "comes to no number"},
		{"a line that bends nowhere", func(b *construct.Builder) {
			b.Curve("b", "", geom.Path{{A: pt(0, 0), B: pt(math.NaN(), 1), C: pt(2, 1), D: pt(3, 0)}}, "")
		}, "comes to no number"},
		{"a value of nothing", func(b *construct.Builder) { b.Get("bust") }, `nothing is called "bust"`},
	} {
		b := construct.New(sheet(), nil, nil)
		b.Origin("a", "A", pt(0, 0), "")
		tt.lay(b)
		if _, err := b.Record(); err == nil || !strings.Contains(err.Error(), tt.say) {
			t.Errorf("%s: error %v does not say %q", tt.name, err, tt.say)
		}
	}
}

func TestRecordPanicsOnNamesItDoesNotHave(t *testing.T) {
	rec := smallDraft(t)
	for name, f := range map[string]func(){
		"point": func() { rec.Point("quarter") },
		"path":  func() { rec.Path("side") },
		"value": func() { rec.Value("bust") },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("no panic for a %s that is not there", name)
				}
			}()
			f()
		}()
	}
	if rec.Has("bust") || rec.Has("hip") || !rec.Has("tip") {
		t.Error("Has does not tell steps from what is no step")
	}
	if q, ok := rec.Quantity("hip"); !ok || q.Value != 42*in {
		t.Errorf("hip is %v, %t", q, ok)
	}
	if rec.Value("hip") != 42*in || rec.Value("quarter") != 10.5*in {
		t.Error("values of a measurement and of a step differ from what was given")
	}
}
