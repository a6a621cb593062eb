package draft_test

import (
	"math"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
)

// Over bodies of the survey (testdata/body/ansur2_garment_columns.csv, source in
// SOURCES.md there), in every style: on checks the hip notches of fronts and
// backs lie whole repeats apart along the cloth, which is what makes the bars
// meet at the side seam (common practice); and the lay is sound.
func TestChecksMeetAtTheHip(t *testing.T) {
	natively(t)
	cloths := []job.Cloth{
		{Width: length(t, "60"), Fold: job.Lengthwise, OneWay: true, RepeatAlong: length(t, "1 1/2"), RepeatAcross: length(t, "1")},
		{Width: length(t, "60"), Fold: job.Open, RepeatAlong: length(t, "2 1/4"), RepeatAcross: length(t, "3")},
		{Width: length(t, "54"), Fold: job.Open, OneWay: true, RepeatAlong: length(t, "4 cm")},
		{Width: length(t, "60"), Fold: job.Crosswise, RepeatAlong: length(t, "3 cm")},
	}
	styles := prove.Styles()
	met := 0
	for i, body := range provetest.Bodies(t, 700) {
		c := cloths[i%len(cloths)]
		j := styles[i%len(styles)].Job(body)
		j.Cloth = []job.Cloth{c}
		r, err := draft.Make(j)
		if err != nil {
			continue // said with a reason; proved elsewhere
		}
		l, err := draft.Lay(r, 0, lay.Options{Work: 40})
		if err != nil {
			t.Errorf("%s: %v", body.ID, err)
			continue
		}
		if err := lay.Verify(l.Cloth, l.Items, l.Result); err != nil {
			t.Errorf("%s: %v", body.ID, err)
		}
		var at []float64 // of the hip notches, told as if none lay end for end
		for _, p := range l.Placements {
			for _, one := range r.Pieces {
				if one.ID != l.Items[p.Item].Piece || one.ID != "front" && one.ID != "back" {
					continue
				}
				if n, ok := hipNotch(one); ok {
					at = append(at, math.Copysign(1, p.At.D)*p.At.Pt(n.At).Y)
				}
			}
		}
		for _, y := range at {
			if off := math.Abs(math.Remainder(y-at[0], c.RepeatAlong.Length().MM())); off > 0.5 {
				t.Errorf("%s: bars %.2f mm off each other at the hip", body.ID, off)
			}
		}
		if len(at) > 1 {
			met++
		}
	}
	if met < 3 {
		t.Errorf("stripes met at the hip of %d bodies; too few to tell", met)
	}
}

// hipNotch is the notch at the hip on the side seam. A front that has its pocket
// mouth there has none.
func hipNotch(p piece.Piece) (piece.Notch, bool) {
	for _, n := range p.Notches {
		if n.Name == "hip" {
			return n, true
		}
	}
	return piece.Notch{}, false
}
