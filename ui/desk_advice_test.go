//go:build !js

package ui

import (
	"bytes"
	"maps"
	"slices"
	"strconv"
	"testing"

	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/cloth"
	"chalkfold/ui/engine"
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

// uniform opens an order of two bodies on its cloth, which is that much of what they
// take, in per cent.
func uniform(t *testing.T, s store.Store, percent int) tried {
	t.Helper()
	b := open(t, s, nil)
	ordered(t, b)
	b.lookAtTable("ticket,figure,waist_girth (in),hip_girth (in),outside_leg_length (in)\r\nAlto 1,women,32,40,39\r\n")
	b.takeTable(true)
	b.settle()
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	inches := int(b.laying.shown.Length.In()) * percent / 100
	b.changeCloth("length", func(c *job.Cloth) { c.Length = b.job.EnterCloth(0, "length", strconv.Itoa(inches)+" in") })
	b.settle()
	return b
}

// contents are the jobs of the open order as the store has them, by ticket.
func (b tried) contents(s store.Store) map[string]string {
	b.t.Helper()
	out := map[string]string{}
	all, err := shelve(b.ctx, s, recordKind, nil)
	if err != nil {
		b.t.Fatal(err)
	}
	for _, r := range all {
		data, err := r.whole().Content()
		if err != nil {
			b.t.Fatal(err)
		}
		out[r.Ticket] = string(data)
	}
	return out
}

// TestAdviceOnOrder: what the garments of an order can give is worked out on the lay of
// all; one tap has all of them give, as one step of each job, and one takes it back.
func TestAdviceOnOrder(t *testing.T) {
	s := &mem.Store{}
	b := uniform(t, s, 95)
	was, before := b.laying.shown.ShortBy, b.contents(s)
	if v := b.clothView().Advice; !v.Wanted || v.Told != "" || was <= 0 {
		t.Fatalf("short by %v: %+v", was, v)
	}
	b.askAdvice()
	b.settle()
	v := b.clothView().Advice
	fits := slices.IndexFunc(v.Gifts, func(g cloth.Gift) bool { return g.Fits && g.Of == "Changes 2 garments." })
	if v.Busy || v.Fault != "" || fits < 0 {
		t.Fatalf("no gift of both garments makes it fit: %+v", v)
	}
	v.OnTake(fits)
	b.settle()
	if !b.laying.shown.Fits || !b.ordering() || b.stage != stageCloth {
		t.Errorf("%q is done, and on %s it is short by %v", v.Gifts[fits].Does, b.stage, b.laying.shown.ShortBy)
	}
	b.shows("Done in 2 garments.", "Take it back")
	now := b.contents(s)
	for _, g := range b.garmentsOf(b.keeper.id) {
		j := *g.whole()
		if err := j.open(); err != nil {
			t.Fatal(err)
		}
		undone := j.Step(false)
		if undone == nil {
			t.Fatalf("in %s it cannot be undone", g.Ticket)
		}
		data, err := undone.Content()
		if err != nil || string(data) != before[g.Ticket] || now[g.Ticket] == before[g.Ticket] {
			t.Errorf("%s is as it was, or more is undone: %v", g.Ticket, err)
		}
	}
	b.clothView().Advice.OnBack()
	b.settle()
	if now := b.contents(s); !maps.Equal(now, before) || b.laying.shown.ShortBy != was || b.clothView().Advice.Told != "" {
		t.Errorf("taken back, it is short by %v, was by %v: %s", b.laying.shown.ShortBy, was, b.fault)
	}
}

// TestGiftMeetsAnotherWindow: where one of the jobs of an order was changed in another
// window, none of them is changed by a gift, nor by taking one back.
func TestGiftMeetsAnotherWindow(t *testing.T) {
	s := &mem.Store{}
	b := uniform(t, s, 200)
	elsewhere := func(note string) map[string]string {
		t.Helper()
		kept := b.garmentsOf(b.keeper.id)[1]
		r, err := s.Get(b.ctx, recordKind, kept.ID)
		if err != nil {
			t.Fatal(err)
		}
		if r, err = b.rewritten(r, kept.whole(), func(j *Job) { j.Notes = note }); err == nil {
			err = s.Put(b.ctx, r)
		}
		if err != nil {
			t.Fatal(err)
		}
		return b.contents(s)
	}
	gift := func() (g engine.Gift) {
		t.Helper()
		g.Does = []string{"Turn up 1 in at the hem, not 2 in"}
		for _, of := range b.garmentsOf(b.keeper.id) {
			file := of.whole().File.Clone()
			file.Rules.Job = rules.Values{"hem_allowance": "1 in"}
			var data bytes.Buffer
			if err := file.Encode(&data); err != nil {
				t.Fatal(err)
			}
			g.Of = append(g.Of, engine.Garment{Key: of.ID, Job: data.Bytes()})
		}
		return g
	}
	const refused = "It was changed in another window meanwhile. Nothing was done: look again."
	want := elsewhere("by the other")
	b.giveTogether(gift(), 0, job.Open)
	b.settle()
	if now := b.contents(s); !maps.Equal(now, want) || b.fault != refused || b.job.Cloth(0).Fold == job.Open || b.clothView().Advice.Told != "" {
		t.Errorf("a gift over another window's change: %q, %v", b.fault, now)
	}

	// Looked at anew, it is given, along with the fold; a second tap does nothing.
	b.giveTogether(gift(), 0, job.Open)
	b.giveTogether(gift(), 0, job.Open)
	b.settle()
	if now := b.contents(s); b.fault != "" || b.job.Cloth(0).Fold != job.Open || maps.Equal(now, want) {
		t.Fatalf("given: %q, %v", b.fault, now)
	}
	given := b.clothView().Advice
	want = elsewhere("by the other again")
	given.OnBack()
	b.settle()
	if now := b.contents(s); !maps.Equal(now, want) || b.fault != refused || b.clothView().Advice.Told != "" {
		t.Errorf("taken back over another window's change: %q, %v", b.fault, now)
	}
}
