//go:build !js

package ui

import (
	"testing"

	"chalkfold/draft/job"
)

// TestAdvice: what can give is worked out where the cloth is not enough, and
// taken by one tap, which can be undone.
func TestAdvice(t *testing.T) {
	b, _ := sharing(t)
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	if b.clothView().Advice.Wanted {
		t.Fatal("the sample fits, and advice is offered")
	}
	b.changeCloth("", func(c *job.Cloth) { c.Length = b.job.EnterCloth(0, "length", "1 yd 20 in") })
	b.settle()
	was := b.laying.shown.ShortBy
	if v := b.clothView().Advice; !v.Wanted || v.Asked || was <= 0 {
		t.Fatalf("short by %v: %+v", was, v)
	}
	b.clothView().Advice.OnAsk()
	b.settle()
	v := b.clothView().Advice
	if v.Busy || v.Fault != "" || len(v.Gifts) < 2 {
		t.Fatalf("advised: %+v", v)
	}
	for i, g := range v.Gifts {
		if len(g.Does) == 0 || g.Saves == "" || g.Together != (i == 0 && g.Together) {
			t.Errorf("gift %d: %+v", i, g)
		}
	}
	fits := -1
	for i, g := range v.Gifts {
		if g.Fits {
			fits = i
		}
	}
	if fits < 0 {
		t.Fatalf("nothing makes it fit: %+v", v.Gifts)
	}
	v.OnTake(fits)
	b.settle()
	if !b.laying.shown.Fits {
		t.Errorf("%q is done, and it is short by %v", v.Gifts[fits].Does, b.laying.shown.ShortBy)
	}
	b.step(false)
	b.settle()
	if b.laying.shown.ShortBy != was {
		t.Errorf("undone, it is short by %v, was by %v", b.laying.shown.ShortBy, was)
	}
}
