package ui

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"chalkfold/draft/body"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/testdata/jobs"
)

// again is the job as it is when the page is opened the next time.
func again(t *testing.T, j *Job) *Job {
	t.Helper()
	data, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	k, err := DecodeJob(data)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func ruleDef(t *testing.T, id rules.ID) rules.Def {
	t.Helper()
	for _, d := range trouser.Defs() {
		if d.ID == id {
			return d
		}
	}
	t.Fatalf("no rule %s", id)
	return rules.Def{}
}

// Whatever is typed is there when the page is opened again, in the words in
// which the tape reads it.
func TestNothingTypedIsLost(t *testing.T) {
	for _, tt := range []struct{ text, after string }{
		{"42", "42"},
		{"42½", "42½"},
		{"42 1/2 in", "42½"},
		{"106,7 cm", "106.7 cm"},
		{"420", "420"},         // no body has it, and it is a length
		{"42 1/", "42 1/"},     // half typed
		{"wide", "wide"},       // no length
		{"-3", "-3"},           // no length of a body
		{`"<&`, `"<&`},         // nor this
		{"9999999", "9999999"}, // nor this
		{"", ""},
		{"  ", ""},
	} {
		j := NewJob("trousers")
		j.Measure(body.HipGirth, tt.text, "2031-05-17")
		if got := j.Measured(body.HipGirth); got != tt.text {
			t.Errorf("typed %q, the field holds %q", tt.text, got)
		}
		if got := again(t, j).Measured(body.HipGirth); got != tt.after {
			t.Errorf("typed %q, %q after opening again, want %q", tt.text, got, tt.after)
		}
		c := NewJob("trousers")
		c.SetCloth(0, job.Cloth{Width: c.EnterCloth(0, "width", tt.text)})
		if got := again(t, c); got.ClothText(0, "width", got.Cloth(0).Width) != tt.after {
			t.Errorf("typed %q for the cloth, %q after opening again, want %q", tt.text, got.ClothText(0, "width", got.Cloth(0).Width), tt.after)
		}
	}
}

// What it was taken of is kept also while the figure is not there.
func TestOfGarmentIsKept(t *testing.T) {
	for _, text := range []string{"", "27 1/", "27"} {
		j := NewJob("trousers")
		j.SetOf(body.BodyRise, body.OfGarment)
		j.Measure(body.BodyRise, text, "2031-05-17")
		k := again(t, j)
		if k.File.Measurements[body.BodyRise].Of != body.OfGarment || k.Measured(body.BodyRise) != text {
			t.Errorf("%q of a garment: %+v, %q", text, k.File.Measurements[body.BodyRise], k.Measured(body.BodyRise))
		}
		k.SetOf(body.BodyRise, body.OfBody)
		k.Measure(body.BodyRise, "", "2031-05-17")
		if len(again(t, k).File.Measurements) != 0 {
			t.Errorf("%q taken out: %+v", text, k.File.Measurements)
		}
	}
}

// A figure keeps its meaning when the tape is changed.
func TestChangingTheTape(t *testing.T) {
	j := NewJob("trousers")
	j.Measure(body.HipGirth, "42", "2031-05-17")
	j.SetSystem(unit.Centimetres)
	j.Measure(body.WaistGirth, "86.4", "2031-05-17")
	if h, w := j.Measured(body.HipGirth), j.Measured(body.WaistGirth); h != "42 in" || w != "86.4" {
		t.Errorf("hip %q, waist %q; want 42 in, 86.4", h, w)
	}
	if got := j.File.Measurements[body.HipGirth].Value.Length(); got != 42*unit.Inch {
		t.Errorf("hip %v mm, want 42 in", got)
	}
}

// The record holds the job file as it is stored and shared elsewhere.
func TestRecordHoldsTheJobFile(t *testing.T) {
	file := jobs.File(t, "alto-3.json")
	if !bytes.Equal(file, sampleFile) {
		t.Fatal("alto-3.json is not the one in testdata/jobs: copy it")
	}
	j, err := Sample()
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := again(t, j).File.Encode(&b); err != nil {
		t.Fatal(err)
	}
	if b.String() != string(file) {
		t.Errorf("kept and read again the sample is\n%s", b.String())
	}
}

func TestRules(t *testing.T) {
	j := NewJob("trousers")
	tilt, part := ruleDef(t, "seat_tilt"), ruleDef(t, "front_fork_part")
	if l, _ := j.Rule(tilt.ID); l != rules.Built || j.RuleText(tilt) != "2" {
		t.Errorf("the default reads %q at level %s", j.RuleText(tilt), l)
	}
	j.EditRule(tilt, "1 1/2")
	if l, v := j.Rule(tilt.ID); l != rules.House || v != "1½ in" || j.RuleText(tilt) != "1 1/2" {
		t.Errorf("typed 1 1/2: %q, kept %q at level %s", j.RuleText(tilt), v, l)
	}
	j.MoveRule(rules.Job, tilt)
	if l, v := j.Rule(tilt.ID); l != rules.Job || v != "1½ in" || len(j.File.Rules.House) != 0 {
		t.Errorf("moved: %q at level %s", v, l)
	}
	// Emptied on the way to another figure: the field stays empty, at its level.
	j.File.Rules.House = rules.Values{tilt.ID: "1 in"}
	j.EditRule(tilt, "")
	if j.RuleText(tilt) != "" {
		t.Errorf("emptied, the field holds %q", j.RuleText(tilt))
	}
	j.EditRule(tilt, "1 3/4")
	if l, v := j.Rule(tilt.ID); l != rules.Job || v != "1¾ in" {
		t.Errorf("typed anew: %q at level %s, want 1¾ in for the job", v, l)
	}
	j.MoveRule(rules.Built, tilt)
	if l, _ := j.Rule(tilt.ID); l != rules.Built || j.RuleText(tilt) != "2" {
		t.Errorf("given back: %q at level %s", j.RuleText(tilt), l)
	}
	j.EditRule(part, "steep") // for the core to refuse, and kept
	if l, v := again(t, j).Rule(part.ID); l != rules.House || v != "steep" {
		t.Errorf("kept %q at level %s", v, l)
	}
	var m Maker
	w := m.Make(j)
	if len(w.Whys) == 0 || w.Result != nil {
		t.Fatal("a rule that cannot be used was passed over")
	}
}

// A ticket too long for the file is cut at a whole letter.
func TestLongNames(t *testing.T) {
	for _, name := range []string{strings.Repeat("a", 300), strings.Repeat("ọ", 100), "x" + strings.Repeat("語", 90), strings.Repeat("a", 198) + "语"} {
		j := NewJob("trousers")
		j.SetName(name)
		got := again(t, j).File.Name
		if !strings.HasPrefix(name, got) || !utf8.ValidString(got) || len(got) > 200 || len(got) < 197 {
			t.Errorf("%d bytes of %q are kept", len(got), name[:8])
		}
	}
}

func TestForeignRecords(t *testing.T) {
	for _, data := range []string{"", "{}", `{"version": 2, "job": {}}`, `{"version": 1, "job": {"chalkfold": 99}}`, `{"version": 1}`} {
		if _, err := DecodeJob([]byte(data)); err == nil {
			t.Errorf("%q was read", data)
		}
	}
}

// A taking that is changed leaves the draft made before as it was.
func TestDraftsKeepTheirJob(t *testing.T) {
	j, err := Sample()
	if err != nil {
		t.Fatal(err)
	}
	var m Maker
	w := m.Make(j)
	if w.Result == nil {
		t.Fatal(w.Whys)
	}
	j.Measure(body.HipGirth, "50", "2031-05-17")
	j.Choose("leg", "free")
	j.EditRule(ruleDef(t, "centre_back_inlay"), "1/2")
	j.SwitchTruing("side")
	of := w.Result.Job
	if of.Measurements[body.HipGirth].Value.Length() != 42*unit.Inch || of.Style["leg"] != "" || of.Rules.House["centre_back_inlay"] != "1 in" || len(of.Untrued) != 0 {
		t.Errorf("the draft's own job has changed: %+v", of)
	}
}

func TestWhys(t *testing.T) {
	var m Maker
	j := NewJob("trousers")
	if w := m.Make(j); w.Result != nil || len(w.Whys) == 0 || w.Whys[0].Path != "measurements.waist_girth" {
		t.Errorf("nothing taken: %+v", w.Whys)
	}
	j.Measure(body.WaistGirth, "34", "2031-05-17")
	j.Measure(body.HipGirth, "4 2", "2031-05-17")
	if w := m.Make(j); w.Result != nil || len(w.Whys) != 1 || w.Whys[0].What != "hip girth" {
		t.Errorf("a hip that cannot be read: %+v", w.Whys)
	}
	j.Measure(body.HipGirth, "420", "2031-05-17")
	if w := m.Make(j); w.Result != nil || len(w.Whys) == 0 || !strings.Contains(w.Whys[0].Text, "must be from") {
		t.Errorf("a hip that no body has: %+v", w.Whys)
	}
}

// One key in a measurement: what was typed is understood, drafted and drawn.
func BenchmarkKey(b *testing.B) {
	j, err := Sample()
	if err != nil {
		b.Fatal(err)
	}
	d := NewDesk(Deps{Now: clock})
	d.job = j
	d.redraft()
	texts := [2]string{"42", "42⅛"}
	n := 0
	for b.Loop() {
		n++
		j.Measure(body.HipGirth, texts[n%2], "2031-05-17")
		d.redraft()
		if d.work.Result == nil || d.draftView().Scene.SVG == "" {
			b.Fatal("no draft")
		}
	}
}
