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
	No      int
	Kind    Kind
	Name    string // what is marked
	From    string // the edge or mark that the tape is held at
	To      string // the other end of a line or curve
	Measure unit.Length
	Way     string      // which way the tape runs
	Down    unit.Length // a second measure, straight down, where HasDown
	HasDown bool
	Because string // the sum, or the reason
	Step    string // of the construction, to ask why; "" when there is none
	At      geom.Pt
	Path    geom.Path
	// Ordinates and Corner are for curves: Corner is the diagonal from where
	// the ends' directions meet to the curve, 0 when there is none to speak of.
	Ordinates []Ordinate
	Corner    unit.Length
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
// marks, in order; every other piece is chalked from its own outline.
func Of(rec *construct.Record, panels []piece.Panel, pieces []piece.Piece, f unit.Format) []Section {
	var out []Section
	done := map[string]bool{}
	for i, p := range panels {
		pc, ok := find(pieces, p.Name)
		if !ok {
			continue
		}
		done[pc.ID] = true
		out = append(out, panelSection(rec, pc, i, panels, f))
	}
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

func panelSection(rec *construct.Record, pc piece.Piece, i int, panels []piece.Panel, f unit.Format) Section {
	s := Section{Title: pc.Name, Piece: pc.ID}
	if i == 0 {
		s.Note = "Chalk it on the cloth, sew lines first. Cut nothing out of it, pocket mouths least of all, until the next part has been marked from it."
	} else {
		s.Note = "Lay the cut " + strings.ToLower(panels[i-1].Name) + " on the cloth and chalk from its marks."
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
	var curves []Mark
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
			curves = append(curves, curveMarks(rec, st)...)
		case construct.KindMove, construct.KindValue:
		}
	}
	s.Marks = append(s.Marks, curves...)
	s.Marks = append(s.Marks, notchMarks(pc)...)
	s.Marks = append(s.Marks, allowMarks(pc)...)
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
	return m
}

