package sketch_test

import (
	"math"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/sketch"
	"chalkfold/draft/unit"
)

// ends is how far down the cloth reaches on either side of the drawing, and how
// high its side begins.
func ends(ring geom.Path) (left, right, leftTop, rightTop float64) {
	left, right = math.Inf(-1), math.Inf(-1)
	for _, p := range ring.Flatten(1) {
		if p.X < -1 {
			left = math.Max(left, p.Y)
		}
		if p.X > 1 {
			right = math.Max(right, p.Y)
		}
	}
	leftTop, rightTop = math.Inf(1), math.Inf(1)
	for _, c := range ring {
		for _, p := range []geom.Pt{c.A, c.D} {
			if p.X < -100 {
				leftTop = math.Min(leftTop, p.Y)
			}
			if p.X > 100 {
				rightTop = math.Min(rightTop, p.Y)
			}
		}
	}
	return left, right, leftTop, rightTop
}

// Where the sides of a figure differ the sketch shows each as it is: the wearer's
// left is on the right of the front, and on the left of the back.
func TestEachSideIsItsOwn(t *testing.T) {
	inch, err := unit.Parse("1", unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	side := func(text string) body.Taking {
		q, err := unit.Parse(text, unit.Inches)
		if err != nil {
			t.Fatal(err)
		}
		return body.Taking{Value: q}
	}
	var m draft.Maker
	for _, tt := range []struct {
		name           string
		change         func(j *job.Job)
		longer, higher float64 // by how much the left leg reaches further down, and its side stands higher
	}{
		{"alike", func(*job.Job) {}, 0, 0},
		{"the left leg longer", func(j *job.Job) {
			j.Alterations = []job.Alteration{{Kind: "leg_longer", By: inch, Side: job.LeftSide}}
		}, 25.4, 0},
		{"the right leg longer", func(j *job.Job) {
			j.Alterations = []job.Alteration{{Kind: "leg_longer", By: inch, Side: job.RightSide}}
		}, -25.4, 0},
		{"the left hip higher", func(j *job.Job) {
			j.Measurements[body.LeftSideLength], j.Measurements[body.RightSideLength] = side("41"), side("40")
		}, 0, 25.4},
		{"the right hip higher", func(j *job.Job) {
			j.Measurements[body.LeftSideLength], j.Measurements[body.RightSideLength] = side("40"), side("41")
		}, 0, -25.4},
	} {
		j := middle()
		tt.change(&j)
		_, f := drawn(t, &m, j)
		for _, v := range []struct {
			name string
			view sketch.View
			hand float64 // the wearer's left is on the right of the drawing, or on its left
		}{{"front", f.Front, 1}, {"back", f.Back, -1}} {
			left, right, leftTop, rightTop := ends(of(t, v.view, sketch.Cloth))
			near(t, tt.name+", "+v.name+": right leg of the drawing longer", right-left, v.hand*tt.longer, 1)
			near(t, tt.name+", "+v.name+": right side of the drawing higher", leftTop-rightTop, v.hand*tt.higher, 4)
		}
	}
}
