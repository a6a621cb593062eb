//go:build !js

package ui

import (
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/unit"
)

// What cannot be drafted is offered a way out; taken, there is a draft, which says
// what was done, and it can be undone. The measures are those of body 20626 of
// ANSUR II, whose back would be taken in too far over a short side.
func TestWayOutIsTaken(t *testing.T) {
	d, _ := sharing(t)
	f := &d.job.File
	f.Style, f.Method, f.Measurements = map[string]string{"back_dart": "none"}, job.Quarter, body.Takings{}
	for id, text := range map[body.ID]string{
		body.WaistGirth: "1234", body.HipGirth: "1297", body.ThighGirth: "843", body.KneeGirth: "478", body.WaistToHips: "113", body.BodyRise: "168", body.OutsideLegLength: "1125",
	} {
		q, err := unit.Parse(text, unit.Millimetres)
		if err != nil {
			t.Fatal(err)
		}
		f.Measurements[id] = body.Taking{Value: q}
	}
	d.changed("")
	d.settle()
	n, try := d.work.uncured(&d.maker.core, d.job.File)
	if d.work.Result != nil || n != 0 || try == nil {
		t.Fatalf("it is drafted, or nothing is tried: %v", d.work.Whys)
	}
	d.work.cures = map[int][]draft.Cure{0: try()}
	if _, again := d.work.uncured(&d.maker.core, d.job.File); again != nil {
		t.Error("what was tried is tried again")
	}
	if v := d.draftView(); len(v.Whys) != 1 || len(v.Cures[0]) == 0 {
		t.Fatalf("nothing is offered: %+v", v.Whys)
	}
	d.cure(0, 0)
	d.settle()
	if d.work.Result == nil || d.job.File.Style["back_dart"] == "none" {
		t.Fatalf("no draft: %v", d.work.Whys)
	}
	if v := d.draftView(); v.Mended.What == "" || v.Mended.Gone == "" {
		t.Error("it is not told what was done")
	}
	d.step(false)
	d.settle()
	if d.work.Result != nil || d.job.File.Style["back_dart"] != "none" {
		t.Error("it cannot be undone")
	}
}
