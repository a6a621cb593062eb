//go:build !js

package ui

import (
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/sync/store/mem"
)

// pads presses keys of the pad.
func (b tried) pads(keys string) {
	for _, key := range strings.Fields(keys) {
		b.tapeView().OnPad(key)
	}
}

func TestTapeSingly(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.stage = stageTape
	b.tapeView().OnSingly()
	b.settle()
	b.shows("Measure", "waist girth", "to be taken")
	b.tapeView().OnStep(1)
	b.shows("1 of 7", "Tie a cord", "Where the tape goes for the waist girth")
	b.pads("3 4 ½")
	b.settle()
	b.shows(`id="waist_girth"`, "= 87.6 cm")
	if got := b.job.Measured(body.WaistGirth); got != "34½" {
		t.Errorf("the pad typed %q", got)
	}
	b.tapeView().OnStep(-1)
	if b.view.tape.focus != body.WaistGirth {
		t.Errorf("before the first comes %s", b.view.tape.focus)
	}
	b.tapeView().OnStep(1)
	b.pads("4 2")
	b.tapeView().OnStep(1)
	b.pads("3 8")
	b.settle()
	b.shows("3 of 7", "Far from usual", "Keep it")
	b.tapeView().OnKeep(body.ThighGirth, "38")
	b.settle()
	b.shows("kept as measured")
	b.tapeView().OnFocus("")
	b.shows("34½ in", "42 in", "38 in")
	if next := open(t, s, nil); !next.settings.Singly || next.job.Measured(body.ThighGirth) != "38" {
		t.Error("the next window asks otherwise, or has not the figure")
	}
}

func TestTapeBesideEarlierTakings(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.job.Client = "client of the choir"
	b.tapeView().OnText(body.HipGirth, "43 1/2")
	b.settle()
	b.newJob()
	b.settle()
	b.listJobs()
	b.settle()
	b.stage = stageTape
	b.job.Client = "client of the choir"
	b.tapeView().OnFocus(body.HipGirth)
	b.tapeView().OnText(body.HipGirth, "42")
	b.settle()
	b.shows("More than ⅜ in apart", "42 in", "today", "43½ in", "17 May 2031 (Alto 3)", "Still so")
	v := b.tapeView()
	for _, r := range v.Sheet.Rows {
		if r.ID == body.HipGirth {
			v.OnText(r.ID, r.Before[0].Taking.Value.String())
		}
	}
	b.settle()
	if got := b.job.File.Measurements[body.HipGirth].Value.String(); got != "43½ in" {
		t.Errorf("still so: %s", got)
	}
	b.shows("Before: 43½ in, on 17 May 2031 (Alto 3).")
}
