package kit

import (
	"math"

	"chalkfold/draft/geom"
)

// Look is which part of a drawing is seen in its frame. The zero value is made
// ready by Renew.
type Look struct {
	Home geom.Rect // all that is drawn, mm
	W, H float64   // of the frame, px
	Mid  geom.Pt   // what is in the middle of the frame
	Near float64   // how many times nearer than the whole
}

const (
	mostNear = 16.0
	// nearer is how much one step nearer is.
	nearer = 1.6
	// pace is how much of the frame one step to a side is.
	pace = 0.25
)

// Renew takes another drawing or another frame. What is looked at from near
// stays where it is and as large as it is; the whole stays the whole.
func (l *Look) Renew(home geom.Rect, w, h float64) {
	was := l.Scale()
	l.Home, l.W, l.H = home, w, h
	if l.Near <= 1 || was == 0 {
		l.Whole()
		return
	}
	l.Near = was / l.fit()
	l.hold()
}

// tooLong is how many times longer than its frame a drawing is, beside its width,
// that cannot be read when all of it is in sight.
const tooLong = 2.2

// Begin looks at the first end of a drawing that is too long, as wide as the frame.
func (l *Look) Begin() {
	fit := l.fit()
	if fit == 0 {
		return
	}
	near := math.Max(l.W/l.Home.W(), l.H/l.Home.H()) / fit
	if near < tooLong {
		return
	}
	l.Near = math.Min(mostNear, near)
	half := l.Box().Max.Sub(l.Mid)
	l.Mid = geom.Pt{
		X: math.Min(l.Mid.X, l.Home.Min.X+half.X),
		Y: math.Min(l.Mid.Y, l.Home.Min.Y+half.Y),
	}
	l.hold()
}

// Whole looks at all that is drawn.
func (l *Look) Whole() { l.Near, l.Mid = 1, middle(l.Home) }

// Scale is px for each mm; 0 before there is anything to see.
func (l Look) Scale() float64 { return l.Near * l.fit() }

// fit is the scale at which the whole fits into the frame.
func (l Look) fit() float64 {
	if l.Home.W() <= 0 || l.Home.H() <= 0 {
		return 0
	}
	return math.Min(l.W/l.Home.W(), l.H/l.Home.H())
}

// Box is what the frame shows, mm.
func (l Look) Box() geom.Rect {
	s := l.Scale()
	if s == 0 {
		return l.Home
	}
	half := geom.Vec{X: l.W / s / 2, Y: l.H / s / 2}
	return geom.Rect{Min: l.Mid.Add(half.Neg()), Max: l.Mid.Add(half)}
}

// At is what lies at a place of the frame, px from its corner.
func (l Look) At(x, y float64) geom.Pt {
	b, s := l.Box(), l.Scale()
	if s == 0 {
		return l.Mid
	}
	return geom.Pt{X: b.Min.X + x/s, Y: b.Min.Y + y/s}
}

// Pan moves the drawing by so many px, as a finger does.
func (l *Look) Pan(dx, dy float64) {
	if s := l.Scale(); s > 0 {
		l.Mid = l.Mid.Add(geom.Vec{X: -dx / s, Y: -dy / s})
		l.hold()
	}
}

// Zoom looks nearer or further by a factor, and leaves what lies at x, y there.
func (l *Look) Zoom(by, x, y float64) { l.pinch(by, spot{x, y}, spot{x, y}) }

// pinch looks nearer or further by a factor, and brings what lies at one place
// of the frame to another.
func (l *Look) pinch(by float64, from, to spot) {
	held := l.At(from.x, from.y)
	l.Near = math.Max(1, math.Min(mostNear, l.Near*by))
	l.Mid = l.Mid.Add(held.Sub(l.At(to.x, to.y)))
	l.hold()
}

// Step goes so many steps to the right and down.
func (l *Look) Step(right, down float64) { l.Pan(-right*pace*l.W, -down*pace*l.H) }

// Nearer looks one step nearer, or further, about the middle of the frame.
func (l *Look) Nearer(steps float64) { l.Zoom(math.Pow(nearer, steps), l.W/2, l.H/2) }

// Show brings a place into the frame, unless it stands well inside.
func (l *Look) Show(at geom.Pt) {
	const inside = 0.15 // of the frame, kept clear all round
	b := l.Box()
	mx, my := b.W()*inside, b.H()*inside
	if at.X < b.Min.X+mx || at.X > b.Max.X-mx || at.Y < b.Min.Y+my || at.Y > b.Max.Y-my {
		l.Mid = at
		l.hold()
	}
}

// hold keeps the look within bounds: never further than the whole, and with
// some of the drawing in the middle of the frame.
func (l *Look) hold() {
	l.Near = math.Max(1, math.Min(mostNear, l.Near))
	if l.Near == 1 {
		l.Whole()
		return
	}
	l.Mid.X = math.Max(l.Home.Min.X, math.Min(l.Home.Max.X, l.Mid.X))
	l.Mid.Y = math.Max(l.Home.Min.Y, math.Min(l.Home.Max.Y, l.Mid.Y))
}

func middle(r geom.Rect) geom.Pt { return r.Min.Lerp(r.Max, 0.5) }
