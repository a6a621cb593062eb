package lay_test

import (
	"reflect"
	"testing"

	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
)

// TestResume: a search goes on from a lay that came in bytes, and from one that
// is laid otherwise than a search would lay it.
func TestResume(t *testing.T) {
	in := instance(t, "albano")
	s := search(t, in, 1)
	s.Run(s.FixedWork()+500, nil, nil)
	data, err := s.Best().Encode(in.Items)
	if err != nil {
		t.Fatal(err)
	}
	from, err := lay.Decode(in.Cloth, in.Items, data)
	if err != nil {
		t.Fatal(err)
	}
	run := func() lay.Result {
		s, err := lay.Resume(in.Cloth, in.Items, 5, from)
		if err != nil {
			t.Fatal(err)
		}
		if s.Best().Length != from.Length || s.Work() != 0 {
			t.Errorf("begins with %.1f mm after %d steps, was given %.1f mm", s.Best().Length.MM(), s.Work(), from.Length.MM())
		}
		s.Run(6000, nil, nil)
		return s.Best()
	}
	r := run()
	if err := lay.Verify(in.Cloth, in.Items, r); err != nil || r.Length >= from.Length {
		t.Errorf("%.1f mm from %.1f mm, %v", r.Length.MM(), from.Length.MM(), err)
	}
	if !reflect.DeepEqual(r, run()) {
		t.Error("two runs from one lay with one seed differ")
	}
	from.Placements[0].At.F += 1e5
	if _, err := lay.Resume(in.Cloth, in.Items, 5, from); err == nil {
		t.Error("goes on from a lay that does not hold")
	}
}

// TestResumeTurned: a piece that is the same turned end for end is laid only one
// way by a search, and may have been laid the other way by hand.
func TestResumeTurned(t *testing.T) {
	c := lay.Cloth{Width: 1000}
	its := items(t, []piece.Piece{box("a", 3, false, 400, 300)}, c)
	var from lay.Result
	for i := range its { // one above the other, each turned end for end
		at := lay.Way(180, false)
		at.E, at.F = 400, float64(i+1)*300
		from.Placements = append(from.Placements, lay.Placement{Item: i, Spot: lay.Spot{At: at}})
	}
	from.Length, from.Fits = 900, true
	s, err := lay.Resume(c, its, 1, from)
	if err != nil {
		t.Fatal(err)
	}
	s.Run(2000, nil, nil)
	if r := s.Best(); r.Length > 605 {
		t.Errorf("%.1f mm for three in two rows of 300 mm", r.Length.MM())
	} else if err := lay.Verify(c, its, r); err != nil {
		t.Error(err)
	}
}
