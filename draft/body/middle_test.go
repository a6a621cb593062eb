package body

import "testing"

// The middle of a figure is believed in every measurement, and says nothing
// against itself.
func TestMiddleIsNotDoubted(t *testing.T) {
	for _, f := range []Figure{Unknown, Women, Men} {
		m := Middle(f)
		for _, id := range []ID{WaistGirth, HipGirth, ThighGirth, KneeGirth, OutsideLegLength, BodyRise} {
			if !m[id].Value.Set() {
				t.Errorf("%q: no %s", f, id)
			}
		}
		for _, d := range Check(f, m) {
			t.Errorf("%q: %s is doubted: %s", f, d.ID, d.Text)
		}
	}
	if w, m := Middle(Women)[HipGirth], Middle(Men)[HipGirth]; w == m {
		t.Errorf("women and men have the same hip, %v", w.Value)
	}
}
