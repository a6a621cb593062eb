package draft_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// square is a remnant's outline with its corners in the order given: 0 to 3
// clockwise from the left of the near edge.
func square(t testing.TB, side string, order ...int) []job.Corner {
	t.Helper()
	zero, one := length(t, "0"), length(t, side)
	all := []job.Corner{{Across: zero, Along: zero}, {Across: one, Along: zero}, {Across: one, Along: one}, {Across: zero, Along: one}}
	var out []job.Corner
	for _, i := range order {
		out = append(out, all[i])
	}
	return out
}

// What cloth cannot be is refused at its key, with what to do.
func TestClothThatCannotBe(t *testing.T) {
	in := func(text string) unit.Quantity { return length(t, text) }
	flaw := func(x, y, w, h string) []job.Flaw {
		return []job.Flaw{{FromSelvedge: in(x), FromEdge: in(y), Across: in(w), Along: in(h)}}
	}
	wide := in("60")
	for _, tt := range []struct {
		name             string
		cloth            job.Cloth
		path, value, why string
	}{
		{"zero width", job.Cloth{Width: in("0")}, "width", "0 in", "selvedge to selvedge"},
		{"all margin", job.Cloth{Width: wide, Margin: in("15"), Fold: job.Lengthwise}, "margin", "15 in", "give less"},
		{"repeat of nought", job.Cloth{Width: wide, RepeatAlong: in("0")}, "repeat_along", "0 in", "no repeat"},
		{"repeat wider than the cloth", job.Cloth{Width: wide, RepeatAcross: in("61")}, "repeat_across", "61 in", "larger than the cloth"},
		{"repeat longer than the cloth", job.Cloth{Width: wide, Length: in("36"), RepeatAlong: in("37")}, "repeat_along", "37 in", "larger than the cloth"},
		{"repeat larger than a remnant", job.Cloth{Outline: square(t, "40", 0, 1, 2, 3), RepeatAlong: in("41")}, "repeat_along", "41 in", "larger than the cloth"},
		{"shrinks along", job.Cloth{Width: wide, ShrinksAlong: "30"}, "shrinks_along", "30", "less than 30"},
		{"shrinks across", job.Cloth{Width: wide, ShrinksAcross: "99"}, "shrinks_across", "99", "wash it before"},
		{"tilt", job.Cloth{Width: wide, Tilt: "5.5"}, "tilt", "5.5", "at most 5 degrees"},
		{"tilt on checks", job.Cloth{Width: wide, Tilt: "1", RepeatAlong: in("1")}, "tilt", "1", "seen on stripes"},
		{"sold by nothing", job.Cloth{Width: wide, SoldBy: in("0")}, "sold_by", "0 in", "least length"},
		{"flaw without width", job.Cloth{Width: wide, Flaws: flaw("1", "1", "0", "1")}, "flaws[0].across", "0 in", "no size"},
		{"flaw without length", job.Cloth{Width: wide, Flaws: flaw("1", "1", "1", "0")}, "flaws[0].along", "0 in", "no size"},
		{"flaw beside the cloth", job.Cloth{Width: wide, Flaws: flaw("60", "1", "1", "1")}, "flaws[0].from_selvedge", "60 in", "beside the cloth"},
		{"flaw past the end", job.Cloth{Width: wide, Length: in("36"), Flaws: flaw("6", "36", "1", "1")}, "flaws[0].from_edge", "36 in", "past the end"},
		{"two corners", job.Cloth{Outline: square(t, "40", 0, 1)}, "outline", "", "three or more"},
		{"corners that cross", job.Cloth{Outline: square(t, "40", 0, 2, 1, 3)}, "outline", "", "crosses itself 20 in from the left and 20 in along"},
		{"remnant folded", job.Cloth{Outline: square(t, "40", 0, 1, 2, 3), Fold: job.Lengthwise}, "fold", "lengthwise", `write "open"`},
		{"remnant too small", job.Cloth{Outline: square(t, "2", 0, 1, 2, 3)}, "outline", "", "no piece goes on it"},
		{"nap and crosswise", job.Cloth{Width: wide, Fold: job.Crosswise, OneWay: true}, "", "", "nap of the two layers"},
	} {
		j := read(t, hip42)
		j.Cloth = []job.Cloth{tt.cloth}
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		_, err = draft.Lay(r, 0, lay.Options{})
		var bad *job.Bad
		if !errors.As(err, &bad) {
			t.Errorf("%s: %v, want it refused", tt.name, err)
			continue
		}
		path := strings.TrimSuffix("cloth[0]."+tt.path, ".")
		if p := bad.Problems[0]; p.Path != path || p.Value != tt.value || !strings.Contains(p.Why.String(), tt.why) || len(bad.Problems) > 1 {
			t.Errorf("%s: %v, want %s: %q: …%s…", tt.name, bad, path, tt.value, tt.why)
		}
	}
}

// All that is wrong with a cloth is said at once.
func TestClothSaysAllAtOnce(t *testing.T) {
	j := read(t, hip42)
	j.Cloth = []job.Cloth{{Width: length(t, "0"), Length: length(t, "0"), Tilt: "9", ShrinksAlong: "40"}}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	_, err = draft.Lay(r, 0, lay.Options{})
	var bad *job.Bad
	if !errors.As(err, &bad) || len(bad.Problems) != 4 {
		t.Errorf("%v, want four problems", err)
	}
}

const laidWork = 3000 // steps, after which a lay changes little

// laid lays the draft of alto-3 on one cloth, and verifies it.
func laid(t testing.TB, c job.Cloth) (*draft.Result, *draft.Laid) {
	t.Helper()
	j := example(t, "alto-3.json").Job.Clone()
	j.Cloth = []job.Cloth{c}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	l, err := draft.Lay(r, 0, lay.Options{Work: laidWork})
	if err != nil {
		t.Fatal(err)
	}
	if err := lay.Verify(l.Cloth, l.Items, l.Result); err != nil {
		t.Fatal(err)
	}
	return r, l
}

// Cloth that is still to shrink takes longer pieces: the longest by so much.
func TestShrinkageLengthensTheLay(t *testing.T) {
	in := func(text string) unit.Quantity { return length(t, text) }
	_, dry := laid(t, job.Cloth{Width: in("60")})
	_, wet := laid(t, job.Cloth{Width: in("60"), ShrinksAlong: "5", ShrinksAcross: "2"})
	for i, it := range wet.Items {
		was := dry.Items[i]
		if k := it.Area() / was.Area(); it.Piece == "front" && math.Abs(k-1/(0.95*0.98)) > 1e-9 {
			t.Errorf("%s: the area grows %.4f fold, want %.4f", it.Piece, k, 1/(0.95*0.98))
		}
	}
	if wet.Length <= dry.Length {
		t.Errorf("%.0f mm where nothing shrinks takes %.0f mm", wet.Length.MM(), dry.Length.MM())
	}
}

// A flaw is kept clear of: nothing lies on the hole in the middle.
func TestFlawIsKeptClearOf(t *testing.T) {
	in := func(text string) unit.Quantity { return length(t, text) }
	_, l := laid(t, job.Cloth{Width: in("60"), Flaws: []job.Flaw{{FromSelvedge: in("20"), FromEdge: in("20"), Across: in("4"), Along: in("2")}}})
	if len(l.Cloth.Flaws) != 1 || math.Abs(l.Cloth.Flaws[0][2].X-24*25.4) > 1e-9 || math.Abs(l.Cloth.Flaws[0][2].Y-22*25.4) > 1e-9 {
		t.Errorf("the flaw is taken as %v", l.Cloth.Flaws)
	}
}
