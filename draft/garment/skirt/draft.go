package skirt

import (
	"fmt"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
)

// drafter carries one draft through its stages.
type drafter struct {
	*garment.Drafter
	darts  map[string]int      // how many are sewn in each half of a part
	refuse *garment.Impossible // found while drawing
}

// Draft drafts a skirt, both halves where its sides differ. The error is a *garment.Impossible when the measurements
// and rules cannot make one; anything else is a fault of this package.
func Draft(in garment.Input) (*garment.Draft, error) { return garment.BothSides(in, draft) }

func draft(in garment.Input) (*garment.Draft, error) {
	d := &drafter{Drafter: garment.NewDrafter(in, []garment.Eased{
		{Rule: "skirt_waist_ease", Of: body.WaistGirth}, {Rule: "skirt_hip_ease", Of: body.HipGirth},
	}), darts: map[string]int{}}
	d.levels()
	d.widths()
	if err := d.possible(); err != nil {
		return nil, err
	}
	d.frontMarks()
	d.backMarks()
	d.lines()
	if d.refuse != nil {
		return nil, d.refuse
	}
	rec, err := d.Record()
	if err != nil {
		return nil, fmt.Errorf("skirt cannot be drafted: %w", err)
	}
	s := newShape(rec, in)
	pieces, err := s.pieces()
	if err != nil {
		return nil, err
	}
	return &garment.Draft{
		Record: rec, Panels: []piece.Panel{s.front, s.back}, Pieces: pieces, Claims: s.claims(), Worn: s.worn(), Cards: cards(), Notions: s.notions(),
	}, nil
}

func parts() []string { return []string{"front", "back"} }
