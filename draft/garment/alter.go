package garment

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Alteration is one way in which a garment is altered after it was tried on:
// sums and marks of its construction change by so much. Its texts are English,
// to be said.
type Alteration struct {
	ID   string // "back_longer"
	Name string // "lengthen the seat seam at the top"
	Does string // what becomes of the cloth, in a sentence
	// Against is the alteration that undoes it; "" when there is none.
	Against     string
	Usual, Most unit.Length // what is chosen first, and the most that is believed
	On          []Change
	// OneSide is what changes where only the left or the right is altered; nil where
	// both sides must stay alike.
	OneSide []Change
	// House is the rule that does the same for everybody, PerHouse how much of it
	// for each millimetre; "" when no rule does.
	House    rules.ID
	PerHouse float64
}

// Change is what an alteration makes of one sum or mark, for each millimetre of
// its amount.
type Change struct {
	Of  string // the sum or the mark
	Per float64
	// Of a mark: From is the mark that it moves away from, along the straight line
	// between them; without one it moves along Way.
	From string
	Way  geom.Vec
}

// Pair are an alteration and the one that undoes it, which changes the same the
// other way. Of both the ID, Name and Does are given, of the first the rest.
func Pair(a, other Alteration) []Alteration {
	a.Against = other.ID
	other.Against, other.Usual, other.Most = a.ID, a.Usual, a.Most
	other.House, other.PerHouse = a.House, -a.PerHouse
	other.On = undone(a.On)
	return []Alteration{a, other}
}

// OneSided has a pair of alterations made of the left or the right alone too: by
// these changes, or without any by those that are made of both.
func OneSided(pair []Alteration, on ...Change) []Alteration {
	if on == nil {
		on = pair[0].On
	}
	pair[0].OneSide, pair[1].OneSide = on, undone(on)
	return pair
}

// undone are changes the other way.
func undone(all []Change) []Change {
	out := slices.Clone(all)
	for i := range out {
		out[i].Per = -out[i].Per
	}
	return out
}

// Altered is an alteration with the amount that was chosen.
type Altered struct {
	Alteration
	By   unit.Length
	Side piece.Hand // that is altered
	Hers bool       // it is kept with the client
}

// sided is a name of one side, or of both.
func (a Altered) sided(name string) string {
	return name + [...]string{"", "_left", "_right"}[a.Side]
}

// amount is what the amount of an alteration is called in formulas.
func (a Altered) amount() string { return "altered." + a.sided(a.ID) }

// Named is the name of an alteration, and of its side, in the language of w.
func (a Alteration) Named(w *say.Words, side piece.Hand) string {
	return side.Of(w.T(a.Name), w)
}

// changes are what the alterations make of a sum or mark of this half.
func (in Input) changes(of string, do func(a Altered, c Change)) {
	for _, a := range in.Altered {
		on := a.On
		if a.Side != piece.BothHands {
			on = a.OneSide
			if a.Side != in.Hand {
				continue
			}
		}
		for _, c := range on {
			if c.Of == of {
				do(a, c)
			}
		}
	}
}

// More is by how much the alterations change a sum.
func (in Input) More(sum string) unit.Length {
	var by unit.Length
	in.changes(sum, func(a Altered, c Change) { by += a.By * unit.Length(c.Per) })
	return by
}

// Unaltered is the input of the garment as it was before any fitting.
func (in Input) Unaltered() Input {
	in.Altered = nil
	return in
}

// Term is what the alterations add to a sum, to be written after it in a formula:
// " + altered.thigh_out"; "" when they add nothing.
func (in Input) Term(sum string) string {
	term := ""
	in.changes(sum, func(a Altered, c Change) {
		sign := " + "
		if c.Per < 0 {
			sign = " - "
		}
		per := ""
		if p := math.Abs(c.Per); p != 1 {
			per = strconv.FormatFloat(p, 'f', -1, 64) + " * "
		}
		term += sign + per + a.amount()
	})
	return term
}

// Less is Term the other way: what takes the alterations off again.
func (in Input) Less(sum string) string {
	return strings.NewReplacer(" + ", " - ", " - ", " + ").Replace(in.Term(sum))
}

