package merge_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"chalkfold/sync/merge"
)

func dev(n byte) merge.Device { return merge.Device{n} }

func edit(d *merge.Doc, by byte, ms int64, field, text string) *merge.Doc {
	return d.Edit(d.Next(dev(by), ms), map[string][]byte{field: []byte(text)})
}

// texts are the values of a field, that to be shown first.
func texts(d *merge.Doc, field string) (all []string) {
	for _, v := range d.Fields[field] {
		all = append(all, string(v.Text))
	}
	return all
}

func want(t *testing.T, d *merge.Doc, field string, all ...string) {
	t.Helper()
	if got := texts(d, field); !slices.Equal(got, all) {
		t.Errorf("%s is %q, want %q", field, got, all)
	}
	if shown, ok := d.Shown(field); ok != (len(all) > 0) || ok && string(shown) != all[0] {
		t.Errorf("shown is %q, want the first of %q", shown, all)
	}
}

func TestEdits(t *testing.T) {
	d := edit(merge.New("job", "a"), 1, 1000, "hip", "39")
	d = edit(d, 2, 900, "hip", "40") // whose clock is behind
	want(t, d, "hip", "40")
	a := edit(d, 1, 2000, "waist", "31")
	b := edit(d, 2, 1500, "due", "12 May")
	both := merge.Join(a, b)
	want(t, both, "hip", "40")
	want(t, both, "waist", "31")
	want(t, both, "due", "12 May")
}

// TestConflict: two who did not know of one another are both kept, until one who has
// seen them chooses.
func TestConflict(t *testing.T) {
	d := edit(merge.New("job", "a"), 1, 1000, "hip", "39")
	a, b := edit(d, 1, 5000, "hip", "39 1/2"), edit(d, 2, 3000, "hip", "40")
	both := merge.Join(a, b)
	want(t, both, "hip", "39 1/2", "40")
	chosen := edit(both, 2, 3500, "hip", "40")
	want(t, chosen, "hip", "40")
	want(t, merge.Join(chosen, a), "hip", "40")
	want(t, merge.Join(merge.Join(b, chosen), both), "hip", "40")
	// Another choice meanwhile is a conflict again.
	want(t, merge.Join(chosen, edit(both, 1, 9000, "hip", "39 3/4")), "hip", "39 3/4", "40")
}

// TestClocks: clocks that are years off decide between those who did not know of one
// another, and nothing else.
func TestClocks(t *testing.T) {
	const year = 365 * 24 * 3600 * 1000
	for _, ms := range []int64{math.MinInt64, -year, 0, 40 * year, 99_999 * year, math.MaxInt64} {
		d := edit(merge.New("job", "a"), 1, ms, "hip", "39")
		d = edit(d, 2, 50*year, "hip", "40")
		want(t, d, "hip", "40")
		d = edit(d, 1, ms, "hip", "41")
		want(t, d, "hip", "41")
		if again, err := merge.Decode(d.Encode()); err != nil || !merge.Same(again, d) {
			t.Errorf("at %d: %v", ms, err)
		}
	}
	if ms := merge.StampOf(1234).Ms(); ms != 1234 {
		t.Errorf("1234 ms come back as %d", ms)
	}
}

func TestEmptied(t *testing.T) {
	d := edit(merge.New("job", "a"), 1, 1000, "note", "lining")
	emptied := d.Edit(d.Next(dev(1), 2000), map[string][]byte{"note": nil})
	want(t, emptied, "note")
	want(t, merge.Join(emptied, d), "note")
	want(t, merge.Join(emptied, edit(d, 2, 1500, "note", "silk lining")), "note", "silk lining")
	empty := edit(d, 1, 2000, "note", "")
	want(t, empty, "note", "")
}

func TestDead(t *testing.T) {
	d := edit(merge.New("job", "a"), 1, 1000, "note", "lining")
	dead := d.Kill(d.Next(dev(1), 2000))
	later := edit(d, 2, 9000, "note", "silk")
	for _, got := range []*merge.Doc{dead, merge.Join(dead, later), merge.Join(later, dead), edit(dead, 2, 9999, "note", "x"), merge.Join(dead, d.Kill(d.Next(dev(2), 1500)))} {
		if !got.Dead || len(got.Fields) > 0 {
			t.Errorf("it came back: %+v", got)
		}
	}
	if d.Dead || len(d.Fields) != 1 {
		t.Error("the doc that was killed was changed")
	}
}

// replicas are random states of one doc, as devices get them by editing, joining and
// killing at random, with clocks that are anywhere.
func replicas(t *rapid.T) []*merge.Doc {
	all := make([]*merge.Doc, 4)
	for i := range all {
		all[i] = merge.New("job", "a")
	}
	device := rapid.IntRange(0, len(all)-1)
	for range rapid.IntRange(0, 25).Draw(t, "steps") {
		i := device.Draw(t, "device")
		switch what := rapid.IntRange(0, 20).Draw(t, "what"); {
		case what < 12:
			changes := map[string][]byte{}
			for range rapid.IntRange(1, 2).Draw(t, "changes") {
				field := rapid.SampledFrom([]string{"hip", "hip/at", "hips", "", "note"}).Draw(t, "field")
				changes[field] = nil
				if rapid.IntRange(0, 3).Draw(t, "empties") > 0 {
					changes[field] = []byte(rapid.SampledFrom([]string{"", "39", "40"}).Draw(t, "text"))
				}
			}
			all[i] = all[i].Edit(all[i].Next(dev(byte(i)), rapid.Int64Range(0, 40).Draw(t, "ms")), changes)
		case what == 20:
			all[i] = all[i].Kill(all[i].Next(dev(byte(i)), 7))
		default:
			all[i] = merge.Join(all[i], all[device.Draw(t, "from")])
		}
	}
	return all
}

