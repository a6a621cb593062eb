package ui

import (
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
	"chalkfold/ui/cloth"
	"chalkfold/ui/kit"
)

// clothViewed is how the cloth is looked at.
type clothViewed struct {
	at      int
	more    bool
	marking bool // the next tap on the drawing marks a flaw
	full    bool // the drawing has the whole screen
	photos  bool // those of the cloth are out

	buying buying
	given  gifted
	keptAs string // what became of what is left over
	laid   map[int]laidOn

	hand  inHand
	hands handLays
	step  int // by which a key moves the piece in the hand
}

func (d *Desk) clothView() cloth.View {
	all, names := d.cloths()
	at := d.view.cloth.at
	c := all[at]
	v := cloth.View{
		Words: d.Words, Fractions: d.fractionsOfCloth,
		Cloths: names, At: at, Key: clothKey(all, at), Kept: at < len(d.job.File.Cloth),
		Name: c.Name, Kinds: cloth.Kinds(), Kind: kindOf(c), Wide: d.commonWidth(),
		Fold: c.Fold, OneWay: c.OneWay, More: d.view.cloth.more,
		After: d.before(at) > 0, OnFirst: d.layOnFirst,
		OnAt: func(i int) {
			if l := d.layingHere(); l != nil && l.drawn != (drawn{}) {
				d.remember(l.shown.Result)
			}
			d.view.cloth.at, d.view.cloth.hand, d.view.cloth.keptAs = i, inHand{}, ""
			d.wantLay()
		},
		OnAdd:    d.addCloth,
		OnRemove: d.removeCloth,
		OnMore:   func() { d.view.cloth.more = !d.view.cloth.more },
		Photos:   d.photosView("cloth", "", ofCloth), Pictures: d.view.cloth.photos,
		OnPhotos: func() { d.view.cloth.photos = !d.view.cloth.photos },
		OnName:   func(text string) { d.changeCloth("name", func(c *job.Cloth) { c.Name = clip(text) }) },
		OnKind:   func(kind piece.Cloth) { d.changeCloth("", func(c *job.Cloth) { c.Kind = kind }) },
		OnLength: d.enterCloth,
		OnFold:   func(fold job.Fold) { d.changeCloth("", func(c *job.Cloth) { c.Fold = fold }) },
		OnFlaw:   func() { d.addFlaw(geom.Pt{}) },
		OnNoFlaw: d.removeFlaw,
		OnMark: func() {
			d.view.cloth.marking = !d.view.cloth.marking
			if d.view.cloth.marking {
				d.ctx.Defer(func(app.Context) { intoSight("on-table") })
			}
		},
		OnOneWay: func(yes bool) { d.changeCloth("", func(c *job.Cloth) { c.OneWay = yes }) },
		OnLonger: d.searchLonger,
		OnStop: func() {
			if d.laying != nil {
				d.stopLay(d.laying)
			}
		},
		Note: d.engineNote(), Full: d.view.cloth.full, Moves: d.moves(),
	}
	l := d.layingHere()
	d.fillHand(&v, l)
	v.Remnants = d.remnantView(c)
	v.Advice, v.Buy, v.Cut = d.adviceView(l), d.buyView(), d.cutView()
	v.Needed, v.Several = d.notionsView(), d.ordering()
	var bad bool
	v.Fields, bad = d.clothFields(at, c)
	v.Flaws, v.Marking = len(c.Flaws), d.view.cloth.marking
	switch {
	case d.work.Result == nil:
		v.Missing = d.T("The pieces are laid here once the draft is made.")
	case bad:
		v.Missing = d.T("The cloth cannot be read yet.")
	case d.laying != nil && l == nil && d.laying.missing != "" && d.laying.cloth < len(names): // it may be gone since
		v.Missing = d.F("%s is laid on first. %s", names[d.laying.cloth], d.laying.missing)
	case l == nil || l.gen != d.work.Gen:
		v.Search.Busy, v.Search.Percent = true, -1
	default:
		v.Missing = l.missing
		for i, f := range v.Fields {
			v.Fields[i].Bad = l.faults[f.Key] // all could be read
		}
		v.Search.Busy = l.busy()
		v.Search.Longer = l.shown != nil && d.view.cloth.hand.lifted == nil
		v.Search.Percent = percent(l.progress())
		if l.shown != nil {
			v.Drawing, v.List = l.drawing.SVG, cloth.List(l.shown, l.r.Format)
			v.Tone, v.Verdict, v.Lines = cloth.Say(l.shown, l.r.Format)
			if saved := l.r.Format.Round(l.first - l.shown.Length); saved > 0 {
				v.Lines = append(v.Lines, d.F("%s shorter than the first lay.", l.r.Format.Text(saved)))
			}
			if v.Several {
				v.Lines = append(v.Lines, d.cutAlready()...)
			}
		}
	}
	return v
}

