package bodice

import (
	"math"

	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
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
	return piece.Claims{Seams: s.seams(), Girths: s.girths(), Angles: s.angles(), Darts: s.darts(), Bounds: s.bounds(), Mends: s.mends()}
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
	return []piece.Seam{
		{
			Name: say.Word("shoulder seam"), A: []piece.Ref{piece.OnPanel("front", "shoulder")}, B: []piece.Ref{piece.OnPanel("back", "shoulder")},
			LessA: s.taken("front", "shoulder"), Tol: seamTol, Mend: s.T("cut both shoulders to one length"),
		},
		{
			Name: say.Word("side seam"), A: []piece.Ref{piece.OnPanel("front", "side")}, B: []piece.Ref{piece.OnPanel("back", "side")},
			LessA: s.taken("front", "side"), Tol: seamTol,
			Mend: s.mend(trueSide, s.T("raise or lower the front side at the waist until the sides agree"), s.T("the bust dart or the front waist length")),
		},
	}
}

func (s *shape) girths() []piece.Girth {
	girth := func(name string, id body.ID, ease rules.ID, mend string, spans ...piece.Span) piece.Girth {
		v := s.in.Body[id]
		g := piece.Girth{Name: name, Ease: s.rule(ease), Spans: spans, Mend: mend, Body: v.Length, Garment: v.Of == body.OfGarment, Estimated: v.Estimated}
		if g.Garment {
			g.Ease = 0
		}
		return g
	}
	level := s.mm("front.bust_level").MM()
	above := s.mm("front.waist_level").MM() - level // the bust above the waist
	behind := math.Max(s.mm("back.waist_level").MM()-above, s.mm("back.scye_level").MM()+1)
	x := s.mm("neck_width").MM()
	// The tape goes from the centre over the bust point to the side, on what was
	// turned as well.
	point := s.point("front", "bust_point")
	fromBust := func(dir geom.Vec) piece.Span {
		return piece.Span{Panel: "front", Through: point, Dir: dir, Base: geom.Line(point, point.Add(geom.Vec{Y: 1})), Times: 2}
	}
	gs := []piece.Girth{
		girth(say.Word("bust"), body.ChestGirth, "bust_ease", s.mend(trueBust, s.T("widen it at the scye line until it measures the bust at its level"), s.T("what the sides take in")),
			fromBust(geom.Vec{X: -1}), fromBust(s.turned(geom.Vec{X: 1})),
			piece.Span{Panel: "back", Through: geom.Pt{X: x, Y: behind}, Dir: geom.Vec{X: 1}, Times: 2, Less: s.backDartAt(behind)}),
		girth(say.Word("waist"), body.WaistGirth, "bodice_waist_ease", s.mend(trueWaist, s.T("give the waist its ease"), s.T("the waist darts")),
			piece.Span{Panel: "front", Edge: "waist", Times: 2, Less: s.taken("front", "waist")},
			piece.Span{Panel: "back", Edge: "waist", Times: 2, Less: s.taken("back", "waist")}),
	}
	for i, sum := range []string{"bust_part", "waist_made"} {
		gs[i].Ease += 2*s.in.More("front."+sum) + 2*s.in.More("back."+sum)
	}
	return gs
}

// turned is a direction as it lies where the front was turned about the bust
// point.
func (s *shape) turned(dir geom.Vec) geom.Vec {
	if !s.rec.Has("front.dart_turned") {
		return dir
	}
	p := s.point("front", "bust_point")
	a, b := s.point("front", "dart_fixed").Sub(p), s.point("front", "dart_turned").Sub(p)
	return dir.Rotate(math.Atan2(a.Cross(b), a.Dot(b)))
}

// backDartAt is what the back waist dart takes in at a level.
func (s *shape) backDartAt(y float64) unit.Length {
	for _, d := range s.darts() {
		if d.Panel != "back" || y <= d.Point.Y {
			continue
		}
		foot := d.Legs[0].Lerp(d.Legs[1], 0.5)
		return unit.Length(d.Legs[0].Dist(d.Legs[1]) * (y - d.Point.Y) / (foot.Y - d.Point.Y))
	}
	return 0
}

