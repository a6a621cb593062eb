package main

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"chalkfold/wasm/browser"
	"chalkfold/wasm/browser/audit"
)

// screens are the pictures of the tour. They are looked at, not compared.
const screens = "../../testdata/screens"

// mostPicture and mostPictures are what the pictures may weigh, in bytes.
const (
	mostPicture  = 32_000
	mostPictures = 1_700_000
)

// pictured tells whether the stop has a picture on that screen.
func (st stop) pictured(on browser.Screen) bool {
	return st.all || on.Name == browser.Screens()[0].Name
}

func (st stop) picture(on browser.Screen) string { return st.name + "." + on.Name + ".webp" }

// TestTour goes through every screen and holds each, on each size of screen,
// against the rules of axe-core and the checks of this project. With
// CHALKFOLD_SCREENS set it takes the pictures anew; make screens does.
func TestTour(t *testing.T) {
	refresh := os.Getenv("CHALKFOLD_SCREENS") != ""
	faults := faults{}
	walk(t, func(on *tour, st stop) {
		a := audit.Of(t, on.tab)
		for _, screen := range browser.Screens() {
			on.tab.On(screen)
			if refresh && st.pictured(screen) {
				if err := os.WriteFile(filepath.Join(screens, st.picture(screen)), on.tab.Picture(mostPicture), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			for _, check := range []func() []string{a.Axe, a.Look, a.Names} {
				faults.add(st.name+" on a "+screen.Name, check())
			}
		}
		on.tab.On(browser.Screens()[0])
		faults.add(st.name, a.Focus())
	})
	for _, fault := range slices.Sorted(maps.Keys(faults)) {
		at := faults[fault]
		t.Errorf("%s\n\tat %s, one of %d places", fault, at[0], len(at))
	}
}

// faults are those found, each with the places where it was met.
type faults map[string][]string

func (f faults) add(at string, found []string) {
	for _, fault := range found {
		f[fault] = append(f[fault], at)
	}
}

// TestScreens counts and weighs the pictures.
func TestScreens(t *testing.T) {
	want := map[string]bool{}
	for _, st := range stops() {
		for _, screen := range browser.Screens() {
			if st.pictured(screen) {
				want[st.picture(screen)] = true
			}
		}
	}
	files, err := os.ReadDir(screens)
	if err != nil {
		t.Fatal(err)
	}
	var all int64
	for _, f := range files {
		info, err := f.Info()
		if err != nil {
			t.Fatal(err)
		}
		all += info.Size()
		if info.Size() > mostPicture {
			t.Errorf("%s has %d bytes, want %d at most", f.Name(), info.Size(), mostPicture)
		}
		if !want[f.Name()] {
			t.Errorf("%s is of no stop of the tour: run make screens", f.Name())
		}
		delete(want, f.Name())
	}
	for name := range want {
		t.Errorf("%s is missing: run make screens, and look at it", name)
	}
	if all > mostPictures {
		t.Errorf("the pictures have %d bytes, want %d at most", all, mostPictures)
	}
}
