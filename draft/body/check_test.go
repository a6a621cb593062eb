package body_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

// takings reads "hip_girth 42 in" and "body_rise 11 in garment".
func takings(t *testing.T, entries ...string) body.Takings {
	t.Helper()
	all := body.Takings{}
	for _, e := range entries {
		id, text, _ := strings.Cut(e, " ")
		of := body.OfBody
		if rest, ok := strings.CutSuffix(text, " garment"); ok {
			text, of = rest, body.OfGarment
		}
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		all[body.ID(id)] = body.Taking{Value: q, Of: of}
	}
	return all
}

func TestDefs(t *testing.T) {
	seen := make(map[body.ID]bool)
	for _, d := range body.Defs() {
		if seen[d.ID] {
			t.Errorf("%s is defined twice", d.ID)
		}
		seen[d.ID] = true
		if d.Name == "" || d.Definition == "" || d.Min <= 0 || d.Max <= d.Min {
			t.Errorf("%s is not fully defined: %+v", d.ID, d)
		}
		if n := strings.Count(d.HowTo, "."); n != 2 {
			t.Errorf("how to take %s has %d sentences, want 2: %s", d.ID, n, d.HowTo)
		}
		if got, ok := body.Find(d.ID); !ok || got != d {
			t.Errorf("%s is found as %+v", d.ID, got)
		}
	}
	if _, ok := body.Find("tail_length"); ok {
		t.Error("a measurement was found that is not there")
	}
}

func TestLimits(t *testing.T) {
	if err := body.Limits(takings(t, "hip_girth 42", "waist_girth 86,4 cm", "stature 5 ft 4 in")); err != nil {
		t.Errorf("an ordinary body was refused: %v", err)
	}
	if err := body.Limits(body.Takings{body.HipGirth: {}}); err != nil {
		t.Errorf("a measurement not taken was refused: %v", err)
	}
	err := body.Limits(takings(t, "hip_girth 420", "tail_length 3", "waist_girth 34 cm", "ankle_girth 9 mm"))
	want := `ankle_girth: 9 mm: ankle girth must be from 10.2 cm to 55.9 cm; check the figure and its unit
hip_girth: 420 in: hip girth must be from 15 in to 95 in; check the figure and its unit
tail_length: 3 in: no such measurement; take it out or correct its name`
	if err == nil || err.Error() != want {
		t.Errorf("refused with:\n%v\nwant:\n%s", err, want)
	}
	var bad *body.BadTaking
	if !errors.As(err, &bad) || bad.ID != body.AnkleGirth {
		t.Errorf("the first refusal is of %+v", bad)
	}
}

func doubted(doubts []body.Doubt) []string {
	var all []string
	for _, d := range doubts {
		all = append(all, string(d.ID)+" "+d.Level.String())
	}
	return all
}

