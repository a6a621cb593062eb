//go:build !js

package ui

import (
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
)

// TestWhatClothIsLike enters stripes, shrinkage and flaws, and takes them out.
func TestWhatClothIsLike(t *testing.T) {
	b, _ := sharing(t)
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	v := b.clothView()
	v.OnLength("repeat_along", "2 1/2")
	v.OnLength("shrinks_along", "3,5")
	v.OnLength("shrinks_across", "a lot")
	v.OnLength("sold_by", "1/4 yd")
	b.settle()
	c := b.job.File.Cloth[0]
	if c.RepeatAlong.String() != "2½ in" || c.ShrinksAlong != "3.5" || c.ShrinksAcross != "" || c.SoldBy.String() != "¼ yd" {
		t.Errorf("entered, it is %+v", c)
	}
	v = b.clothView()
	for _, f := range v.Fields {
		if (f.Bad != "") != (f.Key == "shrinks_across") {
			t.Errorf("%s %q: %q", f.Key, f.Text, f.Bad)
		}
	}
	v.OnLength("shrinks_across", "")
	v.OnLength("repeat_along", "")
	v.OnLength("shrinks_along", "")
	b.settle()

	// On folded cloth a flaw is marked on the layer to the right of the fold.
	v = b.clothView()
	v.OnMark()
	b.moves().Tap(geom.Pt{X: 100, Y: 500}, 10)
	b.settle()
	flaws := b.job.File.Cloth[0].Flaws
	if len(flaws) != 1 {
		t.Fatalf("marked, there are %d flaws", len(flaws))
	}
	half := b.laying.shown.Cloth.Folded().MM()
	if got, want := flaws[0].FromSelvedge.Length().MM(), half+100-25.4; got < want-2 || got > want+2 {
		t.Errorf("marked %.1f mm from the selvedge, want %.1f", got, want)
	}
	v = b.clothView()
	if v.Flaws != 1 || v.Marking || v.Missing != "" {
		t.Errorf("marked: %d flaws, marking %t, %s", v.Flaws, v.Marking, v.Missing)
	}
	v.OnLength("flaws[0].across", "")
	b.settle()
	if got := b.job.File.Cloth[0].Flaws[0].Across.String(); got != "2 in" || b.fault != "" {
		t.Errorf("emptied, it reaches %s across; %s", got, b.fault)
	}
	v.OnLength("flaws[0].across", "1 1/2")
	if got := b.job.File.Cloth[0].Flaws[0].Across.String(); got != "1½ in" {
		t.Errorf("it reaches %s across", got)
	}
	v.OnNoFlaw(0)
	b.settle()
	if len(b.job.File.Cloth[0].Flaws) != 0 {
		t.Error("taken out, the flaw is there")
	}
}

func TestRemovedClothTakesItsTextsAlong(t *testing.T) {
	j := NewJob("trousers")
	for i := range 3 {
		j.SetCloth(i, job.Cloth{})
		j.EnterCloth(i, "width", "wide "+string(rune('a'+i)))
		j.enterDecimal(clothPath(i, "tilt"), "far "+string(rune('a'+i)))
	}
	j.RemoveCloth(1)
	for path, want := range map[string]string{
		"cloth[0].width": "wide a", "cloth[1].width": "wide c", "cloth[1].tilt": "far c", "cloth[2].width": "", "cloth[2].tilt": "",
	} {
		if got := j.Unread[path]; got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

// A length of cloth typed in yards without their unit is asked about.
func TestClothTypedInYards(t *testing.T) {
	b, _ := sharing(t)
	b.stage = stageCloth
	doubt := func() string {
		for _, f := range b.clothView().Fields {
			if f.Key == "length" {
				return f.Doubt
			}
		}
		t.Fatal("no field for the length")
		return ""
	}
	for text, want := range map[string]string{
		"2": "Only 2 in? For yards or metres write it so: 2 yd, 2 m", "1 1/4 in": "Only 1¼ in? For yards or metres write it so: 1¼ yd, 1¼ m",
		"2 yd": "", "2 m": "", "60": "", "": "", "wide": "",
	} {
		b.clothView().OnLength("length", text)
		b.settle()
		if got := doubt(); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