func moveMark(st construct.Step, label string) (Mark, bool) {
	v := st.At.Sub(st.Was)
	if unit.Length(v.Len()) < smallest {
		return Mark{}, false
	}
	return Mark{
		Kind: Move, Name: label, From: "the mark just made", Measure: unit.Length(v.Len()), Way: heading(v), Because: st.Why, Step: st.Name, At: st.At,
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

// notchMarks are measured along each edge from its nearer end.
func notchMarks(pc piece.Piece) []Mark {
	var out []Mark
	for _, n := range pc.Notches {
		if n.Number == 0 {
			continue // dart legs: marked already
		}
		for _, e := range pc.Edges {
			along, off := e.Sew.Nearest(n.At)
			if off > 0.5 {
				continue
			}
			m := Mark{
				Kind: Notch, Name: "notch " + strconv.Itoa(n.Number) + ", " + n.Name, From: "the start of the " + e.Name, Measure: unit.Length(along),
				Way: "along the sew line", Because: "it meets the notch of the same number", At: n.At,
			}
			if rest := e.Sew.Len() - along; rest < along {
				m.From, m.Measure = "the end of the "+e.Name, unit.Length(rest)
			}
			out = append(out, m)
			break
		}
	}
	return out
}

// stretch gives one curve by ordinates from the straight line between its ends.
func stretch(name string, c geom.Curve) Mark {
	m := Mark{Kind: Line, Name: name, At: c.A, Path: geom.Path{c}, Length: unit.Length(c.Len()), Measure: unit.Length(c.A.Dist(c.D))}
	chord := c.D.Sub(c.A)
	if chord.Len() == 0 {
		return m
	}
	dir := chord.Unit()
	path := geom.Path{c}
	bow := unit.Length(0)
	// A mark for every inch or so, at least three, at most eight.
	n := int(math.Max(3, math.Min(8, math.Round(chord.Len()/25.4)-1)))
	for i := 1; i <= n; i++ {
		along := chord.Len() * float64(i) / float64(n+1)
		at := path.CrossLine(c.A.Add(dir.Scale(along)), dir.Left())
		if len(at) == 0 {
			continue
		}
		p, _ := path.At(at[0])
		off := p.Sub(c.A).Dot(dir.Left())
		o := Ordinate{Along: unit.Length(along), Off: unit.Length(math.Abs(off))}
		if o.Off >= smallest {
			o.Side = heading(dir.Left().Scale(off))
		}
		bow = max(bow, o.Off)
		m.Ordinates = append(m.Ordinates, o)
	}
	if bow < leastBow {
		m.Ordinates = nil
		return m
	}
	m.Kind = Curve
	m.Corner = corner(c)
	return m
}

// corner is the diagonal from where the directions of the ends meet to the
// curve, when they meet within reach and turn by an eighth of a round or more.
func corner(c geom.Curve) unit.Length {
	a, b := c.Tangent(0), c.Tangent(1)
	if a.AngleTo(b) < math.Pi/4 {
		return 0
	}
	x, ok := geom.CrossLines(c.A, a, c.D, b)
	if !ok || x.Sub(c.A).Dot(a) <= 0 || x.Sub(c.D).Dot(b) >= 0 {
		return 0
	}
	_, d := geom.Path{c}.Nearest(x)
	return unit.Length(d)
}

// allowMarks chalk the cut line outside each edge.
func allowMarks(pc piece.Piece) []Mark {
	var out []Mark
	for _, e := range pc.Edges {
		if e.Fold || e.AllowStart == 0 && e.AllowEnd == 0 {
			continue
		}
		m := Mark{
			Kind: Allow, Name: "cut line of the " + e.Name, From: "the sew line", Measure: e.AllowStart, Way: "outside it",
			Because: e.Name + " allowance", At: e.Sew.Start(), Path: e.Sew,
		}
		if e.AllowStart != e.AllowEnd {
			m.Measure = max(e.AllowStart, e.AllowEnd)
			m.Way = "outside it at the wide end, running evenly to the seam allowance at the other"
		}
		if e.Turned {
			m.Way = "below it, the ends slanting back as the leg does, so that it lies flat when turned up"
		}
		out = append(out, m)
	}
	return out
}

// pieceSection chalks a small piece from a box drawn on what is left of the
// cloth: corners by how far across and down, curves by ordinates.
func pieceSection(pc piece.Piece) Section {
	s := Section{Title: pc.Name, Piece: pc.ID, Note: pc.Note}
	box := pc.Bounds()
	s.Marks = append(s.Marks,
		Mark{Kind: Line, Name: "box, width", From: "a straight edge of what is left", Measure: unit.Length(box.W()), Way: "across the grain", Because: "the piece with its allowances", At: box.Min},
		Mark{Kind: Line, Name: "box, length", From: "the same corner", Measure: unit.Length(box.H()), Way: "along the grain", Because: "the piece with its allowances", At: box.Min})
	if isBox(pc) {
		return s
	}
	sewBox := geom.BoundsOf(pc.Sew)
	for _, e := range pc.Edges {
		p := e.Sew.Start()
		s.Marks = append(s.Marks, Mark{
			Kind: Point, Name: "where " + e.Name + " begins", From: "the top left corner of the sewn shape, across", Measure: unit.Length(p.X - sewBox.Min.X),
			Way: "then down", Down: unit.Length(p.Y - sewBox.Min.Y), HasDown: true, Because: "a corner of the piece", At: p,
		})
	}
	for i, e := range pc.Edges {
		from, to := "where "+e.Name+" begins", "where "+pc.Edges[(i+1)%len(pc.Edges)].Name+" begins"
		for j, c := range e.Sew {
			m := stretch(e.Name, c)
			m.From, m.To, m.Because = from, to, "the sew line of this edge"
			if j > 0 {
				m.From = "the end of the stretch before"
			}
			if j < len(e.Sew)-1 {
				m.To = ""
			}
			s.Marks = append(s.Marks, m)
		}
	}
	s.Marks = append(s.Marks, notchMarks(pc)...)
	s.Marks = append(s.Marks, allowMarks(pc)...)
	return s
}

func isBox(pc piece.Piece) bool {
	b := pc.Bounds()
	return math.Abs(geom.Area(pc.Cut)-b.W()*b.H()) < 1
}
