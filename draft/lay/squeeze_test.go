package lay_test

import (
	"fmt"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/lay/published"
	"chalkfold/draft/unit"
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
		s.Run(1000+50*n, nil, nil)
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

// BenchmarkCheck tells what a page loses, beside NewSearch, by saying at once what
// will never lie on the cloth: five pairs of
// trousers, each of a body of its own.
func BenchmarkCheck(b *testing.B) {
	c := lay.Cloth{Width: 60 * unit.Inch}
	var its []lay.Item
	for range 5 {
		its = append(its, items(b, trousers(), c)...)
	}
	b.Run("Check", func(b *testing.B) {
		for b.Loop() {
			if err := lay.Check(c, its); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("NewSearch", func(b *testing.B) {
		for b.Loop() {
			if _, err := lay.NewSearch(c, its, 0); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// TestSqueezingOnStripes: on checked cloth the pieces are squeezed too, by whole
// repeats, and still match.
func TestSqueezingOnStripes(t *testing.T) {
	c := lay.Cloth{Width: 1400, RepeatAlong: 25, RepeatAcross: 30}
	its := items(t, checked(), c)
	s, err := lay.NewSearch(c, its, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.Run(s.FixedWork(), nil, nil)
	first := s.Best()
	s.Run(3000, nil, nil)
	if r := s.Best(); r.Length >= first.Length-25 {
		t.Errorf("%.1f mm laid, %.1f squeezed: not a stripe less", first.Length.MM(), r.Length.MM())
	} else if err := lay.Verify(c, its, r); err != nil {
		t.Error(err)
	}
}

// TestPressedIn: what a remnant has room for is pressed in between the others,
// though laying one after the other leaves some of it out. The pieces of dighe2
// make up a square of 100 (SOURCES.md); here they have one of 104.
func TestPressedIn(t *testing.T) {
	in := instance(t, "dighe2")
	c := lay.Cloth{Outline: []geom.Pt{{}, {X: 104}, {X: 104, Y: 104}, {Y: 104}}}
	s, err := lay.NewSearch(c, in.Items, 1)
	if err != nil {
		t.Fatal(err)
	}
	s.Run(s.FixedWork(), nil, nil)
	first := s.Best()
	s.Run(8000, nil, nil)
	if r := s.Best(); len(first.Out) == 0 || len(r.Out) > 0 {
		t.Errorf("%d left out of one after the other, %d then", len(first.Out), len(r.Out))
	} else if err := lay.Verify(c, in.Items, r); err != nil {
		t.Error(err)
	}
}
