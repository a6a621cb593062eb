//go:build !js

package ui

import (
	"strings"
	"testing"

	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// TestSeveralClothsOfAKind: with a short piece of the main cloth before the bolt,
// each copy of each piece is laid once, on one or the other; and the other way
// about nothing is left for the short piece.
func TestSeveralClothsOfAKind(t *testing.T) {
	b, _ := onCloth(t)
	short := job.Cloth{Name: "end of the roll", Fold: job.Open}
	for _, q := range []struct {
		at   *unit.Quantity
		text string
	}{{&short.Width, "30 in"}, {&short.Length, "50 in"}} {
		var err error
		if *q.at, err = unit.Parse(q.text, unit.Inches); err != nil {
			t.Fatal(err)
		}
	}
	b.job.File.Cloth = append([]job.Cloth{short}, b.job.File.Cloth...)
	b.changed("")
	b.settle()
	b.clothView().OnAt(1) // the bolt: the end of the roll is laid on first
	b.settle()
	v := b.clothView()
	if v.Missing != "" || v.Drawing == "" || !v.After || v.Search.Busy {
		t.Fatalf("on the bolt: %q, after another %t, busy %t", v.Missing, v.After, v.Search.Busy)
	}
	first, second := b.view.cloth.laid[0], b.laying
	rest := lay.WantOf(b.work.Result.Pieces)
	rest.Less(first.laid.Items, first.laid.Result)
	rest.Less(second.shown.Items, second.shown.Result)
	for _, p := range b.work.Result.Pieces {
		if p.Cloth == "main" && rest[p.ID] != (lay.Copies{}) {
			t.Errorf("%s: %+v too few", p.ID, rest[p.ID])
		}
	}
	if len(first.laid.Placements) == 0 || len(second.shown.Placements) == 0 {
		t.Errorf("%d on the first, %d on the second", len(first.laid.Placements), len(second.shown.Placements))
	}
	v.OnAt(0)
	b.settle()
	if v = b.clothView(); !strings.Contains(v.Verdict, "left for the next cloth") || v.Advice.Wanted || v.After {
		t.Errorf("on the end of the roll: %q, advice %t", v.Verdict, v.Advice.Wanted)
	}

	v.OnAt(1)
	b.settle()
	b.clothView().OnFirst()
	b.settle()
	if v = b.clothView(); v.At != 0 || v.Name == short.Name || v.Drawing == "" || strings.Contains(v.Verdict, "next cloth") {
		t.Errorf("laid on first: cloth %d %q, %q", v.At, v.Name, v.Verdict)
	}
	v.OnAt(1)
	b.settle()
	if v = b.clothView(); !strings.Contains(v.Missing, "Nothing is left") || v.Drawing != "" {
		t.Errorf("on the end of the roll, after the bolt: %q %q", v.Missing, v.Verdict)
	}
}
