//go:build !js

package ui

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/book"
)

func quantity(t *testing.T, text string) unit.Quantity {
	t.Helper()
	q, err := unit.Parse(text, unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// remnantOfAll has something of everything that a remnant's record holds.
func remnantOfAll(t *testing.T) *Remnant {
	t.Helper()
	at := func(across, along string) job.Corner {
		return job.Corner{Across: quantity(t, across), Along: quantity(t, along)}
	}
	r := NewRemnant(job.Units{}, job.Cloth{
		Name: "Blue drill", Kind: "lining", Fold: job.Open, OneWay: true, Gap: quantity(t, "1 mm"), RepeatAlong: quantity(t, "2 in"), Tilt: "2",
		Flaws:   []job.Flaw{{FromSelvedge: quantity(t, "1"), FromEdge: quantity(t, "2"), Across: quantity(t, "3"), Along: quantity(t, "4")}},
		Outline: []job.Corner{at("0", "0"), at("30", "0"), at("30", "20 1/2"), at("0", "52 cm")},
	}, "3b")
	r.Deleted = 1_936_872_000_000
	r.Unread["cloth[0].outline[1].along"] = "2 feet?"
	return r
}

func TestRemnantRecord(t *testing.T) {
	data, err := remnantOfAll(t).Encode()
	if err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile("testdata/cloth-1.json")
	if err != nil {
		t.Fatalf("%v; today it is\n%s", err, data)
	}
	if string(old) != string(data) {
		t.Errorf("version 1 was written as\n%s, now\n%s", old, data)
	}
	r, err := DecodeRemnant(old, job.Units{})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := fmt.Sprint(r.File.Cloth, r.From, r.Deleted, r.Unread), fmt.Sprint(remnantOfAll(t).File.Cloth, "3b", int64(1_936_872_000_000), remnantOfAll(t).Unread); got != want {
		t.Errorf("read again it is %s, was %s", got, want)
	}
	for _, bad := range []string{"", "{}", `{"version": 2}`, `{"version": 1}`, `{"version": 1, "cloth": {"width": 3}}`} {
		if _, err := DecodeRemnant([]byte(bad), job.Units{}); err == nil {
			t.Errorf("%q was read as a remnant", bad)
		}
	}
}

// Four square corners are a width and a length.
func TestSquareRemnant(t *testing.T) {
	r := NewRemnant(job.Units{}, job.Cloth{Width: quantity(t, "30"), Length: quantity(t, "20")}, "")
	was := r.Cloth(0)
	r.setCornered(true)
	cornered := r.Cloth(0)
	cornered.Width, cornered.Length = unit.Quantity{}, unit.Quantity{}
	if got := asRectangle(cornered); len(cornered.Outline) != 4 || len(got.Outline) > 0 || got.Width != was.Width || got.Length != was.Length {
		t.Errorf("%+v became %+v and %+v", was, cornered, got)
	}
	cornered.Outline[2].Across = quantity(t, "25")
	if got := asRectangle(cornered); len(got.Outline) != 4 {
		t.Errorf("a slanted side became %+v", got)
	}
}

// What a lay leaves is kept once, becomes the cloth of a later job, and whoever
// takes it is told who has it already.
func TestRemnantIsKeptAndUsed(t *testing.T) {
	b, _ := onCloth(t)
	if !b.clothView().Remnants.CanKeep {
		t.Fatal("nothing is left of the sample's cloth")
	}
	b.clothView().Remnants.OnKeep()
	b.clothView().Remnants.OnKeep()
	b.settle()
	if len(b.remnants) != 1 || !strings.HasPrefix(b.clothView().Remnants.Told, "Kept in the Book: Navy suiting, ") {
		t.Fatalf("%d remnants are kept: %q", len(b.remnants), b.clothView().Remnants.Told)
	}
	left, _, _ := draft.Leftover(b.laying.r, 0, b.laying.shown)
	kept, id := b.remnants[0], b.remnants[0].id
	if r, err := b.store.Get(b.ctx, clothKind, id); err != nil || r.Rev != 2 {
		t.Errorf("kept %d times, %v", r.Rev, err)
	}
	if c := kept.Cloth(0); !slices.Equal(c.Outline, left.Outline) || c.Fold != job.Open {
		t.Errorf("%+v is kept as %+v", left, c)
	}

	// A second job takes it for its cloth, and a third is told.
	for i, used := range []string{"", "Used already for Alto 3"} {
		b.openSample()
		b.settle()
		b.stage = stageCloth
		b.view.cloth.at = 0
		v := b.clothView().Remnants
		if len(v.Offers) != 1 || strings.Contains(v.Offers[0].Name, "Used already") != (i > 0) {
			t.Errorf("job %d is offered %+v", i, v.Offers)
		}
		v.OnTake(id)
		b.settle()
		c := b.job.Cloth(0)
		if c.Remnant != id || !slices.Equal(c.Outline, kept.Cloth(0).Outline) || b.laying == nil {
			t.Errorf("job %d lies on %+v", i, c)
		}
		if v := b.clothView().Remnants; !v.Is || v.Used != used || v.Size == "" || v.Name != "From the Book: Navy suiting" {
			t.Errorf("job %d: %+v", i, v)
		}
		b.listJobs()
		b.settle()
	}
	b.clothView().Remnants.OnLeave()
	b.settle()
	if c := b.job.Cloth(0); c.Remnant != "" || b.clothView().Remnants.Is {
		t.Errorf("left, the job lies on %+v", c)
	}
}

// A remnant is entered by hand, refused while its edge crosses itself, deleted
// and recovered, and stands in a backup.
func TestRemnantByHand(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.bookView().OnView(book.ViewCloth)
	b.bookView().OnNewCloth()
	v := func() *book.Cloth { return b.bookView().Cloth }
	v().OnName("Red poplin")
	if v().Fault == "" {
		t.Error("cloth without a size is taken")
	}
	v().OnLength("width", "30")
	v().OnLength("length", "20")
	if v().Fault != "" {
		t.Errorf("30 by 20 in: %s", v().Fault)
	}
	v().OnCorners(true)
	if v().Corners != 4 || v().Fault != "" || v().Drawing == "" {
		t.Errorf("by its corners: %+v", v())
	}
	v().OnCorner()
	v().OnLength("outline[4].across", "10")
	if v().Fault != "" {
		t.Errorf("a notch of 10 in: %s", v().Fault)
	}
	v().OnLength("outline[1].across", "0")
	v().OnLength("outline[2].along", "ten")
	if !strings.Contains(v().Fault, "Give its width") {
		t.Errorf("with a figure that cannot be read: %q", v().Fault)
	}
	v().OnLength("outline[2].along", "20")
	v().OnLength("outline[0].across", "30")
	v().OnLength("outline[4].across", "40")
	if !strings.Contains(v().Fault, "crosses itself") {
		t.Errorf("a crossed edge: %q", v().Fault)
	}
	b.settle()
	if b.remnantView(job.Cloth{}).Offers != nil {
		t.Error("a remnant whose edge crosses itself is offered as cloth")
	}
	v().OnLength("outline[0].across", "0")
	v().OnLength("outline[1].across", "30")
	v().OnLength("outline[4].across", "-2")
	v().OnLength("outline[4].across", "10")
	b.settle()
	if len(b.remnantView(job.Cloth{}).Offers) != 1 {
		t.Errorf("mended, it is not offered: %q", v().Fault)
	}
	b.shows("Corner 5", "by its corners")

	id := b.remnants[0].id
	b.relist(nil, nil)
	b.settle()
	again := b.remnant(id)
	if again == nil || len(again.Cloth(0).Outline) != 5 || again.Cloth(0).Name != "Red poplin" {
		t.Fatalf("read again it is %+v", again)
	}
	v().OnDelete()
	v().OnDelete()
	b.settle()
	b.bookView().OnView(book.ViewDeleted)
	if d := b.bookView().Deleted; len(d) != 1 || d[0].Name != "Red poplin" {
		t.Fatalf("deleted: %+v", d)
	}
	b.recover(id)
	b.settle()
	all, err := b.store.All(b.ctx)
	if err != nil {
		t.Fatal(err)
	}
	file, err := writeBackup(all)
	if err != nil {
		t.Fatal(err)
	}
	r, err := readBackup(file)
	if err != nil {
		t.Fatal(err)
	}
	in := false
	for _, one := range r.records {
		in = in || one.Kind == clothKind && one.ID == id
	}
	if !in {
		t.Error("the backup has no cloth")
	}
}

// Cloth that was deleted long ago is cleared away, other cloth stays.
func TestOldClothIsClearedAway(t *testing.T) {
	s := &mem.Store{}
	for id, deleted := range map[string]int64{"stays": 0, "goes": 1} {
		r := NewRemnant(job.Units{}, job.Cloth{Width: quantity(t, "30"), Length: quantity(t, "20")}, "")
		r.Deleted = deleted
		data, err := r.Encode()
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Put(t.Context(), store.Record{Kind: clothKind, ID: id, Rev: 1, Data: data}); err != nil {
			t.Fatal(err)
		}
	}
	b := open(t, s, nil)
	if len(b.remnants) != 1 || b.remnants[0].id != "stays" {
		t.Errorf("%d remnants are here", len(b.remnants))
	}
}

// A remnant of corners is laid on as it is: what does not go on it is said.
func TestRemnantOfCornersIsLaidOn(t *testing.T) {
	b, _ := onCloth(t)
	b.deps.Work = 0 // as long as the page itself searches
	r := NewRemnant(b.units(), job.Cloth{Name: "Odd piece"}, "")
	for _, k := range [][2]string{{"0", "0"}, {"60", "0"}, {"60", "50"}, {"30", "50"}, {"30", "60"}, {"0", "60"}} {
		r.change(func(c *job.Cloth) {
			c.Outline = append(c.Outline, job.Corner{Across: quantity(t, k[0]), Along: quantity(t, k[1])})
		})
	}
	kept := b.newRemnant(r.Cloth(0), "")
	b.settle()
	b.takeRemnant(kept.id)
	b.settle()
	v := b.clothView()
	if !v.Remnants.Cornered || v.Remnants.Size != "60 in by 60 in over all" || v.Drawing == "" || b.laying.missing != "" {
		t.Fatalf("laid on corners: %+v, %q", v.Remnants, b.laying.missing)
	}
	if err := lay.Verify(b.laying.shown.Cloth, b.laying.shown.Items, b.laying.shown.Result); err != nil {
		t.Error(err)
	}
	if v.Verdict != "Everything lies on the remnant" || len(v.Lines) != 2 {
		t.Errorf("said of it: %q, %q", v.Verdict, v.Lines)
	}
}
