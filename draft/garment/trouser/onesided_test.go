package trouser_test

import (
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
)

// half is a panel of one side, which may be as on the other.
func half(t *testing.T, m made, part string, on piece.Hand, edge string) geom.Path {
	t.Helper()
	if on == piece.RightHand && slices.ContainsFunc(m.Panels, func(p piece.Panel) bool { return p.Name == part+"-right" }) {
		part += "-right"
	}
	return m.Edge(t, part, edge)
}

// far is how far two edges lie apart at the most, at places along them.
func far(a, b geom.Path) float64 {
	const places = 8
	most := 0.0
	for i := range places + 1 {
		s := float64(i) / places
		p, _ := a.At(a.Len() * s)
		q, _ := b.At(b.Len() * s)
		most = max(most, p.Dist(q))
	}
	return most
}

// What is altered on one side leaves the other as it was, does to the left what it
// does to the right, keeps the middle of the body and the band, and both sides
// altered by as much are as if both were altered at once (a geometric property).
func TestAlteredOnOneSide(t *testing.T) {
	o := order{Body: measured(t, hip42+", body_rise 10 1/2, waist_to_hips 8, total_crotch_length 29")}
	edges := []string{"waist", "side", "hem", "inseam", "fork", "centre"}
	for _, method := range []string{trouser.Quarter, trouser.Balanced} {
		o.Method = method
		was := o.draft(t)
		on := func(a garment.Alteration, sides ...piece.Hand) made {
			with := o
			for _, s := range sides {
				with.Altered = append(with.Altered, garment.Altered{Alteration: a, By: a.Usual, Side: s})
			}
			return with.draft(t)
		}
		one := 0
		for _, a := range trouser.Alterations() {
			if a.OneSide == nil {
				continue
			}
			one++
			left, right, each := on(a, piece.LeftHand), on(a, piece.RightHand), on(a, piece.LeftHand, piece.RightHand)
			moved := 0.0
			for _, part := range []string{"front", "back"} {
				for _, e := range edges {
					what := method + ", " + a.ID + ": " + part + " " + e
					about(t, what+", right, the left altered", far(half(t, left, part, piece.RightHand, e), was.Edge(t, part, e)), 0, 0.02)
					about(t, what+", left, the right altered", far(right.Edge(t, part, e), was.Edge(t, part, e)), 0, 0.02)
					about(t, what+", left as right", far(left.Edge(t, part, e), half(t, right, part, piece.RightHand, e)), 0, 0.02)
					about(t, what+", each side", far(each.Edge(t, part, e), left.Edge(t, part, e)), 0, 0.02)
					moved = max(moved, far(left.Edge(t, part, e), was.Edge(t, part, e)))
				}
				about(t, a.ID+": "+part+" to the band", left.Edge(t, part, "waist").Len(), was.Edge(t, part, "waist").Len(), 1.5)
			}
			if moved < 2 {
				t.Errorf("%s moves the left by %.1f mm", a.ID, moved)
			}
			for _, m := range []made{left, right} {
				if m.Stopped() {
					t.Errorf("%s: %v", a.ID, m.Faults(proof.Stops))
				}
				if f := m.Finding("left and right differ"); f == nil || f.Level != proof.Mind {
					t.Errorf("%s: %+v: not said", a.ID, f)
				}
				if m.Level(t, "centre back, left to right") != proof.Fine || m.Level(t, "centre front, left to right") != proof.Fine {
					t.Errorf("%s: the halves cannot be sewn together: %+v", a.ID, m.Finding("centre back, left to right"))
				}
			}
			if len(each.Panels) != 2 {
				t.Errorf("%s: both sides altered alike are %d panels", a.ID, len(each.Panels))
			}
		}
		if one < 10 {
			t.Errorf("%d alterations can be made of one side", one)
		}
	}
}

// Half an inch let out over the left hip is half an inch round the body.
func TestOneHipLetOut(t *testing.T) {
	o := order{Body: measured(t, hip42)}
	was := o.draft(t)
	a, _ := trouser.Garment().Alter("hip_out")
	o.Altered = []garment.Altered{{Alteration: a, By: unit.Inch / 2, Side: piece.LeftHand}}
	is := o.draft(t)
	about(t, "hip, in", is.Girth(t, "hip")-was.Girth(t, "hip"), 0.5, 0.02)
	about(t, "waist, in", is.Girth(t, "waist")-was.Girth(t, "waist"), 0, 0.02)
	if f := is.Finding("hip girth"); f == nil || f.Level != proof.Fine {
		t.Errorf("%+v", f)
	}
}

// The pieces of both sides say which they are, and are no pairs any more; what does
// not differ stays one.
func TestAlteredSideIsSaid(t *testing.T) {
	a, _ := trouser.Garment().Alter("leg_longer")
	o := order{Body: measured(t, hip42), Altered: []garment.Altered{{Alteration: a, By: unit.Inch / 2, Side: piece.RightHand}}}
	m := o.draft(t)
	for _, id := range []string{"front", "front-right", "back", "back-right"} {
		p := m.Must(t, id)
		side := "left"
		if strings.HasSuffix(id, "-right") {
			side = "right"
		}
		if p.Pairs || p.Count != 1 || !strings.HasSuffix(p.Name, ", "+side) {
			t.Errorf("%s: %s, %d, pair %t", id, p.Name, p.Count, p.Pairs)
		}
	}
	if p := m.Must(t, "pocket-bag-back"); !p.Pairs {
		t.Errorf("%s is no pair", p.Name)
	}
	longer := m.Edge(t, "front-right", "side").Len() - m.Edge(t, "front", "side").Len()
	about(t, "right leg longer by, mm", longer, 12.7, 0.05)
}
