//go:build unix

package main

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// What make bench-lay writes: a row for each lay, to which every run adds, and
// the table of all the rows. testdata/lay/densities.md has such a table.
const (
	layRows  = "../../.build/lays.csv"
	layTable = "../../.build/lays.md"
)

// BenchmarkLays lays the packing problems, from several seeds, and writes how
// densely. Time is processor time, and that of two cores half of what both
// spend: on a machine that does nothing else it is that of the clock, on any
// other the figures are not of who else works there. A lay is measured at each
// of the times on its way to the longest, and one that is in the rows already is
// not made again: remove them when the search has changed.
//
// CHALKFOLD_PROBLEMS, CHALKFOLD_SECONDS, CHALKFOLD_SEEDS and CHALKFOLD_CORES
// list what is laid, how long, from which seeds and on how many cores.
func BenchmarkLays(b *testing.B) {
	seconds := numbers(b, "CHALKFOLD_SECONDS", "10,60")
	slices.Sort(seconds)
	seeds, cores := numbers(b, "CHALKFOLD_SEEDS", "1,2,3"), numbers(b, "CHALKFOLD_CORES", "1,2")
	files, err := filepath.Glob("../../testdata/packing/*.json")
	if err != nil {
		b.Fatal(err)
	}
	asked := os.Getenv("CHALKFOLD_PROBLEMS")
	for b.Loop() {
		for _, file := range files {
			name := strings.TrimSuffix(filepath.Base(file), ".json")
			if asked != "" && !slices.Contains(strings.Split(asked, ","), name) {
				continue
			}
			for _, c := range cores {
				for _, seed := range seeds {
					layAt(b, file, layTask{seed: uint64(seed), cores: int(c)}, seconds)
				}
			}
		}
	}
	table := "# How densely the packing problems are laid\n\n" + tableOfLays(publishedDensities(b), readLays(b))
	if err := os.WriteFile(layTable, []byte(table), 0o644); err != nil {
		b.Fatal(err)
	}
}

// measured is one lay, at one time on its way.
type measured struct {
	problem string
	seconds float64
	cores   int
	seed    uint64
	density float64
}

// layAt lays a problem and adds a row at each of the times.
func layAt(b *testing.B, file string, task layTask, seconds []float64) {
	b.Helper()
	in, err := openInstance(file)
	if err != nil {
		b.Fatal(err)
	}
	longest := measured{in.Name, seconds[len(seconds)-1], task.cores, task.seed, 0}
	for _, m := range readLays(b) {
		if m.density = 0; m == longest {
			return
		}
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(task.cores))
	runtime.GC()
	from := processorTime(b)
	r, err := task.begin(in)
	if err != nil {
		b.Fatal(err)
	}
	for _, s := range seconds {
		end := from + time.Duration(s*float64(task.cores)*float64(time.Second))
		r.run(0, func() bool { return processorTime(b) >= end })
		best, err := r.best()
		if err != nil {
			b.Fatal(err)
		}
		addLay(b, measured{in.Name, s, task.cores, task.seed, best.Density})
	}
}

// processorTime returns what the program has spent on all cores.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func addLay(b *testing.B, m measured) {
	b.Helper()
	f, err := os.OpenFile(layRows, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	if _, err := fmt.Fprintf(f, "%s,%g,%d,%d,%.3f\n", m.problem, m.seconds, m.cores, m.seed, m.density); err != nil {
		b.Fatal(err)
	}
}

// readLays returns the lays that were measured, none where there is no file.
func readLays(b *testing.B) []measured {
	b.Helper()
	f, err := os.Open(layRows)
	if os.IsNotExist(err) {
		return nil
	}
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		b.Fatal(err)
	}
	var all []measured
	for _, r := range rows {
		m := measured{problem: r[0]}
		if _, err := fmt.Sscan(strings.Join(r[1:], " "), &m.seconds, &m.cores, &m.seed, &m.density); err != nil {
			b.Fatalf("%s: %v", layRows, err)
		}
		all = append(all, m)
	}
	return all
}

// tableOfLays sets lays beside what is published: a row for each problem, a
// column for each time and number of cores, with the mean, and the best and the
// number of seeds where there are several.
func tableOfLays(published map[string]map[string]string, all []measured) string {
	type column struct {
		seconds float64
		cores   int
	}
	var columns []column
	var problems []string
	cells := map[string]map[column][]float64{}
	for _, m := range all {
		c := column{m.seconds, m.cores}
		if !slices.Contains(columns, c) {
			columns = append(columns, c)
		}
		if cells[m.problem] == nil {
			problems = append(problems, m.problem)
			cells[m.problem] = map[column][]float64{}
		}
		cells[m.problem][c] = append(cells[m.problem][c], m.density)
	}
	slices.Sort(problems)
	slices.SortFunc(columns, func(a, b column) int {
		if a.seconds != b.seconds {
			return int(a.seconds - b.seconds)
		}
		return a.cores - b.cores
	})
	var t strings.Builder
	t.WriteString("| problem | mean 2013 | mean 2025 | best 2025 |")
	for _, c := range columns {
		fmt.Fprintf(&t, " %g s, cores: %d |", c.seconds, c.cores)
	}
	t.WriteString("\n|" + strings.Repeat(" --- |", 4+len(columns)) + "\n")
	for _, name := range problems {
		p := published[name]
		fmt.Fprintf(&t, "| %s | %s | %s | %s |", name, p["elkeran2013_mean"], p["gvw2025_mean"], p["gvw2025_best"])
		for _, c := range columns {
			t.WriteString(cell(cells[name][c]))
		}
		t.WriteString("\n")
	}
	return t.String()
}

// cell is the mean of some densities, and the best and how many there are.
func cell(densities []float64) string {
	switch len(densities) {
	case 0:
		return " |"
	case 1:
		return fmt.Sprintf(" %.2f |", densities[0])
	}
	sum := 0.0
	for _, d := range densities {
		sum += d
	}
	n := len(densities)
	return fmt.Sprintf(" %.2f (best %.2f, seeds: %d) |", sum/float64(n), slices.Max(densities), n)
}

// publishedDensities reads the published densities, by problem and column.
func publishedDensities(b *testing.B) map[string]map[string]string {
	b.Helper()
	f, err := os.Open("../../testdata/packing/published_densities.csv")
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		b.Fatal(err)
	}
	out := map[string]map[string]string{}
	for _, r := range rows[1:] {
		out[r[0]] = map[string]string{}
		for k, column := range rows[0] {
			out[r[0]][column] = r[k]
		}
	}
	return out
}
