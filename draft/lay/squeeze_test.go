package lay_test

import (
	"fmt"
	"testing"

	"chalkfold/draft/lay"
	"chalkfold/draft/lay/published"
)

// many returns the trousers problem with so many of its pieces.
func many(t testing.TB, n int) published.Problem {
	t.Helper()
	in := instance(t, "trousers")
	all := in.Items
	in.Items = nil
	for i := range n {
		it := all[i%len(all)]
		it.Copy += i / len(all) * len(all)
		in.Items = append(in.Items, it)
	}
	return in
}

// TestSqueezing: what is squeezed is shorter than what was laid, and sound, from
// a few pieces to many.
func TestSqueezing(t *testing.T) {
	for _, n := range []int{8, 64, 200} {
		in := many(t, n)
		s := search(t, in, 1)
		s.Run(s.FixedWork(), nil, nil)
		first := s.Best()
		s.Run(4000, nil, nil)
		if r := s.Best(); r.Length >= first.Length {
			t.Errorf("%d pieces: %.2f mm laid, %.2f squeezed", n, first.Length.MM(), r.Length.MM())
		} else if err := lay.Verify(in.Cloth, in.Items, r); err != nil {
			t.Errorf("%d pieces: %v", n, err)
		}
	}
}

// BenchmarkSqueeze tells how the time for the same steps grows with the number
// of pieces; run natively and in wasm, what a page loses by that.
func BenchmarkSqueeze(b *testing.B) {
	for _, n := range []int{8, 25, 64, 200} {
		b.Run(fmt.Sprintf("%d pieces", n), func(b *testing.B) {
			in := many(b, n)
			s, err := lay.NewSearch(in.Cloth, in.Items, 1)
			if err != nil {
				b.Fatal(err)
			}
			s.Run(s.FixedWork()+1000, nil, nil)
			const steps = 2000
			for b.Loop() {
				s.Run(steps, nil, nil)
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*steps), "µs/step")
		})
	}
}
