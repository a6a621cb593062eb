package trouser_test

import (
	"slices"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
)

// A lined band is one layer of the cloth, as long as before, and one of the
// lining, and everything that is claimed of it holds; a casing for an elastic is
// folded as before.
func TestLinedBand(t *testing.T) {
	for _, tt := range []struct {
		style garment.Style
		join  string
		outer []string
	}{
		{nil, "off", []string{"waistband"}},
		{nil, "on", []string{"waistband-left", "waistband-right"}},
		{garment.Style{"band": "shaped"}, "off", []string{"waistband"}},
	} {
		cloth := func(lined string) (main, lining float64) {
			m := order{Body: measured(t, hip42), Style: tt.style, Rules: rules.Values{"band_join": tt.join, "band_lining": lined}}.draft(t)
			if stops := m.Faults(proof.Stops); len(stops) > 0 {
				t.Errorf("%v, joined %s, lined %s: %v", tt.style, tt.join, lined, stops)
			}
			for _, p := range m.Pieces {
				switch {
				case p.ID == "band-lining" && p.Cloth == piece.Lining:
					lining += p.Area() * float64(p.Count)
				case slices.Contains(tt.outer, p.ID) && p.Cloth == piece.Main:
					main += p.Area() * float64(p.Count)
				}
			}
			return main, lining
		}
		was, none := cloth("off")
		main, lining := cloth("on")
		// Two inches wide and folded, with half an inch at each edge, it is five
		// inches of cloth, and lined three of each.
		if share := main / was; none != 0 || share < 0.49 || share > 0.61 || lining < 0.9*main || lining > 1.1*main {
			t.Errorf("%v, joined %s: of the cloth %.2f of what it was, of the lining %.2f", tt.style, tt.join, share, lining/was)
		}
	}
	elastic := order{Body: measured(t, hip42), Style: garment.Style{"closure": "elastic"}, Rules: rules.Values{"band_lining": "on"}}.draft(t)
	if slices.ContainsFunc(elastic.Pieces, func(p piece.Piece) bool { return p.ID == "band-lining" }) {
		t.Error("a casing for an elastic is lined")
	}
}
