package balance_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"chalkfold/draft/balance"
)

// plane measures by slopes alone.
func plane(slopes [][]float64, at []float64) balance.Measure {
	return func(x []float64) ([]float64, error) {
		got := append([]float64(nil), at...)
		for i := range got {
			for j := range x {
				got[i] += slopes[i][j] * x[j]
			}
		}
		return got, nil
	}
}

func wide(per ...float64) []balance.Unknown {
	var out []balance.Unknown
	for _, p := range per {
		out = append(out, balance.Unknown{Min: -1e4, Max: 1e4, Per: p})
	}
	return out
}

// Where nothing stops it the change is the least of all that meet the wishes:
// that of the pseudo-inverse, by gonum's singular values.
func TestLeastChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := rapid.Float64Range(0.3, 1.5)
		slopes := [][]float64{make([]float64, 4), make([]float64, 4)}
		for i := range slopes {
			for j := range slopes[i] {
				slopes[i][j] = figure.Draw(t, "slope")
			}
		}
		slopes[0][0], slopes[1][1] = 0, 0 // so that the two wishes do not contradict each other
		per := []float64{40, 60, 80, 130}
		want := []float64{rapid.Float64Range(-60, 60).Draw(t, "want"), rapid.Float64Range(-60, 60).Draw(t, "want")}
		s, err := balance.Solve(wide(per...), []balance.Wish{{Want: want[0], Weight: 100}, {Want: want[1], Weight: 1}}, plane(slopes, []float64{0, 0}))
		if err != nil || !s.Settled {
			t.Fatalf("%+v, %v", s, err)
		}
		scaled := mat.NewDense(2, 4, nil)
		for i := range slopes {
			for j := range per {
				scaled.Set(i, j, slopes[i][j]*per[j])
			}
		}
		var svd mat.SVD
		if !svd.Factorize(scaled, mat.SVDThin) {
			t.Fatal("no singular values")
		}
		if svd.Cond() > 12 {
			t.Skip("nearly the same wish twice")
		}
		var least mat.Dense
		svd.SolveTo(&least, mat.NewDense(2, 1, want), 2)
		for j := range per {
			if off := math.Abs(s.By[j] - per[j]*least.At(j, 0)); off > 1+0.03*math.Abs(s.By[j]) {
				t.Fatalf("figure %d is changed by %.3f, %.3f is the least", j, s.By[j], per[j]*least.At(j, 0))
			}
		}
		for i := range want {
			if math.Abs(s.Got[i]-want[i]) > 1 {
				t.Fatalf("wish %d comes out at %.3f, want %.3f", i, s.Got[i], want[i])
			}
		}
	})
}

// Within ranges no other change that the ranges allow does better: tried at
// random all over them. What stands at an end of its range and would go on is
// named.
func TestRangesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slopes := [][]float64{{0.7, 0.9, 0.3, 1}, {0.7, 0, 0, 0}}
		unknowns := make([]balance.Unknown, 4)
		for j := range unknowns {
			unknowns[j] = balance.Unknown{Min: -rapid.Float64Range(0.1, 30).Draw(t, "min"), Max: rapid.Float64Range(0.1, 30).Draw(t, "max"), Per: 50}
		}
		wishes := []balance.Wish{{Want: rapid.Float64Range(-120, 120).Draw(t, "want"), Weight: 100}, {Want: rapid.Float64Range(-30, 30).Draw(t, "part"), Weight: 1}}
		measure := plane(slopes, []float64{0, 0})
		s, err := balance.Solve(unknowns, wishes, measure)
		if err != nil || !s.Settled {
			t.Fatalf("%+v, %v", s, err)
		}
		lack := func(x []float64) float64 {
			got, _ := measure(x)
			sum := 0.0
			for i, w := range wishes {
				sum += w.Weight * (got[i] - w.Want) * (got[i] - w.Want)
			}
			return sum
		}
		best := lack(s.By)
		for range 60 {
			x := make([]float64, 4)
			for j, u := range unknowns {
				x[j] = rapid.Float64Range(u.Min, u.Max).Draw(t, "x")
			}
			if l := lack(x); l < best-2 {
				t.Fatalf("%v lacks %.3f, %v only %.3f", s.By, best, x, l)
			}
		}
		stopped := false
		for j, u := range unknowns {
			if s.By[j] < u.Min || s.By[j] > u.Max {
				t.Fatalf("figure %d: %.3f lies outside %+v", j, s.By[j], u)
			}
			stopped = stopped || s.Stopped[j]
		}
		if unmet := math.Abs(s.Got[0]-wishes[0].Want) > 1; unmet != (unmet && stopped) {
			t.Fatalf("the first wish is not met, and nothing is said to have stopped it: %+v", s)
		}
	})
}

