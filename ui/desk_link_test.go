//go:build !js

package ui

import (
	"bytes"
	"maps"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/rules"
	"chalkfold/draft/slip"
	"chalkfold/draft/unit"
	"chalkfold/sync/link"
	"chalkfold/sync/store/mem"
	"chalkfold/testdata/jobs"
	"chalkfold/ui/share"
)

// Links of drafts with measurements are short enough for a message and for one
// code of moderate density. Every fifth surveyed body, with the seven
// measurements that trousers are mostly drafted from, every question of style
// answered, in each style of the survey by turns, by either tape.
func TestDraftLinksAreShort(t *testing.T) {
	styles := prove.Styles()
	g := NewDesk(Deps{}).garment
	var lengths []int
	for i, b := range provetest.Bodies(t, 5) {
		j := styles[i%len(styles)].Job(b)
		j.Name = ""
		whole, err := g.Complete(j.Style)
		if err != nil {
			t.Fatal(err)
		}
		j.Style = whole
		for _, tape := range []unit.Format{{System: unit.Inches, Den: 8}, {System: unit.Centimetres}} {
			j.Units = job.Units{System: tape.System}
			j.Measurements = body.Takings{}
			for _, id := range g.Needs {
				q, err := unit.Parse(tape.Text(tape.Round(b.Taken[id].Value.Length())), tape.System)
				if err != nil {
					t.Fatal(err)
				}
				j.Measurements[id] = body.Taking{Value: q}
			}
			data, err := slip.Encode(j)
			if err != nil {
				t.Fatal(err)
			}
			text, err := link.Encode(link.Draft, data)
			if err != nil {
				t.Fatal(err)
			}
			lengths = append(lengths, len("https://workshop.example/#"+text))
		}
	}
	slices.Sort(lengths)
	n := len(lengths)
	t.Logf("%d links: median %d characters, 95th of a hundred %d, worst %d", n, lengths[n/2], lengths[n*95/100], lengths[n-1])
	if lengths[n-1] > 400 {
		t.Errorf("the longest link has %d characters, want 400 at most", lengths[n-1])
	}
}

// linked is a desk with the sample at Share, and its link.
func linked(t *testing.T, ticks ...string) (tried, string) {
	t.Helper()
	b, _ := sharing(t)
	for _, id := range ticks {
		b.shareView().OnTick(id)
	}
	v := b.shareView().Link
	if v.Address == "" {
		t.Fatalf("no link: %s", v.Fault)
	}
	return b, v.Address
}

// What is not ticked is not in the link, and what is opens as the same job.
func TestDraftLink(t *testing.T) {
	for _, tt := range []struct {
		ticks []string
		what  slip.What
		holds string
	}{
		{nil, slip.What{}, "Not in it: the measurements, the ticket, the client&#39;s name."},
		{[]string{share.TickMeasurements}, slip.What{Measurements: true}, "Not in it: the ticket, the client&#39;s name."},
		{[]string{share.TickName}, slip.What{Name: true}, "Not in it: the measurements."},
		{[]string{share.TickName, share.TickMeasurements}, slip.What{Measurements: true, Name: true}, "the measurements and the ticket."},
		{[]string{share.TickName, share.TickName}, slip.What{}, "Not in it: the measurements, the ticket"},
	} {
		b, address := linked(t, tt.ticks...)
		b.shows(tt.holds)
		other := open(t, &mem.Store{}, nil)
		other.job.SetName("Bass 1")
		was := fileText(t, other.job.File)
		other.stage = stageBook
		if !other.hearLink(address[strings.IndexByte(address, '#')+1:]) || other.stage != stageShare {
			t.Fatalf("%v: not heard, at %s", tt.ticks, other.stage)
		}
		if l := other.shareView().Looking; l.Fault != "" || l.Sketch == "" || (l.Pieces == "") != !tt.what.Measurements {
			t.Errorf("%v: looked at as %+v", tt.ticks, l)
		}
		if got := fileText(t, other.job.File); got != was {
			t.Errorf("%v: looking changed the job on the desk to\n%s", tt.ticks, got)
		}
		other.shareView().OnKeep()
		other.settle()
		if got, want := fileText(t, other.job.File), fileText(t, slip.Give(b.job.File, tt.what)); got != want {
			t.Errorf("%v: kept as\n%s\nwant\n%s", tt.ticks, got, want)
		}
	}
}

