package trouser

import (
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Tolerances of the proof: less than a tape shows, except where the trade
// allows more (common practice).
const (
	seamTol   = unit.Length(1.5)
	squareTol = 3.0 // degrees
	smoothTol = 5.0 // degrees
)

func ref(panel, edge string) piece.Ref  { return piece.OnPanel(panel, edge) }
func ofPiece(id, edge string) piece.Ref { return piece.OnPiece(id, edge) }

func (s *shape) claims() piece.Claims {
	c := piece.Claims{Seams: s.seams(), Girths: s.girths(), Angles: s.angles(), Darts: s.darts(), Middle: s.middles(), Turns: s.turns(), Mends: s.mends()}
	c.Bounds = append(c.Bounds, s.openings()...)
	c.Bounds = append(c.Bounds, s.forkSeam()...)
	c.Bounds = append(c.Bounds, s.balancedBounds()...)
	c.Bounds = append(c.Bounds, s.pocketBounds()...)
	c.Bounds = append(c.Bounds, s.legBounds()...)
	return c
}

// mend tells what to do about what a truing mends: to switch it on, or, when it
// is on and yet the fault is there, which rules stood in its way.
func (s *shape) mend(truing, off, rules string) string {
	if s.in.Trues(truing) {
		return s.F("the truing found no answer: change %s", rules)
	}
	if s.in.Spoken {
		return s.F("%s, or draft it trued", off)
	}
	return s.F("%s, or take %q out of what is left untrued", off, truing)
}

// taken is what darts and tucks take in along a panel's waist.
func (s *shape) taken(panel string) unit.Length {
	p, less := s.front, s.waistTuck()
	if panel == "back" {
		p, less = s.back, 0
	}
	e, _ := p.Edge("waist")
	for _, d := range s.darts() {
		if d.Panel == panel {
			less += d.Intake(e)
		}
	}
	return less
}

func (s *shape) seams() []piece.Seam {
	front, back := s.taken("front"), s.taken("back")
	out := []piece.Seam{
		{
			Name: say.Word("inseam"), A: []piece.Ref{ref("front", "inseam")}, B: []piece.Ref{ref("back", "inseam")},
			Shorter: s.rule("inseam_stretch"), Tol: seamTol,
			Mend: s.mend(trueInseam, s.T("drop the back fork tip until the inseams agree"), s.T("the thigh drop, the fork parts or the leg widths")),
		},
		{
			Name: say.Word("side seam"), A: []piece.Ref{ref("front", "side")}, B: []piece.Ref{ref("back", "side")}, Tol: seamTol,
			Mend: s.mend(trueSide, s.T("raise or lower the back side at the waist until the sides agree"), s.T("the darts, the waistband width or the seat tilt")),
		},
	}
	out = append(out, s.bandSeams(front, back)...)
	out = append(out, s.bandLiningSeams()...)
	out = append(append(out, s.piecedSeams()...), s.liningSeams()...)
	for _, to := range []struct{ id, name string }{
		{"fly-facing", say.Word("centre front to the fly-facing")}, {"fly-shield", say.Word("centre front to the fly-shield")},
	} {
		if s.fly() {
			out = append(out, piece.Seam{Name: to.name, A: []piece.Ref{ref("front", "centre")}, B: []piece.Ref{ofPiece(to.id, "centre front")}, Loose: true})
		}
	}
	if s.slanted() {
		mouth := []piece.Ref{ofPiece("front", "pocket mouth")}
		out = append(out,
			piece.Seam{Name: say.Word("pocket mouth to its facing"), A: mouth, B: []piece.Ref{ofPiece("pocket-mouth-facing", "pocket mouth")}, Tol: seamTol, Mend: s.T("cut the facing by the front")},
			piece.Seam{Name: say.Word("pocket mouth to the bag"), A: mouth, B: []piece.Ref{ofPiece("pocket-bag-front", "pocket mouth")}, Tol: seamTol, Mend: s.T("cut the bag by the front")})
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

func (s *shape) angles() []piece.Angle {
	square := s.mend(trueWaist, s.T("square the waist"), s.T("the darts or the seat tilt"))
	return []piece.Angle{
		{
			Name: say.Word("fork at the inseam"), Corners: []piece.Ref{ref("front", "inseam"), ref("back", "inseam")}, Want: 180, Tol: smoothTol,
			Mend: s.mend(trueFork, s.T("draw the fork curves to run on smoothly across the inseam"), s.T("the thigh drop, the fork parts or the thigh ease")),
		},
		{Name: say.Word("waist at the side"), Corners: []piece.Ref{ref("front", "waist"), ref("back", "waist")}, Want: 180, Tol: smoothTol, Mend: square},
		{Name: say.Word("waist at the centre front"), Corners: []piece.Ref{ref("front", "centre")}, Want: 90, Tol: squareTol, Mend: square},
		{Name: say.Word("waist at the centre back"), Corners: []piece.Ref{ref("back", "centre")}, Want: 90, Tol: squareTol, Mend: square},
	}
}

// Within a hand's breadth an inseam or a side may turn so far before a cutter
// would draw it again by eye (common practice).
const (
	mostTurn  = 24.0 // degrees
	handsBack = 4 * unit.Inch
)

func (s *shape) turns() []piece.Turn {
	var out []piece.Turn
	for _, t := range []struct {
		name string
		edge piece.Ref
	}{
		{say.Word("turn of the front inseam"), ref("front", "inseam")},
		{say.Word("turn of the back inseam"), ref("back", "inseam")},
		{say.Word("turn of the front side"), ref("front", "side")},
		{say.Word("turn of the back side"), ref("back", "side")},
	} {
		mend := s.T("give the thigh more ease, or raise the thigh line: the leg narrows too fast below the fork")
		if t.edge.Edge == "side" {
			mend = s.T("give the thigh more ease, or let darts take in more: the side turns too fast at the hip")
		}
		out = append(out, piece.Turn{Name: t.name, Edge: t.edge, Within: handsBack, Most: mostTurn, Mend: mend})
	}
	return out
}

// middles claims that the crease halves the leg.
func (s *shape) middles() []piece.Middle {
	var out []piece.Middle
	for _, l := range []struct {
		part, name, from, to string
		share                float64
	}{
		{"front", say.Word("front crease at the thigh"), "thigh", "thigh", 0},
		{"front", say.Word("front crease at the knee"), "knee", "knee", 0},
		{"front", say.Word("front crease at the hem"), "knee", "hem", nearHem},
		{"back", say.Word("back crease at the thigh"), "thigh", "thigh", 0},
		{"back", say.Word("back crease at the knee"), "knee", "knee", 0},
		{"back", say.Word("back crease at the hem"), "knee", "hem", nearHem},
	} {
		out = append(out, piece.Middle{
			Name: l.name, Panel: l.part, Dir: geom.Vec{X: 1}, Tol: 0.5,
			Through: s.rec.Point(l.part+".crease_"+l.from).Lerp(s.rec.Point(l.part+".crease_"+l.to), l.share),
			Mend:    s.T("set the leg half on each side of the crease"),
		})
	}
	return out
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
		{Panel: "front", Edge: "waist", Times: 2, Less: s.taken("front")}, {Panel: "back", Edge: "waist", Times: 2, Less: s.taken("back")},
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
	// A waist may dip below a high hip behind: then along the hip line, which lies
	// on the cloth.
	hip[1].Over = piece.Over{Edge: "waist", Through: s.rec.Point("back.hip_centre").Lerp(foot, 0.5), Dir: geom.Vec{X: 1}}
	leg := func(from, to string, share float64) []piece.Span {
		var out []piece.Span
		for _, part := range []string{"front", "back"} {
			at := s.rec.Point(part+".crease_"+from).Lerp(s.rec.Point(part+".crease_"+to), share)
			out = append(out, piece.Span{Panel: part, Through: at, Dir: geom.Vec{X: 1}, Times: 1, Less: tuck})
		}
		return out
	}
	gs := []piece.Girth{
		s.girth(say.Word("waist"), body.WaistGirth, s.rule("waist_ease"), s.T("give the waist its ease"), waist...),
		s.girth(say.Word("hip"), body.HipGirth, s.rule("hip_ease"), s.mend(trueHip, s.T("keep the hip square to the seat line and give it its ease"), s.T("the darts or the seat tilt")), hip...),
		s.girth(say.Word("thigh"), body.ThighGirth, s.rule("thigh_ease"), s.T("change the thigh ease"), leg("thigh", "thigh", 0)...),
	}
	more := unit.Length(0)
	if s.rec.Has("pleat_room") {
		more = s.mm("pleat_room")
	}
	gs[0].Ease += 4*s.in.More("waist_part") + 2*s.in.More("front.waist_part") + 2*s.in.More("back.waist_part")
	gs[1].Ease += 4 * s.in.More("hip_part")
	gs[2].Ease += s.in.More("thigh_all")
	gs[1].Ease += 2 * more
	gs[2].Ease += more / 2
	if s.has("leg", "wide") {
		gs[2].Ease += s.rule("wide_leg") / 2
	}
	gs[0].Roomy = s.has("closure", "elastic")
	// A leg may be wider than the knee and the calf need.
	if !s.has("length", "shorts") {
		g := s.girth(say.Word("knee"), body.KneeGirth, s.rule("knee_ease"), s.T("the thigh is no wider than the knee wants to be: give the thigh more ease, or the knee less"), leg("knee", "knee", 0)...)
		g.Ease += s.in.More("leg.knee")
		g.Roomy = true
		gs = append(gs, g)
	}
	if share, ok := s.calfAt(); ok {
		g := s.girth(say.Word("calf"), body.CalfGirth, 0, s.T("widen knee or hem: the calf does not go through"), leg("knee", "hem", share)...)
		g.Roomy = true
		gs = append(gs, g)
	}
	hem := s.girth(say.Word("hem"), body.HeelGirth, 0, "", leg("knee", "hem", nearHem)...)
	hem.Told = true
	return append(gs, hem)
}

// calfShare is where the calf is fullest, as a share of the way from the knee
// line to the hem (common practice: a hand below the knee).
const calfShare = 0.3

// nearHem measures the hem just inside the outline.
const nearHem = 0.9999
