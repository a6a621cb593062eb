package prove_test

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	tables "chalkfold/testdata/body"
)

func newDraft() prove.Draft {
	var m draft.Maker
	return func(j job.Job) (prove.Drafted, error) {
		r, err := m.Make(j)
		if err != nil {
			return prove.Drafted{}, err
		}
		return prove.Drafted{Report: r.Report, Pieces: r.Pieces}, nil
	}
}

// Part of the survey in every style: every draft passes or is stopped with a
// reason, none fails, no outline crosses itself. `make prove` takes all of it.
func TestPartOfTheSurvey(t *testing.T) {
	all := provetest.Bodies(t, 1)
	if len(all) != 4855 {
		t.Fatalf("%d bodies, want the survey's 4,855", len(all))
	}
	part := 16
	if testing.Short() {
		part = 2
	}
	var some []prove.Body
	for i := 0; i < len(all); i += len(all) / part {
		some = append(some, all[i])
	}
	styles := prove.By(prove.Styles(), job.Quarter, job.Balanced)
	r, err := prove.Run(context.Background(), some, styles, 2, newDraft)
	if err != nil {
		t.Fatal(err)
	}
	if r.Failed() {
		t.Errorf("%d panics (%v), %d crossing outlines (%v)", r.Panics, r.Fails, r.Crossed, r.Stops)
	}
	if want := len(some) * len(styles); r.Drafts != want || r.Passed+r.Stopped != want {
		t.Errorf("%d drafts, %d passed and %d stopped, want %d in all", r.Drafts, r.Passed, r.Stopped, want)
	}
	if float64(r.Passed) < 0.98*float64(r.Drafts) {
		t.Errorf("only %d of %d drafts pass; stopped by %v", r.Passed, r.Drafts, r.Stops)
	}
}

func TestStylesAnswerEveryQuestionInEveryWay(t *testing.T) {
	g := trouser.Garment()
	styles := prove.Styles()
	if len(styles) < 24 {
		t.Errorf("%d styles, want at least 24", len(styles))
	}
	chosen := map[string]bool{}
	var levels [3]bool
	for _, s := range styles {
		full, err := g.Complete(s.Style)
		if err != nil {
			t.Fatalf("%s: %v", s.Name, err)
		}
		if err := g.Check(full); err != nil {
			t.Errorf("%s: %v", s.Name, err)
		}
		for o, c := range full {
			chosen[o+" "+c] = true
		}
		for i, at := range []int{len(s.Rules.House), len(s.Rules.Client), len(s.Rules.Job)} {
			levels[i] = levels[i] || at > 0
		}
	}
	for _, o := range g.Options {
		for _, c := range o.Choices {
			if !chosen[o.ID+" "+c.ID] {
				t.Errorf("no style has %s %s", o.ID, c.ID)
			}
		}
	}
	if levels != [3]bool{true, true, true} {
		t.Errorf("levels that set a rule: %v, want house, client and job", levels)
	}
}

// Two dozen styles of any garment answer each of its questions in every way, and
// no two are alike.
func TestStylesOfAnyGarment(t *testing.T) {
	for _, g := range draft.Garments() {
		seen, chosen := map[string]bool{}, map[string]bool{}
		for _, s := range prove.StylesOf(g, 24) {
			if seen[s.Name] || s.Job(prove.Body{}).Garment != g.ID {
				t.Errorf("%s: %s comes twice, or is another garment's", g.ID, s.Name)
			}
			seen[s.Name] = true
			for o, c := range s.Style {
				chosen[o+" "+c] = true
			}
		}
		for _, o := range g.Options {
			for _, c := range o.Choices {
				if !chosen[o.ID+" "+c.ID] {
					t.Errorf("no style of %s has %s %s", g.ID, o.ID, c.ID)
				}
			}
		}
		if len(seen) != 24 {
			t.Errorf("%d styles of %s", len(seen), g.ID)
		}
	}
}

