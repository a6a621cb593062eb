package trouser_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
)

// Answers that cannot go together are refused, each with its reason; the
// defaults go together.
func TestClashes(t *testing.T) {
	g := trouser.Garment()
	full, err := g.Complete(nil)
	if err != nil || g.Check(full) != nil {
		t.Fatal(err, g.Check(full))
	}
	for _, tt := range []struct {
		style   garment.Style
		options []string
	}{
		{garment.Style{"closure": "elastic"}, []string{"front_dart", "back_dart"}},
		{garment.Style{"closure": "elastic", "front_dart": "none", "back_dart": "none", "band": "shaped"}, []string{"band"}},
		{garment.Style{"closure": "elastic", "front_dart": "none", "back_dart": "none"}, nil},
		{garment.Style{"closure": "side_zip"}, []string{"pocket"}},
		{garment.Style{"closure": "side_zip", "pocket": "none", "back_pocket": "two"}, nil},
		{garment.Style{"length": "shorts", "lining": "knee"}, []string{"lining"}},
		{garment.Style{"length": "knee", "lining": "knee"}, []string{"lining"}},
		{garment.Style{"length": "calf", "lining": "knee"}, nil},
		{garment.Style{"crease": "tuck", "front_dart": "pleats"}, []string{"crease"}},
	} {
		full, err := g.Complete(tt.style)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, c := range g.Clashes(full) {
			got = append(got, c.Option)
		}
		if strings.Join(got, " ") != strings.Join(tt.options, " ") {
			t.Errorf("%v: %v clash, want %v", tt.style, got, tt.options)
		}
		if err := g.Check(full); (err == nil) != (len(tt.options) == 0) {
			t.Errorf("%v: refused %v", tt.style, err)
		} else if bad := new(garment.BadStyle); err != nil && (!errors.As(err, &bad) || !strings.Contains(err.Error(), "choose")) {
			t.Errorf("%v: %v says not what to choose", tt.style, err)
		}
	}
}

// Each length hangs where it is said, and is as wide there as the full leg.
func TestLengths(t *testing.T) {
	full := order{Body: measured(t, hip42), Style: garment.Style{"leg": "tapered"}}.draft(t)
	knee, hem := full.Record.Value("knee_level"), full.Record.Value("hem_level")
	fork, thigh := full.Record.Value("fork_level"), full.Record.Value("thigh_level")
	last := hem
	for _, tt := range []struct {
		length string
		level  float64
		gone   []string // girths that the leg does not reach
	}{
		{"ankle", hem - 3*25.4, nil},
		{"calf", knee + 0.45*(hem-knee), nil},
		{"knee", knee + 25.4, []string{"calf"}},
		{"shorts", fork + 9*25.4, []string{"calf", "knee"}},
	} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"leg": "tapered", "length": tt.length}}.draft(t)
		got := m.Record.Value("hem_level")
		about(t, tt.length, got, tt.level, 1e-6)
		if got >= last {
			t.Errorf("%s hangs at %.0f, no shorter than the one before", tt.length, got)
		}
		last = got
		from, to, a, b := full.Record.Value("leg.knee"), full.Record.Value("leg.hem"), knee, hem
		if tt.length == "shorts" {
			from, to, a, b = full.Record.Value("thigh_all"), from, thigh, knee
		}
		want := (from + (to-from)*(got-a)/(b-a)) / 25.4
		about(t, tt.length+", hem", m.Girth(t, "hem"), want, 0.02)
		for _, g := range m.Girths {
			for _, gone := range tt.gone {
				if g.Name == gone {
					t.Errorf("%s: the %s is claimed", tt.length, gone)
				}
			}
		}
	}
}

