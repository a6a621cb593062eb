package lay

import (
	"errors"
	"fmt"
	"math"

	"chalkfold/draft/geom"
)

// Verify checks a lay without trusting how it was found: every coordinate is
// rounded to a thousandth of a millimetre and all sums are in whole numbers.
// It returns an error that joins every fault found: an item not laid or laid
// twice, a map that bends the piece, a turn or a face that is not allowed, a
// lock not kept, a piece over the edge of the cloth, off the fold, on a flaw,
// beyond the length said, its stripes off those that they must meet,
// overlapping another by more than 0.01 mm or nearer to it than the gap; an
// offcut that a piece lies in; a lay that is said to fit on the length at hand and
// does not, or the other way round.
func Verify(c Cloth, items []Item, r Result) error {
	v := verifier{cloth: c, items: items, result: r}
	v.counts()
	v.maps()
	v.edges()
	v.flaws()
	v.overlaps()
	v.stripes()
	v.offcuts()
	return errors.Join(v.faults...)
}

// microns is the whole-number scale: 1/1000 mm.
const microns = 1000

// slack is how far, in thousandths of a millimetre, a ring may run over:
// under the 0.01 mm promised, since a corner between two triangles of one
// ring shows less than its full depth in each.
const slack = 5

type verifier struct {
	cloth  Cloth
	items  []Item
	result Result
	faults []error
}

func (v *verifier) fault(format string, args ...any) {
	v.faults = append(v.faults, fmt.Errorf(format, args...))
}

func (v *verifier) title(p Placement) string {
	it := v.items[p.Item]
	name := it.Name
	if name == "" {
		name = it.Piece
	}
	return fmt.Sprintf("%s %d", name, it.Copy)
}

func (v *verifier) counts() {
	seen := make([]int, len(v.items))
	for _, p := range v.result.Placements {
		if p.Item >= 0 && p.Item < len(seen) {
			seen[p.Item]++
		} else {
			v.fault("placement of item %d: there are %d items", p.Item, len(seen))
		}
	}
	for _, i := range v.result.Out {
		if i >= 0 && i < len(seen) {
			seen[i]++
		} else {
			v.fault("item %d left out: there are %d items", i, len(seen))
		}
	}
	for i, n := range seen {
		if n != 1 {
			v.fault("item %d (%s): laid %d times", i, v.items[i].Name, n)
		}
	}
	if len(v.result.Out) > 0 && v.result.Fits {
		v.fault("said to fit with %d items left out", len(v.result.Out))
	}
}

// placed returns the placements with an item.
func (v *verifier) placed() []Placement {
	var out []Placement
	for _, p := range v.result.Placements {
		if p.Item >= 0 && p.Item < len(v.items) {
			out = append(out, p)
		}
	}
	return out
}

// maps checks that pieces are moved and not bent, each in an allowed turn.
func (v *verifier) maps() {
	for _, p := range v.placed() {
		it, m := v.items[p.Item], p.At
		if it.Locked != nil {
			if !p.is(it.Locked.OnTable(v.result.FoldedTo)) {
				v.fault("%s: moved from where it is locked", v.title(p))
			}
		}
		// Not everywhere is what is no number made a whole number that lies off
		// the cloth.
		if math.IsNaN(m.E) || math.IsNaN(m.F) {
			v.fault("%s: lies nowhere", v.title(p))
		}
		ok := false
		for _, mirror := range [2]bool{false, true} {
			if mirror != it.Turned && !it.EitherFace {
				continue
			}
			for _, d := range it.Turns {
				s, c := math.Sincos(float64(d) * math.Pi / 180)
				want := geom.Affine{A: c, B: s, C: -s, D: c}
				if mirror {
					want.A, want.B = -c, -s
				}
				const tol = 1e-9
				ok = ok || math.Abs(want.A-m.A) < tol && math.Abs(want.B-m.B) < tol &&
					math.Abs(want.C-m.C) < tol && math.Abs(want.D-m.D) < tol
			}
		}
		if !ok {
			v.fault("%s: laid in a turn or on a face that is not allowed", v.title(p))
		}
		if p.Opened && (it.Double || it.OnFold || v.cloth.Fold == Open) {
			v.fault("%s: laid on an opened rest where it cannot be", v.title(p))
		}
		if it.OnFold {
			for _, q := range it.FoldLine {
				if x := micron(m.Pt(q).X); x < -10-slack || x > 10+slack {
					v.fault("%s: its fold edge is %.3f mm off the fold", v.title(p), float64(x)/microns)
				}
			}
		}
	}
}

// is reports whether two spots are the same; on the opened rest, which lies
// where sums have put it, to a thousandth of a millimetre.
func (s Spot) is(o Spot) bool {
	if d := micron(s.At.F) - micron(o.At.F); s.Opened && -1 <= d && d <= 1 {
		o.At.F = s.At.F
	}
	return s == o
}

