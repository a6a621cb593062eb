package main

import (
	"os"
	"path/filepath"
	"testing"

	"chalkfold/wasm/browser"
	"chalkfold/wasm/browser/audit"
)

// screens are the pictures of the tour. They are looked at, not compared.
const screens = "../../testdata/screens"

// mostPicture and mostPictures are what the pictures may weigh, in bytes.
const (
	mostPicture  = 40_000
	mostPictures = 1_500_000
)

// TestTour goes through every screen and holds each, on each size of screen,
// against the rules of axe-core and the checks of this project. With
// CHALKFOLD_SCREENS it writes the pictures anew; make screens does.
func TestTour(t *testing.T) {
	dir := os.Getenv("CHALKFOLD_SCREENS")
	walk(t, func(on *tour, st stop) {
		a := audit.Of(t, on.tab)
		for _, screen := range browser.Screens() {
			on.tab.On(screen)
			if dir != "" && (st.all || screen.Name == "phone") {
				name := filepath.Join(dir, st.name+"."+screen.Name+".webp")
				if err := os.WriteFile(name, on.tab.Picture(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			for _, check := range []func() []string{a.Axe, a.Look, a.Names} {
				for _, f := range check() {
					t.Errorf("%s on a %s: %s", st.name, screen.Name, f)
				}
			}
		}
		on.tab.On(browser.Screens()[0])
		for _, f := range a.Focus() {
			t.Errorf("%s: %s", st.name, f)
		}
	})
}
