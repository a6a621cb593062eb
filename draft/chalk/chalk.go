package chalk

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// Kind is what the hand does at a mark.
type Kind uint8

// The kinds of mark.
const (
	Point Kind = iota // measure and mark
	Move              // shift a mark just made
	Line              // draw a straight line
	Curve             // draw a curve by its ordinates
	Notch             // a small mark across the allowance
	Allow             // chalk the cut line outside the sew line
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"mark", "move", "line", "curve", "notch", "cut line"}[k]
}

// Ordinate is one place on a curve: so far along the straight line between its
// ends, so far off that line.
type Ordinate struct {
	Along, Off unit.Length
	Side       string // "to the side", "to the centre", "up", "down"; "" on the line
}

// Mark is one act of the hand.
type Mark struct {
	No        int
	Kind      Kind
	Name      string // what is marked
	From      string // the edge or mark that the tape is held at
	To        string // the other end of a line or curve
	Measure   unit.Length
	Way       string      // which way the tape runs
	Then      unit.Length // a second measure, from where the first ends ...
	ThenWay   string      // ... this way; "" when there is none
	Because   string      // the sum, or the reason
	Step      string      // of the construction, to ask why; "" when there is none
	At        geom.Pt
	Path      geom.Path
	Ordinates []Ordinate  // of a curve
	Corner    unit.Length // of a curve: the diagonal from the corner it is drawn into ...
	CornerAt  string      // ... which is this mark; "" when there is none
	Length    unit.Length // of a line or curve, sewn
}

// Section is the marks of one piece.
type Section struct {
	Title string
	Piece string // its ID
	Note  string
	Marks []Mark
}

// smallest is the least move worth chalking, and the least ordinate: half a
// sixteenth. leastBow is the least bow that makes a line a curve to the hand.
const (
	smallest = unit.Inch / 32
	leastBow = unit.Inch * 3 / 32
)

// Of reads the guide. panels are the parts of the record that are chalked from
// marks, in order; then what is cut out of them last; every other piece is
// chalked from its own outline.
func Of(rec *construct.Record, panels []piece.Panel, pieces []piece.Piece, f unit.Format) []Section {
	var out, last []Section
	done := map[string]bool{}
	for i, p := range panels {
		pc, ok := find(pieces, p.Name)
		if !ok {
			continue
		}
		done[pc.ID] = true
		out = append(out, panelSection(rec, p, pc, i, panels, pieces, f))
		if s := lastCuts(p, pc); len(s.Marks) > 0 {
			last = append(last, s)
		}
	}
	out = append(out, last...)
	for _, pc := range pieces {
		if !done[pc.ID] {
			out = append(out, pieceSection(pc))
		}
	}
	no := 0
	for i := range out {
		for j := range out[i].Marks {
			no++
			out[i].Marks[j].No = no
		}
	}
	return out
}

func find(pieces []piece.Piece, id string) (piece.Piece, bool) {
	for _, p := range pieces {
		if p.ID == id {
			return p, true
		}
	}
	return piece.Piece{}, false
}

func panelSection(rec *construct.Record, panel piece.Panel, pc piece.Piece, i int, panels []piece.Panel, pieces []piece.Piece, f unit.Format) Section {
	s := Section{Title: pc.Name, Piece: pc.ID}
	if i == 0 {
		s.Note = "Chalk it on the cloth, sew lines first, then cut its outline. Cut nothing out of it yet: the next part is marked from it."
	} else {
		s.Note = "Lay the " + strings.ToLower(panels[i-1].Name) + ", its outline cut, on the cloth and chalk from its marks."
	}
	if pc.Note != "" {
		s.Note += " There is " + pc.Note + "."
	}
	moves := map[string][]construct.Step{}
	for _, st := range rec.Steps() {
		if st.Part == pc.ID && st.Kind == construct.KindMove {
			moves[st.Moves] = append(moves[st.Moves], st)
		}
	}
	// The lines that set the piece on the cloth come first.
	for _, st := range rec.Steps() {
		if st.Part == pc.ID && st.Kind == construct.KindValue && st.From != "" {
			s.Marks = append(s.Marks, Mark{
				Kind: Line, Name: st.Label, From: st.From, Measure: st.Mm(), Way: st.Way, Because: rec.Because(st.Name, f), Step: st.Name,
			})
		}
	}
	for _, st := range rec.Steps() {
		if st.Part != pc.ID {
			continue
		}
		switch st.Kind {
		case construct.KindPoint:
			s.Marks = append(s.Marks, pointMark(rec, st, f))
			for _, m := range moves[st.Name] {
				if mk, ok := moveMark(m, st.Label); ok {
					s.Marks = append(s.Marks, mk)
				}
			}
		case construct.KindCurve:
			s.Marks = append(s.Marks, curveMarks(rec, st)...)
		case construct.KindMove, construct.KindValue:
		}
	}
	s.Marks = append(s.Marks, notchMarks(panel.Edges, notchesOn(pc.ID, pieces))...)
	s.Marks = append(s.Marks, allowMarks(panel.Edges)...)
	return s
}