func (s *shape) angles() []piece.Angle {
	shoulder := s.mend(trueShoulder, s.T("draw neck and armhole square to the shoulder and to the side"), s.T("the shoulder drop or the neck"))
	waist := s.mend(trueWaist, s.T("square the waist"), s.T("the waist darts"))
	both := func(name, edge, mend string) piece.Angle {
		return piece.Angle{Name: name, Corners: []piece.Ref{piece.OnPanel("front", edge), piece.OnPanel("back", edge)}, Want: 180, Tol: smoothTol, Mend: mend}
	}
	one := func(name, part, edge, mend string) piece.Angle {
		return piece.Angle{Name: name, Corners: []piece.Ref{piece.OnPanel(part, edge)}, Want: 90, Tol: squareTol, Mend: mend}
	}
	return []piece.Angle{
		both(say.Word("neck at the shoulder"), "neck", shoulder),
		both(say.Word("armhole at the shoulder"), "shoulder", shoulder),
		both(say.Word("armhole at the side"), "armhole", shoulder),
		both(say.Word("waist at the side"), "side", waist),
		one(say.Word("waist at the centre front"), "front", "waist", waist),
		one(say.Word("waist at the centre back"), "back", "waist", waist),
		one(say.Word("neck at the centre front"), "front", "centre", shoulder),
		one(say.Word("neck at the centre back"), "back", "centre", shoulder),
	}
}

// headGirth is what a head measures round, for a neck that it must go through
// (common practice).
const headGirth = 22 * unit.Inch

// mostDart is how much one dart may take in before it stands off in a point
// (common practice), and mostFuller how much the front may be longer than the back
// before another look at the tape.
const mostDart = 2 * unit.Inch

func (s *shape) bounds() []piece.Bound {
	length := func(v unit.Length) *unit.Length { return &v }
	arm := []piece.Ref{piece.OnPanel("front", "armhole"), piece.OnPanel("back", "armhole")}
	armhole := piece.Bound{Check: say.Word("armhole"), Say: s.T("armhole all round"), Of: piece.Measured{Edges: arm}, Panel: "front", Mend: s.T("lower the armhole, or cut the shoulder in less")}
	if v, ok := s.in.Body[body.UpperArmGirth]; ok {
		armhole.Say, armhole.Least = s.T("armhole all round, against the arm and two inches"), length(v.Length+2*unit.Inch)
	}
	out := []piece.Bound{armhole}
	if s.has("closure", "zip_side") {
		neck := []piece.Ref{piece.OnPanel("front", "neck"), piece.OnPanel("front", "neck"), piece.OnPanel("back", "neck"), piece.OnPanel("back", "neck")}
		out = append(out, piece.Bound{
			Check: say.Word("head through the neck"), Say: s.T("neck all round, against a head"), Of: piece.Measured{Edges: neck}, Least: length(headGirth), Panel: "front",
			Mend: s.T("cut the neck lower, open it at the nape, or set the zip at the centre back"),
		})
	}
	wanted := s.mm("front.waist_level") - s.mm("front.scye_level") - (s.mm("back.waist_level") - s.mm("back.scye_level"))
	lo, hi := wanted-unit.Inch/2, wanted+unit.Inch/2
	out = append(out, piece.Bound{
		Check: say.Word("width of the bust dart"), Say: s.T("bust dart, against what the front is longer than the back"), Figure: s.mm("bust_dart"), Least: &lo, Most: &hi, Panel: "front",
		Mend: s.T("measure the front and the back waist length again, or change the least and the most of the bust dart"),
	})
	for _, part := range parts() {
		if s.rec.Has(part + ".waistdart_point") {
			out = append(out, piece.Bound{
				Check: waistDartWidth(part), Say: s.F("%s: width of a dart", s.T(part)), Figure: s.mm(part + ".dart"), Most: length(mostDart), Panel: part,
				Mend: s.T("let the side take in more, or give the waist more ease"),
			})
		}
	}
	return out
}

