package rules

import (
	"fmt"
	"math"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// ID names a rule in files and formulas, in snake_case: front_dart_width.
type ID string

// Kind is what a rule's value is.
type Kind uint8

// The kinds of rule.
const (
	Length Kind = iota // a length with its unit: 1/2 in, 1.5 cm
	Ratio              // a plain fraction or decimal: 1/16, 0.0625
	Count              // a whole number: 5
	Switch             // on or off
)

// String names the kind in a message.
func (k Kind) String() string {
	switch k {
	case Length:
		return say.Word("a length with its unit, such as 1/2 in")
	case Ratio:
		return say.Word("a fraction or decimal, such as 1/16")
	case Count:
		return say.Word("a whole number, such as 5")
	case Switch:
		return say.Word("on or off")
	}
	return "no kind of rule"
}

// Def defines one rule. Default, Min and Max are written as makers write them;
// an empty Min or Max is no bound, and a Switch has neither.
type Def struct {
	ID      ID
	Name    string // as shown: "front dart width"
	Kind    Kind
	Default string
	Min     string
	Max     string
	Explain string // what it does to the garment, in a sentence
	Group   string // rules shown together: "allowances", "darts"
}

// Level is where a value came from; a later level wins over an earlier one.
type Level uint8

// The levels, in the order in which they are laid over each other.
const (
	Built  Level = iota // the definition's own default
	House               // the maker's own rule
	Client              // for this client, lasting
	Job                 // for this job alone
)

// String is the level's name as shown and stored.
func (l Level) String() string {
	switch l {
	case Built:
		return say.Word("default")
	case House:
		return say.Word("house")
	case Client:
		return say.Word("client")
	case Job:
		return say.Word("job")
	}
	return "no level"
}

// Values are rules as written, for one level.
type Values map[ID]string

// BadRule is a value that cannot be used, with the reason and what to do. Match
// it with errors.As; Resolve joins one for each bad value.
type BadRule struct {
	ID    ID
	Level Level
	Value string
	Why   say.Msg
}

func (e *BadRule) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *BadRule) In(w *say.Words) string {
	return w.F("%s rule %s: %q: %s", say.Name(e.Level.String()), e.ID, e.Value, e.Why)
}

// read turns text into the value of a rule of this kind, without its range.
func (d Def) read(text string) (value, say.Msg) {
	v := value{text: text}
	switch d.Kind {
	case Length:
		var q unit.Quantity
		if err := q.UnmarshalText([]byte(text)); err != nil {
			return v, reason(err)
		}
		if !q.Set() {
			return v, say.Of("empty; write %s", say.Name(d.Kind.String()))
		}
		v.length, v.number = q, q.Length().MM()
	case Ratio:
		n, why := ratio(text)
		if !why.None() {
			return v, why
		}
		v.number = n
	case Count:
		n, why := count(text)
		if !why.None() {
			return v, why
		}
		v.number = n
	case Switch:
		switch text {
		case "on":
			v.number = 1
		case "off":
			v.number = 0
		default:
			return v, say.Of("write on or off")
		}
	default:
		panic(fmt.Sprintf("rules: %s has no kind", d.ID))
	}
	return v, say.Msg{}
}

// within tells how v leaves the range of d, if it does.
func (d Def) within(v value) say.Msg {
	low := d.Min != "" && v.number < d.bound(d.Min)
	high := d.Max != "" && v.number > d.bound(d.Max)
	switch {
	case !low && !high:
		return say.Msg{}
	case d.Min != "" && d.Max != "":
		return say.Of("out of range; write from %s to %s", d.told(d.Min), d.told(d.Max))
	case low:
		return say.Of("too small; write at least %s", d.told(d.Min))
	}
	return say.Of("too large; write at most %s", d.told(d.Max))
}

// told is a bound as a figure of a text.
func (d Def) told(bound string) any {
	if d.Kind == Length {
		var q unit.Quantity
		if q.UnmarshalText([]byte(bound)) == nil {
			return q
		}
	}
	return bound
}

func (d Def) bound(text string) float64 {
	v, why := d.read(text)
	if !why.None() {
		panic(fmt.Sprintf("rules: bound of %s: %q: %s", d.ID, text, why))
	}
	return v.number
}

// built is the default, which the garment that defines the rule must have right.
func (d Def) built() value {
	v, why := d.read(d.Default)
	if why.None() {
		why = d.within(v)
	}
	if !why.None() {
		panic(fmt.Sprintf("rules: default of %s: %q: %s", d.ID, d.Default, why))
	}
	return v
}

// Range is from where to where the value may lie, in mm for a Length; an end
// that is open is infinite.
func (d Def) Range() (low, high float64) {
	low, high = math.Inf(-1), math.Inf(1)
	if d.Min != "" {
		low = d.bound(d.Min)
	}
	if d.Max != "" {
		high = d.bound(d.Max)
	}
	return low, high
}
