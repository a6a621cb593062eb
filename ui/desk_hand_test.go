//go:build !js

package ui

import (
	"slices"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
)

// lifting opens the sample on its cloth, laid, with the first piece in the hand.
func lifting(t *testing.T) tried {
	t.Helper()
	b, _ := sharing(t)
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	b.moves().Take(0)
	if v := b.clothView(); v.Hand.Item != 0 || v.Hand.Name != "1 Front" || v.Hand.Moved {
		t.Fatalf("in the hand: %+v", v.Hand)
	}
	return b
}

// lies is where the first piece lies, as it is shown.
func lies(t *testing.T, b tried) lay.Spot {
	t.Helper()
	for _, p := range b.laying.shown.Placements {
		if p.Item == 0 {
			return p.Spot
		}
	}
	t.Fatal("the first piece is not laid")
	return lay.Spot{}
}

func TestHandKeepsAndPutsBack(t *testing.T) {
	b := lifting(t)
	was := lies(t, b)
	b.moves().Drop(geom.Vec{Y: 400})
	b.settle()
	moved := lies(t, b)
	if moved == was || len(b.keptHere()) != 1 || !b.clothView().Hand.Kept {
		t.Fatalf("dropped, it lies at %v, kept %+v", moved.At, b.keptHere())
	}
	if b.laying.busy() {
		t.Error("the others are laid while a piece is in the hand")
	}
	b.moves().Back()
	b.settle()
	if lies(t, b) != was || len(b.keptHere()) != 0 {
		t.Errorf("put back, it lies at %v, was at %v", lies(t, b).At, was.At)
	}
	b.step(false)
	b.settle()
	if lies(t, b) != moved || len(b.keptHere()) != 1 {
		t.Errorf("put back and undone, it lies at %v, was at %v", lies(t, b).At, moved.At)
	}
}

func TestHandIsLaidRound(t *testing.T) {
	b := lifting(t)
	b.moves().Drop(geom.Vec{Y: 300})
	b.moves().Down()
	b.settle()
	if b.clothView().Hand.Item >= 0 {
		t.Fatal("put down, it is in the hand")
	}
	kept := b.laying.shown.Items[0].Locked
	if kept == nil || lies(t, b) != *kept {
		t.Errorf("laid at %v, kept at %v", lies(t, b), kept)
	}
	if err := lay.Verify(b.laying.shown.Cloth, b.laying.shown.Items, b.laying.shown.Result); err != nil {
		t.Error(err)
	}
	best, _, ok := b.laying.best.Lay()
	if !ok {
		t.Fatal("the others were not laid round it")
	}
	for _, p := range best.Placements {
		if p.Item == 0 && p.Spot != *kept {
			t.Errorf("the search laid it at %v", p.At)
		}
	}
}

// TestHandOnOpenedCloth: a piece is taken to where the cloth is opened out, stays
// there by the job as it is kept, and the others are laid round it.
func TestHandOnOpenedCloth(t *testing.T) {
	b := lifting(t)
	b.moves().Down()
	b.settle()
	band := slices.IndexFunc(b.laying.shown.Items, func(it lay.Item) bool { return it.Piece == "waistband" })
	b.moves().Take(band)
	if v := b.clothView(); v.Hand.Other != "To the opened cloth" {
		t.Fatalf("the band can go %q", v.Hand.Other)
	}
	b.moves().Part()
	v := b.clothView()
	if k := b.keptHere(); len(k) != 1 || !k[0].Opened || !v.Hand.Kept || v.Hand.Other != "To the folded cloth" {
		t.Fatalf("kept %+v, in the hand %+v", k, v.Hand)
	}
	b.moves().Down()
	b.settle()
	l := b.laying.shown
	if len(l.LetGo) > 0 || lay.Verify(l.Cloth, l.Items, l.Result) != nil {
		t.Errorf("let go %+v, %v", l.LetGo, lay.Verify(l.Cloth, l.Items, l.Result))
	}
	found := false
	for _, p := range l.Placements {
		found = found || p.Item == band && p.Spot == l.Items[band].Locked.OnTable(l.FoldedTo) && p.Opened
	}
	if !found {
		t.Error("the others laid, it lies elsewhere")
	}
}

func TestHandByKeys(t *testing.T) {
	b := lifting(t)
	m := b.moves()
	m.Drop(geom.Vec{Y: 2000}) // clear of all
	at := lies(t, b)
	m.By(0, 1)
	if d := lies(t, b).At.F - at.At.F; d < 3.17 || d > 3.18 {
		t.Errorf("one step down is %.3f mm, want an eighth of an inch", d)
	}
	m.Step()
	m.By(0, 1)
	if d := lies(t, b).At.F - at.At.F; d < 3.17+12.69 || d > 3.18+12.71 {
		t.Errorf("and half an inch more is %.3f mm", d)
	}
	m.Turn()
	if a := lies(t, b).At; a.A*at.At.A+a.B*at.At.B > -0.99 {
		t.Errorf("turned, it lies by %+v, before by %+v", a, at.At)
	}
	for range 200 {
		m.By(1, 0)
	}
	if b.clothView().Hand.Note == "" {
		t.Error("it went off the cloth, and nothing was said")
	}
	m.Keep()
	if len(b.keptHere()) != 0 {
		t.Errorf("let go, it is kept: %+v", b.keptHere())
	}
}

func TestKeepAllAndLetGo(t *testing.T) {
	b := lifting(t)
	b.moves().Down()
	b.settle()
	used := b.laying.shown.Length
	b.moves().All(true)
	b.settle()
	if !b.clothView().Hand.AllKept || b.laying.shown.Length-used > 0.01 {
		t.Errorf("all kept: %+v, %.1f mm used, before %.1f", b.clothView().Hand, b.laying.shown.Length.MM(), used.MM())
	}
	// On other cloth they cannot stay.
	b.changeCloth("", func(c *job.Cloth) { c.Fold = job.Open })
	b.settle()
	v := b.clothView()
	if len(v.Hand.LetGo) == 0 || !v.Hand.Some {
		t.Errorf("on open cloth: %+v", v.Hand)
	}
	b.moves().All(false)
	b.settle()
	if v := b.clothView(); len(v.Hand.LetGo) > 0 || v.Hand.Some {
		t.Errorf("all let go: %+v", v.Hand)
	}
}
