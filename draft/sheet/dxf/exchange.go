package dxf

import (
	"fmt"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
)

// The layers of ASTM D6673, as they are commonly told (from memory).
const (
	boundary    = "1"
	turnPoints  = "2"
	curvePoints = "3"
	notches     = "4"
	mirrorLine  = "6"
	grainLine   = "7"
	innerLines  = "8"
	drillHoles  = "13"
	sewLines    = "14"
	annotations = "15"
)

// turnAngle is the turn, in radians, from which a point of the boundary is a
// corner and not a point of a curve.
const turnAngle = 0.2

// exchange draws a piece in the layers of the standard.
func (b *block) exchange(p piece.Piece, opt sheet.Options) {
	b.line(boundary, true, p.Cut...)
	for i, q := range p.Cut {
		n := len(p.Cut)
		layer := curvePoints
		if before, after := q.Sub(p.Cut[(i+n-1)%n]), p.Cut[(i+1)%n].Sub(q); before.AngleTo(after) > turnAngle {
			layer = turnPoints
		}
		b.mark(layer, q)
	}
	for _, n := range p.Notches {
		b.mark(notches, sheet.NotchEnd(p, n))
	}
	if g := p.Grain; g.A != g.D {
		b.line(grainLine, false, g.A, g.D)
	}
	for _, l := range p.Lines {
		if len(l.Path) > 0 {
			b.line(innerLines, false, l.Path.Flatten(curveTol)...)
		}
	}
	for _, e := range p.Edges {
		if e.Fold && len(e.Sew) > 0 {
			b.line(mirrorLine, false, e.Sew.Flatten(curveTol)...)
		}
	}
	for _, m := range p.Marks {
		b.mark(drillHoles, m.At)
	}
	if len(p.Sew) > 0 {
		b.line(sewLines, true, p.Sew...)
	}
	b.annotate(p, opt)
}

// annotate writes what the piece is, from its middle down. The words before the
// colons are the standard's (from memory), and stay English.
func (b *block) annotate(p piece.Piece, opt sheet.Options) {
	const size, lead = 6.0, 9.0
	box := p.Bounds()
	at := box.Min.Lerp(box.Max, 0.5)
	lines := []string{"PIECE NAME: " + opt.Words.T(p.Name), fmt.Sprintf("QUANTITY: %d", p.Count), "MATERIAL: " + string(p.Cloth)}
	if opt.Job != "" {
		lines = append(lines, "ANNOTATION: "+opt.Job)
	}
	if p.Note != "" {
		lines = append(lines, "ANNOTATION: "+p.Note)
	}
	for i, s := range lines {
		b.items = append(b.items, item{
			layer: annotations, pts: []geom.Pt{at.Add(geom.Vec{Y: lead * float64(i)})}, text: s, size: size,
		})
	}
}
