package skirt

import (
	"math"

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

func (s *shape) claims() piece.Claims {
	return piece.Claims{
		Seams: s.seams(), Girths: s.girths(), Angles: s.angles(), Darts: s.darts(), Turns: s.turns(),
		Bounds: append(s.openings(), s.leans()...), Mends: s.mends(),
	}
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

func (s *shape) seams() []piece.Seam {
	band := piece.Seam{
		Name: say.Word("waist to band"), B: []piece.Ref{piece.OnPiece("waistband", "waist")}, From: s.rule("skirt_band_lap"), LessB: s.rule("skirt_band_lap"),
		Tol: seamTol, Mend: s.T("cut the band to the made-up waist"),
	}
	for _, part := range s.bandRuns() {
		band.A, band.Each = append(band.A, piece.OnPanel(part, "waist")), append(band.Each, s.taken(part))
		band.LessA += s.taken(part)
	}
	return []piece.Seam{
		{
			Name: say.Word("side seam"), A: []piece.Ref{piece.OnPanel("front", "side")}, B: []piece.Ref{piece.OnPanel("back", "side")}, Tol: seamTol,
			Mend: s.mend(trueSide, s.T("raise or lower the back side at the waist until the sides agree"), s.T("the darts or how much the sides take in")),
		},
		band,
	}
}

func (s *shape) girth(name string, id body.ID, ease unit.Length, mend string, spans ...piece.Span) piece.Girth {
	g := piece.Girth{Name: name, Ease: ease, Spans: spans, Mend: mend}
	if v, ok := s.in.Body[id]; ok {
		g.Body, g.Garment, g.Estimated = v.Length, v.Of == body.OfGarment, v.Estimated
	}
	if g.Garment {
		g.Ease = 0
	}
	return g
}

func (s *shape) girths() []piece.Girth {
	var waist, hip []piece.Span
	for _, part := range parts() {
		waist = append(waist, piece.Span{Panel: part, Edge: "waist", Times: 2, Less: s.taken(part)})
		mid := s.point(part, "hip_centre").Lerp(s.point(part, "hip_side"), 0.5)
		hip = append(hip, piece.Span{Panel: part, Through: mid, Dir: geom.Vec{X: 1}, Times: 2})
	}
	gs := []piece.Girth{
		s.girth(say.Word("waist"), body.WaistGirth, s.rule("skirt_waist_ease"), s.T("give the waist its ease"), waist...),
		s.girth(say.Word("hip"), body.HipGirth, s.rule("skirt_hip_ease"), s.T("give the hip its ease"), hip...),
	}
	gs[0].Ease += 4*s.in.More("waist_part") + 2*s.in.More("front.waist_made") + 2*s.in.More("back.waist_made")
	gs[1].Ease += 4 * s.in.More("hip_part")
	return gs
}

func (s *shape) angles() []piece.Angle {
	square := s.mend(trueWaist, s.T("square the waist"), s.T("the darts or how much the sides take in"))
	hem := s.mend(trueHem, s.T("draw the hem square to the side"), s.T("the flare or the peg"))
	corner := piece.OnPanel
	return []piece.Angle{
		{Name: say.Word("waist at the side"), Corners: []piece.Ref{corner("front", "waist"), corner("back", "waist")}, Want: 180, Tol: smoothTol, Mend: square},
		{Name: say.Word("waist at the centre front"), Corners: []piece.Ref{corner("front", "centre")}, Want: 90, Tol: squareTol, Mend: square},
		{Name: say.Word("waist at the centre back"), Corners: []piece.Ref{corner("back", "centre")}, Want: 90, Tol: squareTol, Mend: square},
		{Name: say.Word("hem at the side"), Corners: []piece.Ref{corner("front", "side"), corner("back", "side")}, Want: 180, Tol: smoothTol, Mend: hem},
		{Name: say.Word("hem at the centre front"), Corners: []piece.Ref{corner("front", "hem")}, Want: 90, Tol: squareTol, Mend: hem},
		{Name: say.Word("hem at the centre back"), Corners: []piece.Ref{corner("back", "hem")}, Want: 90, Tol: squareTol, Mend: hem},
	}
}

// Within a hand's breadth a side may turn so far before a cutter would draw it
// again by eye (common practice).
const (
	mostTurn  = 24.0 // degrees
	handsBack = 4 * unit.Inch
)

func (s *shape) turns() []piece.Turn {
	out := []piece.Turn{
		{Name: say.Word("turn of the front side"), Edge: piece.OnPanel("front", "side")},
		{Name: say.Word("turn of the back side"), Edge: piece.OnPanel("back", "side")},
	}
	for i := range out {
		out[i].Within, out[i].Most = handsBack, mostTurn
		out[i].Mend = s.T("let the darts take in more, and the sides less")
	}
	return out
}

func length(v unit.Length) *unit.Length { return &v }

// openings are what the wearer gets into it and walks in it by.
func (s *shape) openings() []piece.Bound {
	part, edge := "back", "centre"
	zip := piece.Measured{Notch: piece.OnPanel(part, edge), Named: zipEnd(), Times: 2, Girth: "waist"}
	if s.has("closure", "zip_side") {
		part, edge = "front", "side"
		zip.Notch, zip.FromStart = piece.OnPanel(part, edge), true
	}
	at := s.point(part, "zip_end")
	hip := s.in.Body[body.HipGirth].Length
	hems := []piece.Ref{piece.OnPanel("front", "hem"), piece.OnPanel("front", "hem"), piece.OnPanel("back", "hem"), piece.OnPanel("back", "hem")}
	stride := s.T("hem all round")
	open := 2 * s.mm0("opening.height")
	if s.has("opening", "side_slits") {
		open *= 2
	}
	if open > 0 {
		stride = s.T("hem all round, and both edges of its opening")
	}
	foot := s.point("front", "hem_side")
	return []piece.Bound{
		{
			Check: say.Word("stepping in"), Say: s.T("waist opening with the zip open"), Of: zip, Least: length(hip), Stops: true,
			Mend: s.T("take a longer zip, or more ease at the waist"), At: &at, Panel: part,
		},
		{
			Check: say.Word("room to walk"), Say: stride, Of: piece.Measured{Edges: hems, Plus: open}, Least: length(s.walking()),
			Mend: s.T("give it a vent or a slit, or a higher one, or let it flare"), At: &foot, Panel: "front",
		},
	}
}

// mm0 is mm of what need not be there.
func (s *shape) mm0(name string) unit.Length {
	if !s.rec.Has(name) {
		return 0
	}
	return s.mm(name)
}

// walking is what the hem must measure to walk in: between the hip, where the
// legs part, and the knee they spread evenly, and on below it (from memory; the
// room at the knee is common practice).
func (s *shape) walking() unit.Length {
	hip, knee, hem := s.mm("hip_level"), s.in.Body[body.WaistToKnee].Length, s.mm("hem_level")
	at := s.in.Body[body.HipGirth].Length
	share := unit.Length(math.Max(0, float64((hem-hip)/max(knee-hip, unit.Inch))))
	return at + max(s.rule("walking_room")-at, 0)*share
}

// maxLean is how far a side seam may run in or out for each inch down before a
// cutter would look again. mostDart is how much one dart may take in before it
// stands off in a point (both common practice).
const (
	maxLean  = 0.5
	mostDart = 1.5 * unit.Inch
)

func (s *shape) leans() []piece.Bound {
	var out []piece.Bound
	for _, part := range parts() {
		top, hip := s.point(part, "waist_side"), s.point(part, "hip_side")
		lean, depth := unit.Length(math.Abs(hip.X-top.X)), unit.Length(hip.Y-top.Y)
		out = append(out, piece.Bound{
			Check: say.Word("side lean"), Say: s.F("%s: how far the side runs in or out between hip and waist", s.T(part)), Figure: lean, Most: length(depth * maxLean), Stops: lean > 1.5*maxLean*depth,
			Mend: s.T("sew more darts: the hip and the waist differ more than one side seam can take up"), At: &top, Panel: part,
		})
		n := s.dartCount(part)
		if n > 0 {
			out = append(out, piece.Bound{
				Check: dartWidth(part), Say: s.F("%s: width of a dart", s.T(part)), Figure: s.mm(part + ".dart"), Most: length(mostDart),
				Mend: s.T("sew two darts, or let the side take in more"), Panel: part,
			})
		}
		if want := map[string]int{"one": 1, "two": 2}[s.in.Style[part+"_dart"]]; n < want {
			// Told, and not judged: there is too little to take in.
			rest := s.mm(part+".hip_width") - s.mm(part+".waist_made") - s.mm0(part+".side_in")
			out = append(out, piece.Bound{
				Check: dartsLeft(part), Say: s.F("%s: what is left for darts to take in, too little for as many", s.T(part)), Figure: rest, Panel: part,
			})
		}
	}
	return out
}

func dartWidth(part string) string {
	if part == "back" {
		return say.Word("width of the back darts")
	}
	return say.Word("width of the front darts")
}

func dartsLeft(part string) string {
	if part == "back" {
		return say.Word("back darts left out")
	}
	return say.Word("front darts left out")
}
