package drafting

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/ui/kit"
)

// Lit is the place on the draft that is pointed at. The zero value points at
// nothing.
type Lit struct {
	Panel string   // a panel, or a piece by its ID
	At    *geom.Pt // in the panel's own frame; nil is the whole of it
}

// How the pieces are set beside each other, mm.
const (
	gap       = 30.0
	tallShare = 0.4   // of the tallest: stands in the row of the large pieces
	least     = 140.0 // width of a piece's place, for its number
)

// Pieces draws the pieces for a small screen: the tall ones beside each other,
// the small ones in rows beneath, each with its number in the list until
// its name has room. It measures and fits nothing, since it is drawn anew at
// every key. chosen is the thing that is pointed at, lit what a finding points
// at.
func Pieces(r *draft.Result, chosen string, lit Lit) (Scene, geom.Pt) {
	p := &pieces{r: r, chosen: chosen, lit: lit}
	p.names.Pen = &p.pen
	tallest := 0.0
	for _, x := range r.Pieces {
		tallest = math.Max(tallest, x.Bounds().H())
	}
	p.h = tallest
	var small []int
	for i, x := range r.Pieces {
		if x.Bounds().H() < tallShare*tallest {
			small = append(small, i)
			continue
		}
		box := x.Bounds()
		w := math.Max(box.W(), least)
		p.piece(i, geom.Translate(geom.Pt{X: p.x + (w-box.W())/2, Y: (p.h - box.H()) / 2}.Sub(box.Min)))
		p.x += w + gap
	}
	p.rows(small)
	p.pen.Reach(geom.Rect{Min: geom.Pt{X: -gap, Y: -gap}, Max: geom.Pt{X: p.x, Y: p.h + gap}})
	for i, x := range r.Pieces {
		p.names.Inside("label", strconv.Itoa(i+1), r.Format.Words.T(x.Name), p.boxes[i])
	}
	if p.spotted {
		p.pen.Mark("spot", p.spot)
	}
	return Scene{SVG: p.pen.String(), Things: p.things}, p.spot
}

type pieces struct {
	r       *draft.Result
	chosen  string
	lit     Lit
	pen     kit.Pen
	names   kit.Labels
	things  []Thing
	boxes   [64]geom.Rect
	h, x    float64
	spot    geom.Pt
	spotted bool
}

// rows sets the small pieces under the large ones, in rows as wide.
func (p *pieces) rows(small []int) {
	x, deep := 0.0, 0.0
	y := p.h + gap
	for _, i := range small {
		box := p.r.Pieces[i].Bounds()
		w := math.Max(box.W(), least)
		if x > 0 && x+w > p.x {
			y += deep + gap
			x, deep = 0, 0
		}
		p.piece(i, geom.Translate(geom.Pt{X: x + (w-box.W())/2, Y: y}.Sub(box.Min)))
		x += w + gap
		deep = math.Max(deep, box.H())
	}
	p.h = y + deep
}

func (p *pieces) piece(i int, at geom.Affine) {
	x := p.r.Pieces[i]
	box := x.Bounds()
	p.boxes[i] = geom.Rect{Min: at.Pt(box.Min), Max: at.Pt(box.Max)}
	id := pieceID(x.ID)
	found := p.lit.Panel != "" && (p.lit.Panel == x.ID || p.lit.Panel == x.On && !p.hasPiece(p.lit.Panel))
	Outline(&p.pen, x, at, p.chosen == id || found && p.lit.At == nil)
	for _, l := range x.Lines {
		p.pen.Path("inner", l.Path, at)
	}
	for _, m := range x.Marks {
		p.pen.Mark("mark", at.Pt(m.At))
	}
	p.things = append(p.things, Thing{ID: id, Ring: geom.MapPts(x.Cut, at)})
	for _, e := range x.Edges {
		t := Thing{ID: stepOf(p.r.Record, x, e), Path: e.Sew.Map(at)}
		switch t.ID {
		case "":
			t.ID = id
		case p.chosen:
			p.pen.Path("now", e.Sew, at)
			p.point(t.place())
		}
		p.things = append(p.things, t)
	}
	if x.ID == x.On {
		for _, s := range p.r.Record.Steps() {
			if s.Kind != construct.KindPoint || s.Part != x.On {
				continue
			}
			where := at.Pt(p.r.Record.Point(s.Name))
			p.things = append(p.things, Thing{ID: s.Name, At: where})
			if s.Name == p.chosen {
				p.point(where)
			}
		}
	}
	switch {
	case found && p.lit.At != nil:
		p.point(at.Pt(*p.lit.At))
	case p.chosen == id || found:
		p.spot = p.boxes[i].Min.Lerp(p.boxes[i].Max, 0.5)
	}
}

// point has the light set at a place, once.
func (p *pieces) point(at geom.Pt) {
	if !p.spotted {
		p.spot, p.spotted = at, true
	}
}

func (p *pieces) hasPiece(id string) bool {
	for _, x := range p.r.Pieces {
		if x.ID == id {
			return true
		}
	}
	return false
}

// stepOf is the step that laid an edge of a piece; empty when the edge has none
// of its own.
func stepOf(r *construct.Record, x piece.Piece, e piece.Edge) string {
	name := x.On + "." + strings.ReplaceAll(e.Name, " ", "_")
	if s, ok := r.Find(name); ok && s.Kind == construct.KindCurve {
		return name
	}
	return ""
}

// Outline draws the cut line, sew lines, grain and notches of a piece.
func Outline(pen *kit.Pen, x piece.Piece, at geom.Affine, lit bool) {
	class := "cut"
	if lit {
		class = "cut lit"
	}
	pen.Ring(class, x.Cut, at)
	for _, e := range x.Edges {
		switch {
		case e.Fold:
			pen.Path("fold", e.Sew, at)
		case e.AllowStart != 0 || e.AllowEnd != 0:
			pen.Path("sew", e.Sew, at)
		}
	}
	pen.Path("grain", geom.Path{x.Grain}, at)
	for _, n := range x.Notches {
		pen.Path("notch", geom.Polyline(n.At, n.At.Add(n.Out.Scale(9))), at)
	}
}
