package drafting

import (
	"slices"
	"strings"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/ui/kit"
)

// Parts are the parts that are drawn, in the order of the hand.
func Parts(r *construct.Record) []string {
	var out []string
	for _, s := range r.Steps() {
		if s.Kind == construct.KindCurve && !slices.Contains(out, s.Part) {
			out = append(out, s.Part)
		}
	}
	return out
}

// Lines draws the construction of one part as it lies on the cloth: its marks,
// its lines, and faint the tape from mark to mark and the lines of the others.
func Lines(r *construct.Record, part, chosen string) Scene {
	var pen kit.Pen
	home := reach(r)
	names := kit.Labels{Pen: &pen, Home: sides(home)}
	var s Scene
	pen.Reach(home)
	for _, st := range r.Steps() {
		if st.Kind == construct.KindCurve && st.Part != part {
			pen.Path("behind", st.Path, geom.Identity())
		}
	}
	for _, st := range r.Steps() {
		if st.Kind == construct.KindPoint && st.Part == part {
			if from, ok := mark(r, st.From); ok {
				pen.Path("tape-line", geom.Polyline(from, r.Point(st.Name)), geom.Identity())
			}
		}
	}
	for _, st := range r.Steps() {
		if st.Kind == construct.KindCurve && st.Part == part {
			pen.Path(now("line", st.Name == chosen), st.Path, geom.Identity())
			s.Things = append(s.Things, Thing{ID: st.Name, Path: st.Path})
		}
	}
	for _, st := range r.Steps() {
		if st.Kind == construct.KindPoint && st.Part == part {
			at := r.Point(st.Name)
			if st.Name == chosen {
				pen.Mark("spot", at)
			}
			pen.Mark(now("pt", st.Name == chosen), at)
			s.Things = append(s.Things, Thing{ID: st.Name, At: at})
		}
	}
	named := kit.Sentence(r.Label(part)) + " "
	name := func(t Thing, class string) {
		short := strings.TrimPrefix(kit.Sentence(r.Label(t.ID)), named)
		names.Beside(class, kit.Sentence(short), t.place())
	}
	for _, t := range s.Things { // the chosen one first, so that it has room
		if t.ID == chosen {
			name(t, "label chosen")
		}
	}
	for _, t := range s.Things {
		if len(t.Path) == 0 { // a line runs on behind them
			names.KeepOff(t.At)
		}
	}
	for _, t := range s.Things {
		if t.ID != chosen {
			name(t, "label")
		}
	}
	s.SVG = pen.String()
	return s
}

func now(class string, yes bool) string {
	if yes {
		return class + " now"
	}
	return class
}

// mark is where the mark of that name stands, if it is one.
func mark(r *construct.Record, name string) (geom.Pt, bool) {
	if s, ok := r.Find(name); ok && s.Kind == construct.KindPoint {
		return r.Point(name), true
	}
	return geom.Pt{}, false
}

// reach is the box around all marks and lines of a record, with some room.
func reach(r *construct.Record) geom.Rect {
	var pts []geom.Pt
	for _, s := range r.Steps() {
		switch s.Kind {
		case construct.KindPoint, construct.KindMove:
			pts = append(pts, s.At)
		case construct.KindCurve:
			pts = append(pts, s.Path.Start(), s.Path.End())
		case construct.KindValue:
		}
	}
	return around(pts)
}

// sides is a tall box with the room that a frame has beside it, for names.
func sides(b geom.Rect) geom.Rect {
	room := geom.Vec{X: max(0, 0.85*b.H()-b.W()) / 2}
	return geom.Rect{Min: b.Min.Add(room.Neg()), Max: b.Max.Add(room)}
}

// around is the box around places, with some room.
func around(pts []geom.Pt) geom.Rect {
	b := geom.BoundsOf(pts)
	room := geom.Vec{X: gap, Y: gap}
	return geom.Rect{Min: b.Min.Add(room.Neg()), Max: b.Max.Add(room)}
}
