package trouser

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// liningBelow is how far below the knee line a lining ends, mm (common
// practice).
const liningBelow = 2 * 25.4

// linings are front and back once more, of lining, down to below the knee. What
// is sewn as a dart in the cloth is folded in the lining.
func (s *shape) linings() []piece.Piece {
	if s.has("lining", "none") {
		return nil
	}
	y := s.liningHem()
	var out []piece.Piece
	for _, of := range []struct {
		panel    piece.Panel
		id, name string
	}{
		{s.front, "front-lining", say.Word("Front lining")}, {s.back, "back-lining", say.Word("Back lining")},
	} {
		p := piece.Piece{ID: of.id, Name: of.name, Cloth: piece.Lining, Count: 2, Pairs: true, On: of.panel.Name, Note: s.T("fold the darts, do not sew them; hem it by itself")}
		var low geom.Pt
		for _, e := range of.panel.Edges {
			e.Place = piece.Elsewhere
			switch e.Name {
			case "side":
				cut := e.Sew.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1})
				e.Sew, _ = e.Sew.Split(cut[len(cut)-1])
				low = e.Sew.End()
			case "hem":
				inseam, _ := of.panel.Edge("inseam")
				cut := inseam.Sew.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1})
				at, _ := inseam.Sew.At(cut[0])
				e.Sew = geom.Polyline(low, at)
				e.AllowStart, e.AllowEnd = s.rule("seam_allowance"), s.rule("seam_allowance")
				e.Turned = false
			case "inseam":
				cut := e.Sew.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1})
				_, e.Sew = e.Sew.Split(cut[0])
			case "centre":
				e.AllowEnd = e.AllowStart // no inlay
			}
			p.Edges = append(p.Edges, e)
		}
		p.Grain = s.grain(of.panel.Name)
		if p.Grain.D.Y > y-40 {
			p.Grain = geom.Line(p.Grain.A, geom.Pt{X: p.Grain.A.X, Y: y - 40})
		}
		for _, mark := range s.dartMarks(of.panel.Name) {
			at := of.panel.Name + "." + mark
			for _, leg := range []string{"_leg_in", "_leg_out"} {
				p.Lines = append(p.Lines, piece.Line{Name: say.Word("fold, do not sew"), Kind: piece.DartLine, Path: geom.Polyline(s.rec.Point(at+leg), s.rec.Point(at+"_point"))})
			}
		}
		out = append(out, p)
	}
	return out
}

// liningHem is how far below the waist line the lining ends, mm.
func (s *shape) liningHem() float64 {
	return math.Min(s.rec.Value("knee_level")+liningBelow, s.rec.Value("hem_level")-liningBelow)
}

// liningSeen is the hem of the lining, which lies inside.
func (s *shape) liningSeen(part string) []piece.Seen {
	if s.has("lining", "none") {
		return nil
	}
	at := geom.Pt{Y: s.liningHem()}
	var ends [2]geom.Pt
	for i, line := range []string{".side", ".inseam"} {
		path := s.rec.Path(part + line)
		cut := path.CrossLine(at, geom.Vec{X: 1})
		ends[i], _ = path.At(cut[len(cut)-1])
	}
	return []piece.Seen{{Kind: piece.Beneath, Path: geom.Polyline(ends[0], ends[1])}}
}

// liningSeams claim that the linings of front and back meet.
func (s *shape) liningSeams() []piece.Seam {
	if s.has("lining", "none") {
		return nil
	}
	var out []piece.Seam
	for _, of := range []struct{ name, edge string }{{say.Word("side of the lining"), "side"}, {say.Word("inseam of the lining"), "inseam"}} {
		out = append(out, piece.Seam{
			Name: of.name, A: []piece.Ref{ofPiece("front-lining", of.edge)}, B: []piece.Ref{ofPiece("back-lining", of.edge)},
			Tol: liningTol, Mend: s.T("the lining hangs free: ease what is longer into its hem"),
		})
	}
	return out
}

// liningTol is how far the seams of a lining may differ: it is cut level at its
// hem, where the seams of the legs lean differently.
const liningTol = seamTol * 3