func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name    string
		figure  body.Figure
		takings []string
		want    []string
	}{
		{"nothing taken", body.Unknown, nil, nil},
		{
			"an ordinary woman",
			body.Women,
			[]string{"waist_girth 34", "hip_girth 42", "thigh_girth 25", "knee_girth 16", "calf_girth 15", "ankle_girth 9", "heel_girth 12 1/2", "waist_to_hips 8", "body_rise 10 1/2", "inside_leg_length 30 1/2", "outside_leg_length 41", "total_crotch_length 28 1/2"},
			nil,
		},
		{
			"the same, not known for a woman",
			body.Unknown,
			[]string{"waist_girth 34", "hip_girth 42", "thigh_girth 25", "knee_girth 16", "body_rise 10 1/2", "inside_leg_length 30 1/2", "outside_leg_length 41"},
			nil,
		},
		// Thigh on hip 42 in (women, ansur2_regressions.csv): 647.5 mm, sd 19.1.
		// Two sd are 685.7 mm = 27.0 in, three 704.8 mm = 27.7 in.
		{"thigh just inside", body.Women, []string{"hip_girth 42", "thigh_girth 26.9"}, nil},
		{"thigh beyond two", body.Women, []string{"hip_girth 42", "thigh_girth 27 3/8"}, []string{"thigh_girth ask"}},
		{"thigh beyond three", body.Women, []string{"hip_girth 42", "thigh_girth 28"}, []string{"thigh_girth insist"}},
		{"thigh below three", body.Women, []string{"hip_girth 42", "thigh_girth 23"}, []string{"thigh_girth insist"}},
		{"a garment's thigh holds ease", body.Women, []string{"hip_girth 42", "thigh_girth 28 garment"}, nil},
		{"a wide leg is a style", body.Women, []string{"hip_girth 42", "knee_girth 30 garment"}, nil},
		{"no leg is so wide", body.Women, []string{"hip_girth 42", "knee_girth 30"}, []string{"knee_girth insist"}},
		{"a garment narrower than its leg", body.Women, []string{"hip_girth 42", "thigh_girth 22 garment"}, []string{"thigh_girth insist"}},
		// Rise at the navel is 198 mm, sd 21 (ansur2_percentiles.csv); from the
		// natural waist to the chair 2 1/2 in more.
		{"a rise from the natural waist to the chair", body.Women, []string{"body_rise 11 1/2"}, nil},
		{"a rise from the navel", body.Women, []string{"body_rise 7 1/2"}, nil},
		{"a rise too long", body.Women, []string{"body_rise 14"}, []string{"body_rise insist"}},
		{"a rise too short", body.Women, []string{"body_rise 4 1/2"}, []string{"body_rise insist"}},
		{"hip under waist is only asked", body.Men, []string{"waist_girth 42", "hip_girth 41"}, []string{"hip_girth ask"}},
		{"the leg does not add up", body.Women, []string{"outside_leg_length 42 1/4", "inside_leg_length 30 1/2", "body_rise 10 1/2"}, []string{"outside_leg_length ask"}},
		{"the leg does not add up at all", body.Women, []string{"outside_leg_length 37", "inside_leg_length 30 1/2", "body_rise 10 1/2"}, []string{"outside_leg_length insist"}},
		{"a garment's rise holds ease", body.Women, []string{"outside_leg_length 41", "inside_leg_length 30", "body_rise 11 3/4 garment"}, nil},
		{"no room for a rise", body.Women, []string{"outside_leg_length 35", "inside_leg_length 32"}, []string{"outside_leg_length insist"}},
		{"room for a rise", body.Women, []string{"outside_leg_length 41", "inside_leg_length 31"}, nil},
		{"crotch parts do not add up", body.Women, []string{"total_crotch_length 28", "front_crotch_length 13", "back_crotch_length 15 5/8"}, []string{"total_crotch_length ask"}},
		{"crotch parts add up", body.Women, []string{"total_crotch_length 28", "front_crotch_length 12 1/2", "back_crotch_length 15 5/8"}, nil},
		// Both sides within an inch of each other are believed (common practice).
		{"one hip an inch higher", body.Women, []string{"left_side_length 40 1/2", "right_side_length 39 1/2"}, nil},
		{"sides further apart", body.Women, []string{"left_side_length 40 1/2", "right_side_length 39 1/4"}, []string{"right_side_length ask"}},
		{"sides far apart", body.Women, []string{"left_side_length 39", "right_side_length 40 5/8"}, []string{"right_side_length insist"}},
		{"one side alone", body.Women, []string{"left_side_length 39"}, nil},
		{"metric", body.Women, []string{"hip_girth 106,7 cm", "thigh_girth 71 cm"}, []string{"thigh_girth insist"}},
		{"unknown figure takes both", body.Unknown, []string{"hip_girth 42", "ankle_girth 10"}, nil},
		{"so does a woman's ankle alone", body.Women, []string{"hip_girth 42", "ankle_girth 10 1/8"}, []string{"ankle_girth ask"}},
	} {
		doubts := body.Check(c.figure, takings(t, c.takings...))
		if got := doubted(doubts); !slices.Equal(got, c.want) {
			t.Errorf("%s: doubted %v, want %v", c.name, got, c.want)
			for _, d := range doubts {
				t.Logf("    %s", d.Text)
			}
		}
		for _, d := range doubts {
			if !strings.HasSuffix(d.Text.String(), "; measure again, or keep it") {
				t.Errorf("%s: %q does not leave it to the maker", c.name, d.Text)
			}
			if d.Given >= d.Low && d.Given <= d.High {
				t.Errorf("%s: %v lies inside what is usual, %v to %v", c.name, d.Given, d.Low, d.High)
			}
			if d.Sigmas < 2 || d.Level == body.Insist && d.Sigmas <= 3 {
				t.Errorf("%s: %s at %.2f sd", c.name, d.Level, d.Sigmas)
			}
		}
	}
}

