package sketch_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/rules"
	"chalkfold/draft/sketch"
)

// drawn drafts a job and sketches it.
func drawn(t *testing.T, m *draft.Maker, j job.Job) (*draft.Result, sketch.Flat) {
	t.Helper()
	r, err := m.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	f, ok := sketch.Of(r.Panels, r.Darts, r.Worn)
	if !ok {
		t.Fatalf("%s: no sketch", j.Name)
	}
	return r, f
}

// middle is a job for the middle of the women surveyed.
func middle() job.Job {
	j := job.New("trousers")
	j.Figure, j.Measurements = body.Women, body.Middle(body.Women)
	return j
}

// of returns the one shape of that role.
func of(t *testing.T, v sketch.View, role sketch.Role) geom.Path {
	t.Helper()
	var found []geom.Path
	for _, s := range v {
		if s.Role == role {
			found = append(found, s.Path)
		}
	}
	if len(found) != 1 {
		t.Fatalf("%d shapes of role %d, want 1", len(found), role)
	}
	return found[0]
}

// widest is how far a ring reaches to both sides at a height.
func widest(ring geom.Path, y float64) (left, right float64) {
	for _, s := range ring.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1}) {
		p, _ := ring.At(s)
		left, right = math.Min(left, p.X), math.Max(right, p.X)
	}
	return left, right
}

// leg is the width of the right leg at a height.
func leg(ring geom.Path, y float64) float64 {
	inner := math.Inf(1)
	for _, s := range ring.CrossLine(geom.Pt{Y: y}, geom.Vec{X: 1}) {
		if p, _ := ring.At(s); p.X > 0 {
			inner = math.Min(inner, p.X)
		}
	}
	_, outer := widest(ring, y)
	return outer - inner
}

// Surveyed bodies in every style that the draft is proved in: both views have
// one outline; laid flat it is half of what the proof measures round waist, hip
// and hem, and round the knee unless the leg hangs in folds; it is symmetrical,
// and nothing lies outside it but the loops.
func TestSketchHasTheMeasuredWidths(t *testing.T) {
	var maker draft.Maker
	n, every, least := 0, 900, 80
	if testing.Short() {
		every, least = 5000, 13
	}
	for _, b := range provetest.Bodies(t, every) {
		for _, style := range prove.Styles() {
			r, err := maker.Make(style.Job(b))
			var no *garment.Impossible
			if errors.As(err, &no) {
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			flat, ok := sketch.Of(r.Panels, r.Darts, r.Worn)
			if !ok {
				t.Errorf("%s, %s: no sketch", b.ID, style.Name)
				continue
			}
			n++
			checkWidths(t, b.ID+", "+style.Name, r, flat)
		}
	}
	if n < least {
		t.Errorf("only %d sketches were drawn", n)
	}
}

func checkWidths(t *testing.T, name string, r *draft.Result, flat sketch.Flat) {
	t.Helper()
	// Of a width: waist and hip are measured along curves and square to the seat
	// line, and a tuck takes in a little of the front hip. A screen shows the
	// half width in a hundred dots.
	const share = 0.018
	round := map[string]float64{}
	for _, g := range r.Report.Girths {
		round[g.Name] = g.Draft.MM()
	}
	hip, knee := r.Record.Point("front.hip_side").Y, r.Record.Point("front.knee_out").Y
	// A dart that reaches below the hip line takes in something of it, which the
	// proof of the hip leaves out of account.
	seat := round["hip"] / 2
	for _, d := range r.Darts {
		top := d.Legs[0].Lerp(d.Legs[1], 0.5)
		seat -= d.Legs[0].Dist(d.Legs[1]) * math.Max(0, (d.Point.Y-hip)/(d.Point.Y-top.Y))
	}
	front, back := of(t, flat.Front, sketch.Cloth), of(t, flat.Back, sketch.Cloth)
	foot := front.Bounds(0.1).Max.Y
	near(t, name+": waist", front[:1].Len()+back[:1].Len(), round["waist"]/2, share*round["waist"]/2)
	for _, ring := range []geom.Path{front, back} {
		left, right := widest(ring, hip)
		near(t, name+": hip", right-left, seat, share*seat)
		near(t, name+": hem", leg(ring, foot-0.5), round["hem"]/2, 1)
		if round["knee"] > 0 && round["knee"] < round["hip"]/2 && round["knee"] < round["hem"]+1 {
			near(t, name+": knee", leg(ring, knee), round["knee"]/2, 1)
		}
	}
	for y := front[0].D.Y + 1; y < foot; y += 23 {
		left, right := widest(front, y)
		behindLeft, behindRight := widest(back, y)
		near(t, name+": left and right", -left, right, 0.01)
		near(t, name+": front and back", right, behindRight, 0.01)
		near(t, name+": front and back", left, behindLeft, 0.01)
	}
	inside(t, name+": front", flat.Front)
	inside(t, name+": back", flat.Back)
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s is %.1f mm, want %.1f", what, got, want)
	}
}