func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := replicas(t)
		a, b, c := all[0], all[1], all[2]
		same := func(what string, x, y *merge.Doc) {
			if !merge.Same(x, y) {
				t.Fatalf("%s: %s\n%s", what, show(x), show(y))
			}
		}
		same("commutes", merge.Join(a, b), merge.Join(b, a))
		same("associates", merge.Join(a, merge.Join(b, c)), merge.Join(merge.Join(a, b), c))
		same("idempotent", merge.Join(a, a), a)
		same("absorbs", merge.Join(merge.Join(a, b), b), merge.Join(a, b))
		if j := merge.Join(a, b); !merge.Contains(j, a) || !merge.Contains(j, b) {
			t.Fatal("a join does not contain its parts")
		}
		whole := merge.New("job", "a")
		for _, i := range rapid.Permutation([]int{0, 1, 2, 3, 2, 0}).Draw(t, "order") {
			whole = merge.Join(whole, all[i])
		}
		same("any order", whole, merge.Join(merge.Join(all[0], all[1]), merge.Join(all[2], all[3])))
		for _, d := range append(all, whole) {
			again, err := merge.Decode(d.Encode())
			if err != nil {
				t.Fatalf("%s: %v", show(d), err)
			}
			same("reads back", again, d)
		}
	})
}

// TestAgainstHistory: which values are left is what the whole history says: those
// that nobody replaced who had seen them. The history is kept beside, without any
// of the means by which a doc does without it.
func TestAgainstHistory(t *testing.T) {
	type change struct {
		field, text string
		empties     bool
	}
	type state struct { // of one device
		doc  *merge.Doc
		made map[int]bool // the changes it has seen
		gone map[int]bool // those of them that were replaced by others it has seen
	}
	rapid.Check(t, func(t *rapid.T) {
		var changes []change
		all := make([]state, 3)
		for i := range all {
			all[i] = state{merge.New("job", "a"), map[int]bool{}, map[int]bool{}}
		}
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			s := &all[rapid.IntRange(0, 2).Draw(t, "device")]
			if rapid.Bool().Draw(t, "join") {
				from := all[rapid.IntRange(0, 2).Draw(t, "from")]
				s.doc = merge.Join(s.doc, from.doc)
				maps.Copy(s.made, from.made)
				maps.Copy(s.gone, from.gone)
				continue
			}
			c := change{rapid.SampledFrom([]string{"hip", "note"}).Draw(t, "field"), fmt.Sprint(len(changes)), rapid.IntRange(0, 4).Draw(t, "empties") == 0}
			for i := range s.made {
				if changes[i].field == c.field {
					s.gone[i] = true
				}
			}
			s.made[len(changes)] = true
			changes = append(changes, c)
			text := []byte(c.text)
			if c.empties {
				text = nil
			}
			device := dev(byte(slices.IndexFunc(all, func(o state) bool { return o.doc == s.doc })))
			s.doc = s.doc.Edit(s.doc.Next(device, rapid.Int64Range(0, 9).Draw(t, "ms")), map[string][]byte{c.field: text})
		}
		for _, s := range all {
			left := map[string][]string{}
			for i := range s.made {
				if c := changes[i]; !s.gone[i] && !c.empties {
					left[c.field] = append(left[c.field], c.text)
				}
			}
			for _, field := range []string{"hip", "note"} {
				got := texts(s.doc, field)
				slices.Sort(got)
				slices.Sort(left[field])
				if !slices.Equal(got, left[field]) {
					t.Fatalf("%s is %q, the history leaves %q", field, got, left[field])
				}
			}
		}
	})
}

func show(d *merge.Doc) string {
	fields := map[string]string{}
	for name := range d.Fields {
		fields[name] = fmt.Sprintf("%q", texts(d, name))
	}
	b, _ := json.Marshal(fields)
	return fmt.Sprintf("dead %v, seen %v, %s", d.Dead, d.Seen, b)
}

func FuzzDecode(f *testing.F) {
	d := edit(edit(merge.New("job", "a"), 1, 1000, "hip", "39"), 2, 2000, "hips", "40")
	d = merge.Join(edit(d, 1, 3000, "hip", "41"), edit(d, 2, 3000, "hip", "42"))
	f.Add(d.Encode())
	f.Add(d.Kill(d.Next(dev(1), 4000)).Encode())
	f.Add(merge.New("", "").Encode())
	f.Fuzz(func(t *testing.T, text []byte) {
		d, err := merge.Decode(text)
		if err != nil {
			return
		}
		if again := d.Encode(); !bytes.Equal(again, text) {
			t.Errorf("%x is written %x", text, again)
		}
		if !merge.Same(merge.Join(d, d), d) {
			t.Errorf("%x joined with itself is another", text)
		}
	})
}

func TestDamage(t *testing.T) {
	d := edit(edit(merge.New("job", "a"), 1, 1000, "hip", "39"), 2, 2000, "hips", "40")
	text := d.Encode()
	for n := range text {
		if _, err := merge.Decode(text[:n]); err == nil {
			t.Errorf("cut to %d of %d bytes, it reads", n, len(text))
		}
	}
	if _, err := merge.Decode(append(bytes.Clone(text), 0)); err == nil {
		t.Error("with a byte after it, it reads")
	}
	newer := append([]byte{2}, text[1:]...)
	if _, err := merge.Decode(newer); err != merge.ErrNewer { //nolint:errorlint // the very one
		t.Errorf("of a newer form: %v", err)
	}
}
