package piece_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

// front and back are legs with a hollow fork, a squared fork corner and a
// turned-up hem; the back has an inlay at the centre that runs out at the fork.
const (
	front = `
	waist 12.7: M 0 0 C 80 -2 160 -6 243 -12
	side 12.7: M 243 -12 C 256 40 270 120 268 178 C 262 260 240 420 218 546 C 217 680 217 820 217 965
	hem 50.8 turned: M 217 965 L -17 965
	inseam 12.7 square: M -17 965 C -17 820 -17 680 -17 546 C -24 420 -45 300 -66 229
	fork 12.7: M -66 229 C -30 226 0 200 0 160
	centre 12.7: M 0 160 L 0 0`
	back = `
	waist 12.7: M 51 -25 C 130 -20 200 -18 282 -10
	side 12.7: M 282 -10 C 290 60 292 120 290 178 C 280 300 250 430 230 546 C 226 680 226 820 230 965
	hem 50.8 turned: M 230 965 L -30 965
	inseam 12.7 square: M -30 965 C -26 820 -26 680 -30 546 C -44 420 -96 310 -133 240
	fork 12.7: M -133 240 C -70 232 -15 205 6 146
	centre 12.7>38.1: M 6 146 L 51 -25`
)

// margin is the distance that a cut line should stand off: off the middle of
// an edge, its allowance at that share of its length.
func margin(e piece.Edge, share float64) float64 {
	return e.AllowStart.MM() + (e.AllowEnd.MM()-e.AllowStart.MM())*share
}

// Square out from every part of an edge that is clear of its corners, the cut
// line stands its allowance off, and no nearer to any part of the sew line.
// Distances are the independent library's.
func TestCutLineStandsItsAllowanceOff(t *testing.T) {
	for name, text := range map[string]string{"front": front, "back": back, "square": square100} {
		p := outlined(t, text)
		sound(t, p)
		cut := polygon(p.Cut).Boundary()
		for _, e := range p.Edges {
			if e.Turned {
				continue
			}
			sew := sampled(e.Sew)
			clear := 2.5 * math.Max(e.AllowStart.MM(), e.AllowEnd.MM())
			total := e.Sew.Len()
			for along := clear; along < total-clear; along += 5 {
				at, dir := e.Sew.At(along)
				want := margin(e, along/total)
				out := at.Add(dir.Left().Scale(want))
				// an allowance that tapers is measured square to the sew line
				// at its foot, a little more than the nearest distance
				if got := apart(t, out, cut); got > 2*piece.FlattenTol {
					t.Errorf("%s %s: the cut line is %.3f mm off where it should stand, %.1f mm along", name, e.Name, got, along)
				}
				slope := math.Atan((e.AllowEnd.MM() - e.AllowStart.MM()) / total)
				if got := apart(t, at, cut); math.Abs(got-want*math.Cos(slope)) > 2*piece.FlattenTol {
					t.Errorf("%s %s: nearest cut line %.3f mm from the sew line %.1f mm along, want %.3f", name, e.Name, got, along, want)
				}
			}
			for _, q := range p.Cut {
				if d := apart(t, q, sew); d < math.Min(e.AllowStart.MM(), e.AllowEnd.MM())-2*piece.FlattenTol {
					t.Errorf("%s: the cut line comes within %.3f mm of the %s at %v", name, d, e.Name, q)
				}
			}
		}
	}
}

// Cut short anywhere, an edge keeps the cut line that it had: clear of the
// corners, each of its points stands the allowance off the sew line. A hair past
// a joint of two curves, a chord of a hair meets a long one; and where they bend
// in at the joint, the cut line is past the hair already.
func TestCutShortAnEdgeKeepsItsCutLine(t *testing.T) {
	for name, tt := range map[string]struct {
		inseam string
		off    float64 // mm: what a bend may come nearer
	}{
		"fair":     {"inseam 19.05: M 0 900 C 0 800 0 700 0 600 C 0 520 25 440 0 350 C -25 260 -60 240 -60 200", 1e-3},
		"bends in": {"inseam 19.05: M 0 900 C 0 800 0 700 0 600 C 0 520 25 440 0 350 C -35 260 -60 240 -60 200", 0.15},
	} {
		inseam := edges(t, tt.inseam)[0]
		for joint, lower := 0.0, inseam.Sew; len(lower) > 1; lower = lower[1:] {
			joint += lower[0].Len()
			for _, past := range []float64{-30, -1, -0.1, -0.01, 0.001, 0.01, 0.05, 0.1, 0.2, 0.5, 1, 3, 10, 50} {
				e := inseam
				e.Sew = e.Sew.Between(0, joint+past)
				p := closed(t, e)
				sound(t, p)
				for _, q := range p.Cut {
					s, d := e.Sew.Nearest(q)
					if s > 1e-3 && s < e.Sew.Len()-1e-3 && q.X < 0 && math.Abs(d-19.05) > tt.off {
						t.Errorf("%s, ended %v mm past a joint: %v of the cut line stands %.4f mm off", name, past, q, d)
					}
				}
			}
		}
	}
}

