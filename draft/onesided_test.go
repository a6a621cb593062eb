package draft_test

import (
	"math"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
)

// oneSided is the middle woman's garment, altered on one side.
func oneSided(t *testing.T, g garment.Garment, a garment.Alteration, side job.Side) *draft.Result {
	t.Helper()
	j := middle(g)
	j.Cloth = []job.Cloth{{Kind: piece.Main, Width: length(t, "60 in"), Fold: job.Lengthwise}}
	j.Alterations = []job.Alteration{{Kind: a.ID, By: length(t, "1/2 in"), Side: side}}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatalf("%s, %s, %s: %v", g.ID, a.ID, side, err)
	}
	return r
}

// TestOneSideReachesEverything: what is altered on one side alone is said on the
// pieces and by the proof, chalked, laid on open cloth, and sewn; nothing is cut on
// a fold that differs there.
func TestOneSideReachesEverything(t *testing.T) {
	for _, g := range draft.Garments() {
		n := 0
		for _, a := range g.Alterations() {
			if a.OneSide == nil {
				continue
			}
			n++
			for _, side := range []job.Side{job.LeftSide, job.RightSide} {
				what := g.ID + ", " + a.ID + ", " + string(side)
				r := oneSided(t, g, a, side)
				for _, f := range r.Report.At(proof.Stops) {
					t.Errorf("%s: %s stops the cut: %s", what, f.Check, f.Say)
				}
				said := false
				for _, f := range r.Report.Findings {
					said = said || f.Check == "left and right differ" && f.Level == proof.Mind
				}
				differ := 0
				for _, p := range r.Pieces {
					if p.Hand != piece.BothHands || len(p.Halves) > 0 {
						differ++
					}
					if p.Hand != piece.BothHands && (p.Pairs || !strings.HasSuffix(p.Name, ", left") && !strings.HasSuffix(p.Name, ", right")) {
						t.Errorf("%s: %s is called %q, a pair %t", what, p.ID, p.Name, p.Pairs)
					}
				}
				if !said || differ == 0 {
					t.Errorf("%s: said %t, and %d pieces differ", what, said, differ)
				}
				if _, err := draft.Order(r, bench.Setting{}); err != nil {
					t.Errorf("%s: %v", what, err)
				}
				for _, s := range draft.Chalk(r) {
					if len(s.Marks) == 0 {
						t.Errorf("%s: nothing to chalk for %s", what, s.Piece)
					}
				}
				l, err := draft.Spread(r, 0)
				if err != nil {
					t.Fatalf("%s: %v", what, err)
				}
				if l.Cloth.Fold != lay.Open {
					t.Errorf("%s: the cloth is not opened", what)
				}
			}
		}
		if n < 3 {
			t.Errorf("%s: %d alterations can be made of one side", g.ID, n)
		}
	}
}

// What would be cut on the fold is cut whole where its halves differ: both halves
// lie in it, the right one as its mirror image, and no edge of it is a fold.
func TestCutWholeWhereHalvesDiffer(t *testing.T) {
	n := 0
	for _, g := range draft.Garments()[1:] {
		for _, a := range g.Alterations() {
			if a.OneSide == nil {
				continue
			}
			for _, p := range oneSided(t, g, a, job.RightSide).Pieces {
				for _, e := range p.Edges {
					if e.Fold && len(p.Halves) > 0 {
						t.Errorf("%s, %s: the %s of %s is a fold", g.ID, a.ID, e.Name, p.ID)
					}
				}
				if len(p.Halves) == 0 {
					continue
				}
				n++
				sum := p.Halves[0].Area() + p.Halves[1].Area()
				if math.Abs(p.Area()-sum) > sum*1e-3 || p.Count != 1 || p.Pairs {
					t.Errorf("%s, %s: %s has %.0f mm², its halves %.0f; cut %d", g.ID, a.ID, p.ID, p.Area(), sum, p.Count)
				}
				for i, half := range p.Halves {
					for _, at := range half.Sew {
						if i == 1 {
							at.X = -at.X
						}
						if off := geom.RingDist(p.Sew, at); off > 0.1 && math.Abs(at.X) > 0.1 {
							t.Fatalf("%s, %s: %s, half %d: the outline is off by %.2f mm at %v", g.ID, a.ID, p.ID, i, off, at)
						}
					}
				}
			}
		}
	}
	if n < 8 {
		t.Errorf("%d pieces were cut whole", n)
	}
}

