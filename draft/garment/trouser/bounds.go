package trouser

import (
	"math"

	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

func least(v unit.Length) *unit.Length { return &v }

// flySlack is how much shorter than its rule a fly may come out before it must
// be said: a zip can be had an inch shorter.
const flySlack = unit.Inch

// flyBounds claim that the fly has its straight, its facing and its lap.
func (s *shape) flyBounds() []piece.Bound {
	flyAt := s.rec.Point("front.fly_end")
	straight := s.mm("front.straight_centre")
	return []piece.Bound{
		{
			Check: say.Word("fly"), Say: s.T("fly and zip, between the band and where the fork curve begins"), Of: piece.Measured{Notch: ref("front", "centre"), Named: flyEnd, Times: 1},
			Least: least(s.rule("fly_length") - flySlack), Most: least(max(straight, s.rule("fly_length")-flySlack)),
			Mend: s.T("the straight of the centre front is short: take a zip of this length, or a narrower waistband"), At: &flyAt, Panel: "front",
		},
		{
			Check: say.Word("fly facing"), Say: s.T("straight edge of the fly facing, to be sewn along the fly"), Of: piece.Measured{Edges: []piece.Ref{ofPiece("fly-facing", "centre front")}},
			Least: least(s.mm("fly.length")), Stops: true, Mend: s.T("cut the fly facing longer"),
		},
		{
			Check: say.Word("band lap"), Say: s.T("band lap, over the folded shield"), Figure: s.rule("band_lap"), Most: least(s.mm("fly.folded") + seamTol),
			Mend: s.T("take a shorter band lap or a wider fly: the band runs past the shield"),
		},
	}
}

// forkEase is the room allowed between body and fork seam, waist to waist.
const forkEase = unit.Length(50)

// forkShort is how much shorter than the body a fork seam may be before the
// cut is stopped: no cloth gives so much.
const forkShort = 5 * unit.Inch

// forkSeam measures from the top of the band in front to the top of the band
// behind, as the tape goes round the body.
func (s *shape) forkSeam() []piece.Bound {
	band := s.rule("waistband_width")
	front := piece.Measured{Edges: []piece.Ref{ref("front", "centre"), ref("front", "fork")}, Plus: band}
	back := piece.Measured{Edges: []piece.Ref{ref("back", "centre"), ref("back", "fork")}, Plus: band}
	whole := piece.Measured{Edges: append(append([]piece.Ref{}, front.Edges...), back.Edges...), Plus: 2 * band}
	tip := s.rec.Point("back.fork_tip")
	var out []piece.Bound
	for _, x := range []struct {
		check, say string
		of         piece.Measured
		id         body.ID
	}{
		{say.Word("fork seam"), s.T("fork seam, band to band"), whole, body.TotalCrotchLength},
		{say.Word("fork seam, front"), s.T("front fork seam with its band"), front, body.FrontCrotchLength},
		{say.Word("fork seam, back"), s.T("back fork seam with its band"), back, body.BackCrotchLength},
	} {
		b := piece.Bound{
			Check: x.check, Say: x.say, Of: x.of, At: &tip, Panel: "back",
			Mend: s.T("too short: measure the rise again, or deepen it, or let the fork parts and the raise grow; too long: the other way"),
		}
		v, ok := s.in.Body[x.id]
		if !ok || v.Estimated {
			b.Say = s.F("%s; not proved, since no crotch length was taken", x.say)
			out = append(out, b)
			continue
		}
		most := v.Length + forkEase
		if v.Of == body.OfGarment {
			most = v.Length + forkEase/2
		}
		b.Least, b.Most = least(v.Length), &most
		out = append(out, b)
		if x.id == body.TotalCrotchLength {
			out = append(out, piece.Bound{
				Check: say.Word("fork seam, far too short"), Say: x.say, Of: x.of, Least: least(v.Length - forkShort), Stops: true, At: &tip, Panel: "back",
				Mend: s.T("this fork cannot reach round the body: measure the rise and the crotch length again, and draft it balanced to them or with more rise"),
			})
		}
	}
	return out
}

// maxLean is how far a side seam may run in or out for each inch down before a
// cutter would look again.
const maxLean = 0.5

// Pockets: a hand needs 5¾ in of mouth (common practice); the bag's depth
// below the mouth by the specifications in testdata/body/construction_specs.csv
// (5¾ to 7 in).
func (s *shape) pocketBounds() []piece.Bound {
	if s.has("pocket", "none") {
		return nil
	}
	low := s.rec.Point("front.pocket_low")
	across := unit.Length(s.rec.Point("front.pocket_top").Dist(low))
	depth := s.mm("pocket.bottom") - unit.Length(low.Y)
	inner := s.mm("pocket.inner")
	crease := unit.Length(s.rec.Point("front.crease_fork").X)
	out := []piece.Bound{
		{
			Check: say.Word("pocket mouth"), Say: s.T("pocket mouth, straight across"), Figure: across, Least: least(leastHand),
			Mend: s.T("set the pocket further down the side"), At: &low, Panel: "front",
		},
		{
			Check: say.Word("pocket depth"), Say: s.T("bag below the mouth"), Figure: depth, Least: least(5.75 * unit.Inch), Most: least(7 * unit.Inch),
			Mend: s.T("change the pocket depth"), At: &low, Panel: "front",
		},
		{
			Check: say.Word("pocket clears crease and fly"), Say: s.T("inner edge of the bag from the centre front"), Figure: inner,
			Least: least(unit.Length(math.Max(crease.MM(), s.rule("fly_width").MM()/2))), Mend: s.T("make the bag narrower"), At: &low, Panel: "front",
		},
	}
	if s.slanted() {
		out = append([]piece.Bound{{
			Check: say.Word("pocket along the waist"), Say: s.T("pocket mouth along the waist, against its rule"), Figure: s.mm("pocket.along"), Least: least(s.rule("pocket_along_waist") - unit.Inch/2),
			Mend: s.T("there is less room between dart and side: set the dart nearer the centre, or leave it out"), At: &low, Panel: "front",
		}}, out...)
	}
	return out
}

// dartBounds says so when a dart was made narrower than its rule, or left out.
func (s *shape) dartBounds() []piece.Bound {
	var out []piece.Bound
	for _, part := range []string{"front", "back"} {
		if !s.rec.Has(part+".dart") || part == "front" && s.pleated() {
			continue
		}
		b := piece.Bound{
			Check: s.dartName(part, "dart"), Say: s.F("%s dart, against its rule", s.T(part)), Figure: s.mm(part + ".dart"), Least: least(s.rule(rules.ID(part + "_dart_width"))),
			Mend: s.T("the waist is nearly as large as the hip, so there is less to take in"), Panel: part,
		}
		if !s.rec.Has(part + ".dart_point") {
			b.Figure, b.Say = 0, s.F("%s dart left out", s.T(part))
		}
		out = append(out, b)
	}
	return out
}

func (s *shape) legBounds() []piece.Bound {
	out := append(append(s.dartBounds(), s.piecedBounds()...), s.weltBounds()...)
	for _, part := range []string{"front", "back"} {
		top, hip := s.rec.Point(part+".waist_side"), s.rec.Point(part+".hip_side")
		lean, depth := unit.Length(math.Abs(hip.X-top.X)), unit.Length(hip.Y-top.Y)
		mend := s.T("change the darts: the hip and the waist differ more than one side seam can take up")
		if part == "back" && top.X > hip.X {
			mend = s.T("straighten the seat line: the waist is so large that the side runs out to it")
		}
		out = append(out, piece.Bound{
			Check: say.Word("side lean"), Say: s.F("%s: how far the side runs in or out between hip and waist", s.T(part)), Figure: lean, Most: least(depth * maxLean), Stops: lean > 1.5*maxLean*depth,
			Mend: mend, At: &top, Panel: part,
		})
	}
	if v, ok := s.in.Body[body.InsideLegLength]; ok && !v.Estimated {
		inside := s.mm(s.hemFull()) - s.mm("fork_level") + s.riseEase() + s.in.More("fork_level")
		if s.hemFull() == "hem_level" {
			inside -= s.in.More("hem_level")
		}
		lo, hi := v.Length-1.5*unit.Inch, v.Length+0.5*unit.Inch
		out = append(out, piece.Bound{
			Check: say.Word("inside leg"), Say: s.T("fork line to hem"), Figure: inside + s.rule("floor_clearance"), Least: &lo, Most: &hi,
			Mend: s.T("measure inside leg, outside leg and rise again: they do not agree"),
		})
	}
	return out
}

// riseEase is the room that the rise was given below the body's fork.
func (s *shape) riseEase() unit.Length {
	if s.by != nil && s.rec.Has("fork_level_balanced") {
		return s.riseEaseOfRule() + s.mm("balance.fork_level")
	}
	return s.riseEaseOfRule()
}

func (s *shape) riseEaseOfRule() unit.Length {
	if v, ok := s.in.Body[body.BodyRise]; !ok || v.Estimated || v.Of == body.OfGarment {
		return 0
	}
	return s.rule("rise_ease")
}