// Part of the survey in the styles of every other garment: at least 99 of 100
// drafts pass, and none fails.
func TestOtherGarmentsOnPartOfTheSurvey(t *testing.T) {
	all := provetest.Bodies(t, 1)
	var some []prove.Body
	for i := 0; i < len(all); i += len(all) / 20 {
		some = append(some, all[i])
	}
	for _, g := range draft.Garments()[1:] {
		r, err := prove.Run(context.Background(), some, prove.StylesOf(g, 24), 2, newDraft)
		if err != nil {
			t.Fatal(err)
		}
		if r.Failed() || float64(r.Passed) < 0.99*float64(r.Drafts) {
			t.Errorf("%s: %d of %d drafts pass, %d panics (%v), stopped by %v", g.ID, r.Passed, r.Drafts, r.Panics, r.Fails, r.Stops)
		}
	}
}

// The first man of the survey, his figures as printed in it.
func TestBodiesAreReadByTheNamesOfColumns(t *testing.T) {
	first := provetest.Bodies(t, 1)[0]
	if first.ID != "10027" || first.Figure != body.Men {
		t.Errorf("first body is %s, %s", first.ID, first.Figure)
	}
	for id, want := range map[body.ID]float64{
		body.HipGirth: 979, body.WaistGirth: 933, body.WaistToHips: 1054 - 882, body.BodyRise: 1054 - 877,
		body.OutsideLegLength: 1054, body.TotalCrotchLength: 607, body.BackCrotchLength: 351, body.FrontCrotchLength: 607 - 351,
	} {
		if got := first.Taken[id].Value.Length().MM(); got != want {
			t.Errorf("%s is %.0f mm, want %.0f", id, got, want)
		}
	}
}

func TestSurveysThatCannotBeRead(t *testing.T) {
	lines := strings.SplitN(string(tables.File(t, tables.Survey)), "\n", 3)
	head, row := lines[0], lines[1]
	for _, tt := range []struct{ name, text, want string }{
		{"nothing", "", "no line of column names"},
		{"no rows", head + "\n", "no rows below the column names"},
		{"no hip", strings.Replace(head, "buttockcircumference", "seat", 1) + "\n" + row, "column buttockcircumference is missing"},
		{"a word for a figure", head + "\n" + strings.Replace(row, "933", "wide", 1), `line 2, column waistcircumference: "wide"`},
		{"no sex known", head + "\n" + strings.Replace(row, "Male", "M", 1), `column sex: "M": write Male or Female`},
		{"a row cut short", head + "\n10027,Male", "wrong number of fields"},
	} {
		if _, err := prove.Bodies(strings.NewReader(tt.text), 0); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q in it", tt.name, err, tt.want)
		}
	}
}

// scripted drafts by the figure of the job: a pass, a stop, a crossing
// outline, a refusal, a panic, a fault.
func scripted(j job.Job) (prove.Drafted, error) {
	n := j.Measurements[body.HipGirth].Value.Length().MM()
	square := piece.Piece{ID: "square", Sew: geom.Polyline(geom.Pt{}, geom.Pt{X: 9}, geom.Pt{X: 9, Y: 9}).Flatten(1)}
	finding := func(check string, l proof.Level) proof.Finding { return proof.Finding{Check: check, Level: l} }
	fork := proof.Finding{Check: "fork seam", Figure: proof.Figure{V: 700 + n}, Least: &proof.Figure{V: 700}}
	switch int(n) % 7 {
	case 1:
		return prove.Drafted{Report: proof.Report{Findings: []proof.Finding{finding("hip girth", proof.Stops), finding("hip girth", proof.Stops), fork}}}, nil
	case 2:
		bow := piece.Piece{ID: "bow", Sew: []geom.Pt{{}, {X: 9, Y: 9}, {X: 9}, {Y: 9}}}
		return prove.Drafted{Report: proof.Report{Findings: []proof.Finding{finding("outline: bow", proof.Stops)}}, Pieces: []piece.Piece{bow}}, nil
	case 3:
		return prove.Drafted{}, fmt.Errorf("trousers: %w", &garment.Impossible{What: "too short by 3 in", Mend: "measure again"})
	case 4:
		panic("scripted")
	case 5:
		return prove.Drafted{}, errors.New("a fault")
	case 6:
		return prove.Drafted{}, &job.Bad{Problems: []*job.Problem{{Path: "measurements.hip_girth"}}}
	}
	return prove.Drafted{
		Report: proof.Report{Findings: []proof.Finding{finding("zip", proof.Mind), fork}}, Pieces: []piece.Piece{square},
	}, nil
}

