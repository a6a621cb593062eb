//go:build !js

package ui

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/day"
	"chalkfold/ui/fitting"
)

// What a client's fittings taught is done once: where the rule of the house has
// grown since, less of it is left to do, nothing, or the other way.
func TestCorrected(t *testing.T) {
	g, _ := draft.Find("trousers")
	taught := []Correction{
		{Kind: "back_longer", By: inches("½ in"), Over: "1 in"}, {Kind: "back_waist_in", By: inches("⅜ in")}, {Kind: "not_known", By: inches("1 in")},
	}
	for _, tt := range []struct {
		house string
		want  []job.Alteration
	}{
		{"", []job.Alteration{{Kind: "back_longer", By: inches("½ in"), For: job.ForClient}}},
		{"1 1/4 in", []job.Alteration{{Kind: "back_longer", By: inches("¼ in"), For: job.ForClient}}},
		{"1 1/2 in", nil},
		{"2 in", []job.Alteration{{Kind: "back_shorter", By: inches("½ in"), For: job.ForClient}}},
	} {
		house := rules.Values{}
		if tt.house != "" {
			house["centre_back_raise"] = tt.house
		}
		want := append(slices.Clone(tt.want), job.Alteration{Kind: "back_waist_in", By: inches("⅜ in"), For: job.ForClient})
		if got := corrected(g, taught, house, unit.Format{System: unit.Inches, Den: 8}); !slices.Equal(got, want) {
			t.Errorf("over a house rule of %q: %v, want %v", tt.house, got, want)
		}
	}
}

// fittedJob is a job of a client that was fitted on a day, altered so.
func fittedJob(client string, on day.Day, alters ...string) *Job {
	j := NewJob("trousers")
	j.Client = client
	j.SetName(client + string(on))
	for i := 0; i+1 < len(alters); i += 2 {
		j.File.Alterations = append(j.File.Alterations, job.Alteration{Kind: alters[i], By: inches(alters[i+1]), For: job.ForJob})
	}
	if on != "" {
		j.Reach(Fitted, on)
	}
	return j
}

// A maker is told of what she had to alter on three of the five clients fitted
// last, alike and the same way; by the middle amount.
func TestLearn(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	const longer, shorter = "back_longer", "back_shorter"
	for _, tt := range []struct {
		what string
		jobs []*Job
		want string
	}{
		{"nobody", nil, ""},
		{"two of five", []*Job{
			fittedJob("a", "2031-05-01", longer, "½ in"), fittedJob("b", "2031-05-02", longer, "½ in"),
			fittedJob("c", "2031-05-03"), fittedJob("d", "2031-05-04"), fittedJob("e", "2031-05-05"),
		}, ""},
		{"three of five", []*Job{
			fittedJob("a", "2031-05-01", longer, "¼ in"), fittedJob("b", "2031-05-02", longer, "½ in"),
			fittedJob("c", "2031-05-03", longer, "1 in"), fittedJob("d", "2031-05-04"), fittedJob("e", "2031-05-05"),
		}, "back_longer 3/5 12.7"},
		{"three, and two of them the other way", []*Job{
			fittedJob("a", "2031-05-01", longer, "½ in"), fittedJob("b", "2031-05-02", shorter, "½ in"), fittedJob("c", "2031-05-03", shorter, "½ in"),
		}, ""},
		{"one client three times", []*Job{
			fittedJob("a", "2031-05-01", longer, "½ in"), fittedJob("a", "2031-05-02", longer, "½ in"), fittedJob("a", "2031-05-03", longer, "½ in"),
		}, ""},
		{"three, but before the last five", []*Job{
			fittedJob("a", "2031-05-01", longer, "½ in"), fittedJob("b", "2031-05-02", longer, "½ in"), fittedJob("c", "2031-05-03", longer, "½ in"),
			fittedJob("d", "2031-05-04"), fittedJob("e", "2031-05-05"), fittedJob("f", "2031-05-06"),
		}, ""},
		{"three that were altered and not fitted", []*Job{
			fittedJob("a", "", longer, "½ in"), fittedJob("b", "", longer, "½ in"), fittedJob("c", "", longer, "½ in"),
		}, ""},
	} {
		b.records = shelfWith(t, tt.jobs...)
		b.view.fit.learned = -1
		got := ""
		for _, l := range b.lessons() {
			got += l.ID + " " + strconv.Itoa(l.times) + "/" + strconv.Itoa(l.of) + " " + strconv.FormatFloat(l.by.MM(), 'f', 1, 64)
		}
		if got != tt.want {
			t.Errorf("%s: learned %q, want %q", tt.what, got, tt.want)
		}
	}
}

// What one side alone needed is a figure's own: no rule of the house is made of it.
func TestOneSideIsNotLearned(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	var jobs []*Job
	for _, client := range []string{"a", "b", "c"} {
		j := fittedJob(client, "2031-05-01", "leg_longer", "½ in")
		j.File.Alterations[0].Side = job.LeftSide
		jobs = append(jobs, j)
	}
	b.records = shelfWith(t, jobs...)
	b.view.fit.learned = -1
	if l := b.lessons(); len(l) != 0 {
		t.Errorf("learned %+v", l)
	}
}