// commonWidth is a width that cloth often has, as it is read.
func (d *Desk) commonWidth() string {
	f := d.tapeFormat()
	if f.System.Metric() {
		return f.Text(1.5 * unit.Metre)
	}
	return f.Text(60 * unit.Inch)
}

// percent is how far a task is; below nought when that is not known.
func percent(now, of int) int {
	if of <= 0 {
		return -1
	}
	return min(100, 100*now/of)
}

// clothLengths are the lengths that a cloth has, by their keys in the job file.
func clothLengths() []string {
	return []string{"width", "length", "margin", "gap", "repeat_across", "repeat_along", "sold_by"}
}

// lengthOf is where a cloth has the length of that key.
func lengthOf(c *job.Cloth, key string) *unit.Quantity {
	switch key {
	case "length":
		return &c.Length
	case "margin":
		return &c.Margin
	case "gap":
		return &c.Gap
	case "repeat_across":
		return &c.RepeatAcross
	case "repeat_along":
		return &c.RepeatAlong
	case "sold_by":
		return &c.SoldBy
	}
	return &c.Width
}

// clothAt is the number in the job of the cloth that is looked at. One that the
// job does not have yet becomes its last.
func (d *Desk) clothAt() int { return min(d.view.cloth.at, len(d.job.File.Cloth)) }

// changeCloth changes the cloth that is looked at. key is of the field that was
// typed in, empty for a tap.
func (d *Desk) changeCloth(key string, change func(c *job.Cloth)) {
	all, _ := d.cloths()
	c, field := all[d.view.cloth.at], key
	if key != "" {
		field = clothKey(all, d.view.cloth.at) + "." + key
	}
	at := d.clothAt()
	d.view.cloth.at = at
	change(&c)
	d.job.SetCloth(at, c)
	d.changed(field)
}

// addCloth adds another cloth to the job, and turns to it.
func (d *Desk) addCloth() {
	d.view.cloth.at = len(d.job.File.Cloth)
	d.job.SetCloth(d.view.cloth.at, job.Cloth{Kind: piece.Main, Fold: job.Lengthwise})
	d.changed("")
}

// removeCloth takes the cloth that is looked at out of the job.
func (d *Desk) removeCloth() {
	if d.view.cloth.at < len(d.job.File.Cloth) {
		d.job.RemoveCloth(d.view.cloth.at)
		d.view.cloth.at = 0
		d.changed("")
	}
}

// cloths are the cloths of the job and then, by kind, those that the pieces
// want besides, with their names.
func (d *Desk) cloths() (all []job.Cloth, names []string) {
	all = slices.Clone(d.job.File.Cloth)
	wanted := []piece.Cloth{piece.Main}
	if r := d.work.Result; r != nil {
		wanted = append(wanted, r.Kinds()...)
	}
	for _, kind := range wanted {
		if !slices.ContainsFunc(all, func(c job.Cloth) bool { return kindOf(c) == kind }) {
			all = append(all, job.Cloth{Kind: kind, Fold: job.Lengthwise})
		}
	}
	for i, c := range all {
		name := kit.Sentence(c.Name)
		if name == "" {
			name = cloth.KindName(d.Words, kindOf(c))
			if before := countBefore(all, i); before > 0 {
				name += " " + strconv.Itoa(before+1)
			}
		}
		names = append(names, name)
	}
	if d.view.cloth.at >= len(all) {
		d.view.cloth.at = 0
	}
	return all, names
}

func kindOf(c job.Cloth) piece.Cloth {
	if c.Kind == "" {
		return piece.Main
	}
	return c.Kind
}

// countBefore is how many cloths of its kind come before one.
func countBefore(all []job.Cloth, at int) int {
	n := 0
	for _, c := range all[:at] {
		if kindOf(c) == kindOf(all[at]) {
			n++
		}
	}
	return n
}

// clothKey names one of the cloths for its fields: it stays the same when a
// cloth that was wanting is added to the job.
func clothKey(all []job.Cloth, at int) string {
	key := string(kindOf(all[at]))
	if before := countBefore(all, at); before > 0 {
		key += "-" + strconv.Itoa(before+1)
	}
	return key
}

// clothFault says why what was typed for a cloth cannot be read.
func (d *Desk) clothFault(i int, key string) string {
	text, ok := d.job.Unread[clothPath(i, key)]
	if !ok {
		return ""
	}
	if slices.Contains(clothDecimals(), key) {
		_, why := job.ReadDecimal(text)
		return sentenceOf(d.Say(why))
	}
	if _, err := unit.Parse(text, d.job.System()); err != nil {
		return sentenceOf(whyUnread(err, d.Words))
	}
	return ""
}
