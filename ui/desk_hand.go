package ui

import (
	"bytes"
	"math"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
)

// inHand is the piece of a lay that is taken up. The zero value is an empty hand.
type inHand struct {
	lifted *lay.Lifted // nil when nothing is
	at     lay.Spot    // where it lies now
	of     string      // the job as the hand left it: see handKey
	before []job.Kept  // what was kept when it was taken up
	lay    lay.Result  // and the lay
	note   string
}

// handLays are the lays that the hand has made, by the job that they were made
// for, so that what is undone lies as it lay.
type handLays map[string]lay.Result

// mostHandLays is how many are remembered.
const mostHandLays = 200

// handKey names the job as it is.
func (d *Desk) handKey() string {
	var b bytes.Buffer
	if err := d.job.File.Encode(&b); err != nil {
		return ""
	}
	return strconv.Itoa(d.view.cloth.at) + b.String()
}

// remember remembers the lay of the job as it is.
func (d *Desk) remember(r lay.Result) {
	at := &d.view.cloth
	if at.hands == nil || len(at.hands) >= mostHandLays {
		at.hands = handLays{}
	}
	at.hands[d.handKey()] = r
}

// handSteps are by how much a key moves a piece.
func (d *Desk) handSteps() []unit.Length {
	if d.job.System().Metric() {
		return []unit.Length{2 * unit.Millimetre, unit.Centimetre, 5 * unit.Centimetre}
	}
	return []unit.Length{unit.Inch / 8, unit.Inch / 2, 2 * unit.Inch}
}

// item is the item in the hand; -1 for none.
func (h *inHand) item() int {
	if h.lifted == nil {
		return -1
	}
	return h.lifted.Item
}

// takeUp takes a piece up, or puts it down again when it is in the hand.
func (d *Desk) takeUp(item int) {
	l, h := d.laying, &d.view.cloth.hand
	if l == nil || l.shown == nil || l.spread == nil {
		return
	}
	if h.lifted != nil && h.lifted.Item == item {
		d.putDown()
		return
	}
	d.stopLay(l)
	table, err := lay.NewTable(l.spread.Cloth, l.spread.Items, l.shown.Result)
	if err != nil {
		return
	}
	lifted, ok := table.Lift(item)
	if !ok {
		return
	}
	d.remember(l.shown.Result)
	*h = inHand{lifted: lifted, at: lifted.Was, of: d.handKey(), before: d.keptHere(), lay: l.shown.Result}
	l.picture(item)
}

// keptHere are the pieces that are kept on the cloth that is looked at.
func (d *Desk) keptHere() []job.Kept { return slices.Clone(d.job.Cloth(d.view.cloth.at).Kept) }

// putDown leaves the piece where it is, and has the others laid round it.
func (d *Desk) putDown() {
	l := d.laying
	d.view.cloth.hand = inHand{}
	if l != nil && l.shown != nil {
		l.picture(-1)
		if l.spread != nil {
			d.search(l, 0)
		}
	}
}

// moveTo lays the piece in the hand at the free place nearest to one.
func (d *Desk) moveTo(want lay.Spot) {
	h := &d.view.cloth.hand
	if h.lifted == nil {
		return
	}
	to, ok := h.lifted.Nearest(want)
	if !ok {
		h.note = d.T("There is no room for it there.")
		return
	}
	h.note = ""
	if to != want {
		h.note = d.T("It was slid to the nearest place where it lies on no other.")
	}
	d.layDown(to)
}

// layDown lays the piece in the hand at a free place, and keeps it there.
func (d *Desk) layDown(to lay.Spot) {
	l, h := d.laying, &d.view.cloth.hand
	item := h.lifted.Item
	kept := withoutKept(d.keptHere(), l.spread.Items[item])
	if !l.spread.Cloth.CanLock(l.spread.Items[item], to.Opened) {
		h.note = d.T("Its stripes must meet those of other pieces, and where the cloth is opened out moves with the lay: it cannot be kept there.")
	} else {
		folded := h.lifted.Folded()
		k := l.spread.Keep(item, to, folded)
		to, _ = l.spread.SpotOf(item, k) // as finely as it is kept
		to = to.OnTable(folded)
		kept = append(kept, k)
	}
	h.at = to
	d.keepLaid(kept, h.lifted.Down(to))
}