// notchesOn gathers the notches of every piece that lies on a panel, each
// place once.
func notchesOn(panel string, pieces []piece.Piece) []piece.Notch {
	const same = 0.3 // mm
	var out []piece.Notch
	for _, p := range pieces {
		if p.On != panel {
			continue
		}
		for _, n := range p.Notches {
			known := false
			for _, o := range out {
				known = known || o.Number == n.Number && o.At.Dist(n.At) < same
			}
			if !known {
				out = append(out, n)
			}
		}
	}
	return out
}

// lastCuts are the edges of a piece that its panel does not have: what is cut
// out of it when the other parts have been marked.
func lastCuts(panel piece.Panel, pc piece.Piece) Section {
	s := Section{Title: pc.Name + ", cut last", Piece: pc.ID, Note: "Now that the other parts are marked, cut these out of the " + strings.ToLower(pc.Name) + "."}
	var edges []piece.Edge
	for _, e := range pc.Edges {
		if _, ok := panel.Edge(e.Name); !ok {
			edges = append(edges, e)
		}
	}
	s.Marks = allowMarks(edges)
	return s
}

func pointMark(rec *construct.Record, st construct.Step, f unit.Format) Mark {
	m := Mark{Kind: Point, Name: st.Label, Measure: st.Mm(), Way: st.Way, Because: rec.Because(st.Name, f), Step: st.Name, At: st.At}
	if st.From == "" {
		m.From, m.Because = "the two lines", st.Why
		m.Way = "where they cross"
	} else {
		m.From = rec.Label(st.From)
	}
	if st.HasOff && f.Round(unit.Length(math.Abs(st.Off))) > 0 {
		along := rec.Point(st.To).Sub(rec.Point(st.From)).Unit()
		m.Then, m.ThenWay = unit.Length(math.Abs(st.Off)), "square "+heading(along.Left().Scale(st.Off))
	}
	return m
}

func moveMark(st construct.Step, label string) (Mark, bool) {
	v := st.At.Sub(st.Was)
	if unit.Length(v.Len()) < smallest {
		return Mark{}, false
	}
	return Mark{
		Kind: Move, Name: label + ", moved", From: "the mark just made", Measure: unit.Length(v.Len()), Way: heading(v), Because: st.Why, Step: st.Name, At: st.At,
	}, true
}

// heading names a direction by the side of the piece it leads to.
func heading(v geom.Vec) string {
	if math.Abs(v.Y) >= math.Abs(v.X) {
		if v.Y < 0 {
			return "up"
		}
		return "down"
	}
	if v.X > 0 {
		return "to the side"
	}
	return "to the centre"
}

// curveMarks is one mark for each stretch between two joints of a line.
func curveMarks(rec *construct.Record, st construct.Step) []Mark {
	var out []Mark
	for i, c := range st.Path {
		m := stretch(st.Label, c)
		m.Step, m.Because = st.Name, st.Why
		m.From, m.To = markAt(rec, st.Part, c.A), markAt(rec, st.Part, c.D)
		if st.Corner != "" && m.Kind == Curve {
			m.CornerAt = rec.Label(st.Corner)
			_, off := geom.Path{c}.Nearest(rec.Point(st.Corner))
			m.Corner = unit.Length(off)
		}
		if len(st.Path) > 1 {
			m.Name = st.Label + ", " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(st.Path))
		}
		out = append(out, m)
	}
	return out
}

// markAt names the mark that stands at p, the panel's own before another's.
func markAt(rec *construct.Record, part string, p geom.Pt) string {
	const same = 0.05 // mm
	found := ""
	for _, st := range rec.Steps() {
		if st.Kind != construct.KindPoint || rec.Point(st.Name).Dist(p) > same {
			continue
		}
		if st.Part == part {
			return st.Label
		}
		found = st.Label
	}
	if found == "" {
		return "the end of the stretch before"
	}
	return found
}

// notchMarks are measured along the edges they lie on, from the nearer end.
func notchMarks(edges []piece.Edge, notches []piece.Notch) []Mark {
	var out []Mark
	for _, n := range notches {
		if n.Name == "" {
			continue // dart legs: marked already
		}
		for _, e := range edges {
			along, off := e.Sew.Nearest(n.At)
			if off > 0.5 {
				continue
			}
			m := Mark{
				Kind: Notch, Name: n.Name, From: "the start of the " + e.Name, Measure: unit.Length(along),
				Way: "along the sew line", Because: "it meets a seam here", At: n.At,
			}
			if n.Number > 0 {
				m.Name, m.Because = "notch "+strconv.Itoa(n.Number)+", "+n.Name, "it meets the notch of the same number"
			}
			if rest := e.Sew.Len() - along; rest < along {
				m.From, m.Measure = "the end of the "+e.Name, unit.Length(rest)
			}
			if m.Measure < smallest {
				m.Measure, m.Way = 0, "at that very place"
			}
			out = append(out, m)
			break
		}
	}
	return out
}
