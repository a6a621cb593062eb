package trouser

import (
	"math"

	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// Tolerances of the proof: less than a tape shows, except where the trade
// allows more (common practice).
const (
	seamTol   = unit.Length(1.5)
	squareTol = 3.0 // degrees
	smoothTol = 5.0 // degrees
)

func ref(panel, edge string) piece.Ref { return piece.Ref{Panel: panel, Edge: edge} }

func (s *shape) claims() piece.Claims {
	c := piece.Claims{Seams: s.seams(), Girths: s.girths(), Angles: s.angles(), Darts: s.darts(), Pairs: s.pairs()}
	c.Bounds = append(c.Bounds, s.openings()...)
	c.Bounds = append(c.Bounds, s.forkSeam()...)
	c.Bounds = append(c.Bounds, s.pocketBounds()...)
	c.Bounds = append(c.Bounds, s.legBounds()...)
	return c
}

func (s *shape) seams() []piece.Seam {
	waist := piece.Seam{
		Name: "waist to band",
		A:    []piece.Ref{ref("front", "waist"), ref("front", "waist"), ref("back", "waist"), ref("back", "waist")},
		B:    []piece.Ref{ref("waistband", "waist")}, LessB: s.rule("band_lap"), Tol: seamTol,
		Mend: "cut the band to the made-up waist",
	}
	for _, d := range s.darts() {
		p := s.front
		if d.Panel == "back" {
			p = s.back
		}
		e, _ := p.Edge(d.Edge)
		waist.LessA += 2 * d.Intake(e)
	}
	waist.LessA += 2 * s.waistTuck()
	out := []piece.Seam{
		{
			Name: "inseam", A: []piece.Ref{ref("front", "inseam")}, B: []piece.Ref{ref("back", "inseam")},
			Shorter: s.rule("inseam_stretch"), Tol: seamTol,
			Mend: "drop the back fork tip until the inseams agree, or switch that truing on",
		},
		{
			Name: "side seam", A: []piece.Ref{ref("front", "side")}, B: []piece.Ref{ref("back", "side")}, Tol: seamTol,
			Mend: "raise or lower the back side at the waist, or switch that truing on",
		},
		waist,
	}
	if s.has("pocket", "slant") {
		out = append(out,
			piece.Seam{
				Name: "pocket mouth to its facing", A: []piece.Ref{ref("piece:front", "pocket mouth")},
				B: []piece.Ref{ref("pocket-mouth-facing", "pocket mouth")}, Tol: seamTol, Mend: "cut the facing by the front",
			},
			piece.Seam{
				Name: "pocket mouth to the bag", A: []piece.Ref{ref("piece:front", "pocket mouth")},
				B: []piece.Ref{ref("pocket-bag-front", "pocket mouth")}, Tol: seamTol, Mend: "cut the bag by the front",
			})
	}
	return out
}

// waistTuck is what a crease tuck takes from the front waist when no dart
// takes the tuck in.
func (s *shape) waistTuck() unit.Length {
	if s.has("crease", "tuck") && !s.rec.Has("front.dart_point") {
		return s.mm("tuck_cloth")
	}
	return 0
}

func (s *shape) tuck() unit.Length {
	if s.has("crease", "tuck") {
		return s.mm("tuck_cloth")
	}
	return 0
}

func (s *shape) darts() []piece.Dart {
	var out []piece.Dart
	for _, part := range []string{"front", "back"} {
		if !s.rec.Has(part + ".dart_point") {
			continue
		}
		out = append(out, piece.Dart{
			Name: part + " dart", Panel: part, Edge: "waist", Point: s.rec.Point(part + ".dart_point"),
			Legs: [2]geom.Pt{s.rec.Point(part + ".dart_leg_in"), s.rec.Point(part + ".dart_leg_out")},
			Sewn: part == "back" || s.has("front_dart", "sewn"),
		})
	}
	return out
}

func (s *shape) angles() []piece.Angle {
	const square = "square the waist, or switch that truing on"
	return []piece.Angle{
		{Name: "fork at the inseam", Corners: []piece.Ref{ref("front", "inseam"), ref("back", "inseam")}, Want: 180, Tol: smoothTol, Mend: "draw the fork curves to run on smoothly across the inseam, or switch that truing on"},
		{Name: "waist at the side", Corners: []piece.Ref{ref("front", "waist"), ref("back", "waist")}, Want: 180, Tol: smoothTol, Mend: square},
		{Name: "waist at the centre front", Corners: []piece.Ref{ref("front", "centre")}, Want: 90, Tol: squareTol, Mend: square},
		{Name: "waist at the centre back", Corners: []piece.Ref{ref("back", "centre")}, Want: 90, Tol: squareTol, Mend: square},
	}
}

func (s *shape) measure(id body.ID) (v unit.Length, garment, estimated bool) {
	m, ok := s.in.Body[id]
	if !ok {
		return 0, false, false
	}
	return m.Length, m.Of == body.OfGarment, m.Estimated
}

// girth claims a level across both panels, each twice.
func (s *shape) girth(name string, id body.ID, ease unit.Length, mend string, spans ...piece.Span) piece.Girth {
	g := piece.Girth{Name: name, Ease: ease, Spans: spans, Mend: mend}
	g.Body, g.Garment, g.Estimated = s.measure(id)
	if g.Garment {
		g.Ease = 0
	}
	return g
}

func (s *shape) level(panel string, at geom.Pt, less unit.Length) piece.Span {
	return piece.Span{Panel: panel, Through: at, Dir: geom.Vec{X: 1}, Times: 2, Less: less}
}

func (s *shape) girths() []piece.Girth {
	tuck := s.tuck()
	waist := []piece.Span{
		{Panel: "front", Edge: "waist", Times: 2, Less: s.waistTuck()}, {Panel: "back", Edge: "waist", Times: 2},
	}
	for _, d := range s.darts() {
		i := map[string]int{"front": 0, "back": 1}[d.Panel]
		e, _ := [2]piece.Panel{s.front, s.back}[i].Edge("waist")
		waist[i].Less += d.Intake(e)
	}
	foot := s.rec.Point("back.hip_side")
	seat := s.rec.Point("back.hip_centre").Sub(s.rec.Point("back.waist_centre")).Unit()
	acrossSeat := seat.Left()
	w := foot.Sub(s.rec.Point("back.hip_centre")).Dot(acrossSeat)
	// Both are measured from the centre line as the tape lies: square to it, and
	// carried on past where the fork curve leaves it.
	base := func(part string) geom.Curve {
		return geom.Line(s.rec.Point(part+".waist_centre"), s.rec.Point(part+".hip_centre"))
	}
	hip := []piece.Span{
		s.level("front", s.rec.Point("front.hip_centre").Lerp(s.rec.Point("front.hip_side"), 0.5), tuck),
		{Panel: "back", Through: foot.Add(acrossSeat.Scale(-w / 2)), Dir: acrossSeat, Times: 2, Base: base("back")},
	}
	hip[0].Base = base("front")
	leg := func(from, to string, share float64) []piece.Span {
		var out []piece.Span
		for _, part := range []string{"front", "back"} {
			at := s.rec.Point(part+".crease_"+from).Lerp(s.rec.Point(part+".crease_"+to), share)
			out = append(out, piece.Span{Panel: part, Through: at, Dir: geom.Vec{X: 1}, Times: 1, Less: tuck})
		}
		return out
	}
	knee, _, _ := s.measure(body.KneeGirth)
	heel, _, _ := s.measure(body.HeelGirth)
	gs := []piece.Girth{
		s.girth("waist", body.WaistGirth, s.rule("waist_ease"), "give the waist its ease", waist...),
		s.girth("hip", body.HipGirth, s.rule("hip_ease"), "keep the hip square to the seat line and give it its ease, or tilt the seat less", hip...),
		s.girth("thigh", body.ThighGirth, s.rule("thigh_ease"), "widen the thigh, or give it its ease", leg("thigh", "thigh", 0)...),
		s.girth("knee", body.KneeGirth, s.mm("leg.knee")-knee, "give the knee more ease", leg("knee", "knee", 0)...),
		s.girth("calf", body.CalfGirth, unit.Length(0), "widen knee or hem: the calf does not go through", leg("knee", "hem", calfShare)...),
		s.girth("hem", body.HeelGirth, s.mm("leg.hem")-heel, "widen the hem: the foot does not go through", leg("knee", "hem", nearHem)...),
	}
	gs[4].Roomy = true
	return gs
}

// calfShare is where the calf is fullest, as a share of the way from the knee
// line to the hem (common practice: a hand below the knee).
const calfShare = 0.3

// nearHem measures the hem just inside the outline.
const nearHem = 0.9999

func (s *shape) pairs() []piece.Pair {
	var out []piece.Pair
	for _, n := range []struct{ name, edge, mark string }{
		{"hip", "side", "hip_side"}, {"side knee", "side", "knee_out"}, {"inside knee", "inseam", "knee_in"}, {"inside thigh", "inseam", "thigh_in"},
	} {
		a := s.along(n.edge, "front."+n.mark)
		be, _ := s.back.Edge(n.edge)
		p, _ := be.Sew.At(a)
		out = append(out, piece.Pair{
			Name: n.name,
			A:    piece.NotchAt{Ref: ref("front", n.edge), At: s.rec.Point("front." + n.mark)},
			B:    piece.NotchAt{Ref: ref("back", n.edge), At: p},
		})
	}
	return out
}

func least(v unit.Length) *unit.Length { return &v }

func (s *shape) openings() []piece.Bound {
	waist := 2 * (s.mm("front.waist_closed") + s.mm("back.waist_closed"))
	waist -= 2 * s.waistTuck()
	hip, _, _ := s.measure(body.HipGirth)
	heel, _, _ := s.measure(body.HeelGirth)
	opening := s.mm("fly.length") + s.rule("waistband_width")
	flyAt := s.rec.Point("front.fly_end")
	straight := s.mm("front.straight_centre")
	out := []piece.Bound{
		{
			Check: "stepping in", Say: "waist opening with the fly open", Figure: waist + 2*opening, Least: least(hip), Stops: true,
			Mend: "lengthen the fly", At: &flyAt, Panel: "front",
		},
		{
			Check: "foot through the hem", Say: "finished hem", Figure: s.mm("leg.hem"), Least: least(heel), Stops: true,
			Mend: "widen the hem, or leave an opening in it",
		},
		{
			Check: "fly", Say: "fly and zip, between the band and where the fork curve begins", Figure: s.mm("fly.length"),
			Least: least(s.rule("fly_length") - seamTol), Most: least(straight),
			Mend: "take a zip of this length, or a narrower waistband: the straight of the centre front is short", At: &flyAt, Panel: "front",
		},
	}
	if kept, ok := s.rec.Find("hip_level_kept"); ok {
		lo, hi := unit.Length(kept.Before)-seamTol, unit.Length(kept.Before)+seamTol
		out = append(out, piece.Bound{
			Check: "hip line", Say: "hip line below the waist seam, against where it was measured", Figure: s.mm("hip_level"), Least: &lo, Most: &hi,
			Mend: "measure waist to hips and body rise again: the hip line was moved to leave room for the fork",
		})
	}
	return out
}

// forkEase is the room allowed between body and fork seam, waist to waist.
const forkEase = unit.Length(50)

// forkSeam measures from the top of the band in front to the top of the band
// behind, as the tape goes round the body.
func (s *shape) forkSeam() []piece.Bound {
	band := s.rule("waistband_width")
	front := s.mm("front.centre") + s.mm("front.fork") + band
	back := s.mm("back.centre") + s.mm("back.fork") + band
	tip := s.rec.Point("back.fork_tip")
	bound := func(check, say string, figure unit.Length, id body.ID, mend string) piece.Bound {
		b := piece.Bound{Check: check, Say: say, Figure: figure, Mend: mend, At: &tip, Panel: "back"}
		if v, ok := s.in.Body[id]; ok && !v.Estimated {
			most := v.Length + forkEase
			if v.Of == body.OfGarment {
				most = v.Length + forkEase/2
			}
			b.Least, b.Most = least(v.Length), &most
		}
		return b
	}
	const mend = "change the rise, the fork parts, the seat tilt or the raise; measured clients want the fork solved to their crotch length"
	return []piece.Bound{
		bound("fork seam", "fork seam, band to band", front+back, body.TotalCrotchLength, mend),
		bound("fork seam, front", "front fork seam with its band", front, body.FrontCrotchLength, mend),
		bound("fork seam, back", "back fork seam with its band", back, body.BackCrotchLength, mend),
	}
}

// maxLean is how far a side seam may run in or out for each inch down before a
// cutter would look again.
const maxLean = 0.5

// Pockets: a hand needs 5¾ in of mouth (common practice); the bag's depth
// below the mouth by the specifications in testdata/body/construction_specs.csv
// (5¾ to 7 in).
func (s *shape) pocketBounds() []piece.Bound {
	if !s.has("pocket", "slant") {
		return nil
	}
	mouth := s.rec.Path("front.pocket_mouth")
	low := s.rec.Point("front.pocket_low")
	depth := s.mm("pocket.bottom") - unit.Length(low.Y)
	waistY := unit.Length(s.rec.Point("front.waist_side").Y)
	_ = waistY
	inner := s.mm("pocket.inner")
	crease := unit.Length(s.rec.Point("front.crease_fork").X)
	return []piece.Bound{
		{
			Check: "pocket mouth", Say: "pocket mouth, straight across", Figure: unit.Length(mouth.Start().Dist(mouth.End())), Least: least(5.75 * unit.Inch),
			Mend: "set the pocket further down the side", At: &low, Panel: "front",
		},
		{
			Check: "pocket depth", Say: "bag below the mouth", Figure: depth, Least: least(5.5 * unit.Inch), Most: least(7.25 * unit.Inch),
			Mend: "change the pocket depth", At: &low, Panel: "front",
		},
		{
			Check: "pocket clears crease and fly", Say: "inner edge of the bag from the centre front", Figure: inner,
			Least: least(unit.Length(math.Max(crease.MM(), s.rule("fly_width").MM()/2))), Mend: "make the bag narrower", At: &low, Panel: "front",
		},
	}
}

// dartBounds says so when a dart was made narrower than its rule, or left out.
func (s *shape) dartBounds() []piece.Bound {
	var out []piece.Bound
	for _, part := range []string{"front", "back"} {
		if !s.rec.Has(part + ".dart") {
			continue
		}
		b := piece.Bound{
			Check: part + " dart", Say: part + " dart, against its rule", Figure: s.mm(part + ".dart"), Least: least(s.rule(rules.ID(part + "_dart_width"))),
			Mend: "the waist is nearly as large as the hip, so there is less to take in", Panel: part,
		}
		if !s.rec.Has(part + ".dart_point") {
			b.Figure, b.Say = 0, part+" dart left out"
		}
		out = append(out, b)
	}
	return out
}

func (s *shape) legBounds() []piece.Bound {
	out := s.dartBounds()
	for _, part := range []string{"front", "back"} {
		top, hip := s.rec.Point(part+".waist_side"), s.rec.Point(part+".hip_side")
		lean, depth := unit.Length(math.Abs(hip.X-top.X)), unit.Length(hip.Y-top.Y)
		out = append(out, piece.Bound{
			Check: "side lean", Say: part + ": how far the side runs in or out between hip and waist", Figure: lean, Most: least(depth * maxLean), Stops: lean > 1.5*maxLean*depth,
			Mend: "change the darts: the hip and the waist differ more than one side seam can take up", At: &top, Panel: part,
		})
	}
	half := unit.Length(0.5)
	for _, part := range []string{"front", "back"} {
		for _, l := range []string{"thigh", "knee", "hem"} {
			mid := s.rec.Point(part+"."+l+"_in").Lerp(s.rec.Point(part+"."+l+"_out"), 0.5)
			at := s.rec.Point(part + ".crease_" + l)
			out = append(out, piece.Bound{
				Check: "crease", Say: part + ": crease off the middle of the " + l, Figure: unit.Length(math.Abs(mid.X - at.X)), Most: &half, Stops: true,
				Mend: "set the leg half on each side of the crease", At: &at, Panel: part,
			})
		}
	}
	if v, ok := s.in.Body[body.InsideLegLength]; ok && !v.Estimated {
		inside := s.mm("hem_level") - s.mm("fork_level")
		lo, hi := v.Length-1.5*unit.Inch, v.Length+0.5*unit.Inch
		out = append(out, piece.Bound{
			Check: "inside leg", Say: "fork line to hem", Figure: inside + s.rule("floor_clearance"), Least: &lo, Most: &hi,
			Mend: "measure inside leg, outside leg and rise again: they do not agree",
		})
	}
	return out
}
