package draft

import (
	"chalkfold/draft/bench"
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
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
	// By is what it is sewn with, which thread depends on.
	By bench.Setting
}

// Handover is the one page that goes with a job from hand to hand: the garment
// as it is worn, measurements, pieces, the lay, notions, and room for notes.
func Handover(r *Result, paper sheet.Paper, opt HandoverOptions) (sheet.Drawing, error) {
	w := r.Format.Words
	h := handover{w, r}
	notions, err := h.notions(opt.By)
	if err != nil {
		return sheet.Drawing{}, err
	}
	page := sheet.Handover{
		Words: w, Title: Title(r), Flat: FlatSketch(r),
		Left:  []sheet.Part{h.measured(), h.style(), h.pieces()},
		Right: []sheet.Part{notions},
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

func (h handover) notions(by bench.Setting) (sheet.Part, error) {
	p := sheet.Part{Title: h.T("Notions")}
	all, err := Notions(h.r, by)
	for _, n := range all {
		p.Lines = append(p.Lines, n.Text)
	}
	return p, err
}
