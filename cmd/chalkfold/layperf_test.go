package main

import (
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// laysFile is what make bench-lay writes, and testdata/lay/densities.md is a
// run of it that was kept.
const laysFile = "../../.build/lays.md"

// BenchmarkLays writes the report of make bench-lay: how densely every packing
// problem is laid, from several seeds, against what is published. The figures
// are of this machine, and mean something only where nothing else runs.
// CHALKFOLD_SECONDS and CHALKFOLD_SEEDS say how long and how often.
func BenchmarkLays(b *testing.B) {
	seconds := numbers(b, "CHALKFOLD_SECONDS", "10,60")
	seeds := int(numbers(b, "CHALKFOLD_SEEDS", "3")[0])
	files, err := filepath.Glob("../../testdata/packing/*.json")
	if err != nil {
		b.Fatal(err)
	}
	published := publishedDensities(b)
	var report strings.Builder
	fmt.Fprintf(&report, "# How densely the packing problems are laid\n\nPer cent, mean and best of %d seeds. Published: see packing/SOURCES.md; 20 minutes each.\n", seeds)
	fmt.Fprintf(&report, "\nLoad of the machine before: %s\n", load())
	head, line := "\n| problem | mean 2013 | mean 2025 | best 2025 |", "| --- | --- | --- | --- |"
	for _, s := range seconds {
		head += fmt.Sprintf(" %g s, one core | two |", s)
		line += " --- | --- |"
	}
	fmt.Fprintf(&report, "%s\n%s\n", head, line)
	for b.Loop() {
		for _, f := range files {
			name := strings.TrimSuffix(filepath.Base(f), ".json")
			p := published[name]
			fmt.Fprintf(&report, "| %s | %s | %s | %s |", name, p["elkeran2013_mean"], p["gvw2025_mean"], p["gvw2025_best"])
			for _, s := range seconds {
				for _, cores := range []int{1, 2} {
					fmt.Fprintf(&report, " %s |", density(b, f, layTask{seconds: s, cores: cores}, seeds))
				}
			}
			fmt.Fprintln(&report)
		}
	}
	fmt.Fprintf(&report, "\nLoad of the machine after: %s\n", load())
	if err := os.WriteFile(laysFile, []byte(report.String()), 0o644); err != nil {
		b.Fatal(err)
	}
}

// density lays a problem from each seed and tells the mean and the best.
func density(b *testing.B, file string, task layTask, seeds int) string {
	b.Helper()
	in, err := openInstance(file)
	if err != nil {
		b.Fatal(err)
	}
	var all []float64
	sum := 0.0
	for task.seed = 1; task.seed <= uint64(seeds); task.seed++ {
		r, err := task.lay(context.Background(), in)
		if err != nil {
			b.Fatal(err)
		}
		all = append(all, r.Density)
		sum += r.Density
	}
	b.Logf("%s, %g s, %d cores: %.2f", in.Name, task.seconds, task.cores, all)
	return fmt.Sprintf("%.2f, %.2f", sum/float64(seeds), slices.Max(all))
}

// numbers reads the numbers in a variable of the environment.
func numbers(b *testing.B, name, otherwise string) []float64 {
	b.Helper()
	text := os.Getenv(name)
	if text == "" {
		text = otherwise
	}
	var out []float64
	for _, t := range strings.Split(text, ",") {
		v, err := strconv.ParseFloat(t, 64)
		if err != nil || v <= 0 {
			b.Fatalf("%s=%s: give numbers above 0", name, text)
		}
		out = append(out, v)
	}
	return out
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
