package drafting

import (
	"slices"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Replay is the construction at one step, for someone who learns it.
type Replay struct {
	At, Of int // this step, from 1, and how many there are
	Scene  Scene
	Place  geom.Pt
	Placed bool // the step has a place on the drawing
	Part   string
	Title  string
	Sum    string
	Tape   string // where the tape is held, and which way it runs
	Why    string
	Truing bool
	Parts  []Start
}

// Start is where the steps of a part begin.
type Start struct {
	Part string
	At   int
}

// ReplayAt is the construction up to step n, from 1, held to those there are.
func ReplayAt(r *construct.Record, n int, f unit.Format) Replay {
	steps := r.Steps()
	n = max(1, min(n, len(steps)))
	s := steps[n-1]
	out := Replay{
		At: n, Of: len(steps), Part: s.Part, Title: s.Label, Sum: r.SumOf(s, f), Tape: tapeOf(r, s, f), Why: s.Why, Truing: s.Truing != "",
	}
	for i, st := range steps {
		if !slices.ContainsFunc(out.Parts, func(p Start) bool { return p.Part == st.Part }) {
			out.Parts = append(out.Parts, Start{st.Part, i + 1})
		}
	}
	out.Scene, out.Place, out.Placed = drawn(r, n)
	return out
}

// tapeOf says where the tape is held, and which way it runs.
func tapeOf(r *construct.Record, s construct.Step, f unit.Format) string {
	switch {
	case s.From == "" || s.Way == "":
		return ""
	case r.Has(s.From):
		return f.Words.F("From %s: %s", r.Label(s.From), s.Way)
	}
	return f.Words.F("From %s: %s", s.From, s.Way)
}

// drawn is the drawing after n steps, the last one bold, over a faint one of what
// it comes to: marks stand where they stood then.
func drawn(r *construct.Record, n int) (s Scene, at geom.Pt, ok bool) {
	var pen kit.Pen
	pen.Reach(reach(r))
	for _, st := range r.Steps() {
		if st.Kind == construct.KindCurve {
			pen.Path("behind", st.Path, geom.Identity())
		}
	}
	steps := r.Steps()[:n]
	last := steps[n-1]
	stands := map[string]geom.Pt{}
	var order []string
	for _, st := range steps {
		switch st.Kind {
		case construct.KindPoint:
			stands[st.Name] = st.At
			order = append(order, st.Name)
		case construct.KindMove:
			stands[st.Moves] = st.At
		case construct.KindCurve, construct.KindValue:
		}
	}
	for _, st := range steps {
		if from, held := stands[st.From]; held && st.Kind == construct.KindPoint {
			pen.Path(now("tape-line", st.Name == last.Name), geom.Polyline(from, st.At), geom.Identity())
		}
		if st.Kind == construct.KindCurve {
			pen.Path(now("line", st.Name == last.Name), st.Path, geom.Identity())
		}
	}
	for _, name := range order {
		pen.Mark("pt", stands[name])
		s.Things = append(s.Things, Thing{ID: name, At: stands[name]})
	}
	switch last.Kind {
	case construct.KindMove:
		pen.Path("moved", geom.Polyline(last.Was, last.At), geom.Identity())
		pen.Mark("was", last.Was)
		at, ok = last.At, true
	case construct.KindPoint:
		at, ok = last.At, true
	case construct.KindCurve:
		at, _ = last.Path.At(last.Path.Len() / 2)
		ok = true
	case construct.KindValue:
	}
	if ok && last.Kind != construct.KindCurve {
		pen.Mark("spot", at)
		pen.Mark("pt now", at)
	}
	if ok {
		(&kit.Labels{Pen: &pen, Home: sides(reach(r))}).Beside("label chosen", kit.Sentence(last.Label), at)
	}
	s.SVG = pen.String()
	return s, at, ok
}