func TestDoubtsAreSaidOnTheMakersTape(t *testing.T) {
	for _, c := range []struct {
		takings []string
		want    string
	}{
		{
			[]string{"hip_girth 42", "thigh_girth 28"},
			"thigh girth 28 in beside hip girth 42 in: of the women in the survey nearly all lie from 24 in to 27 in; measure again, or keep it",
		},
		{
			[]string{"hip_girth 106.7 cm", "thigh_girth 71 cm"},
			"thigh girth 71 cm beside hip girth 106.7 cm: of the women in the survey nearly all lie from 61 cm to 68.6 cm; measure again, or keep it",
		},
		{
			[]string{"outside_leg_length 37", "inside_leg_length 30 1/2", "body_rise 10 1/2 garment"},
			"outside leg length 37 in, but inside leg length 30½ in and body rise of the garment 10½ in come to 40¼ in; measure again, or keep it",
		},
		{
			[]string{"waist_girth 42", "hip_girth 41"},
			"hip girth 41 in is less than waist girth 42 in; measure again, or keep it",
		},
		{
			[]string{"left_side_length 104 cm", "right_side_length 100 cm"},
			"left side length 104 cm and right side length 100 cm differ by 4 cm, as the sides of few do; measure again, or keep it",
		},
	} {
		var texts []string
		for _, d := range body.Check(body.Women, takings(t, c.takings...)) {
			texts = append(texts, d.Text.String())
		}
		if !slices.Contains(texts, c.want) {
			t.Errorf("said\n%s\nwant\n%s", strings.Join(texts, "\n"), c.want)
		}
	}
}

func TestBands(t *testing.T) {
	none := body.Bands(body.Unknown, nil)
	with := body.Bands(body.Women, takings(t, "hip_girth 42"))
	if a, b := none[body.ThighGirth], with[body.ThighGirth]; b.High-b.Low >= a.High-a.Low {
		t.Errorf("knowing the hip did not narrow the thigh: %+v, %+v", a, b)
	}
	if got := with[body.ThighGirth].From; got != "hip" {
		t.Errorf("the thigh rests on %q", got)
	}
	for id, b := range none {
		if b.InsistLow > b.Low || b.Low >= b.High || b.High > b.InsistHigh {
			t.Errorf("%s: %+v is out of order", id, b)
		}
		for _, f := range []body.Figure{body.Women, body.Men} {
			if one := body.Bands(f, nil)[id]; one.Low < b.Low || one.High > b.High {
				t.Errorf("%s: what is usual for %s is doubted when the figure is not known", id, f)
			}
		}
	}
	if _, ok := none[body.UnderBustGirth]; ok {
		t.Error("a band was given for what the survey did not measure")
	}
}

func TestApart(t *testing.T) {
	of := func(s string) body.Taking { return takings(t, "hip_girth "+s)["hip_girth"] }
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"42", "42 3/8", false},
		{"42", "42 1/2", true},
		{"42 1/2", "42", true},
		{"106 cm", "107 cm", false},
		{"42", "44 garment", false},
	} {
		if got := body.Apart(of(c.a), of(c.b)); got != c.want {
			t.Errorf("%s and %s apart: %v", c.a, c.b, got)
		}
	}
}