func fileText(t *testing.T, f job.Job) string {
	t.Helper()
	var b bytes.Buffer
	if err := f.Encode(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A lay goes with the measurements that its pieces are made of, and lies there
// as it lay here.
func TestLayLink(t *testing.T) {
	b, _ := sharing(t)
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	b.stage = stageShare
	b.shareView().OnTick(share.TickLay)
	if v := b.shareView().Link; v.Lay {
		t.Error("a lay without the measurements is given")
	}
	b.shareView().OnTick(share.TickMeasurements)
	address := b.shareView().Link.Address
	if kind, _ := link.KindOf(address); kind != link.Lay {
		t.Fatalf("%s is of kind %d", address, kind)
	}
	other := open(t, &mem.Store{}, nil)
	other.stage = stageShare
	other.shareView().OnPaste(address)
	other.shows("A cloth is in it, with ")
	other.shareView().OnKeep()
	other.stage = stageCloth
	other.wantLay()
	other.settle()
	there, _, ok := other.laying.best.Lay()
	here, _, _ := b.laying.best.Lay()
	if !ok || len(there.Placements) != len(here.Placements) || there.Length > here.Length+1 || len(other.laying.shown.LetGo) > 0 {
		t.Errorf("%d pieces on %.1f mm, want %d on %.1f; let go: %v", len(there.Placements), there.Length.MM(), len(here.Placements), here.Length.MM(), other.laying.shown.LetGo)
	}
}

// Each field for a link takes every kind, and leads to where it is looked at.
func TestLinksAreOpenedAnywhere(t *testing.T) {
	b, address := linked(t, share.TickName)
	b.stage = stageHouse
	b.houseView().OnPaste("a message: " + address)
	if b.stage != stageShare || b.shareView().Looking == nil || b.view.house.look != nil {
		t.Errorf("at %s, looking at %+v", b.stage, b.shareView().Looking)
	}
	b.shareView().OnLeave()
	b.shareView().OnPaste(firstLink)
	if b.stage != stageHouse || b.view.house.look == nil || b.view.share.look != nil {
		t.Errorf("at %s, looking at %+v", b.stage, b.view.house.look)
	}
	// The book keeps what is no link, as far as it is typed, and says so.
	b.stage = stageBook
	b.bookView().OnPaste("https://stall.example/#dra")
	b.shows("This is no link that this program made.")
	if b.stage != stageBook || b.view.share.look != nil || b.bookView().Paste != "https://stall.example/#dra" {
		t.Errorf("at %s with %q, looking at %+v", b.stage, b.bookView().Paste, b.view.share.look)
	}
	b.bookView().OnPaste("")
	if b.bookView().NoUse != "" {
		t.Errorf("an empty field is told of: %s", b.bookView().NoUse)
	}
	b.bookView().OnPaste("Alto 3, from the other stall: " + address)
	if b.stage != stageShare || b.shareView().Looking == nil {
		t.Errorf("at %s, looking at %+v", b.stage, b.shareView().Looking)
	}
	b.shareView().OnLeave()
	b.stage = stageBook
	b.bookView().OnPaste(firstLink)
	if b.stage != stageHouse || b.view.house.look == nil {
		t.Errorf("rules lead to %s, looking at %+v", b.stage, b.view.house.look)
	}

	b.stage = stageShare
	for text, want := range map[string]string{
		"https://elsewhere.example/": "no link that this program made",
		address[:len(address)-9]:     "damaged or cut short",
		strings.Repeat("x", 1e5):     "too long",
		"draft=x18CAnEGY4A":          "of a newer Chalkfold",
	} {
		b.shareView().OnPaste(text)
		if l := b.shareView().Looking; l == nil || !strings.Contains(l.Fault, want) {
			t.Errorf("%.30q: %+v, want %q", text, l, want)
		}
		b.shareView().OnKeep()
		if b.job.File.Name != "Alto 3" {
			t.Fatalf("%.30q was kept", text)
		}
	}
}

// The code is of the link that stands there, and is saved under no name that is
// not in it.
func TestLinkCode(t *testing.T) {
	b, h := sharing(t)
	b.shareView().OnCode()
	first := b.shareView().Link.Code
	b.shareView().OnTick(share.TickMeasurements)
	b.shareView().OnFile(share.CodeFile, false)
	if first == "" || string(h.file) == first || string(h.file) != b.shareView().Link.Code || h.name != "chalkfold-code.svg" {
		t.Errorf("saved as %s, %d bytes", h.name, len(h.file))
	}
	b.shareView().OnTick(share.TickName)
	b.shareView().OnFile(share.CodeFile, true)
	if h.name != "alto-3-code.svg" || h.kind != "image/svg+xml" {
		t.Errorf("saved as %s, %s", h.name, h.kind)
	}
}

// Links of each kind as they were first sent. They open for ever, as what they
// were.
const (
	firstDraft    = "https://stall.example/#draft=x18BAgIdEgwTMEFsdG8gMw4BFCkVHRYZF0QAGB0igiIkgiolghkmwg8wgigAGQkaERsdQMkIPHkAHB0dHUSCAQAeHUcINgAAAOPAChw"
	firstLay      = "https://stall.example/#lay=x18BAwIdEgwOARQpFR0WGRdEABgdIoIiJIIqJYIZJsIPMIIoABkJGhEbHUDJCDx5ABwdHR1EggEAHh1HCDYAACElHXM5dII8dTAywrwgeWR2aXhCeiUde_EJfUJ-QgAde_kJfYI8fkJ_4QqAARUALQAtAHDCSRc"
	secondOfRules = "https://stall.example/#rules=x18BAQIdE0BNb3RoZXInc3AdRwg3V8IBAABjoCdO"
)

func TestOldLinksOpen(t *testing.T) {
	sample := jobs.Read(t, "alto-3.json")
	for name, tt := range map[string]struct {
		link string
		want job.Job
	}{
		"draft": {firstDraft, slip.Give(sample, slip.What{Measurements: true, Name: true})},
		"lay":   {firstLay, slip.Give(withKept(sample), slip.What{Measurements: true, Cloth: true})},
	} {
		b := open(t, &mem.Store{}, nil)
		b.stage = stageShare
		b.shareView().OnPaste(tt.link)
		if l := b.view.share.look; l.err != nil || fileText(t, l.file) != fileText(t, tt.want) {
			t.Errorf("%s: %v\n%s", name, l.err, fileText(t, l.file))
		}
	}
	b := open(t, &mem.Store{}, nil)
	b.stage = stageHouse
	b.houseView().OnPaste(secondOfRules)
	if l := b.view.house.look; l.fault != "" || l.lent.Name != "Mother's" || !maps.Equal(l.known, rules.Values{"belt_loops": "7", "seat_tilt": "1½ in"}) {
		t.Errorf("rules: %+v", l)
	}
}

// withKept is the job with its first cloth alone and two pieces in their places
// on it.
func withKept(j job.Job) job.Job {
	j = j.Clone()
	c := &j.Cloth[0]
	c.Kept = []job.Kept{
		{Piece: "front", Copy: 1, Across: c.Margin, Along: c.Margin},
		{Piece: "back", Copy: 1, Across: c.Width, Along: c.Margin, Turn: "180", Over: true},
	}
	j.Cloth = j.Cloth[:1]
	return j
}
