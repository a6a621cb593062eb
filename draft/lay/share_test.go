package lay_test

import (
	"reflect"
	"sync"
	"testing"

	"chalkfold/draft/lay"
)

// TestShare: searches side by side go on from the best of all, and find the same
// whichever of them is quicker.
func TestShare(t *testing.T) {
	in := instance(t, "albano")
	run := func(together bool) []*lay.Search {
		all := []*lay.Search{search(t, in, 1), search(t, in, 2)}
		for range 3 {
			before := all[0].Best().Length
			var round sync.WaitGroup
			for _, s := range all {
				round.Go(func() { s.Run(500, nil, nil) })
				if !together {
					round.Wait()
				}
			}
			round.Wait()
			lay.Share(all)
			if a, b := all[0].Best().Length, all[1].Best().Length; a != b || before > 0 && a > before {
				t.Errorf("%.2f mm and %.2f mm after sharing, %.2f before", a.MM(), b.MM(), before.MM())
			}
		}
		return all
	}
	a, b := run(true), run(false)
	for i := range a {
		if !reflect.DeepEqual(a[i].Best(), b[i].Best()) {
			t.Errorf("search %d finds another lay when it runs by itself", i)
		}
		if err := lay.Verify(in.Cloth, in.Items, a[i].Best()); err != nil {
			t.Error(err)
		}
	}
}
