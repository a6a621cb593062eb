package trouser

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// turnUpMarks lays the cloth of a turn-up below the hem: folded in at the hem
// and up again, it lies on the leg that it is folded over, so that its sides
// run as those of the leg above the hem, mirrored there and back.
func (d *drafter) turnUpMarks() {
	if !d.has("hem", "turn_up") {
		return
	}
	rec, _ := d.Record()
	for _, part := range []string{"front", "back"} {
		d.Part(part)
		for _, end := range []struct{ mark, line, label string }{
			{"out", "side", d.T("at the side")}, {"in", "inseam", d.T("at the inside")},
		} {
			hem := d.Point(part + ".hem_" + end.mark)
			over := hem
			if s := rec.Path(part+"."+end.line).CrossLine(geom.Pt{X: hem.X, Y: hem.Y - d.Get("turn_up")}, geom.Vec{X: 1}); len(s) > 0 {
				over, _ = rec.Path(part + "." + end.line).At(s[len(s)-1])
			}
			fold := geom.Pt{X: over.X, Y: 2*hem.Y - over.Y}
			d.Place(part+".turn_"+end.mark, d.F("turn-up, its upper fold %s", end.label), part+".hem_"+end.mark, d.T("down, as the leg runs above the hem, mirrored"), fold,
				d.T("the turn-up comes to lie on the leg here"), "turn_up")
			d.Measure(part+".cuff_"+end.mark, d.F("turn-up, its end %s", end.label), part+".hem_"+end.mark, down(d.T("straight down")), "2 * turn_up", d.T("twice the turn-up; the hem allowance goes on from here"))
		}
		d.Straight(part+".turn_side", d.F("%s turn-up, side", d.T(part)), d.T("mirrored at the hem, and back at the fold"), part+".hem_out", part+".turn_out", part+".cuff_out")
		d.Straight(part+".turn_inside", d.F("%s turn-up, inside", d.T(part)), d.T("mirrored at the hem, and back at the fold"), part+".cuff_in", part+".turn_in", part+".hem_in")
		d.Straight(part+".turn_fold", d.F("%s turn-up, fold", d.T(part)), d.T("its upper edge when it is turned up"), part+".turn_out", part+".turn_in")
		d.Straight(part+".cuff", d.F("%s turn-up, end", d.T(part)), d.T("the hem allowance goes on from here"), part+".cuff_out", part+".cuff_in")
	}
}

func (s *shape) turnedUp() bool { return s.has("hem", "turn_up") }

// turnUpOn gives a leg the cloth of its turn-up.
func (s *shape) turnUpOn(p *piece.Piece) {
	if !s.turnedUp() {
		return
	}
	part, seam := p.ID, s.rule("seam_allowance")
	var edges []piece.Edge
	for _, e := range p.Edges {
		if e.Name != "hem" {
			edges = append(edges, e)
			continue
		}
		end := edge(say.Word("end of the turn-up"), s.rec.Path(part+".cuff"), min(s.rule("hem_allowance"), s.rule("turn_up")-unit.Inch/8))
		end.Turned = true
		edges = append(edges, edge(say.Word("turn-up, side"), s.rec.Path(part+".turn_side"), seam), end, edge(say.Word("turn-up, inside"), s.rec.Path(part+".turn_inside"), seam))
	}
	p.Edges = edges
	p.Lines = append(p.Lines,
		piece.Line{Name: say.Word("hem, fold"), Kind: piece.FoldLine, Path: s.rec.Path(part + ".hem")},
		piece.Line{Name: say.Word("turn-up, fold"), Kind: piece.FoldLine, Path: s.rec.Path(part + ".turn_fold")})
}

// turnUpSeen is the upper edge of a turn-up as it shows.
func (s *shape) turnUpSeen(part string) []piece.Seen {
	if !s.turnedUp() {
		return nil
	}
	over := s.rec.Path(part + ".turn_fold").Map(geom.Affine{A: 1, D: -1, F: 2 * s.rec.Point(part+".hem_out").Y})
	return []piece.Seen{{Kind: piece.TurnedUp, Path: over}}
}
