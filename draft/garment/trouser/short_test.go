package trouser_test

import (
	"math"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"pgregory.net/rapid"

	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// shortCloth are the rules for cloth that is short, each by itself.
func shortCloth() []rules.Values {
	return []rules.Values{
		{"hidden_lining": "on"},
		{"band_lining": "on"},
		{"band_join": "on"},
		{"band_across": "on"},
		{"back_piecing": "1/8 in"},
		{"back_piecing": "1 1/2 in"},
		{"back_piecing": "4 in"},
	}
}

// Whatever is done for short cloth, on any body in any style, stops no cut that
// was not stopped, and leaves the panels, and what is proved of them, as they
// were.
func TestShortClothProves(t *testing.T) {
	all := surveyed(t)
	rapid.Check(t, func(t *rapid.T) {
		o := order{Body: anyBody(t, all), Style: anyStyle(t), Rules: rules.Values{"seam_allowance": rapid.SampledFrom([]string{"3/8 in", "1/2 in", "3/4 in"}).Draw(t, "seam")}}
		provesShort(t, o, rapid.SampledFrom(shortCloth()).Draw(t, "short"), rapid.SampledFrom(shortCloth()).Draw(t, "and"))
	})
}

// Bodies, as shares of a surveyed one, whose piece let in once went wrong.
func TestPiecedFallsClose(t *testing.T) {
	for _, tt := range []struct {
		name   string
		row    int
		shares map[body.ID]unit.Length
		style  garment.Style
		seam   string // allowance
		letIn  string // width of the piece
	}{
		{"the inseam ends a tenth of a millimetre past a joint of its curves", 1082, map[body.ID]unit.Length{
			body.WaistGirth: 0.984375, body.HipGirth: 1.003457806771621, body.ThighGirth: 0.97, body.KneeGirth: 0.9825706693191827,
			body.CalfGirth: 0.97, body.HeelGirth: 1.0009291225011794, body.WaistToHips: 0.9991550445556641,
			body.BodyRise: 1.0269650220870972, body.OutsideLegLength: 1.00244140625,
		}, garment.Style{"leg": "free"}, "3/4 in", "1 1/2 in"},
		{"the inseam runs nearly on the grain at the join", 6, map[body.ID]unit.Length{
			body.WaistGirth: 1.0236501693725586, body.HipGirth: 0.9818924112718509, body.ThighGirth: 0.97, body.KneeGirth: 0.9724721256081911,
			body.CalfGirth: 1.0230903625488281, body.HeelGirth: 1.00494384765625, body.WaistToHips: 0.9724650446100954,
			body.BodyRise: 0.9933169462504815, body.OutsideLegLength: 1.0006584560470888,
		}, garment.Style{"front_dart": "none"}, "1/2 in", "4 in"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			o := order{Body: body.Values{}, Style: tt.style, Rules: rules.Values{"seam_allowance": tt.seam}}
			row := surveyed(t)[tt.row]
			for id, share := range tt.shares {
				o.Body[id] = body.Value{Length: row[id].Length * share}
			}
			provesShort(t, o, rules.Values{"back_piecing": tt.letIn})
		})
	}
}

// provesShort drafts the order as it is and with rules for short cloth.
func provesShort(t fataler, o order, short ...rules.Values) {
	t.Helper()
	plain, ok := tryDraft(t, o)
	if !ok {
		return
	}
	o.Rules = merged(append([]rules.Values{o.Rules}, short...)...)
	m, ok := tryDraft(t, o)
	if !ok {
		t.Fatalf("%v cannot be drafted", o.Rules)
	}
	checkSound(t, m)
	was := plain.Faults(proof.Stops)
	for _, check := range m.Faults(proof.Stops) {
		if !slices.Contains(was, check) {
			t.Fatalf("%v: %+v", o.Rules, m.Finding(check))
		}
	}
	for i, p := range m.Panels {
		for k, e := range p.Edges {
			if !slices.Equal(e.Sew, plain.Panels[i].Edges[k].Sew) {
				t.Fatalf("%v: the %s of the %s is not as it was", o.Rules, e.Name, p.Name)
			}
		}
	}
	for _, p := range m.Pieces {
		if !simple(p.Sew) || !simple(p.Cut) {
			t.Fatalf("%v: a line of the %s crosses itself", o.Rules, p.Name)
		}
	}
}