// A turn-up lies on the leg that it is folded over: mirrored at the hem, its
// fold is as wide as the leg so far up; mirrored again, its end is as wide as
// the hem, and what is turned in at last as the leg above it.
func TestTurnUpLiesOnTheLeg(t *testing.T) {
	for _, leg := range []string{"straight", "tapered", "flared"} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"hem": "turn_up", "leg": leg}, Rules: rules.Values{"turn_up": "2 in"}}.draft(t)
		for _, part := range []string{"front", "back"} {
			p := m.Must(t, part)
			hem := m.Record.Point(part + ".crease_hem")
			wide := func(down float64) float64 {
				return across(t, p.Sew, geom.Pt{X: hem.X, Y: hem.Y + down}, geom.Vec{X: 1})
			}
			const up = 2 * 25.4
			about(t, leg+" fold of the "+part, wide(up-0.01), wide(-up+0.01), 0.1)
			about(t, leg+" half way up", wide(up/2), wide(-up/2), 0.1)
			about(t, leg+" inner half", wide(1.5*up), wide(-up/2), 0.1)
			about(t, leg+" end", wide(2*up-0.01), wide(0), 0.1)
			if bottom := geom.BoundsOf(p.Cut).Max.Y - hem.Y; bottom < 2*up+up-25.4/8-1 {
				t.Errorf("%s: only %.0f mm below the hem of the %s", leg, bottom, part)
			}
		}
		for _, f := range m.Findings {
			if strings.Contains(f.Check, "turned up") && f.Level != proof.Fine {
				t.Errorf("%s: %+v", leg, f)
			}
		}
	}
}

// Zips: notched equally far down on what they are sewn to; no fly is cut. The
// waist, with them open, must go over the hip.
func TestZips(t *testing.T) {
	for closure, of := range map[string]struct{ panel, edge string }{"side_zip": {"front", "side"}, "back_zip": {"back", "centre"}} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"closure": closure, "pocket": "none"}}.draft(t)
		for _, id := range []string{"fly-facing", "fly-shield", "fly-interfacing"} {
			if _, there := m.Piece(id); there {
				t.Errorf("%s: there is a %s", closure, id)
			}
		}
		p := m.Must(t, of.panel)
		var at *geom.Pt
		for _, n := range p.Notches {
			if n.Name == "end of the zip" {
				at = &n.At
			}
		}
		if at == nil {
			t.Fatalf("%s is not notched on the %s", closure, of.panel)
		}
		e := m.Edge(t, of.panel, of.edge)
		along, off := e.Nearest(*at)
		if of.edge == "centre" {
			along = e.Len() - along
		}
		if math.Abs(along-m.Record.Value("zip.length")) > 0.1 || off > 0.1 {
			t.Errorf("%s ends %.1f mm down, want %.1f", closure, along, m.Record.Value("zip.length"))
		}
		if len(m.Notions) == 0 || math.Abs(m.Notions[0].Least.MM()-m.Record.Value("zip.length")) > 1e-6 {
			t.Errorf("%s: to buy is %+v", closure, m.Notions)
		}
		short := order{Body: measured(t, hip42), Style: garment.Style{"closure": closure, "pocket": "none"}, Rules: rules.Values{"zip_length": "4 in", "waistband_width": "3/4 in", "waist_ease": "0 in", "hip_drop": "7 in"}}
		narrow := short.Body[body.WaistGirth]
		narrow.Length = 24 * 25.4
		short.Body[body.WaistGirth] = narrow
		if m, ok := tryDraft(t, short); ok && m.Level(t, "stepping in") != proof.Stops {
			t.Errorf("%s: a waist of 24 in with 4 in open goes over a hip of 42", closure)
		}
	}
}

// An elastic waist is as wide as the hip and goes round in a ring.
func TestElastic(t *testing.T) {
	m := order{Body: measured(t, hip42), Style: garment.Style{"closure": "elastic", "front_dart": "none", "back_dart": "none"}}.draft(t)
	if w, h := m.Girth(t, "waist"), m.Girth(t, "hip"); w < h-0.2 || w < 42 {
		t.Errorf("the waist is %.2f in, the hip %.2f", w, h)
	}
	band := m.Must(t, "waistband")
	about(t, "band", band.Edges[3].Sew.Len()/25.4, m.Girth(t, "waist"), 0.06)
	if m.Stopped() {
		t.Errorf("stopped by %v", m.Faults(proof.Stops))
	}
}

