//go:build !js

package ui

import (
	"context"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/share"
)

// The house is there before the first job is laid on the desk, and comes with a
// backup file.
func TestHouseComesFirst(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.houseView().OnRule("seat_tilt", "1 1/2")
	b.settle()
	if next := open(t, s, nil); next.job.File.Rules.House["seat_tilt"] != "1½ in" {
		t.Errorf("the first job begins with %v", next.job.File.Rules.House)
	}
	h := b.catch(true)
	b.saveBackup(false)
	b.settle()
	other := open(t, &mem.Store{}, nil)
	other.takeFile(textFile(string(h.file)))
	other.settle()
	other.restore(false)
	other.settle()
	if got := other.house.inForce().Values["seat_tilt"]; got != "1½ in" {
		t.Errorf("restored, the house has a seat tilt of %q", got)
	}
	other.houseView().OnName("Mother's")
	other.settle()
	if other.house.inForce().Name != "Mother's" || other.fault != "" {
		t.Errorf("changed after that: %+v, fault %q", other.house.House, other.fault)
	}
}

// Two taps may come before the page is drawn: what the second means may be gone.
func TestSetsThatAreGone(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	v := b.houseView()
	v.OnCopy(firstSet)
	second := b.house.Sets[1].ID
	v.OnDelete(second)
	v.OnDelete(second)
	v.OnForce(second)
	v.OnForce("gone")
	v.OnCopy("gone")
	v.OnRecover("gone")
	data, err := b.house.encode()
	if err != nil {
		t.Fatal(err)
	}
	if h, err := decodeHouse(data); err != nil || h.InForce != firstSet || len(h.Sets) != 2 {
		t.Errorf("%+v, %v", h, err)
	}
}

// Undo may take the draft away from under a lay that is about to begin, and a
// key of the stage Share.
func TestDraftTakenAway(t *testing.T) {
	b, h := sharing(t)
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	b.job.Measure(body.HipGirth, "none", b.today())
	b.changed("")
	b.settle()
	b.step(false)
	b.wantLay()
	l := b.laying
	if l == nil {
		t.Fatal("nothing is to be laid")
	}
	b.step(true)
	if b.work.Result != nil || b.laying != nil {
		t.Fatalf("there is a draft, or a lay of none: %+v", b.work.Whys)
	}
	b.settle()
	b.draftView().OnBeside(1)
	b.chalkView().OnStep(1)
	b.stage = stageShare
	for _, what := range []string{share.Sheets, share.Pieces, share.Diagram, share.DiagramSVG} {
		b.shareView().OnFile(what, false)
	}
	b.settle()
	if h.times != 0 {
		t.Errorf("%s was handed over, of no draft", h.name)
	}
}

// What was saved while the clients were being read is newer than what was read.
func TestClientsReadBeforeTheyWereSaved(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.newClient("Alto")
	b.settle()
	was, err := s.List(context.Background(), clientKind)
	if err != nil {
		t.Fatal(err)
	}
	b.view.book.client = b.clients[0].id
	b.changeClient(func(c *filed) { c.Name = "Bass" })
	b.settle()
	b.file(was)
	b.changeClient(func(c *filed) { c.Note = "left-handed" })
	b.settle()
	if c := b.clients[0]; c.Name != "Bass" || c.keeper.Saving() != Saved {
		t.Errorf("%q, saving %d", c.Name, c.keeper.Saving())
	}
}

// A page whose house cannot be read can still take a newer version, and one with
// house rules that are not saved waits.
func TestSavingIsOfAll(t *testing.T) {
	s := &mem.Store{}
	if err := s.Put(context.Background(), store.Record{Kind: houseKind, ID: houseID, Rev: 1, Data: []byte("{"), Updated: clock()}); err != nil {
		t.Fatal(err)
	}
	b := open(t, s, nil)
	b.stage = stageHouse
	if got := b.saving(); got != Saved {
		t.Errorf("without a house that is kept: %d", got)
	}
	b = open(t, &mem.Store{}, nil)
	b.houseView().OnName("Mother's")
	if got := b.saving(); got != Writing {
		t.Errorf("while the house is written: %d", got)
	}
}

// A job file that is only looked at leaves the garment on the desk alone, and one
// for a garment that is not known is refused.
func TestJobFileOfAnotherGarment(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	was := b.garment.ID
	f := NewJob("cape").File
	var file strings.Builder
	if err := f.Encode(&file); err != nil {
		t.Fatal(err)
	}
	b.openJobFile(file.String())
	if l := b.shareView().Looking; l == nil || !strings.Contains(l.Fault, "cape") || b.garment.ID != was {
		t.Errorf("found %+v, with %s on the desk", l, b.garment.ID)
	}
}
