package chalk

import (
	"math"
	"slices"

	"chalkfold/draft/construct"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
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

// String names the kind, in English.
func (k Kind) String() string {
	return [...]string{
		say.Word("mark"), say.Word("move"), say.Word("line"), say.Word("curve"), say.Word("notch"), say.Word("cut line"),
	}[k]
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
	Of        string      // without a step: the edge, line or notch that it is of, in English
	Hand      piece.Hand  // without a step: the side whose piece it is of
	At        geom.Pt
	Path      geom.Path
	Ordinates []Ordinate  // of a curve
	Corner    unit.Length // of a curve: the diagonal from the corner it is drawn into ...
	CornerAt  string      // ... which is this mark; "" when there is none
	Length    unit.Length // of a line or curve, sewn
	Card      int         // the card that draws the curve; 0 without: see OnCards
	Letter    string      // of a mark that a card is laid on
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

// guide reads one construction for one reader.
type guide struct {
	*say.Words
	rec *construct.Record
	f   unit.Format
}

// Of reads the guide, its lengths and words as f has them. panels are the parts of the record that are chalked from
// marks, in order; then what is cut out of them last; every other piece is
// chalked from its own outline.
func Of(rec *construct.Record, panels []piece.Panel, pieces []piece.Piece, f unit.Format) []Section {
	g := guide{f.Words, rec, f}
	pieces = piece.Halved(pieces)
	var out, last []Section
	done := map[string]bool{}
	for i, p := range panels {
		pc, ok := find(pieces, p.Name)
		if !ok {
			continue
		}
		done[pc.ID] = true
		section := g.handed(g.panelSection(p, pc, i, panels, pieces), pc.Hand)
		if beside := slices.IndexFunc(out, func(s Section) bool { return s.Piece == p.Like }); half(pc) && beside >= 0 {
			out = slices.Insert(out, beside+1, section) // it is cut with the other half
		} else {
			out = append(out, section)
		}
		if s := g.lastCuts(p, pc); len(s.Marks) > 0 {
			last = append(last, g.handed(s, pc.Hand))
		}
	}
	out = append(out, last...)
	for _, pc := range pieces {
		if !done[pc.ID] {
			out = append(out, g.handed(g.pieceSection(pc), pc.Hand))
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

// handed has every mark of a piece of one side say on which, where it is no step of
// the construction, which has that in its label: so has what a tape is held at.
func (g guide) handed(s Section, on piece.Hand) Section {
	names := map[string]string{}
	for i := range s.Marks {
		if m := &s.Marks[i]; m.Step == "" {
			m.Hand = on
			names[m.Name] = on.Of(m.Name, g.Words)
		}
	}
	for i := range s.Marks {
		m := &s.Marks[i]
		for _, name := range []*string{&m.Name, &m.From, &m.To} {
			if is, ok := names[*name]; ok {
				*name = is
			}
		}
	}
	return s
}

func find(pieces []piece.Piece, id string) (piece.Piece, bool) {
	for _, p := range pieces {
		if p.ID == id {
			return p, true
		}
	}
	return piece.Piece{}, false
}

func (g guide) panelSection(panel piece.Panel, pc piece.Piece, i int, panels []piece.Panel, pieces []piece.Piece) Section {
	s := Section{Title: g.T(pc.Name), Piece: pc.ID}
	switch {
	case panel.Like != "" && half(pc):
		s.Note = g.T("Chalk it on from the same centre line, as the left half lies turned over there: only what follows lies elsewhere. Then cut the outline of both halves, in one piece.")
	case panel.Like != "":
		like, _ := find(pieces, panel.Like)
		s.Note = g.F("The right side of the cloth lies up. Lay the %s, its outline cut, turned over on it and chalk round it: only what follows lies elsewhere.", say.Within(like.Name))
	case pc.Over && i > 0 && !g.byItself(pc.ID):
		from, _ := find(pieces, panels[i-1].Name)
		if half(from) {
			from.Name = from.On // it is cut with the other half
		}
		s.Note = g.F("The right side of the cloth lies up. Lay the %s, its outline cut, turned over on it and chalk from its marks.", say.Within(from.Name))
	case g.byItself(pc.ID) && half(pc) && pc.Over:
		s.Note = g.T("The wrong side of the cloth lies up. Chalk it on open cloth, sew lines first. Cut nothing yet: the right half is chalked on beside it.")
	case g.byItself(pc.ID) && half(pc):
		s.Note = g.T("Chalk it on open cloth, sew lines first. Cut nothing yet: the right half is chalked on beside it.")
	case g.byItself(pc.ID) && pc.Over:
		s.Note = g.T("The wrong side of the cloth lies up. Chalk it on the cloth, sew lines first, then its cut line.")
	case g.byItself(pc.ID) && (i+1 == len(panels) || g.byItself(panels[i+1].Name)):
		s.Note = g.T("Chalk it on the cloth, sew lines first, then its cut line.")
	case g.byItself(pc.ID):
		s.Note = g.T("Chalk it on the cloth, sew lines first, then cut its outline. Cut nothing out of it yet: the next part is marked from it.")
	default:
		s.Note = g.F("Lay the %s, its outline cut, on the cloth and chalk from its marks.", say.Name(panels[i-1].Name))
	}
	if pc.Hand != piece.BothHands && panel.Like == "" && !pc.Over {
		s.Note = g.F("%s The right side of the cloth lies up.", s.Note)
	}
	if pc.Note != "" {
		s.Note = g.F("%s There is %s.", s.Note, pc.Note)
	}
	moves := map[string][]construct.Step{}
	for _, st := range g.rec.Steps() {
		if st.Part == pc.ID && st.Kind == construct.KindMove {
			moves[st.Moves] = append(moves[st.Moves], st)
		}
	}
	// The lines that set the piece on the cloth come first.
	for _, st := range g.rec.Steps() {
		if st.Part == pc.ID && st.Kind == construct.KindValue && st.From != "" {
			s.Marks = append(s.Marks, Mark{
				Kind: Line, Name: st.Label, From: st.From, Measure: st.Mm(), Way: st.Way, Because: g.rec.Because(st.Name, g.f), Step: st.Name,
			})
		}
	}
	for _, st := range g.rec.Steps() {
		if st.Part != pc.ID {
			continue
		}
		switch st.Kind {
		case construct.KindPoint:
			s.Marks = append(s.Marks, g.pointMark(st))
			for _, m := range moves[st.Name] {
				if mk, ok := g.moveMark(m, st.Label); ok {
					s.Marks = append(s.Marks, mk)
				}
			}
		case construct.KindCurve:
			s.Marks = append(s.Marks, g.curveMarks(st)...)
		case construct.KindMove, construct.KindValue:
		}
	}
	s.Marks = append(s.Marks, g.notchMarks(panel.Edges, notchesOn(pc.ID, pieces), func(i int) (start, end string) {
		sew := panel.Edges[i].Sew
		return g.markAt(pc.ID, sew.Start()), g.markAt(pc.ID, sew.End())
	})...)
	edges := panel.Edges
	if len(cutInto(panel, pc)) == 0 {
		edges = pc.Edges // with what is added to the panel, such as a vent
	}
	s.Marks = append(s.Marks, g.allowMarks(edges)...)
	return s
}

// lastCuts are the edges of a piece that its panel does not have: what is cut
// out of it when the other parts have been marked.
func (g guide) lastCuts(panel piece.Panel, pc piece.Piece) Section {
	s := Section{
		Title: g.F("%s, cut last", say.Name(pc.Name)), Piece: pc.ID,
		Note: g.F("Now that the other parts are marked, cut these out of the %s.", say.Within(pc.Name)),
	}
	s.Marks = g.allowMarks(cutInto(panel, pc))
	return s
}

// cutInto are the edges of a piece that lie inside its panel.
func cutInto(panel piece.Panel, pc piece.Piece) []piece.Edge {
	const inside = 1 // mm
	ring := panel.Ring()
	var edges []piece.Edge
	for _, e := range pc.Edges {
		if _, ok := panel.Edge(e.Name); ok {
			continue
		}
		if at, _ := e.Sew.At(e.Sew.Len() / 2); geom.Contains(ring, at) && geom.RingDist(ring, at) > inside {
			edges = append(edges, e)
		}
	}
	return edges
}

func (g guide) pointMark(st construct.Step) Mark {
	m := Mark{Kind: Point, Name: st.Label, Measure: st.Mm(), Way: st.Way, Because: g.rec.Because(st.Name, g.f), Step: st.Name, At: st.At}
	if st.From == "" {
		m.From, m.Because = g.T("the two lines"), st.Why
		m.Way = g.T("where they cross")
	} else {
		m.From = g.rec.Label(st.From)
	}
	if st.HasOff && g.f.Round(unit.Length(math.Abs(st.Off))) > 0 {
		along := g.rec.Point(st.To).Sub(g.rec.Point(st.From)).Unit()
		m.Then, m.ThenWay = unit.Length(math.Abs(st.Off)), g.square(along.Left().Scale(st.Off))
	}
	return m
}

func (g guide) moveMark(st construct.Step, label string) (Mark, bool) {
	v := st.At.Sub(st.Was)
	if unit.Length(v.Len()) < smallest {
		return Mark{}, false
	}
	return Mark{
		Kind: Move, Name: g.F("%s, moved", label), From: g.T("the mark just made"), Measure: unit.Length(v.Len()), Way: g.heading(v), Because: st.Why, Step: st.Name, At: st.At,
	}, true
}

// heading names a direction by the side of the piece it leads to.
func (g guide) heading(v geom.Vec) string {
	switch way(v) {
	case up:
		return g.T("up")
	case down:
		return g.T("down")
	case outwards:
		return g.T("to the side")
	}
	return g.T("to the centre")
}

// square is heading for a measure taken square to the one before.
func (g guide) square(v geom.Vec) string {
	switch way(v) {
	case up:
		return g.T("square up")
	case down:
		return g.T("square down")
	case outwards:
		return g.T("square to the side")
	}
	return g.T("square to the centre")
}

const (
	up = iota
	down
	outwards
	inwards
)

// way is the side of the piece that a direction leads to.
func way(v geom.Vec) int {
	switch {
	case math.Abs(v.Y) >= math.Abs(v.X) && v.Y < 0:
		return up
	case math.Abs(v.Y) >= math.Abs(v.X):
		return down
	case v.X > 0:
		return outwards
	}
	return inwards
}

// curveMarks is one mark for each stretch between two joints of a line.
func (g guide) curveMarks(st construct.Step) []Mark {
	var out []Mark
	for i, c := range st.Path {
		m := g.stretch(st.Label, c)
		m.Step, m.Because = st.Name, st.Why
		m.From, m.To = g.markAt(st.Part, c.A), g.markAt(st.Part, c.D)
		if st.Corner != "" && m.Kind == Curve {
			m.CornerAt = g.rec.Label(st.Corner)
			_, off := geom.Path{c}.Nearest(g.rec.Point(st.Corner))
			m.Corner = unit.Length(off)
		}
		if len(st.Path) > 1 {
			m.Name = g.F("%s, %d of %d", st.Label, i+1, len(st.Path))
		}
		out = append(out, m)
	}
	return out
}

// markAt names the mark that stands at p, the panel's own before another's.
func (g guide) markAt(part string, p geom.Pt) string {
	const same = 0.05 // mm
	found := ""
	for _, st := range g.rec.Steps() {
		if st.Kind != construct.KindPoint || g.rec.Point(st.Name).Dist(p) > same {
			continue
		}
		if st.Part == part {
			return st.Label
		}
		found = st.Label
	}
	if found == "" {
		return g.T("the end of the stretch before")
	}
	return found
}

// notchMarks are measured along the edges they lie on, from the nearer end; ends
// names the marks that an edge runs between.
func (g guide) notchMarks(edges []piece.Edge, notches []piece.Notch, ends func(i int) (start, end string)) []Mark {
	var out []Mark
	for _, n := range notches {
		if n.Name == "" {
			continue // dart legs: marked already
		}
		for i, e := range edges {
			along, off := e.Sew.Nearest(n.At)
			if off > 0.5 {
				continue
			}
			start, end := ends(i)
			m := Mark{
				Kind: Notch, Name: g.T(n.Name), From: start, Measure: unit.Length(along),
				Way: g.F("along the sew line of the %s", say.Name(e.Name)), Because: g.T("it meets a seam here"), Of: n.Name, At: n.At,
			}
			if n.Number > 0 {
				m.Name, m.Because = g.F("notch %d, %s", n.Number, say.Name(n.Name)), g.T("it meets the notch of the same number")
			}
			if rest := e.Sew.Len() - along; rest < along {
				m.From, m.Measure = end, unit.Length(rest)
			}
			if m.Measure < smallest {
				m.Measure, m.Way = 0, g.T("at that very place")
			}
			out = append(out, m)
			break
		}
	}
	return out
}
