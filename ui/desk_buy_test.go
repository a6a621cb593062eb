//go:build !js

package ui

import (
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/cloth"
)

// onCloth opens the sample on its cloth, laid.
func onCloth(t *testing.T) (tried, *shared) {
	t.Helper()
	b := open(t, &mem.Store{}, nil)
	h := &shared{}
	b.hand = func(name, kind string, file []byte, send bool, done func(bool)) {
		*h = shared{name, kind, file, send, h.times + 1}
		done(true)
	}
	b.openSample()
	b.stage = stageCloth
	b.settle()
	b.wantLay()
	b.settle()
	return b, h
}

// TestBuying: how much to buy is what the draft's own lays take on each width,
// in the maker's units; it can be stopped, and is put away when the draft is another.
func TestBuying(t *testing.T) {
	b, _ := onCloth(t)
	v := b.clothView().Buy
	if !v.Can || v.Open {
		t.Fatalf("not asked for: %+v", v)
	}
	v.OnOpen()
	if v := b.clothView().Buy; !v.Busy || !v.Open {
		t.Fatalf("asked for: %+v", v)
	}
	v.OnStop()
	b.settle()
	if v := b.clothView().Buy; v.Busy || !v.Open || len(v.Tables) > 0 {
		t.Errorf("stopped: %+v", v)
	}
	v.OnOpen() // shut
	v.OnOpen()
	b.settle()
	v = b.clothView().Buy
	f := b.work.Result.Format
	widths := append(draft.Widths(f), 60*unit.Inch) // and that of the cloth at hand
	if v.Busy || v.Fault != "" || v.Percent != 100 || len(v.Tables) != 1 || len(v.Tables[0].Rows) != len(widths) {
		t.Fatalf("how much to buy: %+v", v)
	}
	c, err := draft.OffTheBolt(b.work.Result, "main")
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range []int{0, len(widths) - 1} {
		if v.Tables[0].Rows[i].Width != f.Text(widths[i]) {
			t.Errorf("%+v, want %s wide", v.Tables[0].Rows[i], f.Text(widths[i]))
		}
		for fold, told := range map[lay.Fold]string{lay.Lengthwise: v.Tables[0].Rows[i].Folded, lay.Open: v.Tables[0].Rows[i].Open} {
			c.Width, c.Fold = widths[i], fold
			p, err := draft.BuyOf(b.work.Result, c, nil, lay.Options{Work: someWork})
			want := f.Sold().Text(p.Bought)
			if p.Wide != nil {
				want = "too narrow"
			}
			if err != nil || told != want {
				t.Errorf("%s, %s: %q, want %q, %v", v.Tables[0].Rows[i].Width, fold, told, want, err)
			}
		}
	}
	b.shows("How much to buy", "Rounded up to what the shop cuts off, ⅛ yd.")
	b.job.SetCloth(0, b.job.Cloth(0))
	b.changed("")
	b.settle()
	if b.clothView().Buy.Open {
		t.Error("what to buy for another draft is still shown")
	}
}

// TestFromLayToChalk: the page to cut by is handed over from the stage Cloth,
// where the pieces lie is told beside the marks, and a longer search goes on
// from it.
func TestFromLayToChalk(t *testing.T) {
	b, h := onCloth(t)
	b.clothView().Cut.OnPage()
	b.settle()
	if h.name != "alto-3-cloth.pdf" || !strings.HasPrefix(string(h.file), "%PDF") {
		t.Errorf("handed over %s of %d bytes", h.name, len(h.file))
	}
	b.shows("Handed over as alto-3-cloth.pdf.")
	b.turn = func(stage string) { b.stage = stage }
	b.clothView().Cut.OnChalk()
	if b.stage != stageChalk || !b.chalkView().Lies.Out {
		t.Fatalf("led to %s: %+v", b.stage, b.chalkView().Lies)
	}
	lies := b.chalkView().Lies
	l := b.laying
	if len(lies.Pieces) != len(l.shown.Placements) || lies.Cloth != "Navy suiting" {
		t.Errorf("on %s, %d pieces lie, %d were laid", lies.Cloth, len(lies.Pieces), len(l.shown.Placements))
	}
	last := unit.Length(-1)
	for i, one := range lies.Pieces {
		for _, g := range draft.LayGuide(l.shown, l.r.Format) {
			if l.shown.Items[l.shown.Placements[g.Placement].Item].Piece != one.Piece {
				continue
			}
			if g.Along < last || one.Where != strings.Join(cloth.Chalked(g), "; ") {
				t.Errorf("%d, %s: %s", i, one.Name, one.Where)
			}
			last = g.Along
		}
	}
	b.shows("Where the pieces lie on the cloth", "from the fold and ")

	// A longer search goes on from what was found.
	quick, some := l.best.Of(0)
	from, err := lay.Decode(l.spread.Cloth, l.spread.Items, l.found(0))
	if err != nil || !some || from.Length != quick.Length {
		t.Fatalf("goes on from %v, found %v, %v", from.Length, quick.Length, err)
	}
	b.search(l, 100)
	b.settle()
	if on, _ := l.best.Of(0); quick.Better(on) {
		t.Errorf("%v after %v", on.Length, quick.Length)
	}
}
