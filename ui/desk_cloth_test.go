//go:build !js

package ui

import (
	"testing"

	"chalkfold/draft/piece"
)

// TestClothFaultsStandAtTheirFields: what cannot be laid on is said, and stands
// at the figure that is to be mended; mended, it is gone.
func TestClothFaultsStandAtTheirFields(t *testing.T) {
	b, _ := onCloth(t)
	for _, tt := range []struct{ key, text, why, mended string }{
		{"margin", "40", "Leaves nothing of cloth that lies 60 in wide; give less.", "1/4"},
		{"repeat_across", "0", "No repeat; give the distance from a stripe to the next one like it, or leave it out.", ""},
		{"length", "0", "No cloth at all; give the length at hand, or leave it out when it comes off the bolt.", "2 1/4 yd"},
		{"width", "0", "No cloth at all; give the width from selvedge to selvedge, such as 60 in.", "60"},
	} {
		b.enterCloth(tt.key, tt.text)
		b.settle()
		v := b.clothView()
		for _, f := range v.Fields {
			want := ""
			if f.Key == tt.key {
				want = tt.why
			}
			if f.Bad != want || v.Missing == "" || v.Drawing != "" {
				t.Errorf("%s %q: at %s stands %q, want %q; %q", tt.key, tt.text, f.Key, f.Bad, want, v.Missing)
			}
		}
		b.enterCloth(tt.key, tt.mended)
	}
	b.settle()
	if v := b.clothView(); v.Missing != "" || v.Drawing == "" {
		t.Errorf("mended: %q", v.Missing)
	}
}

// TestClothTakenAway draws the stage at once when the cloth that is to be laid first is
// taken away while another one is looked at: before it is known what is laid instead.
func TestClothTakenAway(t *testing.T) {
	b, _ := onCloth(t)
	b.clothView().OnAdd()
	b.clothView().OnKind(piece.Interfacing) // no kind is wanting now
	b.clothView().OnAdd()
	b.settle()
	if b.laying == nil || b.laying.missing == "" {
		t.Fatal("a cloth without a width is laid")
	}
	b.clothView().OnRemove()
	b.clothView()
	b.settle()
	b.clothView().OnAt(0)
	b.settle()
	if v := b.clothView(); v.Missing != "" {
		t.Errorf("of the cloths that are left: %s", v.Missing)
	}
}
