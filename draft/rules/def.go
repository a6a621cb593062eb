package rules

import (
	"fmt"

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
		return "a length with its unit, such as 1/2 in"
	case Ratio:
		return "a fraction or decimal, such as 1/16"
	case Count:
		return "a whole number, such as 5"
	case Switch:
		return "on or off"
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
		return "default"
	case House:
		return "house"
	case Client:
		return "client"
	case Job:
		return "job"
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
	Why   string
}

func (e *BadRule) Error() string {
	return fmt.Sprintf("%s rule %s: %q: %s", e.Level, e.ID, e.Value, e.Why)
}

// read turns text into the value of a rule of this kind, without its range.
func (d Def) read(text string) (value, string) {
	v := value{text: text}
	switch d.Kind {
	case Length:
		var q unit.Quantity
		if err := q.UnmarshalText([]byte(text)); err != nil {
			return v, reason(err)
		}
		if !q.Set() {
			return v, "empty; write " + d.Kind.String()
		}
		v.length, v.number = q, q.Length().MM()
	case Ratio:
		n, why := ratio(text)
		if why != "" {
			return v, why
		}
		v.number = n
	case Count:
		n, why := count(text)
		if why != "" {
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
			return v, "write on or off"
		}
	default:
		panic(fmt.Sprintf("rules: %s has no kind", d.ID))
	}
	return v, ""
}

// within tells how v leaves the range of d, or "".
func (d Def) within(v value) string {
	low := d.Min != "" && v.number < d.bound(d.Min)
	high := d.Max != "" && v.number > d.bound(d.Max)
	switch {
	case !low && !high:
		return ""
	case d.Min != "" && d.Max != "":
		return "out of range; write from " + d.Min + " to " + d.Max
	case low:
		return "too small; write at least " + d.Min
	}
	return "too large; write at most " + d.Max
}

func (d Def) bound(text string) float64 {
	v, why := d.read(text)
	if why != "" {
		panic(fmt.Sprintf("rules: bound of %s: %q: %s", d.ID, text, why))
	}
	return v.number
}

// built is the default, which the garment that defines the rule must have right.
func (d Def) built() value {
	v, why := d.read(d.Default)
	if why == "" {
		why = d.within(v)
	}
	if why != "" {
		panic(fmt.Sprintf("rules: default of %s: %q: %s", d.ID, d.Default, why))
	}
	return v
}
