package chalk_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/chalk"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
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
		"the edge of the cloth", "the cut end of the cloth", "the two lines", "the mark just made", "the sew line",
		"a straight edge of what is left", "the same corner", "the top left corner of the sewn shape, across", "the end of the stretch before",
	}
	each(t, func(t *testing.T, d *garment.Draft, guide []chalk.Section) {
		made := map[string]bool{}
		for _, w := range always {
			made[w] = true
		}
		no := 0
		for _, s := range guide {
			for _, p := range d.Pieces {
				for _, e := range p.Edges {
					if p.ID == s.Piece {
						made["the start of the "+e.Name], made["the end of the "+e.Name] = true, true
					}
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
		if len(guide) != len(d.Pieces) {
			t.Errorf("%d sections for %d pieces", len(guide), len(d.Pieces))
		}
	})
}

// Drawn again from its ordinates alone, a curve is the curve of the record.
func TestOrdinatesGiveTheCurveBack(t *testing.T) {
	const offTol = 0.01 // mm
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
				if len(m.Ordinates) < 3 {
					t.Errorf("%s: %q has %d ordinates", s.Title, m.Name, len(m.Ordinates))
				}
				for _, o := range m.Ordinates {
					foot := from.Add(dir.Scale(o.Along.MM()))
					_, right := m.Path.Nearest(foot.Add(dir.Right().Scale(o.Off.MM())))
					_, left := m.Path.Nearest(foot.Add(dir.Left().Scale(o.Off.MM())))
					if math.Min(right, left) > offTol {
						t.Errorf("%s: %q at %.1f mm along and %.2f off misses the curve by %.3f", s.Title, m.Name, o.Along.MM(), o.Off.MM(), math.Min(right, left))
					}
				}
			}
		}
		if curves == 0 {
			t.Error("no curve in the whole guide")
		}
	})
}

// A tape laid as the guide says ends where the record has the mark, all moves
// made.
func TestMarksLeadToThePointsOfTheRecord(t *testing.T) {
	each(t, func(t *testing.T, d *garment.Draft, guide []chalk.Section) {
		for _, s := range guide[:2] {
			last := map[string]chalk.Mark{}
			for _, m := range s.Marks {
				if m.Kind == chalk.Point || m.Kind == chalk.Move {
					last[m.Name] = m
				}
			}
			for _, st := range d.Record.Steps() {
				m, ok := last[st.Label]
				if st.Part != s.Piece || !ok || st.Kind != construct.KindPoint {
					continue
				}
				// Moves under half a sixteenth are not chalked.
				if off := m.At.Dist(d.Record.Point(st.Name)); off > 25.4/32 {
					t.Errorf("%s: %q ends %.2f mm from its mark", s.Title, m.Name, off)
				}
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
