package draft_test

import (
	"math"
	"slices"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/prove"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// The marks of a band that is cut to a sewn waist add up to it, whatever opens,
// and each stretch keeps its share.
func TestMadeUpWaist(t *testing.T) {
	for _, g := range draft.Garments()[:2] { // those with a band
		for i, s := range slices.Collect(everyNth(everyStyle(g), 71)) {
			j := prove.Style{Garment: g.ID, Style: s}.Job(prove.Body{ID: "middle", Figure: body.Women, Taken: body.Middle(body.Women)})
			if g.ID == "trousers" && i%2 == 0 {
				j.Rules = job.Rules{House: rules.Values{"band_join": "on"}}
			}
			r, err := draft.Make(j)
			if err != nil {
				t.Fatal(err)
			}
			drafted, ok := draft.BandFor(r, unit.Metre)
			if !ok {
				t.Fatalf("%v: no band", s)
			}
			for _, off := range []unit.Length{0, unit.Inch / 4, -2 * unit.Inch, 3 * unit.Inch} {
				checkMadeUp(t, r, drafted.Drafted, drafted.Drafted+off)
			}
		}
	}
}

func checkMadeUp(t *testing.T, r *draft.Result, drafted, sewn unit.Length) {
	t.Helper()
	const tol = 0.01 // mm
	m, ok := draft.BandFor(r, sewn)
	as, _ := draft.BandFor(r, drafted)
	if !ok || math.Abs((m.Drafted-r.Report.Girths[0].Draft).MM()) > 1 {
		t.Fatalf("drafted %v, the proof measures %v", m.Drafted, r.Report.Girths[0].Draft)
	}
	sum, cut := unit.Length(0), unit.Length(0)
	for k, b := range m.Bands {
		first, last := b.Marks[0].At, b.Marks[len(b.Marks)-1].At
		sum += last - first
		cut += b.Cut - as.Bands[k].Cut
		for i, mark := range b.Marks {
			if mark.Name == "" || mark.Name == "waist" || i > 0 && mark.At <= b.Marks[i-1].At {
				t.Errorf("style %v: mark %d of %s is %+v", r.Style, i, b.Name, mark)
			}
			was := as.Bands[k].Marks
			if i > 0 && math.Abs(float64((mark.At-b.Marks[i-1].At)/(was[i].At-was[i-1].At)-sewn/drafted)) > tol/10 {
				t.Errorf("%s does not keep its share", mark.Name)
			}
		}
		for _, p := range r.Pieces { // as it is drafted, it is the band that was drawn
			if p.Name != b.Name || sewn != drafted {
				continue
			}
			long := p.Bounds().H()
			if r.Style["band"] != "shaped" && math.Abs(long-b.Cut.MM()) > 1 {
				t.Errorf("style %v: %s is cut %v long, and drawn %v", r.Style, b.Name, b.Cut, long)
			}
			for _, mark := range b.Marks[1 : len(b.Marks)-1] {
				if !slices.ContainsFunc(p.Notches, func(n piece.Notch) bool { return n.Name == mark.Name }) {
					t.Errorf("%s has no notch %q", p.ID, mark.Name)
				}
			}
		}
	}
	if math.Abs((sum-sewn).MM()) > tol || math.Abs((cut-(sewn-drafted)).MM()) > tol {
		t.Errorf("style %v: marks add up to %v, cut %v more, for a waist of %v against %v", r.Style, sum, cut, sewn, drafted)
	}
	off := (sewn - drafted).MM()
	if m.Far != (math.Abs(off) > 12.7) || math.Abs(m.Each.MM()*float64(m.Places)-off) > tol || m.Places < 2 {
		t.Errorf("a waist off by %v is far: %v; %v at each of %d places", off, m.Far, m.Each, m.Places)
	}
}