func micron(mm float64) int64 { return int64(math.Round(mm * microns)) }

// edges checks that every ring lies on the cloth and within the length said.
func (v *verifier) edges() {
	folded, end := v.result.FoldedTo.MM(), 0.0
	for _, p := range v.placed() {
		b := geom.BoundsOf(p.Ring(v.items))
		lo, hi := v.cloth.across(p.Opened)
		top := 0.0
		if p.Opened {
			top = folded
		}
		if len(v.cloth.Outline) == 0 {
			if micron(b.Min.X) < micron(lo)-slack || micron(b.Max.X) > micron(hi)+slack {
				v.fault("%s: from %.3f to %.3f mm across, but the cloth is from %.3f to %.3f mm", v.title(p), b.Min.X, b.Max.X, lo, hi)
			}
			if micron(b.Min.Y) < micron(top)-slack {
				v.fault("%s: begins %.3f mm before the cut edge or the opened rest", v.title(p), top-b.Min.Y)
			}
		}
		end = math.Max(end, b.Max.Y)
		if !p.Opened && v.cloth.Fold != Open && micron(b.Max.Y) > micron(folded)+slack {
			v.fault("%s: ends %.3f mm past the folded part", v.title(p), b.Max.Y-folded)
		}
	}
	if v.cloth.Fold == Crosswise {
		end += folded
	}
	length := v.result.Length.MM()
	if len(v.placed()) > 0 && max(micron(length)-micron(end), micron(end)-micron(length)) > slack {
		v.fault("length said %.3f mm, found %.3f mm", length, end)
	}
	if at := v.cloth.Length.MM(); at > 0 && len(v.cloth.Outline) == 0 {
		short := math.Max(0, length-at)
		if v.result.Fits != (micron(short) == 0 && len(v.result.Out) == 0) || micron(v.result.ShortBy.MM()) != micron(short) {
			v.fault("short by %.3f mm, said %.3f mm, fits %t", short, v.result.ShortBy.MM(), v.result.Fits)
		}
	}
}

// flaws checks the rings against flaws and against the edge of a remnant.
func (v *verifier) flaws() {
	type hole struct {
		name string
		tris []triangle
	}
	var main, rest []hole
	add := func(list *[]hole, name string, ring []geom.Pt) {
		if ts, err := triangles(whole(ring)); err != nil {
			v.fault("%s: %w", name, err)
		} else {
			*list = append(*list, hole{name, ts})
		}
	}
	if len(v.cloth.Outline) > 0 {
		add(&main, "the edge of the remnant", frame(v.cloth.Outline))
	}
	for i, f := range v.cloth.Flaws {
		name := fmt.Sprintf("flaw %d", i+1)
		for _, view := range foldedViews(v.cloth, f) {
			add(&main, name, view)
		}
		add(&rest, name, f)
	}
	if len(main)+len(rest) == 0 {
		return
	}
	for _, p := range v.placed() {
		ts, err := triangles(whole(p.Ring(v.items)))
		if err != nil {
			continue // said by overlaps
		}
		list := main
		if p.Opened {
			list = rest
		}
		for _, h := range list {
			if overlap(ts, h.tris, slack) {
				v.fault("%s: runs over %s", v.title(p), h.name)
			}
		}
	}
}

// overlaps checks every two rings against each other.
func (v *verifier) overlaps() {
	placed := v.placed()
	tris := make([][]triangle, len(placed))
	for i, p := range placed {
		ts, err := triangles(whole(p.Ring(v.items)))
		if err != nil {
			v.fault("%s: %w", v.title(p), err)
		}
		tris[i] = ts
	}
	gap := micron(v.cloth.Gap.MM())
	for i := range placed {
		for j := range i {
			if placed[i].Opened != placed[j].Opened {
				continue
			}
			switch {
			case overlap(tris[i], tris[j], slack):
				v.fault("%s and %s overlap", v.title(placed[j]), v.title(placed[i]))
			case gap > slack && nearer(tris[i], tris[j], gap-slack):
				v.fault("%s and %s are nearer than the gap of %.1f mm", v.title(placed[j]), v.title(placed[i]), v.cloth.Gap.MM())
			}
		}
	}
}

// offcuts checks that what is said to be left over is free.
func (v *verifier) offcuts() {
	for i, o := range v.result.Left {
		b := o.Rect
		left, err := triangles(whole([]geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}))
		if err != nil {
			v.fault("offcut %d: %w", i+1, err)
			continue
		}
		for _, p := range v.placed() {
			if p.Opened != o.Opened {
				continue
			}
			ts, err := triangles(whole(p.Ring(v.items)))
			if err == nil && overlap(left, ts, slack) {
				v.fault("%s lies in offcut %d", v.title(p), i+1)
			}
		}
	}
}
