package lay_test

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/lay/published"
	"chalkfold/draft/piece"
)

// coded are lays of every kind that a code must carry.
func coded(t testing.TB) map[string]published.Problem {
	t.Helper()
	out := map[string]published.Problem{}
	for name, c := range map[string]lay.Cloth{
		"open":     {Width: 1500},
		"folded":   {Width: 1500, Length: 1300, Fold: lay.Lengthwise, Margin: 12, Gap: 3},
		"across":   {Width: 1500, Length: 4000, Fold: lay.Crosswise},
		"one way":  {Width: 1500, Length: 2000, OneWay: true},
		"remnant":  {Outline: []geom.Pt{{}, {X: 1300}, {X: 1300, Y: 900}, {X: 600, Y: 1500}, {Y: 1500}}},
		"flawed":   {Width: 1500, Flaws: [][]geom.Pt{{{X: 300, Y: 200}, {X: 340, Y: 200}, {X: 340, Y: 260}}}},
		"no cloth": {Width: 1500, Length: 10},
	} {
		out[name] = published.Problem{Cloth: c, Items: items(t, trousers(), c)}
	}
	c := lay.Cloth{Width: 1500}
	locked := items(t, trousers(), c)
	locked[0].Locked = &lay.Spot{At: geom.Translate(geom.Vec{X: 500, Y: 40})}
	out["locked"] = published.Problem{Cloth: c, Items: locked}
	return out
}

func TestCode(t *testing.T) {
	for name, in := range coded(t) {
		r, err := lay.Pack(in.Cloth, in.Items, lay.Options{Work: 1})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		data, err := r.Encode(in.Items)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if most := 24*len(in.Items) + 240; len(data) > most {
			t.Errorf("%s: %d bytes for %d items, want at most %d", name, len(data), len(in.Items), most)
		}
		back, err := lay.Decode(in.Cloth, in.Items, data)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if !reflect.DeepEqual(back, r) {
			t.Errorf("%s: read back\n%+v\nwas\n%+v", name, back, r)
		}
	}
}

// TestCodeRefused: nothing is shown of a lay that was cut short, changed on its
// way, or made for another draft or another cloth.
func TestCodeRefused(t *testing.T) {
	in := coded(t)["folded"]
	r, err := lay.Pack(in.Cloth, in.Items, lay.Options{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	encode := func(r lay.Result) []byte {
		t.Helper()
		data, err := r.Encode(in.Items)
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	good := encode(r)
	changed := func(change func(r *lay.Result)) []byte {
		c := r
		c.Placements = append([]lay.Placement{}, r.Placements...)
		c.Left = append([]lay.Offcut{}, r.Left...)
		change(&c)
		return encode(c)
	}
	larger := items(t, []piece.Piece{leg("front", 330, 80, 120), leg("back", 330, 140, 132)}, in.Cloth)
	larger = append(larger, in.Items[2:]...)
	wider := in.Cloth
	wider.Margin = 40
	tests := []struct {
		name  string
		cloth lay.Cloth
		items []lay.Item
		data  []byte
		want  string
	}{
		{"empty", in.Cloth, in.Items, nil, "no lay of these"},
		{"another version", in.Cloth, in.Items, append([]byte{9}, good[1:]...), "version 9"},
		{"cut short", in.Cloth, in.Items, good[:len(good)-3], "no lay of these"},
		{"more after it", in.Cloth, in.Items, append(bytes.Clone(good), 0), "no lay of these"},
		{"a piece moved", in.Cloth, in.Items, changed(func(r *lay.Result) { r.Placements[1].At.E -= 30 }), "overlap"},
		{"a piece left out", in.Cloth, in.Items, changed(func(r *lay.Result) { r.Placements = r.Placements[1:] }), "laid 0 times"},
		{"too short", in.Cloth, in.Items, changed(func(r *lay.Result) { r.Length -= 20 }), "length said"},
		{"an offcut under a piece", in.Cloth, in.Items, changed(func(r *lay.Result) {
			r.Left[0] = lay.Offcut{Rect: geom.Rect{Max: geom.Pt{X: 600, Y: 600}}, Layers: 2}
		}), "lies in offcut 1"},
		{"another draft", in.Cloth, larger, good, "it does not hold"},
		{"another cloth", wider, in.Items, good, "but the cloth is"},
		{"fewer pieces", in.Cloth, in.Items[:3], good, "no lay of these"},
	}
	for _, tt := range tests {
		if _, err := lay.Decode(tt.cloth, tt.items, tt.data); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q in it", tt.name, err, tt.want)
		}
	}
	bent := r
	bent.Placements = append([]lay.Placement{}, r.Placements...)
	bent.Placements[0].At = geom.RotateAbout(geom.Pt{}, 0.1)
	if _, err := bent.Encode(in.Items); err == nil || !strings.Contains(err.Error(), "may not take") {
		t.Errorf("a turn that is not allowed: %v", err)
	}
}

// FuzzDecode: whatever is read is a sound lay, and is written as it was read.
func FuzzDecode(f *testing.F) {
	in := coded(f)["folded"]
	for _, work := range []int{1, 300} {
		r, err := lay.Pack(in.Cloth, in.Items, lay.Options{Work: work})
		if err != nil {
			f.Fatal(err)
		}
		data, err := r.Encode(in.Items)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := lay.Decode(in.Cloth, in.Items, data)
		if err != nil {
			return
		}
		if err := lay.Verify(in.Cloth, in.Items, r); err != nil {
			t.Fatal(err)
		}
		if again, err := r.Encode(in.Items); err != nil || !bytes.Equal(again, data) {
			t.Fatalf("written again as %x, %v", again, err)
		}
	})
}