// What is altered on one side is tried on it, kept with its client on that side, and
// shown as hers by its side.
func TestAlterOneSide(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	b.give(b.newClient("Choir, altos"))
	b.settle()
	v := b.fittingView()
	v.OnGroup(garment.FromSide)
	v.OnSign("side_slack")
	v.OnAlter("side_shorter")
	v.OnSides(job.LeftSide)
	v = b.fittingView()
	trial := v.Sign.Trial
	names := ""
	for _, c := range trial.Changes {
		names += c.What + "; "
	}
	if !strings.Contains(names, "Front side, left") || strings.Contains(names, "right") {
		t.Errorf("changes: %s", names)
	}
	v.OnKeep(true)
	b.settle()
	want := job.Alteration{Kind: "side_shorter", By: inches("½ in"), Side: job.LeftSide, For: job.ForClient}
	if got := b.job.File.Alterations; len(got) != 1 || got[0] != want {
		t.Fatalf("the job has %+v", got)
	}
	if c := b.client(b.job.Client); len(c.Corrections["trousers"]) != 1 || c.Corrections["trousers"][0].Side != job.LeftSide {
		t.Errorf("she keeps %+v", c.Corrections)
	}
	if got := b.fittingView().Altered; len(got) != 1 || got[0].Name != "lower the side at the waist, left" {
		t.Errorf("altered: %+v", got)
	}
	hers := b.hers()
	if len(hers) != 1 || !strings.Contains(hers[0].Name, "left") {
		t.Fatalf("hers: %+v", hers)
	}
	b.takeHersOut(hers[0].ID)
	if len(b.job.File.Alterations) != 0 {
		t.Error("it is not taken out")
	}
}

// What was learned becomes a rule of the house at a tap, and is not said again.
func TestLearnedByTheHouse(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	b.records = shelfWith(t,
		fittedJob("a", "2031-05-01", "back_longer", "½ in"), fittedJob("b", "2031-05-02", "back_longer", "½ in"), fittedJob("c", "2031-05-03", "back_longer", "¾ in"))
	b.view.fit.learned = -1
	v := b.fittingView()
	if len(v.Learned) != 1 || v.Learned[0].Key != "Make it your house rule: centre-back raise 1½ in" {
		t.Fatalf("%+v", v.Learned)
	}
	if h := b.houseView(); len(h.Learned) != 1 {
		t.Errorf("the house is told %+v", h.Learned)
	}
	v.OnHouse("back_longer")
	if got := b.house.inForce().Values["centre_back_raise"]; got != "1½ in" {
		t.Errorf("the house has %q", got)
	}
	if v := b.fittingView(); len(v.Learned) != 0 {
		t.Errorf("said again: %+v", v.Learned)
	}
}

// An alteration is tried without a change of the job, kept with it or with its
// client, whose next job starts from it; undone, she is told so too.
func TestAlterAndKeep(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	c := b.newClient("Choir, altos")
	b.give(c)
	b.settle()
	before := len(b.job.File.Alterations)
	v := b.fittingView()
	v.OnGroup(garment.FromBack)
	v.OnSign("back_gapes")
	v.OnAlter("back_waist_in")
	v.OnAmount(true)
	v = b.fittingView()
	if v.Sign == nil || v.Sign.Trial == nil || v.Sign.Trial.By != "⅝ in" || v.Sign.Trial.SVG == "" || len(v.Sign.Trial.Changes) == 0 || v.Sign.Trial.Recut != nil {
		t.Fatalf("tried: %+v", v.Sign)
	}
	if len(b.job.File.Alterations) != before {
		t.Error("trying it changed the job")
	}
	v.OnKeep(true)
	b.settle()
	want := []job.Alteration{{Kind: "back_waist_in", By: inches("⅝ in"), For: job.ForClient}}
	if !slices.Equal(b.job.File.Alterations, want) || len(c.Corrections["trousers"]) != 1 {
		t.Errorf("kept %v with the job, %v with her", b.job.File.Alterations, c.Corrections)
	}
	if next := b.startFor(c); !slices.Equal(next.File.Alterations, want) {
		t.Errorf("her next job starts from %v", next.File.Alterations)
	}
	if h := b.draftView().Hers; len(h) != 1 || h[0].Name != "Hers: take in the seat seam at the waist, ⅝ in" {
		t.Errorf("the draft says %v", h)
	}
	b.step(false)
	b.settle()
	if len(b.job.File.Alterations) != before || len(c.Corrections["trousers"]) != 0 {
		t.Errorf("undone: %v, and with her %v", b.job.File.Alterations, c.Corrections)
	}
}

// A garment that is cut is let out of its own allowances, and it is said where
// there is not enough and what can be done instead.
func TestAlterTheCut(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.tick(string(Cut))
	b.settle()
	v := b.fittingView()
	v.OnSign("hip_pulls")
	v.OnAlter("hip_out")
	r := b.fittingView().Sign.Trial.Recut
	if r == nil || !r.Can || len(r.Seams) == 0 || len(r.Steps) < 4 || len(r.Instead) != 0 {
		t.Fatalf("half an inch at the hip: %+v", r)
	}
	for range 12 {
		v.OnAmount(true)
	}
	r = b.fittingView().Sign.Trial.Recut
	if r == nil || r.Can || len(r.Instead) == 0 {
		t.Fatalf("two inches at the hip: %+v", r)
	}
	short := slices.ContainsFunc(r.Seams, func(s fitting.Seam) bool { return s.Short })
	if !short {
		t.Errorf("no seam is short: %+v", r.Seams)
	}
}
