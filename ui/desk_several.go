package ui

import (
	"bytes"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
)

// laidOn is what was laid last on one of several cloths of a kind, which the
// cloths after it need not cut.
type laidOn struct {
	key  string // the job as far as that lay hangs on it
	cut  string // what the cloths before it cut
	laid *draft.Laid
}

// turnToLay is the cloth to lay on so that the one that is looked at comes out
// right: the first before it, of its kind, on which nothing is laid yet, else
// itself; and what the cloths before that one cut.
func (d *Desk) turnToLay() (cloth int, cut string) {
	at, all := d.view.cloth.at, d.work.Result.Job.Cloth
	if at >= len(all) {
		return at, ""
	}
	sum := lay.Want{}
	for i := range all[:at] {
		if !draft.SameKind(all[i], all[at]) {
			continue
		}
		l, text := d.view.cloth.laid[i], sum.Text()
		if l.laid == nil || l.key != d.laidKey(i) || l.cut != text {
			return i, text
		}
		sum.Cut(l.laid.Items, l.laid.Result)
	}
	return at, sum.Text()
}

// laidKey names the job drafted as far as the lay on a cloth hangs on it, where another
// of its kind comes after it.
func (d *Desk) laidKey(cloth int) string {
	file := d.work.Result.Job
	file.Cloth = file.Cloth[:cloth+1]
	var b bytes.Buffer
	if err := file.Encode(&b); err != nil {
		return ""
	}
	if d.ordering() {
		b.WriteString(d.together.parts)
	}
	return b.String()
}

// noteLaid remembers what a lay cuts, for the cloths after it.
func (d *Desk) noteLaid(l *laying) {
	if l == nil || l.gen != d.work.Gen || l.cloth >= len(l.r.Job.Cloth) {
		return
	}
	at := &d.view.cloth
	if at.laid == nil {
		at.laid = map[int]laidOn{}
	}
	switch {
	case l.drawn != (drawn{}):
		at.laid[l.cloth] = laidOn{d.laidKey(l.cloth), l.cut, l.shown}
	case l.spread != nil && len(l.spread.Items) == 0:
		at.laid[l.cloth] = laidOn{d.laidKey(l.cloth), l.cut, l.spread}
	}
}

// layingHere is the laying on the cloth that is looked at; nil while one is laid
// on that comes before it.
func (d *Desk) layingHere() *laying {
	if l := d.laying; l != nil && l.cloth == d.view.cloth.at {
		return l
	}
	return nil
}

// before is how many cloths of the same kind the job lays on before one.
func (d *Desk) before(cloth int) int {
	all, n := d.job.File.Cloth, 0
	for i := range all[:min(cloth, len(all))] {
		if cloth < len(all) && draft.SameKind(all[i], all[cloth]) {
			n++
		}
	}
	return n
}

// layOnFirst has the cloth that is looked at laid on before all of its kind.
func (d *Desk) layOnFirst() {
	at := d.view.cloth.at
	if d.before(at) == 0 {
		return
	}
	d.job.forgetTyped()
	moved := d.job.File.Cloth[at]
	var all []job.Cloth
	first := -1
	for i, c := range d.job.File.Cloth {
		if first < 0 && draft.SameKind(c, moved) {
			first = len(all)
			all = append(all, moved)
		}
		if i != at {
			all = append(all, c)
		}
	}
	d.job.File.Cloth = all
	d.view.cloth.at, d.view.cloth.hand = first, inHand{}
	d.changed("")
}
