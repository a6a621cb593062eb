package simtest_test

import (
	"maps"
	"os"
	"slices"
	"strconv"
	"testing"

	"chalkfold/sync/simtest"
)

// Which worlds TestSim runs is told by the environment, where it is not the usual:
//
//	CHALKFOLD_WORLDS=100000 CHALKFOLD_FIRST=1 go test ./sync/simtest -run Sim -timeout 5h
//	CHALKFOLD_TRACE=7 go test ./sync/simtest -run Trace -v
const usualSeeds = 500

func told(t *testing.T, name string, usual uint64) uint64 {
	t.Helper()
	text := os.Getenv(name)
	if text == "" {
		return usual
	}
	n, err := strconv.ParseUint(text, 10, 64)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return n
}

func TestSim(t *testing.T) {
	first, seeds := told(t, "CHALKFOLD_FIRST", 1), told(t, "CHALKFOLD_WORLDS", usualSeeds)
	most := int(told(t, "CHALKFOLD_FAULTS", 5))
	counts := map[string]int{}
	faults := 0
	for seed := first; seed < first+seeds && faults < most; seed++ {
		r := simtest.Run(simtest.Setup{Seed: seed})
		for what, n := range r.Counts {
			counts[what] += n
		}
		if r.Fault != "" {
			faults++ // a few say enough
			t.Errorf("seed %d: %s\n\tagain: CHALKFOLD_TRACE=%d go test ./sync/simtest -run Trace -v", seed, r.Fault, seed)
		}
	}
	for _, what := range slices.Sorted(maps.Keys(counts)) {
		t.Logf("%8d %s", counts[what], what)
	}
	if seeds >= usualSeeds && faults == 0 {
		for _, what := range simtest.Troubles() {
			if counts[what] == 0 {
				t.Errorf("it never happened: %s", what)
			}
		}
	}
}

// TestTrace tells all that happens in one world.
func TestTrace(t *testing.T) {
	seed := told(t, "CHALKFOLD_TRACE", 0)
	if seed == 0 {
		t.Skip("CHALKFOLD_TRACE names the seed")
	}
	r := simtest.Run(simtest.Setup{Seed: seed, Keep: true})
	t.Logf("%s\nseed %d: %q", r.Trace, seed, r.Fault)
}

// TestSameTrace: the same seed, the same trace.
func TestSameTrace(t *testing.T) {
	other := simtest.Run(simtest.Setup{Seed: 1_000}).Sum
	for seed := range uint64(12) {
		a := simtest.Run(simtest.Setup{Seed: seed, Keep: true})
		b := simtest.Run(simtest.Setup{Seed: seed, Keep: true})
		if a.Trace != b.Trace || a.Sum != b.Sum || a.Sum == other {
			t.Errorf("seed %d: two runs differ", seed)
		}
	}
}

// TestLazyDisk: a disk that takes a put for done before it has it loses what a user
// saw saved, and the checks see it.
func TestLazyDisk(t *testing.T) {
	for seed := range uint64(200) {
		if r := simtest.Run(simtest.Setup{Seed: seed, Lazy: true}); r.Fault != "" {
			return
		}
	}
	t.Error("nothing was seen of it in 200 worlds")
}
