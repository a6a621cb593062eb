package draft_test

import (
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/prove"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sketch"
	"chalkfold/draft/slip"
)

// Every garment goes through every stage of the core, for the middle of the
// women surveyed: none of them knows which garments there are.
func TestEveryGarmentThroughEveryStage(t *testing.T) {
	styles := 6
	if testing.Short() {
		styles = 1
	}
	for _, g := range draft.Garments() {
		for _, s := range prove.StylesOf(g, styles) {
			j := s.Job(prove.Body{ID: "middle", Figure: body.Women, Taken: body.Middle(body.Women)})
			j.Cloth = []job.Cloth{{Kind: "main", Width: length(t, "60 in"), Length: length(t, "4 yd"), Fold: job.Lengthwise}}
			var m draft.Maker
			r, err := m.Make(j)
			if err != nil {
				t.Errorf("%s: %v", j.Name, err)
				continue
			}
			if r.Report.Stopped() {
				t.Errorf("%s: stopped: %+v", j.Name, r.Report.Findings[0])
			}
			if f, ok := sketch.Of(r.Panels, r.Darts, r.Worn); !ok || len(f.Front) == 0 || len(f.Back) == 0 {
				t.Errorf("%s: no sketch", j.Name)
			}
			for _, s := range draft.Chalk(r) {
				if s.Title == "" || len(s.Marks) == 0 {
					t.Errorf("%s: nothing to chalk for %q", j.Name, s.Piece)
				}
			}
			laid, err := draft.Lay(r, 0, lay.Options{Work: 1})
			if err != nil || !laid.Fits {
				t.Errorf("%s: 4 yd are not enough: %v", j.Name, err)
			}
			page, err := draft.Handover(r, sheet.A4(), draft.HandoverOptions{})
			if err != nil || page.Bounds.W() == 0 {
				t.Errorf("%s: no handover: %v", j.Name, err)
			}
			data, err := slip.Encode(j)
			if err != nil {
				t.Fatalf("%s: %v", j.Name, err)
			}
			if back, err := slip.Decode(data); err != nil || back.Garment != g.ID || back.Style["closure"] != j.Style["closure"] {
				t.Errorf("%s: from its slip %v, %v", j.Name, back, err)
			}
		}
	}
}
