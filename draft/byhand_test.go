package draft_test

import (
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
)

func made(t *testing.T, j job.Job) *draft.Result {
	t.Helper()
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestKept: every piece of every lay can be kept where it lies, and is laid
// there again.
func TestKept(t *testing.T) {
	for _, fold := range []job.Fold{job.Open, job.Lengthwise, job.Crosswise} {
		j := example(t, "alto-3.json").Job.Clone()
		j.Cloth[0].Fold = fold
		r := made(t, j)
		l, err := draft.Lay(r, 0, lay.Options{Work: laidWork})
		if err != nil {
			t.Fatal(err)
		}
		if fold != job.Open {
			l.Result = bandOpened(t, l)
		}
		var kept []job.Kept
		for _, p := range l.Placements {
			k := l.Keep(p.Item, p.Spot, l.FoldedTo)
			spot, ok := l.SpotOf(p.Item, k)
			spot = spot.OnTable(l.FoldedTo)
			if d := spot.At.Pt(l.Items[p.Item].Ring[0]).Dist(p.At.Pt(l.Items[p.Item].Ring[0])); !ok || d > 0.002 {
				t.Errorf("%s: %s is kept %.4f mm off", fold, l.Items[p.Item].Name, d)
			}
			kept = append(kept, k)
		}
		j.Cloth[0].Kept = kept
		again, err := draft.Lay(made(t, j), 0, lay.Options{Work: 1})
		if err != nil {
			t.Fatalf("%s: %v", fold, err)
		}
		if len(again.LetGo) > 0 {
			t.Errorf("%s: let go %+v", fold, again.LetGo)
		}
		if d := again.Length - l.Length; d.MM() > 0.01 || d.MM() < -0.01 {
			t.Errorf("%s: all kept, it takes %.2f mm and not %.2f", fold, again.Length.MM(), l.Length.MM())
		}
	}
}

// bandOpened is a lay with the waistband taken to where the cloth is opened out.
func bandOpened(t *testing.T, l *draft.Laid) lay.Result {
	t.Helper()
	table, err := lay.NewTable(l.Cloth, l.Items, l.Result)
	if err != nil {
		t.Fatal(err)
	}
	band, ok := table.Lift(slices.IndexFunc(l.Items, func(it lay.Item) bool { return it.Piece == "waistband" }))
	if !ok {
		t.Fatal("no band")
	}
	to, ok := band.OtherPart(band.Was)
	if !ok || !to.Opened {
		t.Fatalf("the band goes to %v", to)
	}
	return band.Down(to)
}

func TestLetGo(t *testing.T) {
	natively(t)
	for _, tt := range []struct {
		name string
		kept []job.Kept
		why  string
	}{
		{"no such piece", []job.Kept{{Piece: "cape", Copy: 1}}, "not cut from this cloth"},
		{"no such copy", []job.Kept{{Piece: "front", Copy: 9}}, "not cut from this cloth"},
		{"across the grain", []job.Kept{{Piece: "front", Copy: 1, Turn: "90"}}, "that way round"},
		{"where nothing is opened out", []job.Kept{{Piece: "front", Copy: 1, Across: length(t, "12 in"), Along: length(t, "20 in"), Opened: true}}, "opened out"},
		{"off the cloth", []job.Kept{{Piece: "front", Copy: 1}}, "off the cloth"},
		{"on another", []job.Kept{
			{Piece: "front", Copy: 1, Across: length(t, "12 in"), Along: length(t, "20 in")},
			{Piece: "back", Copy: 1, Across: length(t, "14 in"), Along: length(t, "20 in")},
		}, "lie on front"},
	} {
		j := example(t, "alto-3.json").Job.Clone()
		j.Cloth[0].Kept = tt.kept
		l, err := draft.Lay(made(t, j), 0, lay.Options{})
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		if len(l.LetGo) != 1 || !strings.Contains(strings.ToLower(l.LetGo[0].Why.String()), tt.why) {
			t.Errorf("%s: let go %+v, want %q", tt.name, l.LetGo, tt.why)
		}
	}
}