func merged(all ...rules.Values) rules.Values {
	out := rules.Values{}
	for _, v := range all {
		for k, x := range v {
			out[k] = x
		}
	}
	return out
}

// A fork pieced: the join runs on the grain, as far from the tip as the rule
// says; the two together are the back, and each has its allowance at the join.
func TestPiecedFork(t *testing.T) {
	for _, style := range []garment.Style{nil, {"leg": "free"}, {"crease": "tuck", "leg": "tapered"}} {
		for name, b := range map[string]string{"hip 42": hip42, "large man": largeMan, "small woman": smallWoman} {
			o := order{Body: measured(t, b), Style: style, Rules: rules.Values{"centre_back_inlay": "1 in"}}
			whole := o.draft(t).Must(t, "back")
			o.Rules["back_piecing"] = "1 1/2 in"
			m := o.draft(t)
			back, tip := m.Must(t, "back"), m.Must(t, "back-fork")
			if tip.Count != 2 || !tip.Pairs || tip.Cloth != piece.Main {
				t.Errorf("%s: the piece let in is cut %d of %s, pairs %t", name, tip.Count, tip.Cloth, tip.Pairs)
			}
			wide := m.Record.Value("back.piecing")
			if wide < 25 || wide > 1.5*25.4+1e-6 {
				t.Errorf("%s: the piece let in is %.1f mm wide", name, wide)
			}
			join := m.Record.Path("back.join")
			about(t, name+": join on the grain", join.Start().X, join.End().X, 0.01)
			about(t, name+": join from the tip", join.Start().X-m.Record.Point("back.fork_tip").X, wide, 0.01)
			a, c, all := polygon(back.Sew), polygon(tip.Sew), polygon(whole.Sew)
			about(t, name+": sewn area", (a.Area()+c.Area())/100, all.Area()/100, 0.2)
			if both, err := sf.Intersection(a, c); err != nil || both.Area() > 1 {
				t.Errorf("%s: the two overlap by %.1f mm², %v", name, both.Area(), err)
			}
			// square out from the middle of the join, both cut lines stand the
			// allowance off it
			mid := join.Start().Lerp(join.End(), 0.5)
			for side, q := range map[float64]piece.Piece{-1: back, 1: tip} {
				at := mid
				at.X += side * 12.7
				if d := dist(q.Cut, at); d > 0.25 {
					t.Errorf("%s: the cut line of the %s is %.2f mm off its allowance at the join", name, q.Name, d)
				}
			}
			// narrower by the piece less the allowance on the join, the corner of
			// the allowance at the tip apart
			if saved := whole.Bounds().W() - back.Bounds().W(); math.Abs(saved-wide) > 12.7/2 {
				t.Errorf("%s: the back is %.1f mm narrower for a piece of %.1f", name, saved, wide)
			}
			for _, check := range []string{"join at the back fork", "back inseam with its piece", "back fork with its piece", "notches: join at the back fork", "piece let in"} {
				if l := m.Level(t, check); l != proof.Fine {
					t.Errorf("%s: %+v", name, m.Finding(check))
				}
			}
		}
	}
}

// A piece let in that is wider than the fork has room for is said to be so, and
// ends where the inseam still leans one in ten off the join, not in a sliver.
func TestTooWideAPieceIsMinded(t *testing.T) {
	for name, b := range map[string]string{"hip 42": hip42, "large man": largeMan, "small woman": smallWoman} {
		for _, leg := range []string{"straight", "tapered", "free"} {
			m := order{Body: measured(t, b), Style: garment.Style{"leg": leg}, Rules: rules.Values{"back_piecing": "4 in"}}.draft(t)
			if l := m.Level(t, "piece let in"); l != proof.Mind {
				t.Errorf("%s, %s: a piece of 4 in: %s, %.1f mm drawn", name, leg, l, m.Record.Value("back.piecing"))
			}
			inseam := m.Must(t, "back-fork").Edges[0]
			if way := inseam.Sew.StartDir(); inseam.Name != "inseam" || way.X/way.Y < 0.1-1e-3 {
				t.Errorf("%s, %s: the piece ends in a sliver: %s runs %v", name, leg, inseam.Name, way)
			}
		}
	}
}