// keepLaid changes what is kept, and shows the lay that comes of it.
func (d *Desk) keepLaid(kept []job.Kept, r lay.Result) {
	d.changeCloth("", func(c *job.Cloth) { c.Kept = kept })
	d.remember(r)
	d.view.cloth.hand.of = d.handKey()
	if l := d.laying; l != nil {
		l.byHand, l.best = &r, engine.Best{}
		l.lock(kept)
		l.draw()
	}
}

// lock shows which pieces are kept, before the draft is made again.
func (l *laying) lock(kept []job.Kept) {
	for i := range l.spread.Items {
		it := &l.spread.Items[i]
		it.Locked = nil
		if k := slices.IndexFunc(kept, func(k job.Kept) bool { return k.Piece == it.Piece && k.Copy == it.Copy }); k >= 0 {
			if spot, ok := l.spread.SpotOf(i, kept[k]); ok {
				it.Locked = &spot
			}
		}
	}
	l.drawn = drawn{}
}

func withoutKept(kept []job.Kept, it lay.Item) []job.Kept {
	return slices.DeleteFunc(kept, func(k job.Kept) bool { return k.Piece == it.Piece && k.Copy == it.Copy })
}

// moveBy moves the piece by a step, as far as it goes.
func (d *Desk) moveBy(right, down int) {
	h := &d.view.cloth.hand
	if h.lifted == nil {
		return
	}
	step := d.handSteps()[d.view.cloth.step].MM()
	want, way := h.at, geom.Vec{X: float64(right) * step, Y: float64(down) * step}
	want.At.E, want.At.F = want.At.E+way.X, want.At.F+way.Y
	to, ok := h.lifted.Nearest(want)
	went := geom.Vec{X: to.At.E - h.at.At.E, Y: to.At.F - h.at.At.F}
	const least, aside = 0.05, 0.5 // mm; of a step
	if !ok || went.Dot(way) < least*step || math.Abs(went.Cross(way)) > aside*step*step || went.Len() > 1.5*step {
		h.note = d.T("There is no room that way.")
		return
	}
	d.moveTo(want)
}

// turnIt turns the piece in the hand round, or over.
func (d *Desk) turnIt(over bool) {
	if h := &d.view.cloth.hand; h.lifted != nil {
		turns := 1
		if over {
			turns = 0
		}
		d.moveTo(h.lifted.Turned(h.at, turns, over))
	}
}

// otherPart lays the piece in the hand where the cloth is opened out, or back
// under the fold.
func (d *Desk) otherPart() {
	h := &d.view.cloth.hand
	if h.lifted == nil {
		return
	}
	if to, ok := h.lifted.OtherPart(h.at); ok {
		h.note = ""
		d.layDown(to)
	} else {
		h.note = d.T("There is no room for it there.")
	}
}

// keepIt keeps the piece in the hand where it lies, or lets it go.
func (d *Desk) keepIt() {
	h := &d.view.cloth.hand
	if h.lifted == nil {
		return
	}
	item := d.laying.spread.Items[h.lifted.Item]
	kept := d.keptHere()
	if less := withoutKept(slices.Clone(kept), item); len(less) < len(kept) {
		d.keepLaid(less, h.lifted.Down(h.at))
		return
	}
	d.layDown(h.at)
}

// putBack lays the piece in the hand where it was taken up.
func (d *Desk) putBack() {
	if h := &d.view.cloth.hand; h.lifted != nil {
		h.at, h.note = h.lifted.Was, ""
		d.keepLaid(h.before, h.lay)
	}
}

