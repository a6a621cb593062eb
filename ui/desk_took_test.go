//go:build !js

package ui

import (
	"testing"

	"chalkfold/draft/quote"
	"chalkfold/sync/store/mem"
)

// The hours that a job took are asked once it is sewn, in whatever way a maker writes
// them; with those of two such jobs the next is reckoned at what they took. The sums are
// worked out by hand beside them.
func TestHoursOfAJob(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.turn(stageBench)
	b.settle()
	if b.benchView().Took.Asked {
		t.Error("it is asked before it is sewn")
	}
	b.tick(string(Sewn))
	b.settle()
	for text, want := range map[string]int{
		"6.5": 390, "6,5": 390, "6½": 390, "6 1/2": 390, // 6 × 60 + 30
		"0.1": 6, "12 7/8": 773, // 12 × 60 + 52½, half up
		"": 0,
	} {
		b.benchView().Took.On(text)
		if got := b.job.Sewing.Took; got != want {
			t.Errorf("%q hours are %d minutes, want %d", text, got, want)
		}
	}
	b.benchView().Took.On("6.5")
	b.benchView().Took.On("6 h")
	if v := b.benchView().Took; v.Bad == "" || v.Text != "6 h" || b.job.Sewing.Took != 390 {
		t.Errorf("what is no figure: %+v, %d minutes", v, b.job.Sewing.Took)
	}
	minutes := b.job.Sewing.Minutes
	b.benchView().Took.On("")
	b.job.Sewing.Took = 2 * minutes
	b.changed("")
	b.settle()
	b.repeat()
	b.settle()
	if p := b.pace("trousers"); p.percent != 0 {
		t.Errorf("one job tells how long they take: %+v", p)
	}
	b.turn(stageBench)
	b.tick(string(Sewn))
	b.settle()
	b.benchView() // reckons
	b.job.Sewing.Took = 2 * minutes
	b.changed("")
	b.settle()
	b.listJobs()
	b.settle()
	if p := b.pace("trousers"); p.percent != 200 || p.minutes(minutes) != 2*minutes {
		t.Errorf("two took twice as long: %+v", p)
	}
	b.turn(stageQuote)
	b.wants()
	b.settle()
	if l := billLine(t, b.quoteView(), quote.Labour); l.Count.Text != quote.Hours(2*minutes).Eighths(nil) {
		t.Errorf("the quote has %s hours of %d minutes", l.Count.Text, 2*minutes)
	}
}

// A screen beside the stages leads back to the stage that it was turned to from.
func TestBackToTheStage(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	b.stage = stageQuote
	if s := b.cameFrom(); s.id != b.stands() || s.id == "" {
		t.Errorf("opened at once, the quote leads to %q; the work stands at %q", s.id, b.stands())
	}
	b.view.from = stageBench
	for _, beside := range []string{stageQuote, stageCopy, stageLesson, stageHouse} {
		b.stage = beside
		if s := b.cameFrom(); s.id != stageBench {
			t.Errorf("%s leads to %q", beside, s.id)
		}
	}
	b.newJob()
	b.settle()
	b.stage = stageQuote
	if s := b.cameFrom(); s.id != stageTape {
		t.Errorf("with a new job the quote leads to %q", s.id)
	}
}