func waistDartWidth(part string) string {
	if part == "back" {
		return say.Word("width of the back waist dart")
	}
	return say.Word("width of the front waist dart")
}

func (s *shape) mends() map[string][]piece.Mend {
	out := garment.Mends{}
	add, rule := out.Add, garment.SetRule
	out.AddTruings(s.in, map[string]string{
		"side seam": trueSide, "bust girth": trueBust, "waist girth": trueWaist, "neck at the shoulder": trueShoulder, "armhole at the shoulder": trueShoulder,
		"armhole at the side": trueShoulder, "waist at the side": trueWaist, "waist at the centre front": trueWaist, "waist at the centre back": trueWaist,
		"front waist dart, waist across it": trueWaist, "back waist dart, waist across it": trueWaist,
	})
	add("head through the neck", garment.Choose("neck", "low"), garment.Choose("closure", "zip_back"))
	add("armhole", rule("scye_ease", 1), rule("shoulder_in", -1))
	add("width of the bust dart", rule("most_bust_dart", 1), rule("least_bust_dart", 1))
	add("width of the bust dart", garment.TakeAgain(body.FrontWaist, body.BackWaistLength)...)
	for _, part := range parts() {
		add(waistDartWidth(part), rule("bodice_side_part", 0.02), rule("bodice_most_side", 1), rule("bodice_waist_ease", 4))
	}
	return out
}

// cards are the curves that a tape cannot draw.
func cards() []construct.Card {
	return []construct.Card{
		{Name: say.Word("front neck"), Line: "front.neck"},
		{Name: say.Word("back neck"), Line: "back.neck"},
		{Name: say.Word("front armhole"), Line: "front.armhole"},
		{Name: say.Word("back armhole"), Line: "back.armhole"},
		{Name: say.Word("front waist"), Line: "front.waist"},
		{Name: say.Word("back waist"), Line: "back.waist"},
	}
}

// notions are what the draft knows of: a zip as long as it opens.
func (s *shape) notions() []piece.Notion {
	zip := unit.Length(s.edge("back", "centre").Sew.Len())
	if s.has("closure", "zip_side") {
		side := s.edge("back", "side").Sew
		at, _ := side.Nearest(s.point("back", "zip_end"))
		zip = unit.Length(side.Len() - at)
	}
	return []piece.Notion{
		{ID: "zip", Name: say.Word("zip, closed at its lower end"), Count: 1, Least: zip},
		{ID: "hook", Name: say.Word("hook and eye, small"), Count: 1},
	}
}

// Gifts are what a bodice can give when cloth is short, least harm first (common
// practice).
func Gifts(style garment.Style, set rules.Set, metric bool) []garment.Gift {
	var out []garment.Gift
	if style["finish"] == "faced" {
		out = append(out, garment.Gift{
			Mend: piece.Mend{Path: "style.finish", To: "lined"}, Harm: 3, Cost: say.Word("It is lined throughout, and nothing of the cloth shows inside."),
		})
	}
	steps := func(id rules.ID, by, limit unit.Length, harm, more int, g garment.Gift) {
		for i, to := range garment.Steps(set, id, by, limit, metric) {
			g.Path, g.To, g.Harm = "rules."+string(id), to, harm+i*more
			out = append(out, g)
		}
	}
	steps("bodice_foot_allowance", -unit.Inch/4, 3*unit.Inch/8, 5, 3, garment.Gift{Cost: say.Word("Less to let down later.")})
	steps("bust_ease", -unit.Inch/2, unit.Inch, 15, 8, garment.Gift{Cost: say.Word("It fits more closely at the bust."), Tells: []string{"bust"}, Leave: true})
	return out
}