// A measure that bends, as seams do: met, and by the same change whichever way
// round the figures are given.
func TestBent(t *testing.T) {
	curve := func(x []float64) ([]float64, error) {
		return []float64{math.Hypot(60+x[0], 80) + math.Hypot(90+x[1], 70+x[2])}, nil
	}
	turned := func(x []float64) ([]float64, error) { return curve([]float64{x[2], x[1], x[0]}) }
	start, _ := curve([]float64{0, 0, 0})
	wish := []balance.Wish{{Want: start[0] + 45, Weight: 100}}
	a, err := balance.Solve(wide(50, 60, 70), wish, curve)
	b, errB := balance.Solve(wide(70, 60, 50), wish, turned)
	if err != nil || errB != nil || !a.Settled || !b.Settled {
		t.Fatal(a, err, b, errB)
	}
	for j := range 3 {
		if math.Abs(a.By[j]-b.By[2-j]) > 0.5 {
			t.Errorf("%v one way round, %v the other", a.By, b.By)
		}
	}
	if math.Abs(a.Got[0]-wish[0].Want) > 0.1 {
		t.Errorf("comes out at %.3f, want %.3f", a.Got[0], wish[0].Want)
	}
	if a.Draws > 20 {
		t.Errorf("drawn %d times", a.Draws)
	}
}

// What cannot be drawn beyond a place stops there; the others go on.
func TestWall(t *testing.T) {
	no := errors.New("no such curve")
	s, err := balance.Solve(wide(50, 50), []balance.Wish{{Want: 60, Weight: 100}}, func(x []float64) ([]float64, error) {
		if x[0] > 20 {
			return nil, no
		}
		return []float64{x[0] + 0.5*x[1]}, nil
	})
	if err != nil || math.Abs(s.Got[0]-60) > 0.1 || s.By[0] > 20 {
		t.Errorf("%+v, %v", s, err)
	}
	s, err = balance.Solve([]balance.Unknown{{Min: 0, Max: 100, Per: 50}}, []balance.Wish{{Want: 60, Weight: 1}}, func(x []float64) ([]float64, error) {
		if x[0] > 20 {
			return nil, no
		}
		return []float64{x[0]}, nil
	})
	if err != nil || !s.Stopped[0] || s.By[0] < 15 {
		t.Errorf("%+v, %v: want it stopped by what cannot be drawn", s, err)
	}
	if _, err := balance.Solve(wide(50), []balance.Wish{{Want: 1, Weight: 1}}, func([]float64) ([]float64, error) { return nil, no }); !errors.Is(err, no) {
		t.Errorf("%v, want what stands in the way of the first drawing", err)
	}
}

// A figure of no range stays; the others meet what they can without it.
func TestNoRange(t *testing.T) {
	unknowns := []balance.Unknown{{Min: 0, Max: 0, Per: 0}, {Min: -40, Max: 40, Per: 80}}
	for want, stopped := range map[float64]bool{30: false, 60: true} {
		s, err := balance.Solve(unknowns, []balance.Wish{{Want: want, Weight: 100}}, plane([][]float64{{1, 1}}, []float64{0}))
		if err != nil || s.By[0] != 0 || math.Abs(s.Got[0]-math.Min(want, 40)) > 0.5 || s.Stopped[1] != stopped {
			t.Errorf("want %v: %+v, %v", want, s, err)
		}
	}
}