func TestCounting(t *testing.T) {
	all := provetest.Bodies(t, 1)[:200]
	styles := prove.Styles()[:3]
	run := func(workers int) prove.Report {
		r, err := prove.Run(context.Background(), all, styles, workers, func() prove.Draft { return scripted })
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	r := run(1)
	var by [7]int
	for _, b := range all {
		by[int(b.Taken[body.HipGirth].Value.Length().MM())%7]++
	}
	for name, got := range map[string][2]int{
		"drafts":   {r.Drafts, 3 * 200},
		"passed":   {r.Passed, 3 * by[0]},
		"stopped":  {r.Stopped, 3 * (by[1] + by[2] + by[3] + by[6])},
		"panics":   {r.Panics, 3 * (by[4] + by[5])},
		"crossing": {r.Crossed, 3 * by[2]},
		"clear":    {r.Clear, 0},
	} {
		if got[0] != got[1] {
			t.Errorf("%s: %d, want %d", name, got[0], got[1])
		}
	}
	count := func(all []prove.Count, check string) prove.Count {
		i := slices.IndexFunc(all, func(c prove.Count) bool { return c.Check == check })
		if i < 0 {
			t.Fatalf("%q is not counted among %v", check, all)
		}
		return all[i]
	}
	if c := count(r.Stops, "hip girth"); c.Drafts != 3*by[1] || c.Bodies != by[1] || len(c.Rows) != min(by[1], prove.MostRows) {
		t.Errorf("hip girth: %+v, want %d drafts of %d bodies", c, 3*by[1], by[1])
	}
	for check, n := range map[string]int{
		"cannot be drafted: measure again": by[3], "refused: measurements.hip_girth": by[6],
	} {
		if c := count(r.Stops, check); c.Bodies != n {
			t.Errorf("%s: %d bodies, want %d", check, c.Bodies, n)
		}
	}
	if c := count(r.Fails, "panic: scripted"); c.Bodies != by[4] {
		t.Errorf("panics: %d bodies, want %d", c.Bodies, by[4])
	}
	if !r.Failed() {
		t.Error("panics are no failure")
	}
	for _, workers := range []int{2, 7} {
		if many := run(workers); !reflect.DeepEqual(r, many) {
			t.Errorf("%d workers count otherwise than one", workers)
		}
	}
}

// The fork seam's mean and spread, against sums by hand: 10, 20 and 60 mm.
func TestForkSeamIsSummedUp(t *testing.T) {
	all := provetest.Bodies(t, 1)[:3]
	room := map[string]float64{all[0].ID: 10, all[1].ID: 20, all[2].ID: 60}
	r, err := prove.Run(context.Background(), all, prove.Styles()[:1], 1, func() prove.Draft {
		return func(j job.Job) (prove.Drafted, error) {
			id := j.Name[strings.LastIndex(j.Name, " ")+1:]
			return prove.Drafted{Report: proof.Report{Findings: []proof.Finding{
				{Check: "fork seam", Figure: proof.Figure{V: 600 + room[id]}, Least: &proof.Figure{V: 600}},
			}}}, nil
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(r.Fork, func(f prove.Fork) bool { return f.Style == "" && f.Figure == body.Men })
	f := r.Fork[i]
	if f.Drafts != 3 || f.Mean != 30 || f.SD < 21.60 || f.SD > 21.61 || f.Within < 0.666 || f.Within > 0.667 {
		t.Errorf("fork seam %+v, want 3 drafts of mean 30, sd 21.6, two thirds within", f)
	}
}

func TestRunEndsWhenTold(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := prove.Run(ctx, provetest.Bodies(t, 1)[:10], prove.Styles(), 1, newDraft); !errors.Is(err, context.Canceled) {
		t.Errorf("told to stop, it says %v", err)
	}
}