// closed is a piece with a side of its own and three straight sides for the rest.
func closed(t fataler, side piece.Edge) piece.Piece {
	t.Helper()
	from, to := side.Sew.Start(), side.Sew.End()
	up, down := geom.Pt{X: 200, Y: to.Y}, geom.Pt{X: 200, Y: from.Y}
	p := piece.Piece{ID: "part", Edges: []piece.Edge{side}}
	for i, s := range []geom.Path{geom.Polyline(to, up), geom.Polyline(up, down), geom.Polyline(down, from)} {
		p.Edges = append(p.Edges, piece.Edge{Name: []string{"top", "back", "foot"}[i], Sew: s, AllowStart: 10, AllowEnd: 10})
	}
	p, err := piece.Outline(p)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// The corner at the fork is square to the inseam, which is sewn first: pressed
// open, its allowance ends exactly on the cut line of the fork.
func TestForkCornerIsSquareToTheInseam(t *testing.T) {
	for name, text := range map[string]string{"front": front, "back": back} {
		p := outlined(t, text)
		var inseam, fork piece.Edge
		for _, e := range p.Edges {
			switch e.Name {
			case "inseam":
				inseam = e
			case "fork":
				fork = e
			}
		}
		tip, along := inseam.Sew.End(), inseam.Sew.EndDir()
		// on the inseam's own line, where the fork's cut line crosses it
		foot, ok := geom.CrossLines(tip, along, fork.Sew.Start().Add(fork.Sew.StartDir().Left().Scale(fork.AllowStart.MM())), fork.Sew.StartDir())
		if !ok {
			t.Fatalf("%s: the inseam runs along the fork", name)
		}
		corner := foot.Add(along.Left().Scale(inseam.AllowEnd.MM()))
		cut := polygon(p.Cut).Boundary()
		for what, q := range map[string]geom.Pt{"the corner of the allowance": corner, "the end of the seam": foot, "between them": foot.Lerp(corner, 0.5)} {
			if d := apart(t, q, cut); d > 1e-6 {
				t.Errorf("%s: %s is %.3f mm off the cut line", name, what, d)
			}
		}
		// pressed open, the allowance is mirrored in the seam; its end then lies
		// along the cut line of the fork, seam to corner
		mirror := geom.RotateAbout(tip, -math.Atan2(along.Y, along.X)).Then(geom.Affine{A: 1, D: -1, F: 2 * tip.Y}).
			Then(geom.RotateAbout(tip, math.Atan2(along.Y, along.X)))
		if d := mirror.Pt(corner).Sub(foot).Dot(along); math.Abs(d) > 1e-6 {
			t.Errorf("%s: pressed open, the allowance stands %.3f mm beyond the seam's end", name, d)
		}
	}
}

// folded is the turned-up allowance of p's hem, laid over the hem line.
func folded(t fataler, p piece.Piece) (up []geom.Pt, hem piece.Edge) {
	t.Helper()
	for _, e := range p.Edges {
		if e.Turned {
			hem = e
		}
	}
	y := hem.Sew.Start().Y
	for _, q := range p.Cut {
		if q.Y >= y-0.02 { // points within 0.01 are one
			up = append(up, geom.Pt{X: q.X, Y: 2*y - q.Y})
		}
	}
	if len(up) < 4 {
		t.Fatalf("%s: no allowance beyond the hem: %v", p.ID, up)
	}
	return up, hem
}

// width is how wide a ring is at a height, by the independent library.
func width(t fataler, pts []geom.Pt, y float64) float64 {
	t.Helper()
	line := sf.NewLineString(sf.NewSequence([]float64{-1e4, y, 1e4, y}, sf.DimXY)).AsGeometry()
	across, err := sf.Intersection(polygon(pts), line)
	if err != nil {
		t.Fatal(err)
	}
	return across.Length()
}

// A hem turned up over its line lies on the piece, and its edge is as wide as
// the leg there, whether the leg narrows, widens or is curved.
func TestTurnedUpHemLiesFlat(t *testing.T) {
	const flat = 1.5 // mm: what the proof of a draft allows
	legs := map[string]string{
		"front": front, "back": back,
		"shorts, widening": strings.NewReplacer("C 217 680 217 820 217 965", "C 225 680 240 820 260 965", "M 217 965 L -17 965", "M 260 965 L -60 965",
			"M -17 965 C -17 820", "M -60 965 C -40 820").Replace(front),
		"narrowing strongly": strings.NewReplacer("C 217 680 217 820 217 965", "C 217 680 190 820 160 965", "M 217 965 L -17 965", "M 160 965 L 40 965",
			"M -17 965 C -17 820", "M 40 965 C 10 820").Replace(front),
		"curved right at the hem": strings.NewReplacer("C 217 680 217 820 217 965", "C 217 680 190 900 230 965", "M 217 965 L -17 965", "M 230 965 L -30 965",
			"M -17 965 C -17 820", "M -30 965 C 10 900").Replace(front),
	}
	for name, text := range legs {
		for _, depth := range []string{"12.7", "25.4", "50.8", "101.6"} {
			p := outlined(t, strings.Replace(text, "50.8", depth, 1))
			p.ID = fmt.Sprintf("%s, %s mm", name, depth)
			sound(t, p)
			up, hem := folded(t, p)
			y := hem.Sew.Start().Y
			top := y
			for _, q := range up {
				top = math.Min(top, q.Y)
				if d := apart(t, q, polygon(p.Cut)); d > flat {
					t.Errorf("%s: turned up, %v stands %.2f mm off the piece", p.ID, q, d)
				}
			}
			if d := y - top; math.Abs(d-hem.AllowStart.MM()) > 1e-6 {
				t.Errorf("%s: %.3f mm are turned up, want %v", p.ID, d, hem.AllowStart.MM())
			}
			got, want := width(t, up, top+1e-6), width(t, p.Cut, top+1e-6)
			if math.Abs(got-want) > flat {
				t.Errorf("%s: turned up, the edge is %.2f mm wide where the leg is %.2f", p.ID, got, want)
			}
		}
	}
}

// anyLeg draws a front of plausible proportions and allowances.
func anyLeg(t *rapid.T) piece.Piece {
	f := func(what string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
	hip, reach := f("hip", 200, 400), f("reach", 40, 140)
	waist := hip - f("waist less", -20, 80)
	rise, hem := f("rise", 150, 330), f("hem", 700, 1100)
	mid := (hip - reach) / 2
	foot := math.Min(f("hem width", 120, 420), 1.3*(hip+reach))
	knee := (hip + reach + foot) / 2 * f("knee share", 0.8, 1)
	kneeY := (rise + hem) / 2
	// none, or as much as scissors can follow
	allow := func(what string) float64 {
		return rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(3, 40)).Draw(t, what)
	}
	text := fmt.Sprintf(`
	waist %[1]v: M 0 0 L %[2]v 0
	side %[3]v: M %[2]v 0 C %[2]v 40 %[4]v %[5]v %[4]v %[6]v C %[4]v %[7]v %[8]v %[7]v %[8]v %[9]v L %[10]v %[11]v
	hem %[12]v turned: M %[10]v %[11]v L %[13]v %[11]v
	inseam %[14]v square: M %[13]v %[11]v L %[15]v %[9]v C %[15]v %[7]v %[16]v %[17]v %[16]v %[6]v
	fork %[18]v: M %[16]v %[6]v C %[19]v %[6]v 0 %[20]v 0 %[21]v
	centre %[18]v: M 0 %[21]v L 0 0`,
		allow("waist allowance"), waist, allow("side allowance"), hip, rise*0.5, rise, (rise+kneeY)/2, mid+knee/2, kneeY,
		mid+foot/2, hem, f("hem allowance", 10, 100), mid-foot/2, allow("inseam allowance"), mid-knee/2, -reach, rise+60,
		f("fork allowance", 3, 20), -reach/2, rise*0.85, rise*0.6)
	p, err := piece.Outline(piece.Piece{ID: "leg", Edges: edges(t, text)})
	if err != nil {
		t.Fatal(err)
	}
	return p
}
