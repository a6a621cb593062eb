//go:build !js

package ui

import (
	"bytes"
	"context"
	"maps"
	"os"
	"strings"
	"testing"
	"time"

	"chalkfold/draft/job"
	"chalkfold/draft/quote"
	"chalkfold/draft/rules"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// Records of every version open for ever; one of this version is written again
// the same.
func TestHouseRecord(t *testing.T) {
	old, err := os.ReadFile("testdata/house-1.json")
	if err != nil {
		t.Fatal(err)
	}
	if h, err := decodeHouse(bytes.TrimSpace(old)); err != nil || len(h.Sets) != 3 || h.Terms != (quote.Terms{}) {
		t.Errorf("version 1 is read as %+v, %v", h, err)
	}
	if old, err = os.ReadFile("testdata/house-2.json"); err != nil {
		t.Fatal(err)
	}
	if h, err := decodeHouse(bytes.TrimSpace(old)); err != nil || len(h.Sets) != 3 || h.Terms.Margin != 2000 || h.inForce().Method != "" || !maps.Equal(h.Prices, map[string]quote.Money{"labour h": 1250, "zip piece": 350}) {
		t.Errorf("version 2 is read as %+v, %v", h, err)
	}
	if old, err = os.ReadFile("testdata/house-3.json"); err != nil {
		t.Fatal(err)
	}
	if h, err := decodeHouse(bytes.TrimSpace(old)); err != nil || h.inForce().Method != job.Balanced || h.Week != 0 {
		t.Errorf("version 3 is read as %+v, %v", h, err)
	}
	data, err := os.ReadFile("testdata/house-4.json")
	if err != nil {
		t.Fatal(err)
	}
	data = bytes.TrimSpace(data)
	h, err := decodeHouse(data)
	if err != nil {
		t.Fatal(err)
	}
	if s := h.inForce(); s.Name != "Mother's" || !maps.Equal(s.Values, rules.Values{"belt_loops": "7", "seat_tilt": "1½ in"}) || len(h.Sets) != 3 || s.Method != job.Balanced {
		t.Errorf("read as %+v", h)
	}
	if h.Terms.Margin != 2000 || h.Terms.Currency.Sign != "GHS" || h.Prices["labour h"] != 1250 || h.Week != 30*quote.One || !h.Terms.Free || !h.Terms.Flat {
		t.Errorf("charged by %+v, %v", h.Terms, h.Prices)
	}
	if again, err := h.encode(); err != nil || !bytes.Equal(again, data) {
		t.Errorf("written again as\n%s, %v", again, err)
	}
	for _, bad := range []string{"", "{", `{"version": 1}`, `{"version": 5, "in_force": "a", "sets": [{"id": "a"}]}`, `{"version": 1, "in_force": "a", "sets": [{"id": "a", "deleted": 5}]}`, `{"in_force": "a", "sets": [{"id": "a"}]}`} {
		if h, err := decodeHouse([]byte(bad)); err == nil {
			t.Errorf("%s is read as %+v", bad, h)
		}
	}
	h.clear(time.UnixMilli(1920000000000).Add(deletedFor + time.Hour))
	if len(h.Sets) != 2 {
		t.Errorf("what was deleted long ago is still there: %+v", h.Sets)
	}
}

// A new job begins with the rules in force; jobs that are there keep theirs
// until they are told otherwise, and undo in a job leaves the house alone.
func TestJobsBeginWithTheHouse(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	was := b.job.File.Rules.House["seat_tilt"]
	v := b.houseView()
	v.OnRule("seat_tilt", "1 3/4")
	v.OnName("Mother's")
	b.settle()
	b.stage = stageHouse
	b.houseView().OnRule("hip_ease", "3")
	b.settle()
	b.shows("By these rules Alto 3 would change", "45 in")
	b.houseView().OnReset("hip_ease")
	b.settle()
	if rows := b.houseView().Effect; len(rows) > 0 && rows[0].Name == "hip" {
		t.Errorf("reset, there is still an effect on the hip: %+v", rows)
	}
	if b.job.File.Rules.House["seat_tilt"] != was {
		t.Error("the open job has changed with the house")
	}
	b.stage = stageStyle
	b.shows("not as in “Mother&#39;s”", "Seat tilt: here", "in the house 1¾ in")
	b.job.File.Rules.House = b.houseValues()
	b.changed("")
	b.settle()
	if len(b.houseDiffers()) != 0 {
		t.Errorf("still apart: %+v", b.houseDiffers())
	}

	b.styleView().OnRule("seat_tilt", "1")
	b.settle()
	if got := b.house.inForce().Values["seat_tilt"]; got != "1¾ in" {
		t.Errorf("a change in the job made the house's %q", got)
	}
	b.changeHouse("", func(h *House) { b.giveToHouse(h) })
	b.step(false)
	b.settle()
	if got := b.house.inForce().Values["seat_tilt"]; got != "1 in" || b.job.File.Rules.House["seat_tilt"] != "1¾ in" {
		t.Errorf("after undo in the job the house has %q, the job %q", got, b.job.File.Rules.House["seat_tilt"])
	}
	b.houseView().OnMethod("balanced")
	if b.job.File.Method != job.Quarter {
		t.Error("the open job has changed its method with the house")
	}
	b.newJob()
	b.settle()
	if b.job.File.Method != "balanced" {
		t.Errorf("a new job is drafted by %q", b.job.File.Method)
	}
	if b.job.File.Rules.House["seat_tilt"] != "1 in" {
		t.Errorf("a new job begins with %v", b.job.File.Rules.House)
	}
	next := open(t, s, nil)
	if got := next.house.inForce(); got.Name != "Mother's" || got.Method != "balanced" || got.Values["seat_tilt"] != "1 in" {
		t.Errorf("the next window has %+v", got)
	}

	// One that is cut stays as it was cut, and nothing is said.
	b.step(false)
	b.stage = stageHouse
	b.houseView().OnResetAll()
	b.settle()
	if len(b.houseDiffers()) == 0 {
		t.Error("nothing differs from the defaults")
	}
	b.job.Reach(Cut, b.today())
	if len(b.houseDiffers()) != 0 {
		t.Error("a job that is cut is told to change")
	}
}

func TestSetsOfRules(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.stage = stageHouse
	b.houseView().OnGroup("fork")
	b.houseView().OnRule("seat_tilt", "9")
	b.shows("Out of range", "1 to mend", "the default is 2 in")
	b.houseView().OnRule("seat_tilt", "1 1/2")
	b.houseView().OnCopy(firstSet)
	b.shows("Our own 2")
	second := b.house.Sets[1].ID
	b.houseView().OnForce(second)
	b.houseView().OnReset("seat_tilt")
	b.houseView().OnDelete(firstSet)
	if b.house.set(firstSet).Deleted != 0 {
		t.Error("deleted at the first tap")
	}
	b.houseView().OnDelete(firstSet)
	b.houseView().OnDelete(second)
	b.houseView().OnDelete(second)
	b.shows("until ", "Recover")
	if b.house.InForce != second || b.house.set(second).Deleted != 0 || b.house.set(firstSet).Deleted == 0 {
		t.Errorf("deleted: %+v", b.house.House)
	}
	b.houseView().OnRecover(firstSet)
	if b.house.set(firstSet).Values["seat_tilt"] != "1½ in" || b.house.inForce().Values["seat_tilt"] != "" {
		t.Errorf("recovered: %+v", b.house.House)
	}
	for b.house.can(false) {
		b.step(false)
	}
	if len(b.house.Sets) != 1 || len(b.house.inForce().Values) != 0 {
		t.Errorf("all undone: %+v", b.house.House)
	}
	for b.house.can(true) {
		b.step(true)
	}
	b.settle()
	if next := open(t, s, nil); next.house.InForce != second || len(next.house.Sets) != 2 {
		t.Errorf("the next window has %+v", next.house.House)
	}
	b.houseView().OnFind("TILT")
	b.shows("house-seat_tilt")
	b.houseView().OnFind("no such")
	b.shows("No rule has this in its name.")
}

// A house that cannot be read is left as it is; where another window was
// first, its house stands.
func TestHouseElsewhere(t *testing.T) {
	s := &mem.Store{}
	one, two := open(t, s, nil), open(t, s, nil)
	one.houseView().OnName("One")
	one.settle()
	two.houseView().OnName("Two")
	two.settle()
	if two.house.inForce().Name != "One" || !strings.Contains(two.fault, "another window") {
		t.Errorf("%+v, fault %q", two.house.House, two.fault)
	}
	two.houseView().OnName("Two")
	two.settle()
	if next := open(t, s, nil); next.house.inForce().Name != "Two" {
		t.Errorf("the next window has %+v", next.house.House)
	}

	newer := store.Record{Kind: houseKind, ID: houseID, Rev: 1, Data: []byte(`{"version": 9}`), Updated: clock()}
	s = &mem.Store{}
	if err := s.Put(context.Background(), newer); err != nil {
		t.Fatal(err)
	}
	b := open(t, s, nil)
	b.houseView().OnName("Mine")
	b.settle()
	if r, err := s.Get(context.Background(), houseKind, houseID); err != nil || r.Rev != 1 || b.fault == "" {
		t.Errorf("a newer house was written over: %+v, %v, fault %q", r, err, b.fault)
	}
}

// A lent set is looked at before anything is done with it.
func TestRulesAreLent(t *testing.T) {
	lender := open(t, &mem.Store{}, nil)
	lender.stage = stageHouse
	lender.houseView().OnRule("seat_tilt", "1 1/2")
	lender.houseView().OnName("Mother's")
	lender.houseView().OnMethod("balanced")
	lender.changeHouse("", func(h *House) { h.set(firstSet).Values["of_a_newer_program"] = "4" })
	lender.houseView().OnLend()
	lent := lender.view.house.lent
	lender.shows("#" + lent)

	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	was := b.job.File.Rules.House
	b.stage = stageHouse
	for text, want := range map[string]string{
		"http://elsewhere.example/": "no link that this program made",
		lent[:40]:                   "damaged or cut short",
		strings.Repeat("x", 1e5):    "too long",
	} {
		b.houseView().OnPaste(text)
		b.shows(want)
	}
	b.houseView().OnPaste("http://stall.example/#" + lent)
	b.shows("Rules lent to you: “Mother&#39;s”", "1 rule in it is not known here", "1½ in")
	if !maps.Equal(b.job.File.Rules.House, was) || len(b.house.Sets) != 1 {
		t.Error("something was changed by looking")
	}
	b.houseView().OnLentToJob()
	b.settle()
	if b.job.File.Rules.House["seat_tilt"] != "1½ in" || b.job.File.Rules.House["of_a_newer_program"] != "" || b.job.File.Method != job.Balanced || b.work.Result == nil {
		t.Errorf("the job is drafted by %v", b.job.File.Rules.House)
	}
	if !b.hearLink(lent) || b.hearLink("style") {
		t.Error("the address is not heard")
	}
	b.houseView().OnKeepLent()
	if s := b.house.Sets[1]; s.Name != "Mother's" || s.Values["of_a_newer_program"] != "4" || s.Method != job.Balanced || b.house.InForce != firstSet {
		t.Errorf("kept as %+v", s)
	}
	b.houseView().OnPaste(lent)
	b.houseView().OnLeaveLent()
	if b.view.house.look != nil || b.view.house.paste != "" || len(b.house.Sets) != 2 {
		t.Error("it is not left")
	}
}

// firstLink was made byte by byte as sync/link and rules.Lent tell the formats.
const firstLink = "https://stall.example/#rules=x18BAQEITW90aGVyJ3MCCmJlbHRfbG9vcHMBNwlzZWF0X3RpbHQIMSAxLzIgaW64vi26"

// A link that was lent with the first version opens for ever.
func TestFirstLinkOpens(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.stage = stageHouse
	b.houseView().OnPaste(firstLink)
	l := b.view.house.look
	if l == nil || l.fault != "" || l.lent.Name != "Mother's" || !maps.Equal(l.known, rules.Values{"belt_loops": "7", "seat_tilt": "1 1/2 in"}) {
		t.Errorf("%+v", l)
	}
}
