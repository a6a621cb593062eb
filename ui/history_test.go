package ui

import (
	"fmt"
	"math"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
)

// contentOf is what would be seen of the job when it is opened again.
func contentOf(t *testing.T, j *Job) string {
	t.Helper()
	data, err := j.Content()
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func began(t *testing.T) *Job {
	t.Helper()
	j := NewJob("trousers")
	if err := j.open(); err != nil {
		t.Fatal(err)
	}
	return j
}

func note(t *testing.T, j *Job, field string) {
	t.Helper()
	if err := j.Note(field); err != nil {
		t.Fatal(err)
	}
}

// reopened is the job as a killed tab finds it again.
func reopened(t *testing.T, j *Job) *Job {
	t.Helper()
	k := again(t, j)
	if err := k.open(); err != nil {
		t.Fatal(err)
	}
	return k
}

// Every kind of change is undone and redone, the last first, whether or not the
// page is opened anew between two steps.
func TestUndoEveryChange(t *testing.T) {
	seat := ruleDef(t, "seat_tilt")
	changes := []struct {
		what  string
		field string
		do    func(*Job)
	}{
		{"ticket", "name", func(j *Job) { j.SetName("Ẹlẹ́ṣin 3") }},
		{"measurement", "a", func(j *Job) { j.Measure(body.HipGirth, "42½", "2031-05-17") }},
		{"half typed", "b", func(j *Job) { j.Measure(body.WaistGirth, "34 1/", "2031-05-17") }},
		{"letters beside it", "b", func(j *Job) { j.Measure(body.ThighGirth, "ẹọ", "2031-05-17") }},
		{"other letters", "c", func(j *Job) { j.Measure(body.ThighGirth, "ẹṣ", "2031-05-17") }},
		{"of a garment", "", func(j *Job) { j.SetOf(body.BodyRise, body.OfGarment) }},
		{"answer", "", func(j *Job) { j.Answered[body.HipGirth] = "42½" }},
		{"figure", "", func(j *Job) { j.File.Figure = body.Women }},
		{"system", "", func(j *Job) { j.SetSystem(1) }},
		{"style", "", func(j *Job) { j.Choose("leg", "tapered") }},
		{"drafting", "", func(j *Job) { j.File.Drafting = job.Spoken }},
		{"truing", "", func(j *Job) { j.SwitchTruing("hip") }},
		{"rule", "d", func(j *Job) { j.EditRule(seat, "2 in") }},
		{"refused rule", "e", func(j *Job) { j.EditRule(seat, "far") }},
		{"level of a rule", "", func(j *Job) { j.MoveRule(0, seat) }},
		{"width of the cloth", "f", func(j *Job) { j.SetCloth(0, job.Cloth{Width: j.EnterCloth(0, "width", "60 in")}) }},
		{"client", "", func(j *Job) { j.Client = "a client" }},
		{"day it is due", "", func(j *Job) { j.Due = "2031-05-24" }},
		{"milestone", "", func(j *Job) { j.Reach(Cut, "2031-05-18") }},
		{"milestone beside it", "", func(j *Job) { j.Reach(Paid, "2031-05-18") }},
		{"milestone taken back", "", func(j *Job) { j.Reach(Cut, "") }},
		{"note", "g", func(j *Job) { j.Notes = "by hand" }},
		{"piece", "", func(j *Job) { j.CutPiece("front") }},
		{"made-up waist", "h", func(j *Job) { j.SetMadeUp("34 1/2") }},
		{"made-up waist, half typed", "i", func(j *Job) { j.SetMadeUp("34 1/") }},
		{"piece taken back", "", func(j *Job) { j.CutPiece("front") }},
		{"day of the fitting", "", func(j *Job) { j.Fitting = "2031-05-20" }},
		{"what was seen", "k", func(j *Job) { j.Seen = "gapes at the back" }},
		{"alteration", "", func(j *Job) {
			j.File.Alterations = []job.Alteration{{Kind: "back_longer", By: inches("½ in"), For: job.ForClient}}
		}},
		{"cut as it is altered", "", func(j *Job) { j.Reach(Cut, "2031-05-21") }},
		{"alteration taken out", "", func(j *Job) { j.File.Alterations = nil }},
		{"fold of the cloth", "", func(j *Job) { c := j.Cloth(0); c.Fold = job.Lengthwise; j.SetCloth(0, c) }},
	}
	for _, kill := range []bool{false, true} {
		j := began(t)
		was := []string{contentOf(t, j)}
		var names []string
		for _, c := range changes {
			c.do(j)
			now := contentOf(t, j)
			if now == was[len(was)-1] {
				t.Fatalf("%s changes nothing", c.what)
			}
			note(t, j, c.field)
			if c.what == "letters beside it" { // typed at the same place: one step
				was[len(was)-1] = now
				continue
			}
			was, names = append(was, now), append(names, c.what)
		}
		turn := func(forward bool, want, what string) {
			t.Helper()
			if kill {
				j = reopened(t, j)
			}
			next := j.Step(forward)
			if next == nil {
				t.Fatalf("killed %v, forward %v: %s is no step", kill, forward, what)
			}
			if got := contentOf(t, next); got != want {
				t.Fatalf("killed %v, forward %v, %s:\n%s\nwant\n%s", kill, forward, what, got, want)
			}
			j = next
		}
		for i := len(names) - 1; i >= 0; i-- {
			turn(false, was[i], names[i])
		}
		if j.past.can(false) || j.Step(false) != nil {
			t.Error("there is something before the beginning")
		}
		for i, name := range names {
			turn(true, was[i+1], name)
		}
		if j.past.can(true) || j.Step(true) != nil {
			t.Error("there is something after the end")
		}
		turn(false, was[len(names)-1], "the last again")
		j.SetName("another way")
		note(t, j, "name")
		if j.past.can(true) {
			t.Error("a change leaves what was undone to be redone over it")
		}
	}
}

func TestTypingIsOneStep(t *testing.T) {
	j := began(t)
	blank := contentOf(t, j)
	for _, text := range []string{"4", "42", "42½"} {
		j.Measure(body.HipGirth, text, "2031-05-17")
		note(t, j, "hip")
	}
	for _, text := range []string{"3", ""} { // typed and taken back: no step
		j.Measure(body.WaistGirth, text, "2031-05-17")
		note(t, j, "waist")
	}
	if len(j.past.steps) != 1 {
		t.Fatalf("%d steps, want 1", len(j.past.steps))
	}
	j.Mark = "a mark" // a place is no change
	note(t, j, "")
	if j = j.Step(false); j == nil || contentOf(t, j) != blank || j.Mark != "a mark" {
		t.Errorf("undone at once: %+v", j)
	}
	// After an undo the same field begins a step of its own.
	j.Measure(body.HipGirth, "43", "2031-05-17")
	note(t, j, "hip")
	if j = j.Step(false); j == nil || contentOf(t, j) != blank {
		t.Errorf("undone again: %+v", j)
	}
}

func TestHowManySteps(t *testing.T) {
	j := began(t)
	for i := range 3 * mostSteps {
		j.SetName(strconv.Itoa(i))
		note(t, j, "")
	}
	data, err := j.Encode()
	if err != nil || len(data) > 10_000 {
		t.Errorf("%d bytes with every step, %v: typing would be slow", len(data), err)
	}
	j = reopened(t, j)
	n := 0
	for next := j.Step(false); next != nil; next = j.Step(false) {
		j = next
		n++
	}
	if n != mostSteps || n < 50 || j.File.Name != strconv.Itoa(2*mostSteps-1) {
		t.Errorf("%d steps back to %q", n, j.File.Name)
	}
}

// Steps that are not of this content are let go, and nothing else.
func TestStepsThatDoNotFit(t *testing.T) {
	for _, s := range []step{
		{At: 0, Was: "x", Now: "y"}, {At: -1}, {At: 1 << 30}, {At: math.MaxInt, Now: "x"}, {At: 0, Was: "", Now: "{"},
	} {
		j := began(t)
		j.past.steps, j.past.done = []step{s}, 1
		was := contentOf(t, j)
		if j.Step(false) != nil || j.past.can(false) || contentOf(t, j) != was {
			t.Errorf("%+v was undone", s)
		}
		j.SetName("Alto 3")
		note(t, j, "name")
		if j = j.Step(false); j == nil || contentOf(t, j) != was {
			t.Errorf("%+v: the next change cannot be undone", s)
		}
	}
	k := again(t, began(t))
	k.past.done = 9
	if k = again(t, k); k.past.can(false) {
		t.Error("more steps are done than there are")
	}
}

// TestEarlierRecords open the record of a job as earlier versions left it. The
// files are never changed.
func TestEarlierRecords(t *testing.T) {
	for _, version := range []int{1, 2, 3, 4, 5, 6, 7, 8} {
		t.Run(strconv.Itoa(version), func(t *testing.T) { openEarlier(t, version) })
	}
}

// What lay in the drawer for a bodice, under the id of other garments until then,
// lies there still.
func TestHookInTheDrawer(t *testing.T) {
	for version, want := range map[string]string{"5": "hook", "7": "fastening"} {
		j, err := DecodeJob([]byte(`{"version":` + version + `,"job":{"chalkfold":1,"garment":"bodice"},"drawer":{"fastening":true}}`))
		if err != nil || !j.Sewing.Drawer[want] || len(j.Sewing.Drawer) != 1 {
			t.Errorf("version %s: %v, %v", version, j, err)
		}
	}
}

func openEarlier(t *testing.T, version int) {
	t.Helper()
	data, err := os.ReadFile("testdata/kept-" + strconv.Itoa(version) + ".json")
	if err != nil {
		t.Fatal(err)
	}
	j, err := DecodeJob(data)
	if err != nil {
		t.Fatal(err)
	}
	if j.File.Name != "Alto 3" || j.Measured(body.HipGirth) != "42" || j.Measured(body.ThighGirth) != "25 1/" ||
		j.File.Measurements[body.BodyRise].Of != body.OfGarment || j.Answered[body.HipGirth] != "42" ||
		j.Mark != "front/back fork tip" || j.File.Rules.House["seat_tilt"] != "2 in" || j.Deleted != 0 || (version == 1) != (j.State == "") {
		t.Errorf("read as %+v", j)
	}
	if k := again(t, j); !reflect.DeepEqual(k, j) {
		t.Errorf("kept anew it is\n%+v, was\n%+v", k, j)
	}
	if h, ok := readHead(data); ok != (version >= 4) || ok && !reflect.DeepEqual(h, j.head()) {
		t.Errorf("its head is read %v as %+v, want %+v", ok, h, j.head())
	}
	if version >= 3 && (j.Client != "a client" || j.Due != "2031-05-24" || j.Reached[Cut] != "2031-05-18" || j.Taken[body.HipGirth] != "2031-05-17" ||
		j.Notes != "by hand" || !j.Pieces["front"] || j.MadeUp.String() != "34½ in" || j.Fitting != "2031-05-20" || j.Seen != "gapes at the back") {
		t.Errorf("read as %+v", j)
	}
	if sum := j.Quote.Sum(); version >= 4 && (j.Quote.Given != "2031-05-16" || !j.Quote.Open || j.Quote.Line("own-1") == nil || sum.Paid != 12500 || j.owed() != "95.00 GHS") {
		t.Errorf("the quote is read as %+v, %+v", j.Quote, sum)
	}
	if (version >= 8) != (j.Order == "an order") {
		t.Errorf("read as of the order %q", j.Order)
	}
	if version >= 5 && (!j.Sewing.Done["mark"] || !j.Sewing.Drawer["zip"] || j.Sewing.Weight != "heavy" || !j.Sewing.Two || j.Sewing.Step != "neaten") {
		t.Errorf("read as %+v", j.Sewing)
	}
	if left := []job.Alteration{{Kind: "side_shorter", By: inches("3/8 in"), Side: job.LeftSide, For: job.ForJob}}; version >= 6 &&
		(fmt.Sprint(j.File.Alterations) != fmt.Sprint(left) || fmt.Sprint(j.CutAs) != fmt.Sprint(left)) {
		t.Errorf("read as %v, cut as %v", j.File.Alterations, j.CutAs)
	}
	if version >= 7 && (j.Sewing.Took != 390 || j.Sewing.Minutes != 420 || j.Sewing.Left != 405 || !j.Quote.Flat || !j.Quote.Free || !j.Quote.Line("zip").Spare) {
		t.Errorf("read as %+v, %+v", j.Sewing, j.Quote)
	}
	if _, err := DecodeJob([]byte(strings.Replace(string(data), fmt.Sprintf(`"version":%d`, version), `"version":9`, 1))); err == nil {
		t.Error("a newer record was read as if it were known")
	}
}
