package draft

import (
	"math"

	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sketch"
	"chalkfold/draft/unit"
)

// HandoverOptions say what a handover page tells besides the job itself.
type HandoverOptions struct {
	// Client is whom the garment is for; it is told only when it is given.
	Client string
	// Laid is the lay on the first cloth, when one was made: see Lay.
	Laid *Laid
}

// Handover is the one page that goes with a job from hand to hand: the garment
// as it is worn, measurements, pieces, the lay, notions, and room for notes.
func Handover(r *Result, paper sheet.Paper, opt HandoverOptions) (sheet.Drawing, error) {
	w := r.Format.Words
	h := handover{w, r}
	page := sheet.Handover{
		Words: w, Title: Title(r), Flat: FlatSketch(r),
		Left:  []sheet.Part{h.measured(), h.style(), h.pieces()},
		Right: []sheet.Part{h.notions()},
	}
	if opt.Client != "" {
		page.Sub = append(page.Sub, w.F("For: %s", opt.Client))
	}
	if r.Report.Stopped() {
		page.Sub = append(page.Sub, w.N(len(r.Report.At(proof.Stops)), "Do not cut: %d finding stops the cut", "Do not cut: %d findings stop the cut"))
	}
	if l := opt.Laid; l != nil {
		page.Lay = func(text unit.Length) sheet.Drawing { return l.Drawing(r.Format, sheet.Options{Words: w, Text: text}) }
	}
	d, ok := page.Draw(paper)
	if !ok {
		return sheet.Drawing{}, say.Errorf("handover: it is more than one sheet of %s holds; take a larger paper", paper.Name)
	}
	return d, nil
}

// FlatSketch draws the garment of a draft as it is worn, front and back beside
// each other; empty when it cannot be drawn so.
func FlatSketch(r *Result) sheet.Drawing {
	var d sheet.Drawing
	flat, ok := sketch.Of(r.Panels, r.Darts, r.Worn)
	if !ok {
		return d
	}
	box := flat.Box()
	const apart = 0.15 // of the width, between the views
	for i, view := range []sketch.View{flat.Front, flat.Back} {
		at := geom.Translate(geom.Vec{X: float64(i) * box.W() * (1 + apart)})
		for _, s := range view {
			path := s.Path.Map(at)
			if s.Area() {
				d.Path(sheet.Shape{Role: areaRole(s.Role), Path: path, Closed: true, Filled: true})
			}
			d.Path(sheet.Shape{Role: lineRole(s.Role), Path: path, Closed: s.Area()})
		}
	}
	d.Bounds = box
	d.Bounds.Max.X += box.W() * (1 + apart)
	return d
}

func areaRole(r sketch.Role) sheet.Role {
	if r == sketch.Within {
		return sheet.ClothArea
	}
	return sheet.Blank
}

func lineRole(r sketch.Role) sheet.Role {
	switch r {
	case sketch.Stitching, sketch.Under:
		return sheet.DartLine
	case sketch.Crease:
		return sheet.CreaseLine
	case sketch.Cloth, sketch.Band, sketch.Within, sketch.Seam, sketch.Tuck, sketch.Folded, sketch.Mouth, sketch.Loop, sketch.Fastening:
	}
	return sheet.Dimension
}

type handover struct {
	*say.Words
	r *Result
}

func (h handover) measured() sheet.Part {
	p := sheet.Part{Title: h.T("Measured")}
	for _, d := range body.Defs() {
		v, ok := h.r.Body[d.ID]
		switch {
		case !ok:
		case v.Estimated:
			p.Lines = append(p.Lines, h.F("%s: about %s, not taken", say.Name(d.Name), h.r.Format.Text(v.Length)))
		case v.Of == body.OfGarment:
			p.Lines = append(p.Lines, h.F("%s: %s, of a garment that fits", say.Name(d.Name), v.Given))
		default:
			p.Lines = append(p.Lines, h.F("%s: %s", say.Name(d.Name), v.Given))
		}
	}
	return p
}

func (h handover) style() sheet.Part {
	p := sheet.Part{Title: h.T("Style")}
	for _, o := range h.r.Garment.Options {
		for _, c := range o.Choices {
			if c.ID == h.r.Style[o.ID] {
				p.Lines = append(p.Lines, h.F("%s: %s", say.Name(o.Name), say.Name(c.Name)))
			}
		}
	}
	return p
}

func (h handover) pieces() sheet.Part {
	p := sheet.Part{Title: h.T("Pieces")}
	for _, q := range h.r.Pieces {
		line := h.F("%d × %s", q.Count, say.Within(q.Name))
		if q.Cloth != piece.Main {
			line = h.F("%s, %s", line, say.Name(q.Cloth))
		}
		p.Lines = append(p.Lines, line)
	}
	return p
}

func (h handover) notions() sheet.Part {
	p := sheet.Part{Title: h.T("Notions")}
	for _, n := range h.r.Notions {
		line := h.F("%d × %s", n.Count, say.Name(n.Name))
		if n.Least > 0 {
			line = h.F("%s, at least %s", line, h.r.Format.Text(n.Least))
		}
		p.Lines = append(p.Lines, line)
	}
	for _, kind := range []piece.Cloth{piece.Lining, piece.Interfacing} {
		if width, length, ok := needs(h.r, kind); ok {
			p.Lines = append(p.Lines, h.F("%s, %s wide: %s", say.Name(kind), h.r.Format.Text(width), h.r.Format.Bought(length)))
		}
	}
	seams := seamsOf(h.r)
	thread := unit.UpTo(seams*threadPerSeam, 10*unit.Metre)
	metres := unit.Format{System: unit.Metres, Words: h.Words}
	p.Lines = append(p.Lines, h.F("sewing thread: about %s, for %s of seam", metres.Text(thread), metres.Text(unit.UpTo(seams, unit.Metre))))
	return p
}

// threadPerSeam is how much thread a lockstitch takes for its length, upper and
// lower together, with what is lost at the ends (common practice).
const threadPerSeam = 3

// The widths that lining and interfacing are commonly sold in (common
// practice), where the job has none of its own.
const (
	liningWidth      = 45 * unit.Inch
	interfacingWidth = 36 * unit.Inch
)

// needs is how much of a cloth the garment takes, laid open: of the job's own
// width, or of a common one. It is not ok when no piece is cut from it.
func needs(r *Result, kind piece.Cloth) (width, length unit.Length, ok bool) {
	c := lay.Cloth{Kind: kind, Width: liningWidth}
	if kind == piece.Interfacing {
		c.Width = interfacingWidth
	}
	for _, own := range r.Job.Cloth {
		if own.Kind == kind && own.Width.Set() {
			c.Width = own.Width.Length()
			break
		}
	}
	items, err := lay.Items(r.Pieces, c)
	if err != nil || len(items) == 0 {
		return 0, 0, false
	}
	laid, err := lay.Pack(c, items, lay.Options{Work: 1})
	if err != nil {
		return 0, 0, false
	}
	return c.Width, laid.Length, true
}

// seamsOf is how long the seams and hems of a draft are together, about: every
// edge with an allowance, two of them to a seam.
func seamsOf(r *Result) unit.Length {
	sum := 0.0
	for _, p := range r.Pieces {
		if p.Cloth == piece.Interfacing {
			continue
		}
		for _, e := range p.Edges {
			if math.Max(e.AllowStart.MM(), e.AllowEnd.MM()) == 0 {
				continue
			}
			both := 2.0
			if e.Turned {
				both = 1
			}
			sum += float64(p.Count) * e.Sew.Len() / both
		}
	}
	return unit.Length(sum)
}
