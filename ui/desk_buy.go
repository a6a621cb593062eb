package ui

import (
	"slices"

	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
	"chalkfold/ui/share"
)

// buying is how much of some kinds of cloth to buy for one draft, worked out or
// being worked out. The zero value was not asked for.
type buying struct {
	gen     int    // of which draft
	cut     string // what cloths before it cut, where one cloth is looked at
	kinds   []bought
	id      uint32 // of the task
	busy    bool
	now, of int
	fault   string
}

// bought is how much of one kind is bought.
type bought struct {
	kind  piece.Cloth
	bolts []engine.Bolt
}

// toBuy are the kinds that are bought: that of the cloth that is looked at, and
// what the cloths before it cut; of a whole order all.
func (d *Desk) toBuy() (kinds []piece.Cloth, cut string) {
	if d.stage == stageOrder {
		return d.work.Result.Kinds(), ""
	}
	if l := d.layingHere(); l != nil && l.gen == d.work.Gen {
		cut = l.cut
	}
	all, _ := d.cloths()
	return []piece.Cloth{kindOf(all[d.view.cloth.at])}, cut
}

// toggleBuying has it worked out how much to buy, or puts it away.
func (d *Desk) toggleBuying() {
	b := &d.view.cloth.buying
	shown := d.buyingNow()
	d.stopBuying()
	*b = buying{}
	if shown || d.work.Result == nil {
		return
	}
	kinds, cut := d.toBuy()
	*b = buying{gen: d.work.Gen, cut: cut}
	for _, kind := range kinds {
		b.kinds = append(b.kinds, bought{kind: kind})
	}
	d.buyKind(0)
}

// buyKind works one kind out, and then those after it.
func (d *Desk) buyKind(i int) {
	b := &d.view.cloth.buying
	if b.busy = i < len(b.kinds); !b.busy {
		return
	}
	var id uint32
	id = d.ask(d.work.Result, engine.Buy, engine.Order{Kind: string(b.kinds[i].kind), Cut: b.cut}, true, func(a engine.Answer) {
		if b.id == id {
			d.heardBuying(i, a)
		}
	})
	b.id = id
}

// heardBuying takes what is heard of one kind.
func (d *Desk) heardBuying(i int, a engine.Answer) {
	b := &d.view.cloth.buying
	b.now, b.of = i*a.Of+a.Now, len(b.kinds)*a.Of
	switch a.Is {
	case engine.Part:
		if bolt, ok := engine.ReadBolt(a.Data); ok {
			b.kinds[i].bolts = append(b.kinds[i].bolts, bolt)
		}
	case engine.Done:
		d.buyKind(i + 1)
	case engine.Fault:
		b.busy, b.fault = false, sentenceOf(string(a.Data))
	case engine.Progress:
		if a.Now == 0 {
			b.kinds[i].bolts = nil // it begins anew
		}
	case engine.Up, engine.Ended:
	}
}

// stopBuying leaves what was worked out so far.
func (d *Desk) stopBuying() {
	if b := &d.view.cloth.buying; b.busy {
		b.busy = false
		d.helpers.Stop(b.id)
	}
}

// buyingNow reports whether what was worked out is of the draft and the cloth
// on the desk.
func (d *Desk) buyingNow() bool {
	b := &d.view.cloth.buying
	if d.work.Result == nil || b.gen != d.work.Gen {
		return false
	}
	kinds, cut := d.toBuy()
	return b.cut == cut && slices.EqualFunc(b.kinds, kinds, func(o bought, k piece.Cloth) bool { return o.kind == k })
}

// buyView is what the stage shows of it.
func (d *Desk) buyView() cloth.Buy {
	v := cloth.Buy{Can: d.work.Result != nil && len(d.work.Result.Pieces) > 0, OnOpen: d.toggleBuying, OnStop: d.stopBuying}
	b := &d.view.cloth.buying
	if !v.Can || !d.buyingNow() {
		return v
	}
	f := d.work.Result.Format
	v.Open, v.Busy, v.Percent, v.Fault = true, b.busy, percent(b.now, b.of), b.fault
	much := func(l unit.Length) string {
		if l == 0 {
			return d.T("too narrow")
		}
		return f.Sold().Text(l)
	}
	for _, k := range b.kinds {
		t := cloth.BuyTable{ID: "buy-table"}
		if len(b.kinds) > 1 {
			t.ID, t.Name = "buy-"+string(k.kind), cloth.KindName(d.Words, k.kind)
		}
		for _, bolt := range k.bolts {
			t.Rows = append(t.Rows, cloth.BuyRow{Width: f.Text(bolt.Width), Folded: much(bolt.Folded), Open: much(bolt.Open)})
			v.Note = kit.Sentence(d.F("rounded up to what the shop cuts off, %s", f.Sold().Text(bolt.SoldBy))) + "."
			if bolt.OneWay {
				v.OneWay = d.T("For cloth with nap or a print that runs one way.")
			}
		}
		if len(t.Rows) > 0 {
			v.Tables = append(v.Tables, t)
		}
	}
	return v
}

// cutView leads from the lay to the cloth.
func (d *Desk) cutView() cloth.Cut {
	s := &d.view.share
	v := cloth.Cut{
		OnPage: func() { d.shareFile(share.Diagram, false) }, OnStop: d.stopFile,
		OnChalk: func() {
			d.view.chalk.lies = true
			d.turn(stageChalk)
		},
	}
	if s.made.id != 0 && s.made.what == share.Diagram {
		v.Busy, v.Percent = true, percent(s.made.now, s.made.in)
	}
	if s.of == share.Diagram {
		v.Told = s.told
	}
	return v
}