// Alter gives a sum that was kept, or a mark that was laid, what the alterations
// make of it, in steps of their own.
func (d *Drafter) Alter(of string) {
	if d.Err() != nil || d.In.Term(of) == "" {
		return
	}
	rec, _ := d.Record()
	step, ok := rec.Find(of)
	if !ok {
		return // this style has no such thing
	}
	if step.Kind == construct.KindValue {
		d.Renew(of+"_altered", d.F("%s, altered", step.Label), of, of+d.In.Term(of), d.T("as it was seen at the fitting"))
		return
	}
	d.In.changes(of, func(a Altered, c Change) {
		way, words := c.Way, d.T("as the alteration goes")
		if c.From != "" {
			way = d.Point(of).Sub(d.Point(c.From)).Unit()
			words = d.T("on along the line")
		}
		if c.Per < 0 {
			way = way.Neg()
			if c.From != "" {
				words = d.T("back along the line")
			}
		}
		if c.From == "" {
			words = d.way(way)
		}
		formula := a.amount()
		if p := math.Abs(c.Per); p != 1 {
			formula = strconv.FormatFloat(p, 'f', -1, 64) + " * " + formula
		}
		d.Shift(of+"_"+a.sided(a.ID), d.F("%s, altered", step.Label), of, construct.Fixed(words, way), formula, d.T("as it was seen at the fitting"))
	})
}

// way is a way of the frame in words.
func (d *Drafter) way(v geom.Vec) string {
	switch {
	case v.Y < 0:
		return d.T("straight up")
	case v.Y > 0:
		return d.T("straight down")
	case v.X < 0:
		return d.T("towards the centre")
	}
	return d.T("towards the side")
}

// amounts are the alterations as quantities of formulas.
func (in Input) amounts() []construct.Quantity {
	w := in.Format.Words
	var out []construct.Quantity
	for _, a := range in.Altered {
		source := w.T("fitting of this garment")
		if a.Hers {
			source = w.T("kept from her fittings")
		}
		out = append(out, construct.Quantity{Name: a.amount(), Label: a.Named(w, a.Side), Value: a.By.MM(), Length: true, Source: source})
	}
	return out
}

// Alter returns the alteration of an ID; false when the garment has none.
func (g Garment) Alter(id string) (Alteration, bool) {
	if g.Alterations == nil {
		return Alteration{}, false
	}
	all := g.Alterations()
	i := slices.IndexFunc(all, func(a Alteration) bool { return a.ID == id })
	if i < 0 {
		return Alteration{}, false
	}
	return all[i], true
}

// BadAlteration is an alteration that cannot be made. Match it with errors.As.
type BadAlteration struct {
	At    int // its place in the job
	Field string
	Value string
	Why   say.Msg
}

// Error names the alteration and what to do.
func (e *BadAlteration) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *BadAlteration) In(w *say.Words) string {
	return w.F("alteration %q: %s", e.Value, e.Why)
}

// Sign is something that is seen on the garment as it is worn, which tells what
// to alter. Its texts are English, to be said.
type Sign struct {
	ID   string // "folds_under_seat"
	Name string // "folds hang under the seat"
	View View
	// Strokes are what is seen, drawn on the flat sketch, each through its points.
	Strokes [][]Spot
	Causes  []Cause // likeliest first
}

// View is the side from which a sign is seen.
type View uint8

// The views, in the order in which they are shown.
const (
	FromFront View = iota
	FromSide
	FromBack
)

// Spot is a place on the flat sketch: Across from the middle of the body, or the
// inside of a leg, to the edge; Down from the top (0) to where the centre ends
// (1) and from there to the hem (2).
type Spot struct{ Across, Down float64 }

// Stroke is a line through places: across and down, one after the other.
func Stroke(at ...float64) []Spot {
	var out []Spot
	for i := 0; i+1 < len(at); i += 2 {
		out = append(out, Spot{Across: at[i], Down: at[i+1]})
	}
	return out
}

// Cause is what a sign may come from, and what is altered then.
type Cause struct {
	Why    string // "the seat is flat: the back is too long"
	Alter  []string
	Source string // of the cause and the amount, for those who check; not shown
}