// One hip higher: the skirt's sides differ at the waist by as much as they were
// measured to, its hem is level, and waist and hip stay as they are.
func TestSkirtWithOneHipHigher(t *testing.T) {
	g, _ := draft.Find("skirt")
	for _, style := range []map[string]string{nil, {"closure": "zip_side", "opening": "none"}, {"shape": "a_line"}, {"shape": "pencil", "opening": "side_slits", "lining": "full"}} {
		j := middle(g)
		j.Style = style
		even, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		j.Measurements[body.LeftSideLength] = body.Taking{Value: length(t, "40 1/2 in")}
		j.Measurements[body.RightSideLength] = body.Taking{Value: length(t, "39 1/2 in")}
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range r.Report.At(proof.Stops) {
			t.Errorf("%v: %s stops the cut: %s", style, f.Check, f.Say)
		}
		panels := map[string]piece.Panel{}
		for _, p := range r.Panels {
			panels[p.Name] = p
		}
		for _, part := range []string{"front", "back"} {
			left, _ := panels[part].Edge("side")
			right, ok := panels[part+"-right"].Edge("side")
			if !ok {
				t.Fatalf("%v: the right %s is as the left", style, part)
			}
			if by := right.Sew.Start().Y - left.Sew.Start().Y; math.Abs(by-25.4) > 4 {
				t.Errorf("%v: the sides of the %s differ by %.1f mm at the waist", style, part, by)
			}
			if off := left.Sew.End().Dist(right.Sew.End()); off > 0.02 {
				t.Errorf("%v: the hems of the %s differ by %.2f mm", style, part, off)
			}
		}
		for i, g := range r.Report.Girths {
			if was := even.Report.Girths[i]; g.Name != was.Name || math.Abs((g.Draft-was.Draft).MM()) > 1.5 {
				t.Errorf("%v: %s %v, was %s %v", style, g.Name, g.Draft, was.Name, was.Draft)
			}
		}
	}
}

// What was cut alike on both sides is sewn anew on the altered one alone, and the
// steps say on which.
func TestOneSideIsRecut(t *testing.T) {
	for id, kind := range map[string]string{"trousers": "hip_out", "skirt": "hip_out", "bodice": "shoulder_lower"} {
		g, _ := draft.Find(id)
		a, _ := g.Alter(kind)
		cut, err := draft.Make(middle(g))
		if err != nil {
			t.Fatal(err)
		}
		is := oneSided(t, g, a, job.RightSide)
		r := draft.RecutOf(cut, is)
		for _, p := range r.Panels {
			if p.Piece.Hand != piece.RightHand {
				t.Errorf("%s: %s is sewn anew too: %+v", id, p.Piece.Name, p.Edges)
			}
		}
		if len(r.Panels) != 2 || !r.Can() {
			t.Errorf("%s: %d panels are sewn anew, can %t", id, len(r.Panels), r.Can())
		}
		for _, step := range draft.Resew(r, is.Format) {
			if strings.Contains(step, "left") {
				t.Errorf("%s: %q", id, step)
			}
			if strings.HasPrefix(step, "Mark ") && !strings.Contains(step, ", right:") {
				t.Errorf("%s: %q does not say its side", id, step)
			}
		}
		if back := draft.RecutOf(is, cut); len(back.Panels) != 2 {
			t.Errorf("%s: undone, %d panels are sewn anew", id, len(back.Panels))
		}
	}
}
