package drafting

import (
	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/ui/kit"
)

// Overlay lays the panels as they are spoken on the panels as they are trued,
// one after the other, with the marks that moved. chosen is the step of the
// move that is pointed at.
func Overlay(trued, spoken *draft.Result, chosen string) Scene {
	var pen kit.Pen
	names := kit.Labels{Pen: &pen}
	var s Scene
	x := 0.0
	for _, p := range trued.Panels {
		was := panel(spoken, p.Name)
		var pts []geom.Pt
		for _, e := range append(append([]piece.Edge{}, p.Edges...), was.Edges...) {
			pts = append(pts, e.Sew.Flatten(1)...)
		}
		box := around(pts)
		at := geom.Translate(geom.Vec{X: x - box.Min.X})
		pen.Reach(geom.Rect{Min: at.Pt(box.Min), Max: at.Pt(box.Max)})
		x += box.W()
		for _, e := range p.Edges {
			pen.Path("trued", e.Sew, at)
		}
		for _, e := range was.Edges {
			pen.Path("spoken", e.Sew, at)
		}
		names.Inside("label", "", kit.Sentence(trued.Format.Words.T(p.Name)), geom.Rect{Min: at.Pt(box.Min), Max: at.Pt(box.Max)})
		for _, st := range trued.Record.Steps() {
			if st.Part == p.Name && st.Truing != "" {
				s.Things = append(s.Things, moved(&pen, st, at, st.Name == chosen)...)
			}
		}
	}
	s.SVG = pen.String()
	return s
}

// moved draws what one truing step moved, if it has a place.
func moved(pen *kit.Pen, st construct.Step, at geom.Affine, chosen bool) []Thing {
	switch st.Kind {
	case construct.KindMove:
		is := at.Pt(st.At)
		if chosen {
			pen.Mark("spot", is)
		}
		pen.Path(now("moved", chosen), geom.Polyline(st.Was, st.At), at)
		pen.Mark("was", at.Pt(st.Was))
		pen.Mark(now("pt", chosen), is)
		return []Thing{{ID: st.Name, At: is}}
	case construct.KindCurve:
		if chosen {
			pen.Path("now", st.Path, at)
		}
		return []Thing{{ID: st.Name, Path: st.Path.Map(at)}}
	case construct.KindValue, construct.KindPoint:
	}
	return nil
}

func panel(r *draft.Result, name string) piece.Panel {
	for _, p := range r.Panels {
		if p.Name == name {
			return p
		}
	}
	return piece.Panel{}
}
