package piece_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
)

const square100 = `
	top 10: M 0 0 L 100 0
	right 10: M 100 0 L 100 100
	foot 10: M 100 100 L 0 100
	left 10: M 0 100 L 0 0`

func TestCutLine(t *testing.T) {
	for _, tt := range []struct{ name, edges, cut string }{
		{"square, even", square100, "-10 -10, 110 -10, 110 110, -10 110"},
		{"square, each edge its own", `
			top 5: M 0 0 L 100 0
			right 10: M 100 0 L 100 100
			foot 50: M 100 100 L 0 100
			left 0: M 0 100 L 0 0`, "0 -5, 110 -5, 110 150, 0 150"},
		{"no allowance", `
			top 0: M 0 0 L 100 0
			right 0: M 100 0 L 50 80
			left 0: M 50 80 L 0 0`, "0 0, 100 0, 50 80"},
		{"on the fold", `
			top 10: M 0 0 L 100 0
			right 10: M 100 0 L 100 100
			foot 10: M 100 100 L 0 100
			fold 0 fold: M 0 100 L 0 0`, "0 -10, 110 -10, 110 110, 0 110"},
		// an inlay of 30 at the top of the left edge, run to 10 at its foot
		{"tapered inlay", `
			top 10: M 0 0 L 100 0
			right 10: M 100 0 L 100 100
			foot 10: M 100 100 L 0 100
			left 10>30: M 0 100 L 0 0`, "-30 -10, 110 -10, 110 110, -10 110, -10 100, -30 0"},
		// edges that run on smoothly leave no corner
		{"two edges in one line", `
			top 10: M 0 0 L 40 0
			on 10: M 40 0 L 100 0
			right 10: M 100 0 L 100 100
			foot 10: M 100 100 L 0 100
			left 10: M 0 100 L 0 0`, "-10 -10, 110 -10, 110 110, -10 110"},
		{"a corner that turns in", `
			top 10: M 0 0 L 100 0
			right 10: M 100 0 L 100 50
			step 10: M 100 50 L 50 50
			inner 10: M 50 50 L 50 100
			foot 10: M 50 100 L 0 100
			left 10: M 0 100 L 0 0`, "-10 -10, 110 -10, 110 60, 60 60, 60 110, -10 110"},
		{"a corner that turns in, two allowances", `
			top 10: M 0 0 L 100 0
			right 10: M 100 0 L 100 50
			step 20: M 100 50 L 50 50
			inner 5: M 50 50 L 50 100
			foot 10: M 50 100 L 0 100
			left 10: M 0 100 L 0 0`, "-10 -10, 110 -10, 110 70, 55 70, 55 110, -10 110"},
		// the corner at the end of right is squared to right: the allowance of
		// right runs on to the foot's cut line and ends square to its sew line
		{"square corner at a slant", `
			top 10: M 0 0 L 100 0
			right 10 square: M 100 0 L 100 100
			foot 10: M 100 100 L 0 0`, "-24.142136 -10, 110 -10, 110 114.142136, 100 114.142136"},
		{"square corner where the edges are square", strings.Replace(square100, "right 10", "right 10 square", 1), "-10 -10, 110 -10, 110 110, -10 110"},
		// turned up: straight on past the hem where the sides are square to it
		{"turned up, sides square", strings.Replace(square100, "foot 10", "foot 30 turned", 1), "-10 -10, 110 -10, 110 130, -10 130"},
		// narrowing to the hem at 1 in 10, the allowance widens at 1 in 10
		{"turned up, leg narrows", `
			top 0: M 0 0 L 100 0
			right 0: M 100 0 L 90 100
			hem 30 turned: M 90 100 L 10 100
			left 0: M 10 100 L 0 0`, "0 0, 100 0, 90 100, 93 130, 7 130, 10 100"},
		{"turned up, leg widens", `
			top 0: M 0 0 L 80 0
			right 0: M 80 0 L 90 100
			hem 30 turned: M 90 100 L -10 100
			left 0: M -10 100 L 0 0`, "0 0, 80 0, 90 100, 87 130, -7 130, -10 100"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := outlined(t, tt.edges)
			if want := ring(t, tt.cut); !sameRing(p.Cut, want, 1e-4) {
				t.Errorf("cut line %v, want %v", corners(p.Cut), want)
			}
			sound(t, p)
		})
	}
}

