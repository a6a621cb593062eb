package cloth

import (
	"strconv"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Say puts a lay in words: the verdict, then what to know besides.
func Say(l *draft.Laid, f unit.Format) (tone kit.Tone, verdict string, lines []string) {
	tone = kit.Fine
	switch {
	case l.Cloth.Length == 0:
		verdict = "It needs " + f.Text(l.Length) + " off the bolt"
	case l.Fits:
		verdict = "It fits; " + f.Text(l.Cloth.Length-l.Length) + " left over at the end"
	default:
		tone, verdict = kit.Stop, "It does not fit: short by "+f.Text(l.ShortBy)
	}
	lines = []string{
		"Needs " + f.Text(l.Length) + " of the length; to buy, " + f.Bought(l.Length) + ".",
		"The pieces cover " + strconv.Itoa(int(l.Density+0.5)) + " in 100 of the cloth used.",
	}
	if len(l.Left) > 0 {
		o := l.Left[0]
		lines = append(lines, "Largest piece left over: "+f.Text(unit.Length(o.Rect.W()))+" by "+f.Text(unit.Length(o.Rect.H()))+".")
	}
	return tone, verdict, lines
}

// TooWide puts in words that a piece lies on the cloth in no way.
func TooWide(e *lay.TooWideError, f unit.Format) string {
	s := e.Name + " needs " + f.Text(e.Across) + " across and there is " + f.Text(e.Room) + ", short by " + f.Text(e.ShortBy()) + "."
	if e.OpenFits {
		s += " It would go on the cloth laid open."
	}
	return s
}