// inside holds all that is drawn inside cloth and band, within a line's width.
func inside(t *testing.T, name string, v sketch.View) {
	t.Helper()
	var rings [][]geom.Pt
	for _, s := range v {
		if s.Role == sketch.Cloth || s.Role == sketch.Band {
			rings = append(rings, s.Path.Flatten(0.5))
		}
	}
	for _, s := range v {
		if s.Role == sketch.Within || s.Role == sketch.Loop || s.Role == sketch.Cloth || s.Role == sketch.Band {
			continue
		}
		for _, p := range s.Path.Flatten(1) {
			if !slices.ContainsFunc(rings, func(ring []geom.Pt) bool { return geom.Contains(ring, p) || geom.RingDist(ring, p) < 2 }) {
				t.Errorf("%s: role %d lies outside, at %.1f", name, s.Role, p)
				break
			}
		}
	}
}

// Every choice of every option is seen: in its own place, front or back.
func TestEveryChoiceIsSeen(t *testing.T) {
	var maker draft.Maker
	where := map[string][]string{
		"closure": {}, "front_dart": {"front"}, "back_dart": {"back"}, "pocket": {"front"},
		"leg": {"front", "back"}, "crease": {"front", "back"}, "back_pocket": {"back"}, "length": {"front", "back"},
		"hem": {"front", "back"}, "band": {"front", "back"}, "lining": {"front", "back"},
	}
	g := draft.Garments()[0]
	for _, o := range g.Options {
		var flats []sketch.Flat
		for _, c := range o.Choices {
			j := middle()
			full, err := g.Complete(map[string]string{o.ID: c.ID})
			if err != nil {
				t.Fatal(err)
			}
			j.Style = g.Together(full, o.ID)
			_, f := drawn(t, &maker, j)
			flats = append(flats, f)
		}
		for i := range flats {
			for k := range i {
				front := sketch.Apart(flats[k].Front, flats[i].Front).Points
				back := sketch.Apart(flats[k].Back, flats[i].Back).Points
				for _, at := range where[o.ID] {
					if at == "front" && front == 0 || at == "back" && back == 0 {
						t.Errorf("%s: %s and %s look alike, %s", o.ID, o.Choices[k].ID, o.Choices[i].ID, at)
					}
				}
				if front+back == 0 {
					t.Errorf("%s: %s and %s look alike", o.ID, o.Choices[k].ID, o.Choices[i].ID)
				}
			}
		}
	}
}

// The wearer's left is on the right of the drawing in front.
func TestLapIsAsWorn(t *testing.T) {
	var maker draft.Maker
	for _, tt := range []struct {
		closure string
		sign    float64
	}{{"fly_left", 1}, {"fly_right", -1}} {
		j := middle()
		j.Style = map[string]string{"closure": tt.closure}
		_, f := drawn(t, &maker, j)
		button := of(t, f.Front, sketch.Fastening)
		if button[0].A.X*tt.sign <= 0 {
			t.Errorf("%s: the button is at %v", tt.closure, button[0].A)
		}
		for _, s := range f.Back {
			if s.Role == sketch.Fastening {
				t.Errorf("%s: a button behind", tt.closure)
			}
		}
	}
}

// Loops are cut in the number that the rule gives, and all of them shown.
func TestAllLoopsAreShown(t *testing.T) {
	var maker draft.Maker
	for n := range 9 {
		j := middle()
		j.Rules.Job = rules.Values{"belt_loops": string(rune('0' + n))}
		_, f := drawn(t, &maker, j)
		got := 0
		for _, v := range []sketch.View{f.Front, f.Back} {
			for _, s := range v {
				if s.Role == sketch.Loop {
					got++
				}
			}
		}
		if got != n {
			t.Errorf("%d loops are shown, want %d", got, n)
		}
	}
}

// A skirt, told by places alone, is one tube with its centre seam down to the
// hem.
func TestASkirtIsSketchedToo(t *testing.T) {
	panel := func(name string, behind bool) piece.Panel {
		c := [4]geom.Pt{{}, {X: 180}, {X: 260, Y: 600}, {Y: 600}}
		p := piece.Panel{Name: name, Behind: behind}
		for i, place := range []piece.Place{piece.Top, piece.Side, piece.Foot, piece.Centre} {
			p.Edges = append(p.Edges, piece.Edge{Name: name, Place: place, Sew: geom.Polyline(c[i], c[(i+1)%4])})
		}
		return p
	}
	f, ok := sketch.Of([]piece.Panel{panel("front", false), panel("back", true)}, nil, piece.Worn{Band: 30})
	if !ok {
		t.Fatal("no sketch")
	}
	ring := of(t, f.Front, sketch.Cloth)
	for y, want := range map[float64]float64{150: 400, 300: 440, 450: 480} {
		left, right := widest(ring, y)
		near(t, "width", right-left, want, 0.5)
	}
	if end := of(t, f.Front, sketch.Seam).End(); end != (geom.Pt{Y: 600}) {
		t.Errorf("the centre seam ends at %v", end)
	}
	if _, ok := sketch.Of([]piece.Panel{panel("front", false)}, nil, piece.Worn{}); ok {
		t.Error("a front alone makes a sketch")
	}
}
