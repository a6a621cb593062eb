//go:build !js

package ui

import (
	"bytes"
	"context"
	"encoding/json"
	"slices"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/day"
)

// anyBook is a store with a few of every kind of record, as the page writes them.
func anyBook(t *rapid.T) *mem.Store {
	text := rapid.StringOfN(rapid.RuneFrom([]rune("Ṣọlá <&>\"\\/\n ½é\u2028🧵")), 0, 12, -1)
	s := &mem.Store{}
	n := 0
	put := func(kind string, data []byte, err error) {
		n++
		r := store.Record{Kind: kind, ID: strconv.Itoa(n), Rev: 1, Data: data, Updated: time.UnixMilli(rapid.Int64Range(0, 4e12).Draw(t, "changed")).UTC()}
		if err == nil {
			err = s.Put(context.Background(), r)
		}
		if err != nil {
			t.Fatalf("%s: %v", kind, err)
		}
	}
	for range rapid.IntRange(0, 3).Draw(t, "clients") {
		c := &Client{Name: text.Draw(t, "name"), Note: text.Draw(t, "note"), Figure: body.Women, Rules: rules.Values{"hip_ease": "2 in"}}
		data, err := c.Encode()
		put(clientKind, data, err)
	}
	for range rapid.IntRange(0, 3).Draw(t, "jobs") {
		j := NewJob("trousers")
		j.SetName(text.Draw(t, "ticket"))
		j.Notes, j.Client, j.Due = text.Draw(t, "note"), "1", "2031-05-17"
		for _, id := range []body.ID{body.WaistGirth, body.HipGirth} {
			j.Measure(id, rapid.SampledFrom([]string{"34½", "86,4 cm", "40 1/8 in", "about forty", ""}).Draw(t, "taken"), day.Day("2031-05-0"+strconv.Itoa(rapid.IntRange(1, 9).Draw(t, "day"))))
		}
		data, err := j.Encode()
		put(recordKind, data, err)
	}
	if rapid.Bool().Draw(t, "house") {
		h := firstHouse(rules.Values{"hip_ease": "2 in"})
		h.add("zz", text.Draw(t, "set"), rules.Values{}, "")
		data, err := h.encode()
		put(houseKind, data, err)
	}
	if rapid.Bool().Draw(t, "cloth") {
		data, err := NewRemnant(job.Units{}, job.Cloth{Name: text.Draw(t, "cloth")}, "").Encode()
		put(clothKind, data, err)
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "photos") {
		jpeg := rapid.SliceOfN(rapid.Byte(), 1, 300).Draw(t, "picture")
		p := &Photo{Job: "1", Of: ofCloth, Note: text.Draw(t, "note"), Picture: "picture-" + strconv.Itoa(i), Size: len(jpeg), Small: jpeg[:1]}
		data, err := p.Encode()
		put(photoKind, data, err)
		if err := s.PutBlob(context.Background(), p.Picture, jpeg); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// TestEverythingAsJSON: the file with everything is JSON to any program (here
// encoding/json, by RFC 8259), and comes in again without loss: as it was written, laid
// out anew, or written anew by another program that orders keys as it likes and leaves
// the sums out.
func TestEverythingAsJSON(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := anyBook(rt)
		file := backupWithPictures(t, s)
		var laidOut bytes.Buffer
		if err := json.Indent(&laidOut, file, "", "  "); err != nil {
			rt.Fatalf("it is no JSON: %v\n%s", err, file)
		}
		for what, text := range map[string][]byte{"as it was": file, "laid out anew": laidOut.Bytes()} {
			if again := backupWithPictures(t, comesIn(rt, text)); !bytes.Equal(again, file) {
				rt.Errorf("%s: it came in as\n%s\nwas\n%s", what, again, file)
			}
		}
		var all map[string]any
		if err := json.Unmarshal(file, &all); err != nil {
			rt.Fatal(err)
		}
		delete(all, "sum")
		pictures, _ := all["pictures"].([]any)
		for _, p := range pictures {
			delete(p.(map[string]any), "sum")
		}
		anew, err := json.Marshal(all)
		if err != nil {
			rt.Fatal(err)
		}
		other := comesIn(rt, anew)
		sameContent(rt, s, other)
	})
}

// comesIn restores a file into an empty store.
func comesIn(t *rapid.T, file []byte) *mem.Store {
	r, err := readBackupFile(textFile(string(file)))
	if err != nil {
		t.Fatalf("refused: %v\n%s", err, file)
	}
	s := &mem.Store{}
	if err := r.into(context.Background(), s, false, clock(), nil); err != nil {
		t.Fatal(err)
	}
	if n, err := r.restorePictures(context.Background(), s, s); err != nil || n != r.pictures {
		t.Fatalf("%d pictures of %d, %v", n, r.pictures, err)
	}
	return s
}

// sameContent compares what the records say, whatever the order of their keys, and the
// pictures.
func sameContent(t *rapid.T, was, is *mem.Store) {
	ctx := context.Background()
	a, errA := was.All(ctx)
	b, errB := is.All(ctx)
	if errA != nil || errB != nil || len(a) != len(b) {
		t.Fatalf("%d records came in, were %d; %v, %v", len(b), len(a), errA, errB)
	}
	for i := range a {
		x, errX := asKept(a[i].Kind, a[i].Data, nil)
		y, errY := asKept(b[i].Kind, b[i].Data, nil)
		if errX != nil || errY != nil || !bytes.Equal(x, y) || a[i].ID != b[i].ID || !a[i].Updated.Equal(b[i].Updated) {
			t.Errorf("%s %s came in as\n%s\nwas\n%s\n%v, %v", a[i].Kind, a[i].ID, y, x, errX, errY)
		}
	}
	if names, err := was.BlobNames(ctx); err != nil {
		t.Error(err)
	} else if got, err := is.BlobNames(ctx); err != nil || !slices.Equal(got, names) {
		t.Errorf("the pictures are %q, were %q, %v", got, names, err)
	}
}
