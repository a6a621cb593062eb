package draft_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/proof"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/rules"
)

// Whatever is offered for a finding takes it away, and leaves less to mend.
func TestWhatIsOfferedCures(t *testing.T) {
	natively(t)
	cured := map[string]bool{}
	var m draft.Maker
	styles := prove.Styles()
	for i, body := range provetest.Bodies(t, 900) {
		for k, spoil := range spoiled() {
			j := styles[(i+k)%len(styles)].Job(body)
			spoil(&j)
			r, err := m.Make(j)
			if err != nil {
				continue
			}
			for _, f := range slices.Concat(r.Report.At(proof.Stops), r.Report.At(proof.Mind)) {
				for _, c := range m.Cures(r, f) {
					if c.ByHand {
						continue
					}
					cured[f.Check] = true
					after, err := draft.Make(c.Job)
					if err != nil {
						t.Fatalf("%s, %s: %v", body.ID, c.Say, err)
					}
					stops := func(r *draft.Result) int { return len(r.Report.At(proof.Stops)) }
					minds := func(r *draft.Result) int { return len(r.Report.At(proof.Mind)) }
					for _, left := range after.Report.Findings {
						if left.Check == f.Check && left.Panel == f.Panel && left.Level != proof.Fine {
							t.Errorf("%s, %s: %q leaves it as it was", body.ID, f.Check, c.Say)
						}
					}
					if stops(after) > stops(r) || stops(after) == stops(r) && minds(after) >= minds(r) {
						t.Errorf("%s, %s: %q leaves as much to mend", body.ID, f.Check, c.Say)
					}
				}
			}
		}
	}
	for _, check := range []string{
		"inseam", "side seam", "waist girth", "hip girth", "fork at the inseam", "waist at the centre back",
		"fly", "band lap", "foot through the hem", "pocket mouth", "pocket depth", "front dart", "back dart",
		"fork seam", "fork seam, back",
	} {
		if !cured[check] {
			t.Errorf("nothing was ever offered for %q", check)
		}
	}
}

// A finding with its mends, in words.
func TestCuresInWords(t *testing.T) {
	tests := []struct {
		name  string
		spoil func(*job.Job)
		check string
		want  string // of what is offered
	}{
		{"as it is spoken", func(j *job.Job) { j.Drafting = job.Spoken }, "inseam", "Draft it trued, not as it is spoken"},
		{"a truing off", func(j *job.Job) { j.Untrued = []string{"inseam"} }, "inseam", "Switch on: inseams made equal"},
		{"no room to step in", func(j *job.Job) {
			j.Rules.Job = rules.Values{"fly_length": "3 in", "waistband_width": "3/4 in"}
			j.Measurements[body.WaistGirth] = body.Taking{Value: length(t, "31 in")}
		}, "stepping in", "Make the fly length"},
		{"a short fly under a small waist", func(j *job.Job) {
			j.Figure, j.Measurements = body.Women, surveyed(t, "25344").Taken
		}, "stepping in", "Choose for the closure: zip in the left side, and for the side pocket: none"},
		{"a fork far too short", func(j *job.Job) {
			j.Measurements[body.TotalCrotchLength] = body.Taking{Value: length(t, "34 1/2 in")}
		}, "fork seam, far too short", "Draft it by the balanced method"},
		{"a long lap", func(j *job.Job) { j.Rules.Job = rules.Values{"band_lap": "4 in"} }, "band lap", "Make the band lap 1½ in; it is 4 in"},
		{"an inside leg that does not agree", func(j *job.Job) {
			j.Measurements[body.InsideLegLength] = body.Taking{Value: length(t, "36 in")}
		}, "inside leg", "Take the inside leg length again"},
	}
	for _, tt := range tests {
		j := read(t, hip42)
		tt.spoil(&j)
		var m draft.Maker
		r, err := m.Make(j)
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		i := slices.IndexFunc(r.Report.Findings, func(f proof.Finding) bool { return f.Check == tt.check && f.Level != proof.Fine })
		if i < 0 {
			t.Errorf("%s: no finding %q", tt.name, tt.check)
			continue
		}
		var said []string
		for _, c := range m.Cures(r, r.Report.Findings[i]) {
			said = append(said, c.Say)
		}
		if !strings.Contains(strings.Join(said, "|"), tt.want) {
			t.Errorf("%s: offered %q, want %q", tt.name, said, tt.want)
		}
	}
}

// surveyed is the body of the survey with that ID.
func surveyed(t *testing.T, id string) prove.Body {
	t.Helper()
	all := provetest.Bodies(t, 1)
	return all[slices.IndexFunc(all, func(b prove.Body) bool { return b.ID == id })]
}

// A back that takes in too much at the side without a dart cannot be drafted; it is
// offered to sew one, and then it can.
func TestWaysOut(t *testing.T) {
	j := prove.Style{Style: map[string]string{"back_dart": "none"}}.Job(surveyed(t, "20626"))
	var m draft.Maker
	_, err := m.Make(j)
	var no *garment.Impossible
	if !errors.As(err, &no) {
		t.Fatalf("it can be drafted: %v", err)
	}
	ways := m.WaysOut(j, no)
	if len(ways) == 0 {
		t.Fatalf("no way out of %q", no.What)
	}
	for _, w := range ways {
		if r, err := draft.Make(w.Job); err != nil || r.Report.Stopped() {
			t.Errorf("%s: %v", w.Say, err)
		}
	}
	if j.Style["back_dart"] != "none" {
		t.Error("the job that was asked about has changed")
	}
}

// spoiled are jobs that go wrong in several ways.
func spoiled() []func(*job.Job) {
	set := func(id rules.ID, text string) func(*job.Job) {
		return func(j *job.Job) {
			j.Rules.Job = rules.Values{id: text}
		}
	}
	return []func(*job.Job){
		func(*job.Job) {},
		func(j *job.Job) { j.Drafting = job.Spoken },
		func(j *job.Job) { j.Untrued = []string{"hip", "waist", "inseam", "side", "fork", "ease"} },
		set("fly_length", "3 in"), set("waistband_width", "4 in"), set("band_lap", "4 in"), set("pocket_down_side", "4 in"),
		set("pocket_depth", "10 in"), set("pocket_width", "8 in"), set("rise", "7 in"), set("centre_back_raise", "0 in"),
		set("taper", "10 in"), set("hem_girth", "10 in"), set("knee_ease", "1/2 in"),
		set("thigh_ease", "0 in"), set("thigh_drop", "1 in"),
		set("front_dart_width", "2 in"), set("back_dart_width", "2 in"), set("pocket_along_waist", "5 in"),
	}
}