// keepAll keeps every piece where it lies, or lets all go.
func (d *Desk) keepAll(keep bool) {
	l := d.laying
	if l == nil || l.shown == nil || l.spread == nil {
		return
	}
	var kept []job.Kept
	r := l.shown.Result
	for _, p := range r.Placements {
		if keep && l.spread.Cloth.CanLock(l.spread.Items[p.Item], p.Opened) {
			kept = append(kept, l.spread.Keep(p.Item, p.Spot, r.FoldedTo))
		}
	}
	d.stopLay(l)
	d.remember(r)
	d.keepLaid(kept, r)
}

// fillHand gives the view the piece in the hand and all that is kept.
func (d *Desk) fillHand(v *cloth.View, l *laying) {
	at, h := &d.view.cloth, &d.view.cloth.hand
	v.Hand = cloth.Hand{Item: -1, Note: h.note, Some: len(d.keptHere()) > 0}
	if l == nil || l.shown == nil {
		return
	}
	some := 0
	for _, p := range l.shown.Placements {
		if it := l.shown.Items[p.Item]; it.Locked != nil || !l.shown.Cloth.CanLock(it, p.Opened) {
			some++
		}
	}
	v.Hand.AllKept = some == len(l.shown.Placements)
	for _, g := range l.shown.LetGo {
		v.Hand.LetGo = append(v.Hand.LetGo, d.F("%s was kept, and is laid with the others now: %s.", kit.Sentence(d.T(g.Name)), d.Say(g.Why)))
	}
	if h.lifted == nil {
		return
	}
	it := l.shown.Items[h.lifted.Item]
	v.Hand.Item, v.Hand.Name = h.lifted.Item, strconv.Itoa(h.lifted.Item+1)+" "+kit.Sentence(d.T(it.Name))
	v.Hand.Kept = it.Locked != nil
	v.Hand.Keeps, v.Hand.OnFold = l.shown.Cloth.CanLock(it, h.at.Opened), it.OnFold
	if l.shown.Cloth.Fold != lay.Open && it.Layers() == 1 {
		v.Hand.Other = d.T("To the opened cloth")
		if h.at.Opened {
			v.Hand.Other = d.T("To the folded cloth")
		}
	}
	v.Hand.Turns, v.Hand.Flips = len(it.Turns) > 1, it.EitherFace && !it.OnFold
	v.Hand.Moved = h.at != h.lifted.Was || !slices.Equal(h.before, d.keptHere())
	v.Hand.Step = l.r.Format.Text(d.handSteps()[at.step])
}

func (d *Desk) moves() cloth.Moves {
	at := &d.view.cloth
	hit := func(where geom.Pt, reach float64) (int, bool) {
		if d.laying == nil {
			return 0, false
		}
		return d.laying.drawing.Hit(where, reach)
	}
	return cloth.Moves{
		Tap: func(where geom.Pt, reach float64) {
			if at.marking {
				d.markFlaw(where)
				return
			}
			if item, ok := hit(where, reach); ok {
				d.takeUp(item)
			} else if at.hand.lifted != nil {
				d.putDown()
			}
		},
		Take: func(item int) {
			d.takeUp(item)
			d.ctx.Defer(func(app.Context) { intoSight("on-table") })
		},
		Grip: func(where geom.Pt, reach float64) bool {
			item, ok := hit(where, reach)
			return ok && at.hand.lifted != nil && item == at.hand.lifted.Item
		},
		Move: func(by geom.Vec) bool {
			return at.hand.lifted != nil && at.hand.lifted.Free(movedBy(at.hand.at, by))
		},
		Drop: func(by geom.Vec) { d.moveTo(movedBy(at.hand.at, by)) },
		By:   d.moveBy,
		Step: func() { at.step = (at.step + 1) % len(d.handSteps()) },
		Turn: func() { d.turnIt(false) },
		Flip: func() { d.turnIt(true) },
		Part: d.otherPart,
		Keep: d.keepIt,
		Back: d.putBack,
		Down: d.putDown,
		All:  d.keepAll,
		Fill: func() { at.full = !at.full },
	}
}

func movedBy(s lay.Spot, by geom.Vec) lay.Spot {
	s.At.E, s.At.F = s.At.E+by.X, s.At.F+by.Y
	return s
}
