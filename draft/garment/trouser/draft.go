package trouser

import (
	"fmt"

	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// drafter carries one draft through its stages.
type drafter struct {
	*garment.Drafter
	in garment.Input
	// whether a dart is sewn or pressed in front and back
	frontDarted, backDarted bool
	refuse                  *garment.Impossible // found while drawing
	forkOnly                bool                // only what the fork seam hangs on is drawn
	by                      *balanced           // what the balanced method changes; nil by the quarter method
	match                   float64             // see matchOf
}

// Draft drafts trousers, both halves where one hip is higher. The error is a
// *garment.Impossible when the measurements and rules cannot make a pair;
// anything else is a fault of this package.
func Draft(in garment.Input) (*garment.Draft, error) { return garment.BothSides(in, draft) }

func draft(in garment.Input) (*garment.Draft, error) {
	d, err := drawn(in)
	if err != nil {
		return nil, err
	}
	d.pieceFork()
	d.smallParts()
	if d.refuse != nil {
		return nil, d.refuse
	}
	rec, err := d.Record()
	if err != nil {
		return nil, fmt.Errorf("trousers cannot be drafted: %w", err)
	}
	sh := newShape(rec, in)
	sh.by = d.by
	pieces, err := sh.pieces()
	if err != nil {
		return nil, err
	}
	return &garment.Draft{
		Record: rec, Panels: []piece.Panel{sh.front, sh.back}, Pieces: pieces, Claims: sh.claims(), Worn: sh.worn(), Cards: cards(), Notions: sh.notions(),
	}, nil
}

// drawn draws front and back by the method that is asked for. The fork seam is
// balanced by what it hangs on alone; only where the waist then cannot be drawn
// is all of it drawn at each try.
func drawn(in garment.Input) (*drafter, error) {
	d := newDrafter(in)
	if in.Method != Balanced {
		d.match = matchOf(in, nil, true)
		return d, d.draw()
	}
	d.by = balanceOf(in, true)
	d.match = d.by.match
	err := d.draw()
	if err == nil {
		return d, nil
	}
	d = newDrafter(in)
	d.by = balanceOf(in, false)
	d.match = d.by.match
	return d, d.draw()
}

func newDrafter(in garment.Input) *drafter {
	return &drafter{Drafter: garment.NewDrafter(in, easeOf()), in: in}
}

// draw lays everything up to the sew lines of front and back. What is wrong
// with the construction itself is kept for Record to tell.
func (d *drafter) draw() error {
	d.levels()
	d.widths()
	if err := d.possible(); err != nil {
		return err
	}
	d.frontMarks()
	d.backMarks()
	return d.lines()
}

// trued lays body under a truing's name when that truing is on.
func (d *drafter) trued(name string, body func()) { d.Trued(name, body) }

func (d *drafter) has(option, choice string) bool { return d.Has(option, choice) }

// sideMarks are the marks of a side seam, waist to hem, for the truings that
// move its top.
type sideMarks struct{ waist, hip, fork, thigh, knee, hem geom.Pt }

func (d *drafter) sideMarks(part string) sideMarks {
	p := func(n string) geom.Pt { return d.Point(part + "." + n) }
	m := sideMarks{p("waist_side"), p("hip_side"), p("fork_side"), p("thigh_out"), p("knee_out"), p("hem_out")}
	if d.in.Trues(trueLeg) {
		m.fork = geom.Pt{} // drawn from hip to thigh in one sweep
	}
	return m
}

// path draws the side through its marks; a fork mark at the origin is left out.
func (m sideMarks) path() geom.Path {
	pts := []geom.Pt{m.waist, m.hip, m.fork, m.thigh, m.knee, m.hem}
	if m.fork == (geom.Pt{}) {
		pts = append(pts[:2], pts[3:]...)
	}
	return legLine(pts, natural)
}

// legLine draws a side or an inseam: fair from the top to the knee, which is
// the last mark but one, and straight from there to the hem, into which it runs
// on without a bend.
func legLine(pts []geom.Pt, first float64) geom.Path {
	n := len(pts)
	knee, hem := pts[n-2], pts[n-1]
	return append(geom.Fair(pts[:n-1], first, (hem.X-knee.X)/(hem.Y-knee.Y)), geom.Line(knee, hem))
}

// minStep is the least distance between two levels that a leg can be drawn
// over: a finger's breadth.
const minStep = unit.Length(8)