// The halves of a joined band make the whole, each with an allowance at the
// join; its seams and marks are proved half by half.
func TestBandJoined(t *testing.T) {
	for _, closure := range []string{"fly_left", "fly_right"} {
		m := order{Body: measured(t, hip42), Style: garment.Style{"closure": closure}, Rules: rules.Values{"band_join": "on"}}.draft(t)
		l, r := m.Must(t, "waistband-left"), m.Must(t, "waistband-right")
		half := 34.5/2 + 1
		lap := map[string][2]float64{"fly_left": {0, 1.5}, "fly_right": {1.5, 0}}[closure]
		about(t, closure+": left half", l.Bounds().H()/25.4, half+lap[0], 1e-3)
		about(t, closure+": right half", r.Bounds().H()/25.4, half+lap[1], 1e-3)
		for _, check := range []string{"waist to band, left", "waist to band, right", "notches: waist to band, left", "notches: waist to band, right", "join of the band", "notches: join of the band", "notches in pairs"} {
			if lv := m.Level(t, check); lv != proof.Fine {
				t.Errorf("%s: %+v", closure, m.Finding(check))
			}
		}
		if _, ok := m.Piece("waistband"); ok {
			t.Error("the whole band is cut besides")
		}
	}
}

// A half of the band cut short, or a join cut narrow, is caught.
func TestSpoiltJoinsAreCaught(t *testing.T) {
	for _, tt := range []struct{ id, edge, check string }{
		{"waistband-left", "waist", "waist to band, left"},
		{"waistband-right", "centre back", "join of the band"},
		{"back-fork", "join", "join at the back fork"},
		{"back-fork", "inseam", "back inseam with its piece"},
		{"back", "fork", "back fork with its piece"},
	} {
		m := order{Body: measured(t, hip42), Rules: rules.Values{"band_join": "on", "back_piecing": "1 1/2 in"}}.draft(t)
		for i, p := range m.Pieces {
			if p.ID != tt.id {
				continue
			}
			m.Pieces[i].Edges = slices.Clone(p.Edges)
			for k, e := range p.Edges {
				if e.Name == tt.edge {
					m.Pieces[i].Edges[k].Sew = e.Sew.Between(0, e.Sew.Len()-4)
				}
			}
		}
		m.Report = proof.Of(m.Panels, m.Pieces, m.Claims, nil)
		if l := m.Level(t, tt.check); l != proof.Stops {
			t.Errorf("%s of the %s cut 4 mm short: %s is %s", tt.edge, tt.id, tt.check, l)
		}
	}
}

// Across the grain, the length of the band lies across the cloth.
func TestBandAcross(t *testing.T) {
	for _, join := range []string{"off", "on"} {
		m := order{Body: measured(t, hip42), Rules: rules.Values{"band_across": "on", "band_join": join}}.draft(t)
		for _, p := range m.Pieces {
			if p.ID == "waistband" || p.ID == "waistband-left" || p.ID == "waistband-right" {
				if v := p.Grain.D.Sub(p.Grain.A); v.Y != 0 || v.X == 0 || p.CrossGrain {
					t.Errorf("%s: grain %v", p.ID, v)
				}
			}
		}
	}
}

// What does not show is cut from the lining, and nothing else.
func TestHiddenPiecesOfLining(t *testing.T) {
	m := order{Body: measured(t, hip42), Rules: rules.Values{"hidden_lining": "on"}}.draft(t)
	plain := order{Body: measured(t, hip42)}.draft(t)
	sameCloth(t, "hidden pieces", plain, m)
	var moved []string
	for i, p := range m.Pieces {
		if p.Cloth != plain.Pieces[i].Cloth {
			moved = append(moved, p.ID)
			if p.Cloth != piece.Lining {
				t.Errorf("%s is cut of %s", p.ID, p.Cloth)
			}
		}
	}
	if want := []string{"fly-facing", "fly-shield", "pocket-mouth-facing"}; !slices.Equal(moved, want) {
		t.Errorf("%v of lining, want %v", moved, want)
	}
}