// A mitre runs to a point until it would stand off the sewn corner by more
// than the limit; then it is cut off square to its middle, at the limit.
func TestMitreLimit(t *testing.T) {
	const allow = 10.0
	for _, tt := range []struct {
		halfAngle float64 // degrees, of the sewn corner
		cutOff    bool
	}{
		{90, false}, {60, false}, {45, false}, {30, false}, {20, false}, {19.48, false}, {19.46, true}, {15, true}, {8, true}, {3, true},
	} {
		half := tt.halfAngle * math.Pi / 180
		// a kite: its tip at the origin, pointing left, a wide back
		tip, l := geom.Pt{}, 400.0
		a := geom.Pt{X: l * math.Cos(half), Y: -l * math.Sin(half)}
		b := geom.Pt{X: a.X, Y: -a.Y}
		p := piece.Piece{ID: "kite"}
		for _, e := range [][2]geom.Pt{{b, tip}, {tip, a}, {a, {X: 900}}, {{X: 900}, b}} {
			p.Edges = append(p.Edges, piece.Edge{Name: "edge", Sew: geom.Polyline(e[0], e[1]), AllowStart: allow, AllowEnd: allow})
		}
		p, err := piece.Outline(p)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, p)
		left := math.Inf(1)
		var atLeft []geom.Pt
		for _, q := range corners(p.Cut) {
			left = math.Min(left, q.X)
		}
		for _, q := range corners(p.Cut) {
			if q.X < left+1e-6 {
				atLeft = append(atLeft, q)
			}
		}
		mitre := allow / math.Sin(half)
		switch {
		case tt.cutOff && (len(atLeft) != 2 || math.Abs(left+piece.MitreLimit*allow) > 1e-6):
			t.Errorf("half angle %v°: the tip is not cut off square at %v: %v", tt.halfAngle, piece.MitreLimit*allow, atLeft)
		case !tt.cutOff && tt.halfAngle < 90 && (len(atLeft) != 1 || math.Abs(left+mitre) > 1e-6):
			t.Errorf("half angle %v°: the mitre stands off %v, want one point at %v", tt.halfAngle, atLeft, mitre)
		}
	}
}

// Round a convex piece with one allowance a and mitred corners, the area grows
// by perimeter·a + a²·Σ tan(turn/2), and each cut edge stands a off its own.
func TestAreaOfEvenAllowance(t *testing.T) {
	for _, n := range []int{3, 4, 5, 7, 12, 40} {
		var pts []geom.Pt
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			pts = append(pts, geom.Pt{X: 300 * c, Y: 200 * s})
		}
		p := piece.Piece{ID: "oval"}
		want, tans := geom.Area(pts), 0.0
		const a = 12.7
		for i, q := range pts {
			next, after := pts[(i+1)%n], pts[(i+2)%n]
			p.Edges = append(p.Edges, piece.Edge{Name: "e", Sew: geom.Polyline(q, next), AllowStart: a, AllowEnd: a})
			want += a * q.Dist(next)
			tans += math.Tan(next.Sub(q).AngleTo(after.Sub(next)) / 2)
		}
		want += a * a * tans
		p, err := piece.Outline(p)
		if err != nil {
			t.Fatal(err)
		}
		sound(t, p)
		if got := p.Area(); math.Abs(got-want) > 1e-6*want {
			t.Errorf("%d sides: area %v mm², want %v", n, got, want)
		}
	}
}

func TestOutlineRefuses(t *testing.T) {
	for _, tt := range []struct {
		name, edges, say string
	}{
		{"one edge", "top 10: M 0 0 L 10 0", "has 1 edges; an outline needs two or more"},
		{"an empty edge", "top 10: M 0 0 L 10 0\nside 10:\nback 10: M 10 0 L 0 0", `edge "side" is empty`},
		{"a gap", "top 10: M 0 0 L 10 0\nside 10: M 10 1 L 5 5\nback 10: M 5 5 L 0 0", `edge "top" ends 1.000 mm from where "side" begins`},
		{"a gap at the close", "top 10: M 0 0 L 10 0\nside 10: M 10 0 L 5 5\nback 10: M 5 5 L 0 0.02", `edge "back" ends 0.020 mm from where "top" begins`},
		{"a gap after a curve", "top 10: M 0 0 C 3 0 7 0 10 0\nside 10: M 10.5 0 L 0 0", `edge "top" ends 0.500 mm from where "side" begins`},
	} {
		_, err := piece.Outline(piece.Piece{ID: "try", Edges: edges(t, tt.edges)})
		if err == nil || !strings.Contains(err.Error(), tt.say) || !strings.Contains(err.Error(), `piece "try"`) {
			t.Errorf("%s: error %v does not say %q of piece \"try\"", tt.name, err, tt.say)
		}
	}
	if _, err := piece.Outline(piece.Piece{ID: "none"}); err == nil {
		t.Error("a piece of no edges was outlined")
	}
}

// Outline changes nothing but the two rings, and nothing of what it was given.
func TestOutlineLeavesThePieceAlone(t *testing.T) {
	given := piece.Piece{ID: "a", Name: "A", Count: 2, Pairs: true, Cloth: piece.Lining, Note: "n", Edges: edges(t, square100)}
	want := edges(t, square100)
	got, err := piece.Outline(given)
	if err != nil {
		t.Fatal(err)
	}
	if given.Sew != nil || given.Cut != nil {
		t.Error("the piece given was changed")
	}
	for i, e := range given.Edges {
		if e.Name != want[i].Name || e.AllowEnd != want[i].AllowEnd || e.Sew.Len() != want[i].Sew.Len() {
			t.Errorf("edge %d was changed to %+v", i, e)
		}
	}
	if got.ID != "a" || got.Name != "A" || got.Count != 2 || !got.Pairs || got.Cloth != piece.Lining || got.Note != "n" || len(got.Edges) != 4 {
		t.Errorf("lost on the way: %+v", got)
	}
	if b := got.Bounds(); b.W() != 120 || b.H() != 120 {
		t.Errorf("bounds %v, want 120 by 120", b)
	}
}
