package chalk_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/interp"

	"chalkfold/draft/body"
	"chalkfold/draft/chalk"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// alto is the body of the demo ticket Alto 3, in inches.
func alto(t *testing.T, style garment.Style, spoken bool) *garment.Draft {
	t.Helper()
	g := trouser.Garment()
	takings := body.Takings{}
	for id, text := range map[body.ID]string{
		body.WaistGirth: "34", body.HipGirth: "42", body.ThighGirth: "25", body.KneeGirth: "15 1/2", body.OutsideLegLength: "40",
	} {
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		takings[id] = body.Taking{Value: q}
	}
	values, err := body.Complete(body.Women, takings, g.Needs)
	if err != nil {
		t.Fatal(err)
	}
	set, err := rules.Resolve(g.Rules, nil, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	full, err := g.Complete(style)
	if err != nil {
		t.Fatal(err)
	}
	d, err := g.Draft(garment.Input{Body: values, Rules: set, Style: full, Spoken: spoken})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func styles() map[string]garment.Style {
	return map[string]garment.Style{
		"plain":   {},
		"tuck":    {"front_dart": "pressed", "crease": "tuck", "leg": "tapered"},
		"no dart": {"front_dart": "none", "back_dart": "none", "pocket": "none", "leg": "free"},
	}
}

func each(t *testing.T, check func(t *testing.T, d *garment.Draft, guide []chalk.Section)) {
	t.Helper()
	for name, style := range styles() {
		for _, spoken := range []bool{false, true} {
			t.Run(name+map[bool]string{true: ", as spoken", false: ", trued"}[spoken], func(t *testing.T) {
				d := alto(t, style, spoken)
				check(t, d, chalk.Of(d.Record, d.Panels, d.Pieces, unit.Format{}))
			})
		}
	}
}

// The tape can only be held at something that is on the table already: an
// edge of the cloth, a mark made before, or the end of the line just drawn.
func TestEveryMarkIsMeasuredFromWhatIsThere(t *testing.T) {
	always := []string{
		"the long edge on the fork's side", "the cut end of the cloth", "the two lines", "the mark just made", "the sew line",
		"a straight edge of what is left", "the same corner", "the top left corner of the box",
	}
	each(t, func(t *testing.T, d *garment.Draft, guide []chalk.Section) {
		table := map[string]bool{} // the marks of the panels: they lie on the table together
		no := 0
		for _, s := range guide {
			made := table
			if !slices.ContainsFunc(d.Panels, func(p piece.Panel) bool { return p.Name == s.Piece }) {
				made = map[string]bool{} // a small piece stands alone
			}
			for _, w := range always {
				made[w] = true
			}
			for _, edges := range edgesOf(d, s.Piece) {
				for _, e := range edges {
					made["the start of the "+e.Name], made["the end of the "+e.Name] = true, true
				}
			}
			for _, m := range s.Marks {
				if no++; m.No != no {
					t.Errorf("%s: mark %d carries the number %d", s.Title, no, m.No)
				}
				if m.From == "" || !made[m.From] {
					t.Errorf("%s, mark %d %q is measured from %q, which is not there yet", s.Title, m.No, m.Name, m.From)
				}
				if m.To != "" && !made[m.To] {
					t.Errorf("%s, mark %d %q runs to %q, which is not there yet", s.Title, m.No, m.Name, m.To)
				}
				if m.Because == "" {
					t.Errorf("%s, mark %d %q has no reason", s.Title, m.No, m.Name)
				}
				made[m.Name] = true
			}
		}
		for _, p := range d.Pieces {
			if !slices.ContainsFunc(guide, func(s chalk.Section) bool { return s.Piece == p.ID }) {
				t.Errorf("no section for the %s", p.Name)
			}
		}
	})
}

// edgesOf are the edges of a piece, and of its panel when it has one.
func edgesOf(d *garment.Draft, id string) [][]piece.Edge {
	var out [][]piece.Edge
	for _, p := range d.Pieces {
		if p.ID == id {
			out = append(out, p.Edges)
		}
	}
	for _, p := range d.Panels {
		if p.Name == id {
			out = append(out, p.Edges)
		}
	}
	return out
}

// Every edge that has an allowance is given its cut line, on the panel before
// anything is cut out of it, and what is cut out of it last.
func TestEveryCutLineIsChalked(t *testing.T) {
	each(t, func(t *testing.T, d *garment.Draft, guide []chalk.Section) {
		for _, p := range d.Pieces {
			for _, edges := range edgesOf(d, p.ID) {
				for _, e := range edges {
					if e.AllowStart == 0 && e.AllowEnd == 0 {
						continue
					}
					if !slices.ContainsFunc(guide, func(s chalk.Section) bool {
						return s.Piece == p.ID && slices.ContainsFunc(s.Marks, func(m chalk.Mark) bool {
							return m.Kind == chalk.Allow && m.Name == "cut line of the "+e.Name && m.Measure == e.AllowStart
						})
					}) {
						t.Errorf("%s: no cut line for the %s", p.Name, e.Name)
					}
				}
			}
		}
	})
}

// Drawn again from its ordinates alone, a curve is the curve of the record.
func TestOrdinatesGiveTheCurveBack(t *testing.T) {
	const (
		offTol    = 0.01      // mm
		smoothTol = 25.4 / 16 // as far as a hand sees
	)
	ways := map[string]geom.Vec{"up": {Y: -1}, "down": {Y: 1}, "to the side": {X: 1}, "to the centre": {X: -1}}
	each(t, func(t *testing.T, _ *garment.Draft, guide []chalk.Section) {
		curves := 0
		for _, s := range guide {
			for _, m := range s.Marks {
				if m.Kind != chalk.Curve {
					continue
				}
				curves++
				from, to := m.Path.Start(), m.Path.End()
				dir := to.Sub(from).Unit()
				if len(m.Ordinates) < 1 {
					t.Errorf("%s: %q has %d ordinates", s.Title, m.Name, len(m.Ordinates))
				}
				var xs, ys []float64
				for _, o := range m.Ordinates {
					out := dir.Left()
					if way, ok := ways[o.Side]; ok && out.Dot(way) < 0 {
						out = dir.Right()
					} else if !ok && o.Side != "" {
						t.Fatalf("%s: %q goes %q", s.Title, m.Name, o.Side)
					}
					at, tol := from.Add(dir.Scale(o.Along.MM())), 25.4/32 // on the line, to the hand
					if o.Side != "" {
						at, tol = at.Add(out.Scale(o.Off.MM())), offTol
					}
					xs, ys = append(xs, o.Along.MM()), append(ys, at.Sub(from).Dot(dir.Left()))
					if _, off := m.Path.Nearest(at); off > tol {
						t.Errorf("%s: %q at %.1f mm along, %.2f %s misses the curve by %.3f", s.Title, m.Name, o.Along.MM(), o.Off.MM(), o.Side, off)
					}
				}
				if off := offSpline(xs, ys, m.Path); off > smoothTol {
					t.Errorf("%s: a smooth line through the marks of %q misses it by %.2f mm", s.Title, m.Name, off)
				}
			}
		}
		if curves == 0 {
			t.Error("no curve in the whole guide")
		}
	})
}

// offSpline is how far the natural cubic spline (gonum's interp) through places off
// a path's straight line, and through its ends, is from the path at most.
func offSpline(xs, ys []float64, path geom.Path) float64 {
	from, to := path.Start(), path.End()
	dir := to.Sub(from).Unit()
	xs = append(append([]float64{0}, xs...), from.Dist(to))
	ys = append(append([]float64{0}, ys...), 0)
	var drawn interp.NaturalCubic
	if err := drawn.Fit(xs, ys); err != nil {
		return math.Inf(1)
	}
	most := 0.0
	for i := range 201 {
		x := from.Dist(to) * float64(i) / 200
		_, off := path.Nearest(from.Add(dir.Scale(x)).Add(dir.Left().Scale(drawn.Predict(x))))
		most = math.Max(most, off)
	}
	return most
}

// The tape between the mark that it is held at and the mark that it makes is as
// long as the guide says: the guide's figures lead to the record's marks.
func TestTheTapeReachesTheMarks(t *testing.T) {
	const tol = 0.02 // mm
	each(t, func(t *testing.T, d *garment.Draft, guide []chalk.Section) {
		at := map[string]geom.Pt{}
		for _, s := range guide[:2] {
			for _, m := range s.Marks {
				from, known := at[m.From]
				switch {
				case m.Kind == chalk.Move:
					name := strings.TrimSuffix(m.Name, ", moved")
					if off := math.Abs(at[name].Dist(m.At) - m.Measure.MM()); off > tol {
						t.Errorf("%s, mark %d %q moves %.2f mm, not %.2f", s.Title, m.No, m.Name, at[name].Dist(m.At), m.Measure.MM())
					}
					at[name] = m.At
					continue
				case m.Kind != chalk.Point || !known:
				case m.Way == "along the front waist" || m.Way == "along the front side seam":
					// along a curve: the straight way is a little shorter
					if d := from.Dist(m.At); d > m.Measure.MM()+0.1 || d < 0.97*m.Measure.MM() {
						t.Errorf("%s, mark %d %q: %.2f mm straight, %.2f along", s.Title, m.No, m.Name, d, m.Measure.MM())
					}
				default:
					want := math.Hypot(m.Measure.MM(), m.Then.MM())
					slack := tol
					if strings.Contains(m.Way, "straight line") && m.ThenWay == "" {
						slack = 25.4 / 16 // an offset too small for the tape
					}
					if d := from.Dist(m.At); math.Abs(d-want) > slack {
						t.Errorf("%s, mark %d %q: the tape shows %.2f mm, the guide says %.2f", s.Title, m.No, m.Name, d, want)
					}
				}
				if m.Kind == chalk.Point {
					at[m.Name] = m.At
				}
			}
		}
		// Where the marks came to stand is where the record has them, but for
		// moves too small to chalk.
		for _, st := range d.Record.Steps() {
			p, ok := at[st.Label]
			if st.Kind != construct.KindPoint || !ok || st.Part != "front" && st.Part != "back" {
				continue
			}
			if off := p.Dist(d.Record.Point(st.Name)); off > 25.4/16 {
				t.Errorf("%q ends %.2f mm from its mark", st.Label, off)
			}
		}
	})
}

func TestTheGuideSaysTheSumsOfTheTrade(t *testing.T) {
	d := alto(t, nil, true)
	guide := chalk.Of(d.Record, d.Panels, d.Pieces, unit.Format{})
	// Common practice, worked by hand for hip 42: a quarter is 10½, a sixteenth
	// is 2⅝.
	for name, want := range map[string][2]string{
		"front side at the hip": {"10½ in", "hip girth ÷ 4 = 42 ÷ 4 = 10½"},
		"front fork tip":        {"2⅝ in", "hip girth ÷ front fork part = 42 ÷ 16 = 2⅝"},
		"back fork tip":         {"2⅝ in", "hip girth ÷ back fork part = 42 ÷ 16 = 2⅝"},
	} {
		found := false
		for _, s := range guide {
			for _, m := range s.Marks {
				if m.Name != name || m.Kind != chalk.Point {
					continue
				}
				found = true
				if got := (unit.Format{}).Text(m.Measure); got != want[0] {
					t.Errorf("%s: measure %s, want %s", name, got, want[0])
				}
				if !strings.Contains(m.Because, want[1]) {
					t.Errorf("%s: because %q, want %q", name, m.Because, want[1])
				}
			}
		}
		if !found {
			t.Errorf("no mark %q", name)
		}
	}
}

func TestBoxesAreThePiecesAsCut(t *testing.T) {
	d := alto(t, nil, false)
	for _, s := range chalk.Of(d.Record, d.Panels, d.Pieces, unit.Format{}) {
		if s.Marks[0].Name != "box, width" {
			continue
		}
		for _, p := range d.Pieces {
			if p.ID != s.Piece {
				continue
			}
			b := p.Bounds()
			if s.Marks[0].Measure != unit.Length(b.W()) || s.Marks[1].Measure != unit.Length(b.H()) {
				t.Errorf("%s: box %v × %v, piece %v × %v", s.Title, s.Marks[0].Measure, s.Marks[1].Measure, b.W(), b.H())
			}
		}
	}
}
