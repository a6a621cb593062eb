package ui

import (
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
	"chalkfold/ui/share"
)

// buying is how much of a kind of cloth to buy for one draft, worked out or
// being worked out. The zero value was not asked for.
type buying struct {
	gen     int // of which draft
	kind    piece.Cloth
	id      uint32 // of the task
	busy    bool
	now, of int
	bolts   []engine.Bolt
	fault   string
}

// toggleBuying has it worked out how much to buy, or puts it away.
func (d *Desk) toggleBuying() {
	all, _ := d.cloths()
	b, kind := &d.view.cloth.buying, kindOf(all[d.view.cloth.at])
	shown := d.buyingNow()
	d.stopBuying()
	*b = buying{}
	if shown || d.work.Result == nil {
		return
	}
	*b = buying{gen: d.work.Gen, kind: kind, busy: true}
	var id uint32
	hear := func(a engine.Answer) {
		if b.id == id {
			b.heard(a)
		}
	}
	id = d.ask(d.work.Result, engine.Buy, engine.Order{Kind: string(kind)}, true, hear)
	b.id = id
}

// heard takes what is heard of it.
func (b *buying) heard(a engine.Answer) {
	b.now, b.of = a.Now, max(a.Of, b.of)
	switch a.Is {
	case engine.Part:
		if bolt, ok := engine.ReadBolt(a.Data); ok {
			b.bolts = append(b.bolts, bolt)
		}
	case engine.Done:
		b.busy = false
	case engine.Fault:
		b.busy, b.fault = false, sentenceOf(string(a.Data))
	case engine.Progress:
		if a.Now == 0 {
			b.bolts = nil // it begins anew
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
	all, _ := d.cloths()
	b := &d.view.cloth.buying
	return b.gen == d.work.Gen && b.kind != "" && b.kind == kindOf(all[d.view.cloth.at])
}

// buyView is what the stage shows of it.
func (d *Desk) buyView() cloth.Buy {
	v := cloth.Buy{Can: d.work.Result != nil, OnOpen: d.toggleBuying, OnStop: d.stopBuying}
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
	for _, bolt := range b.bolts {
		v.Rows = append(v.Rows, cloth.BuyRow{Width: f.Text(bolt.Width), Folded: much(bolt.Folded), Open: much(bolt.Open)})
		v.Note = kit.Sentence(d.F("rounded up to what the shop cuts off, %s", f.Sold().Text(bolt.SoldBy))) + "."
		if bolt.OneWay {
			v.OneWay = d.T("For cloth with nap or a print that runs one way.")
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
