package rules

import (
	"errors"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// reason is why a length could not be read, without the text that is named beside it.
func reason(err error) say.Msg {
	var bad *unit.ParseError
	if errors.As(err, &bad) {
		return bad.Why
	}
	return say.Of("%v", err)
}

// ratio reads 1/16, 2 1/2, 0.0625 or 0,0625. The figures are read as those of a
// length, so that both are written alike, but a unit is refused: a figure
// without one takes whichever unit is assumed.
func ratio(text string) (n float64, why say.Msg) {
	q, err := unit.ParseSigned(text, unit.Millimetres)
	if err != nil {
		return 0, reason(err)
	}
	if other, err := unit.ParseSigned(text, unit.Metres); err != nil || other.System() == q.System() {
		return 0, say.Of("a proportion has no unit; write %s", say.Name(Ratio.String()))
	}
	return q.Length().MM(), say.Msg{}
}

// maxCount bounds whole numbers well inside what a float64 holds exactly.
const maxCount = 1_000_000

func count(text string) (n float64, why say.Msg) {
	i, err := strconv.Atoi(text)
	if err != nil || math.Abs(float64(i)) > maxCount {
		return 0, say.Of("write %s", say.Name(Count.String()))
	}
	return float64(i), say.Msg{}
}

// nearest says that there is no such rule, and names those that share a word
// with it.
func nearest(known map[ID]Def, id ID) say.Msg {
	words := strings.Split(string(id), "_")
	var like []string
	for _, k := range slices.Sorted(maps.Keys(known)) {
		have := strings.Split(string(k), "_")
		if slices.ContainsFunc(words, func(w string) bool { return slices.Contains(have, w) }) {
			like = append(like, string(k))
		}
	}
	if len(like) == 0 {
		return say.Of("no such rule; take it out, or see the list of this garment's rules")
	}
	return say.Of("no such rule; take it out, or write one of %s", strings.Join(like, ", "))
}
