package body_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

func lower() []body.ID {
	return []body.ID{
		body.WaistGirth, body.TopHipGirth, body.HipGirth, body.ThighGirth, body.KneeGirth, body.CalfGirth,
		body.AnkleGirth, body.HeelGirth, body.WaistToHips, body.BodyRise, body.TotalCrotchLength,
		body.FrontCrotchLength, body.BackCrotchLength, body.InsideLegLength, body.OutsideLegLength, body.KneeHeight,
	}
}

func complete(t *testing.T, f body.Figure, want []body.ID, entries ...string) body.Values {
	t.Helper()
	v, err := body.Complete(f, takings(t, entries...), want)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The figures are worked by hand from testdata/body/ansur2_regressions.csv and
// the rules named in the sentence.
func TestEstimates(t *testing.T) {
	for _, c := range []struct {
		figure  body.Figure
		takings []string
		id      body.ID
		want    float64 // mm
		how     string
	}{
		{
			body.Women,
			[]string{"outside_leg_length 41", "body_rise 11"},
			body.InsideLegLength, 30 * 25.4, "outside leg length less body rise",
		},
		{
			body.Women,
			[]string{"inside_leg_length 30", "body_rise 11"},
			body.OutsideLegLength, 41 * 25.4, "inside leg length plus body rise",
		},
		{
			body.Women,
			[]string{"outside_leg_length 41", "inside_leg_length 30"},
			body.BodyRise, 11 * 25.4, "outside leg length less inside leg length",
		},
		{
			body.Women,
			[]string{"outside_leg_length 41", "body_rise 11 garment"},
			body.InsideLegLength, 30.75 * 25.4, "outside leg length less body rise of the garment without ¾ in ease",
		},
		{
			body.Women,
			[]string{"front_crotch_length 12", "back_crotch_length 16"},
			body.TotalCrotchLength, 28 * 25.4, "front crotch length plus back crotch length",
		},
		{
			body.Women,
			[]string{"total_crotch_length 28", "back_crotch_length 16"},
			body.FrontCrotchLength, 12 * 25.4, "total crotch length less back crotch length",
		},
		{
			body.Women,
			[]string{"total_crotch_length 28", "front_crotch_length 12"},
			body.BackCrotchLength, 16 * 25.4, "total crotch length less front crotch length",
		},
		{
			body.Women,
			[]string{"hip_girth 1000 mm"},
			body.ThighGirth, -89.45 + 690.9, "from hip, as in the survey of women",
		},
		{
			body.Men,
			[]string{"hip_girth 1000 mm"},
			body.ThighGirth, -107.74 + 718.9, "from hip, as in the survey of men",
		},
		{
			body.Unknown,
			[]string{"hip_girth 1000 mm"},
			body.ThighGirth, (-89.45 + 690.9 - 107.74 + 718.9) / 2, "from hip, as in the survey of adults (women and men averaged)",
		},
		{
			body.Women,
			[]string{"waist_girth 800 mm", "hip_girth 1000 mm", "stature 1650 mm"},
			body.CalfGirth, 47 - 0.0172*800 + 0.2852*1000 + 0.0306*1650, "from waist, hip and stature, as in the survey of women",
		},
		{
			body.Women,
			[]string{"hip_girth 1000 mm"},
			body.BodyRise, 171.68 + 25.6 + 38.1, "from hip, as in the survey of women, and 1½ in more because the survey's waist is at the navel",
		},
		{
			body.Women,
			[]string{"hip_girth 1000 mm"},
			body.TotalCrotchLength, 256.23 + 357 + 76.2, "from hip, as in the survey of women, and 3 in more because the survey's waist is at the navel",
		},
		{
			body.Women,
			[]string{"hip_girth 1000 mm", "waist_girth 800 mm", "body_rise 250 mm"},
			body.TotalCrotchLength, 72.37 + 0.9723*(250-38.1) + 414.1 - 0.0776*800 + 76.2,
			"from body rise, hip and waist, as in the survey of women, and 3 in more because the survey's waist is at the navel",
		},
		{
			body.Women,
			[]string{"hip_girth 1000 mm", "body_rise 250 mm"},
			body.WaistToHips, 250 * (176.35 - 29.3 + 38.1) / (171.68 + 25.6 + 38.1),
			"body rise in the proportion waist to hips has in the survey of women",
		},
		{
			body.Women,
			[]string{"stature 1650 mm"},
			body.InsideLegLength, -179.10 + 0.5904*1650, "from stature, as in the survey of women",
		},
		{
			body.Women,
			[]string{"stature 1650 mm"},
			body.KneeHeight, -106.94 + 0.3414*1650, "from stature, as in the survey of women",
		},
		{
			body.Women,
			[]string{"inside_leg_length 30"},
			body.KneeHeight, 17 * 25.4, "half of inside leg length plus 2 in",
		},
		{
			body.Women,
			[]string{"outside_leg_length 41", "body_rise 11"},
			body.KneeHeight, 17 * 25.4, "half of inside leg length (itself an estimate) plus 2 in",
		},
		{
			body.Women,
			[]string{"waist_girth 34", "hip_girth 42"},
			body.TopHipGirth, 38 * 25.4, "halfway between waist girth and hip girth",
		},
		{
			body.Women,
			[]string{"hip_girth 1000 mm"},
			body.BackWaistLength, 259.44 + 162.5 - 38.1, "from hip, as in the survey of women, and 1½ in less because the survey's waist is at the navel",
		},
	} {
		v := complete(t, c.figure, []body.ID{c.id}, c.takings...)[c.id]
		if got := v.Length.MM(); math.Abs(got-c.want) > 0.001 {
			t.Errorf("%s from %v is %.3f mm, want %.3f", c.id, c.takings, got, c.want)
		}
		if v.How.String() != c.how || !v.Estimated || v.Of != body.OfBody || v.Given.Set() {
			t.Errorf("%s from %v: %+v, want an estimate %q", c.id, c.takings, v, c.how)
		}
	}
}

func TestTakenValuesAreKept(t *testing.T) {
	v := complete(t, body.Women, []body.ID{body.HipGirth, body.BodyRise}, "hip_girth 42 1/8", "body_rise 11 garment", "wrist_girth 6")
	if got := v[body.HipGirth]; got.Length != 42.125*unit.Inch || got.Estimated || got.Given.String() != "42⅛ in" {
		t.Errorf("hip girth is %+v", got)
	}
	if got := v[body.BodyRise]; got.Length != 11*unit.Inch || got.Of != body.OfGarment || got.Estimated {
		t.Errorf("body rise is %+v", got)
	}
	if _, ok := v[body.WristGirth]; !ok {
		t.Error("a measurement that was taken and not wanted was lost")
	}
}

func TestMissing(t *testing.T) {
	for _, c := range []struct {
		takings []string
		want    []body.ID
	}{
		{[]string{"hip_girth 42", "stature 65"}, []body.ID{body.WaistGirth, body.TopHipGirth}},
		{[]string{"waist_girth 34", "stature 65"}, []body.ID{body.HipGirth, body.TopHipGirth}},
		{[]string{"waist_girth 34", "hip_girth 42"}, []body.ID{body.InsideLegLength, body.OutsideLegLength, body.KneeHeight}},
		{[]string{"waist_girth 34", "hip_girth 42", "body_rise 11"}, []body.ID{body.InsideLegLength, body.OutsideLegLength, body.KneeHeight}},
		{[]string{"waist_girth 34", "hip_girth 42", "stature 65"}, nil},
		{[]string{"waist_girth 34", "hip_girth 42", "inside_leg_length 30"}, nil},
		{[]string{"waist_girth 34", "hip_girth 42", "outside_leg_length 41"}, nil},
	} {
		for _, id := range lower() {
			_, err := body.Complete(body.Unknown, takings(t, c.takings...), []body.ID{id})
			var missing *body.Missing
			if got := errors.As(err, &missing); got != slices.Contains(c.want, id) {
				t.Errorf("%v: %s gave %v", c.takings, id, err)
			}
		}
	}
	_, err := body.Complete(body.Women, nil, []body.ID{body.WaistGirth, body.OutsideLegLength, body.ThighGirth, "tail_length", body.WristGirth})
	want := `waist_girth: not taken, and not to be guessed; measure the waist girth
outside_leg_length: not taken; measure the outside leg length, the inside leg length or the stature
thigh_girth: not taken; measure it, or the hip girth to estimate it from
tail_length: no such measurement; correct its name
wrist_girth: not taken, and not to be guessed; measure the wrist girth`
	if err == nil || err.Error() != want {
		t.Errorf("missing:\n%v\nwant:\n%s", err, want)
	}
}

func TestEstimateOfNoBodyIsRefused(t *testing.T) {
	_, err := body.Complete(body.Women, takings(t, "outside_leg_length 20", "body_rise 19"), []body.ID{body.InsideLegLength})
	var bad *body.BadTaking
	if !errors.As(err, &bad) || bad.ID != body.InsideLegLength {
		t.Fatalf("an inside leg of 1 in gave %v", err)
	}
	want := "inside_leg_length: outside leg length less body rise comes to 1 in, which no body has; measure them again or take the inside leg length itself"
	if err.Error() != want {
		t.Errorf("said %q, want %q", err, want)
	}
}

// Whatever was taken, what is estimated adds up with it.
func TestEstimatesAddUp(t *testing.T) {
	base := []string{"waist_girth 34", "hip_girth 42"}
	for _, f := range []body.Figure{body.Unknown, body.Women, body.Men} {
		for _, more := range [][]string{
			{"stature 65"},
			{"inside_leg_length 30"},
			{"outside_leg_length 41"},
			{"stature 65", "outside_leg_length 41"},
			{"stature 65", "body_rise 11"},
			{"stature 65", "body_rise 11", "total_crotch_length 29"},
			{"inside_leg_length 30", "body_rise 11", "front_crotch_length 12"},
			{"outside_leg_length 41", "inside_leg_length 30", "back_crotch_length 16"},
		} {
			v := complete(t, f, lower(), append(slices.Clone(base), more...)...)
			add := func(whole, a, b body.ID) {
				if miss := (v[whole].Length - v[a].Length - v[b].Length).MM(); math.Abs(miss) > 0.2 {
					t.Errorf("%s, %s: %s misses %s and %s by %.2f mm", f, strings.Join(more, ", "), whole, a, b, miss)
				}
			}
			add(body.OutsideLegLength, body.InsideLegLength, body.BodyRise)
			add(body.TotalCrotchLength, body.FrontCrotchLength, body.BackCrotchLength)
			if v[body.WaistToHips].Length >= v[body.BodyRise].Length {
				t.Errorf("%s, %v: the hips lie below the fork", f, more)
			}
			for id, got := range v {
				if got.Estimated == got.How.None() {
					t.Errorf("%s: estimated %v, how %q", id, got.Estimated, got.How)
				}
			}
		}
	}
}