// A shaped band: its seam is as long as the made-up waist with the lap, its
// upper edge so much shorter, and it is as high everywhere.
func TestShapedBand(t *testing.T) {
	m := order{Body: measured(t, hip42), Style: garment.Style{"band": "shaped"}, Rules: rules.Values{"band_shape": "1 1/4 in"}}.draft(t)
	p := m.Must(t, "waistband")
	low, up := p.Edges[3].Sew.Len(), p.Edges[1].Sew.Len()
	about(t, "seam", low, m.Record.Value("band.length"), 0.2)
	about(t, "upper edge", low-up, 1.25*25.4, 0.1)
	for i := range 9 {
		at, _ := p.Edges[1].Sew.At(up * float64(i) / 8)
		_, off := p.Edges[3].Sew.Nearest(at)
		about(t, "height", off/25.4, 2, 0.002)
	}
	if p.Count != 2 || !p.Pairs {
		t.Errorf("cut %d, in pairs %t", p.Count, p.Pairs)
	}
	if l := m.Level(t, "waist to band"); l != proof.Fine {
		t.Error(m.Finding("waist to band"))
	}
}

// Pleats take in what the rules say, and open over the hip by what a dart would
// not have taken.
func TestPleats(t *testing.T) {
	plain := order{Body: measured(t, hip42)}.draft(t)
	for _, tt := range []struct {
		choice  string
		n       int
		in, out float64 // taken in at the waist of one front, opened over its hip, in
	}{{"pleat", 1, 1.5, 0.5}, {"pleats", 2, 2.5, 1.5}} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"front_dart": tt.choice, "pocket": "seam"}}.draft(t)
		about(t, tt.choice+", waist", m.Girth(t, "waist"), plain.Girth(t, "waist"), 0.06)
		about(t, tt.choice+", hip", m.Girth(t, "hip"), plain.Girth(t, "hip")+2*tt.out, 0.06)
		about(t, tt.choice, m.Record.Value("front.dart")/25.4, tt.in, 1e-6)
		n := 0
		for _, d := range m.Claims.Darts {
			if d.Panel == "front" {
				n++
				if d.Sewn {
					t.Errorf("%s: %s is sewn", tt.choice, d.Name)
				}
			}
		}
		if n != tt.n {
			t.Errorf("%s: %d of them", tt.choice, n)
		}
		about(t, tt.choice+", on the crease", m.Record.Point("front.dart_point").X, m.Record.Point("front.crease_fork").X, 4)
	}
}

// A pocket in the side seam has a hand's mouth in the seam itself, equally far
// down on front and back; the front is not cut away.
func TestSeamPocket(t *testing.T) {
	m := order{Body: measured(t, hip42), Style: garment.Style{"pocket": "seam"}}.draft(t)
	front, back := m.Must(t, "front"), m.Must(t, "back")
	if front.Edges[1].Name != "side" {
		t.Errorf("the front has %q beside its waist", front.Edges[1].Name)
	}
	ends := func(p piece.Piece) (out []float64) {
		side := m.Edge(t, p.ID, "side")
		for _, n := range p.Notches {
			if strings.HasPrefix(n.Name, "pocket mouth") {
				s, _ := side.Nearest(n.At)
				out = append(out, s/25.4)
			}
		}
		return out
	}
	f, b := ends(front), ends(back)
	if len(f) != 2 || len(b) != 2 || math.Abs(f[0]-b[0]) > 0.01 || math.Abs(f[1]-b[1]) > 0.01 || f[1]-f[0] < 5.75 {
		t.Errorf("mouth from %v on the front, %v on the back", f, b)
	}
}

// Back pockets: a welt and a bag for each, marked square under the waist.
func TestBackPockets(t *testing.T) {
	for choice, n := range map[string]int{"one": 1, "two": 2} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"back_pocket": choice}}.draft(t)
		for _, id := range []string{"welt", "welt-facing", "welt-bag"} {
			if p := m.Must(t, id); p.Count != n {
				t.Errorf("%s: %d of %s", choice, p.Count, id)
			}
		}
		a, b := m.Record.Point("back.welt_in"), m.Record.Point("back.welt_out")
		way := m.Record.Point("back.waist_side").Sub(m.Record.Point("back.waist_centre"))
		if deg := b.Sub(a).AngleTo(way) * 180 / math.Pi; deg > 0.01 {
			t.Errorf("%s: the mouth lies %.2f° off the waist", choice, deg)
		}
		about(t, choice, a.Dist(b)/25.4, 5.5, 0.01)
	}
}
