//go:build !js

package ui

import (
	"maps"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/garment"
)

// What is said of a client's figure is kept with her: her next job begins with
// it, of a garment that asks for it; what it does not ask for is not lost.
func TestFigureIsHers(t *testing.T) {
	d, _ := sharing(t)
	c := d.newClient("Alto")
	d.give(c)
	d.job.Choose(garment.Seat, "flat")
	d.job.Choose("leg", "wide")
	d.changed("")
	d.settle()
	if !maps.Equal(c.Build, garment.Style{garment.Seat: "flat"}) {
		t.Fatalf("kept with her: %v", c.Build)
	}
	data, err := c.Encode()
	if err != nil {
		t.Fatal(err)
	}
	if again, err := DecodeClient(data); err != nil || !maps.Equal(again.Build, c.Build) {
		t.Errorf("read again: %v, %v", again, err)
	}
	next := d.startFor(c)
	if !maps.Equal(next.File.Style, map[string]string(c.Build)) {
		t.Errorf("her next job begins with %v", next.File.Style)
	}
	bodice, _ := draft.Find("bodice")
	if of := figured(bodice, c.Build); len(of) > 0 {
		t.Errorf("a bodice is told %v, which it does not ask", of)
	}
	if still := builtOn(c.Build, figured(bodice, garment.Style{garment.Abdomen: "full"})); still[garment.Seat] != "flat" || still[garment.Abdomen] != "full" {
		t.Errorf("after a bodice: %v", still)
	}
}

// An elastic waist takes in nothing: with one tap the darts are given up for it,
// which is said and undone in one.
func TestAnswersAreGivenUp(t *testing.T) {
	d, _ := sharing(t)
	d.changed("")
	d.settle()
	d.chooseStyle("closure", "elastic")
	s := d.job.File.Style
	if s["closure"] != "elastic" || s["front_dart"] != "none" || s["back_dart"] != "none" {
		t.Fatalf("chosen: %v", s)
	}
	if told := d.view.style.gaveUp; len(told) != 2 {
		t.Errorf("told: %q", told)
	}
	d.settle()
	if d.work.Result == nil {
		t.Errorf("no draft: %v", d.work.Whys)
	}
	d.chooseStyle("leg", "wide")
	if told := d.view.style.gaveUp; len(told) > 0 {
		t.Errorf("told for a wide leg: %q", told)
	}
}
