//go:build !js

package browser

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/chromedp/chromedp"
)

// Peak is the most memory, in MB, that the largest process of a page has held
// so far, its workers with it: 0 where the system does not tell by /proc.
func (tab *Tab) Peak() float64 {
	tab.t.Helper()
	root := chromedp.FromContext(tab.ctx).Browser.Process().Pid
	parents := map[int]int{}
	files, _ := filepath.Glob("/proc/[0-9]*/status")
	peaks := map[int]float64{}
	for _, file := range files {
		told, err := os.ReadFile(file)
		if err != nil {
			continue // it has ended
		}
		pid, _ := strconv.Atoi(filepath.Base(filepath.Dir(file)))
		for line := range strings.Lines(string(told)) {
			name, value, _ := strings.Cut(line, ":")
			words := strings.Fields(value)
			switch {
			case len(words) == 0:
			case name == "PPid":
				parents[pid], _ = strconv.Atoi(words[0])
			case name == "VmHWM":
				kB, _ := strconv.ParseFloat(words[0], 64)
				peaks[pid] = kB * 1024 / 1e6
			}
		}
	}
	most := 0.0
	for pid, peak := range peaks {
		up := pid
		for up > 1 && up != root {
			up = parents[up]
		}
		of, err := os.ReadFile(filepath.Join("/proc", strconv.Itoa(pid), "cmdline"))
		if err == nil && up == root && strings.Contains(string(of), "--type=renderer") {
			most = max(most, peak)
		}
	}
	return most
}
