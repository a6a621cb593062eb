package lay_test

import (
	"reflect"
	"testing"

	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// TestEven: on cloth sold by the quarter metre a whole pair is brought onto eighths
// of an inch, and the search goes on as if that had not been asked.
func TestEven(t *testing.T) {
	for _, fold := range []lay.Fold{lay.Open, lay.Crosswise} {
		c := lay.Cloth{Width: 1500, SoldBy: 250, Fold: fold}
		its := items(t, trousers(), c)
		asked, plain := mustSearch(t, c, its), mustSearch(t, c, its)
		asked.Run(asked.FixedWork()+2000, nil, nil)
		before := asked.Best()
		const round = unit.Inch / 8
		r := asked.Even(round)
		if err := lay.Verify(c, its, r); err != nil {
			t.Errorf("%s: %v", fold, err)
		}
		was, is := lay.MeritOf(c, its, before, round), lay.MeritOf(c, its, r, round)
		if was.Odd == 0 || is.Odd > 0 || is.Bought != was.Bought {
			t.Errorf("%s: %d of %d off the eighths, %d before; %.1f mm bought, %.1f before", fold, is.Odd, len(its), was.Odd, is.Bought.MM(), was.Bought.MM())
		}
		asked.Run(1000, nil, nil)
		plain.Run(asked.Work(), nil, nil)
		if !reflect.DeepEqual(asked.Best(), plain.Best()) {
			t.Errorf("%s: another lay is found after it", fold)
		}
	}
}

func mustSearch(t *testing.T, c lay.Cloth, its []lay.Item) *lay.Search {
	t.Helper()
	s, err := lay.NewSearch(c, its, 1)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
