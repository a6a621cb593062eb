package kit

import (
	"math"
	"testing"

	"chalkfold/draft/geom"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s is %g, want %g", what, got, want)
	}
}

// a drawing of 1000 by 500 mm in a frame of 200 by 200 px.
func look() Look {
	var l Look
	l.Renew(geom.Rect{Max: geom.Pt{X: 1000, Y: 500}}, 200, 200)
	return l
}

func TestLookAtTheWhole(t *testing.T) {
	l := look()
	near(t, "the scale", l.Scale(), 0.2)
	near(t, "the left", l.Box().Min.X, 0)
	near(t, "the top", l.Box().Min.Y, -250) // it stands in the middle
	near(t, "what is in the corner", l.At(200, 200).Y, 750)
	l.Pan(50, 50)
	near(t, "the whole after a drag", l.Mid.X, 500)
	l.Nearer(-1)
	near(t, "further than the whole", l.Near, 1)
}

// Cloth for many garments is looked at from its cut end; cloth for one is whole.
func TestLookBeginsWhereItIsTooLong(t *testing.T) {
	var l Look
	l.Renew(geom.Rect{Min: geom.Pt{X: -10, Y: -50}, Max: geom.Pt{X: 790, Y: 7950}}, 200, 300)
	l.Begin()
	near(t, "the scale", l.Scale(), 200.0/800)
	near(t, "the left", l.Box().Min.X, -10)
	near(t, "the top", l.Box().Min.Y, -50)
	l.Whole()
	l.Renew(l.Home, 200, 300)
	near(t, "the whole, once asked for", l.Near, 1)
	l = look()
	l.Begin()
	near(t, "what is not too long", l.Near, 1)
}

func TestLookZoomsAboutAPlace(t *testing.T) {
	l := look()
	for _, by := range []float64{2, 3, 1.5} {
		was := l.At(60, 120)
		l.Zoom(by, 60, 120)
		near(t, "what lies there", l.At(60, 120).Dist(was), 0)
	}
	near(t, "how near", l.Near, 9)
	l.Zoom(100, 60, 120)
	near(t, "the nearest", l.Near, mostNear)
	l.Whole()
	near(t, "the middle of the whole", l.Mid.Y, 250)
}

func TestLookFollowsTheFinger(t *testing.T) {
	l := look()
	l.Zoom(4, 100, 100)
	was := l.At(100, 100)
	l.Pan(30, -20)
	near(t, "what was under the finger", l.At(130, 80).Dist(was), 0)
	l.Pan(1e6, 1e6)
	near(t, "the edge in the middle", l.Mid.X, 0)
}

// Another draft is looked at at the same place of the cloth and at the same
// scale; the whole of one becomes the whole of the other.
func TestLookKeepsItsPlace(t *testing.T) {
	l := look()
	l.Renew(geom.Rect{Max: geom.Pt{X: 2000, Y: 500}}, 200, 200)
	near(t, "the scale of the wider whole", l.Scale(), 0.1)
	l.Zoom(5, 20, 100)
	at, scale := l.At(100, 100), l.Scale()
	l.Renew(geom.Rect{Max: geom.Pt{X: 1900, Y: 520}}, 200, 150)
	near(t, "the scale", l.Scale(), scale)
	near(t, "the middle", l.At(100, 75).Dist(at), 0)
}

func TestLookShows(t *testing.T) {
	l := look()
	l.Zoom(5, 0, 100)
	was := l.Mid
	l.Show(was)
	near(t, "a place in sight", l.Mid.Dist(was), 0)
	l.Show(geom.Pt{X: 900, Y: 400})
	if b := l.Box(); b.Min.X > 900 || b.Max.X < 900 {
		t.Errorf("900 mm is not between %g and %g", b.Min.X, b.Max.X)
	}
}

func TestHandPinches(t *testing.T) {
	l := look()
	var h hand
	held := l.At(100, 100)
	h.down(1, spot{80, 100})
	h.down(2, spot{120, 100})
	for i := 1.0; i <= 10; i++ {
		h.move(1, spot{80 - 4*i, 100}, &l)
		h.move(2, spot{120 + 4*i, 100}, &l)
	}
	near(t, "how near", l.Near, 3)
	near(t, "what lies between the fingers", l.At(100, 100).Dist(held), 0)
	h.up(1, spot{40, 100}, 0)
	was := l.At(160, 100)
	h.move(2, spot{170, 110}, &l)
	near(t, "what lies under the finger that stayed", l.At(170, 110).Dist(was), 0)
	if got := h.up(2, spot{170, 110}, 10); got != nothing {
		t.Errorf("the last finger of a pinch did %d", got)
	}
}

func TestHandTaps(t *testing.T) {
	l := look()
	l.Zoom(4, 100, 100)
	tests := []struct {
		name string
		from spot
		to   spot
		when float64
		want did
	}{
		{"a tap", spot{50, 50}, spot{50, 50}, 1000, tapOnce},
		{"another, late", spot{50, 50}, spot{52, 53}, 1400, tapOnce},
		{"another, soon", spot{50, 50}, spot{50, 52}, 1600, tapTwice},
		{"a third, soon", spot{50, 50}, spot{50, 50}, 1700, tapOnce},
		{"elsewhere, soon", spot{150, 50}, spot{150, 50}, 1800, tapOnce},
		{"a slip", spot{50, 50}, spot{56, 55}, 3000, tapOnce},
		{"a drag", spot{50, 50}, spot{70, 50}, 4000, nothing},
	}
	var h hand
	for _, tt := range tests {
		h.down(7, tt.from)
		moved := h.move(7, tt.to, &l)
		if moved != (tt.want == nothing) {
			t.Errorf("%s: moved the drawing: %t", tt.name, moved)
		}
		if got := h.up(7, tt.to, tt.when); got != tt.want {
			t.Errorf("%s: did %d, want %d", tt.name, got, tt.want)
		}
	}
	h.down(8, spot{})
	h.lost(8)
	if h.up(8, spot{}, 9000) != nothing || len(h.fingers) != 0 {
		t.Error("a finger that was lost still counts")
	}
}

func TestHomeAndNear(t *testing.T) {
	var p Pen
	box := geom.Rect{Min: geom.Pt{X: -12.5, Y: 3}, Max: geom.Pt{X: 100, Y: 50}}
	p.Reach(box)
	if got := homeOf(p.String()); got != box {
		t.Errorf("home is %v, want %v", got, box)
	}
	if got := homeOf(""); got != (geom.Rect{}) {
		t.Errorf("nothing has the home %v", got)
	}
	for i, s := range Nears() {
		if Near(s) != i+1 || Near(s*0.99) != i {
			t.Errorf("%g px for each mm is %d, a little less %d", s, Near(s), Near(s*0.99))
		}
	}
}

func TestKeyed(t *testing.T) {
	for _, key := range []string{"ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "+", "=", "-", "0"} {
		l := look()
		l.Zoom(3, 100, 100)
		was := l.Box()
		do := keyed(key)
		if do == nil {
			t.Errorf("%s does nothing", key)
			continue
		}
		do(&l)
		if l.Box() == was {
			t.Errorf("%s shows the same", key)
		}
	}
	if keyed("Tab") != nil {
		t.Error("Tab is taken from the page")
	}
}
