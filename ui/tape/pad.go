package tape

import (
	"strings"
	"unicode/utf8"

	"chalkfold/draft/unit"
)

// The keys of the pad that are no figures.
const (
	keyBack  = "back"  // takes the last sign away
	keyClear = "clear" // takes all away
	keyUnit  = "unit"  // this one figure is in the other unit, or not after all
	keyPoint = "."
	keyFine  = "1/16" // a sixteenth more
)

// fractions are the fractions that a tape in inches shows, as keys: the quarters
// alone, or the eighths, to which a finer tape adds a sixteenth.
func fractions(finest int) []string {
	if finest == 4 {
		return []string{"¼", "½", "¾"}
	}
	return []string{"⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"}
}

// Press is the text after a key of the pad. The keys act at the end of the
// figure, and before a unit that was written behind it: 34 and ½ is 34½, and ¾
// after that 34¾, and 1/16 after that 34 13/16; ½ and 3 and 4 is 34½ as well. A
// key that would make no figure of it changes nothing.
func Press(text, key string, assume unit.System) string {
	other := " " + otherOf(assume).String()
	figure, suffix := strings.TrimRight(text, " "), ""
	if f, ok := strings.CutSuffix(figure, other); ok {
		figure, suffix = f, other
	}
	switch key {
	case keyClear:
		return ""
	case keyUnit:
		if figure == "" || suffix != "" {
			return figure
		}
		return figure + other
	case keyBack:
		if suffix != "" {
			return figure
		}
		_, n := utf8.DecodeLastRuneInString(figure)
		return strings.TrimRight(figure[:len(figure)-n], " ")
	case keyFine:
		return sixteenthMore(figure) + suffix
	}
	rest, fraction := cutFraction(figure)
	switch {
	case key == keyPoint && (fraction != "" || strings.ContainsAny(rest, ".,/ ")):
	case key == keyPoint && rest == "":
		figure = "0."
	case len(key) == 1: // a digit or the point
		figure = rest + key + fraction
	case strings.ContainsAny(rest, ".,/ "): // no fraction after decimals
	case fraction == key: // the same key again takes it away
		figure = rest
	default:
		figure = rest + key
	}
	return figure + suffix
}

// otherOf is the unit of a tape that is not in that one.
func otherOf(s unit.System) unit.System {
	if s.Metric() {
		return unit.Inches
	}
	return unit.Centimetres
}

func cutFraction(figure string) (rest, fraction string) {
	for _, f := range fractions(8) {
		if rest, ok := strings.CutSuffix(figure, f); ok {
			return strings.TrimRight(rest, " "), f
		}
	}
	return figure, ""
}

// sixteenthMore is a figure in inches and a sixteenth of one.
func sixteenthMore(figure string) string {
	if figure == "" {
		return keyFine
	}
	q, err := unit.Parse(figure, unit.Inches)
	if err != nil {
		return figure
	}
	return unit.Format{Den: 16}.Bare(q.Length() + unit.Inch/16)
}
