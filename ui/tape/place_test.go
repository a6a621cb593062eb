package tape

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// bodies are the bodies that the drawings are checked on: of nobody in
// particular, of both figures, of the ticket Alto 3, and at both ends of what is
// believed of every measurement.
func bodies(t *testing.T) map[string]form {
	t.Helper()
	all := map[string]form{}
	for _, figure := range []body.Figure{body.Unknown, body.Women, body.Men} {
		all["typical "+string(figure)] = formOf(figure, nil)
		bands := body.Bands(figure, nil)
		for _, d := range body.Defs() {
			b, ok := bands[d.ID]
			if !ok {
				continue
			}
			for end, l := range map[string]unit.Length{"least ": b.InsistLow, "most ": b.InsistHigh} {
				all[end+string(d.ID)+" of "+string(figure)] = formOf(figure, body.Takings{d.ID: taking(t, unit.Format{Den: 32}.Plain(l))})
			}
		}
	}
	all["Alto 3"] = formOf(body.Women, alto(t))
	return all
}

func taking(t *testing.T, text string) body.Taking {
	t.Helper()
	q, err := unit.Parse(text, unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return body.Taking{Value: q}
}

func alto(t *testing.T) body.Takings {
	t.Helper()
	takings := body.Takings{}
	for id, text := range map[body.ID]string{
		body.WaistGirth: "34", body.HipGirth: "42", body.ThighGirth: "25", body.KneeGirth: "15 1/2",
		body.OutsideLegLength: "40", body.InsideLegLength: "29", body.WaistToHips: "8",
	} {
		takings[id] = taking(t, text)
	}
	return takings
}

const near = 0.5 // mm, of a drawing that is shown some 150 px high

// The levels lie on a body as they do in the definitions, from the head down.
func TestLevelsFollowTheBody(t *testing.T) {
	for name, f := range bodies(t) {
		levels := []struct {
			name string
			at   float64
		}{
			{"head", f.stature},
			{"chin", f.chin},
			{"neck", f.neck},
			{"nape", f.nape},
			{"shoulder", f.shoulder},
			{"armpit", f.armpit},
			{"chest", f.chest},
			{"under-bust", f.underBust},
			{"waist", f.waist},
			{"top hip", f.topHip},
			{"hip", f.hip},
			{"fork", f.fork},
			{"thigh", f.thigh},
			{"knee", f.knee},
			{"calf", f.calf},
			{"ankle", f.ankle},
			{"floor", 0},
		}
		for i, l := range levels[1:] {
			if !(levels[i].at > l.at) {
				t.Errorf("%s: the %s, %.0f mm up, is not below the %s, %.0f", name, l.name, l.at, levels[i].name, levels[i].at)
			}
		}
		if f.shoulder <= f.elbow || f.elbow <= f.wrist || f.wrist < f.knee {
			t.Errorf("%s: the arm is at %.0f, %.0f, %.0f", name, f.shoulder, f.elbow, f.wrist)
		}
	}
}

// What was taken of the body is drawn at its measure.
func TestLevelsAreThoseTaken(t *testing.T) {
	f := formOf(body.Women, alto(t))
	for what, got := range map[string][2]float64{
		"waist above the floor": {f.waist, 40 * 25.4}, "fork above the floor": {f.fork, 29 * 25.4}, "hip below the waist": {f.waist - f.hip, 8 * 25.4},
	} {
		if math.Abs(got[0]-got[1]) > near {
			t.Errorf("%s: %.1f mm, want %.1f", what, got[0], got[1])
		}
	}
	rise := alto(t)
	delete(rise, body.InsideLegLength)
	rise[body.BodyRise] = taking(t, "11 1/2")
	if f := formOf(body.Women, rise); math.Abs(f.waist-f.fork-11.5*25.4) > near {
		t.Errorf("body rise: %.1f mm, want that of the tape", f.waist-f.fork)
	}
	if wide := formOf(body.Women, body.Takings{body.HipGirth: taking(t, "50")}); wide.wide[body.HipGirth] <= f.wide[body.HipGirth] {
		t.Error("a wider hip is not drawn wider")
	}
	garment := body.Takings{body.OutsideLegLength: {Value: taking(t, "36").Value, Of: body.OfGarment}}
	if formOf(body.Women, garment).waist != formOf(body.Women, nil).waist {
		t.Error("a garment's length is drawn as the body's")
	}
}

// rings are the girths, with the level at which the definition says that they
// are taken.
func rings(f form) map[body.ID]float64 {
	return map[body.ID]float64{
		body.WaistGirth: f.waist, body.TopHipGirth: f.topHip, body.HipGirth: f.hip, body.ThighGirth: f.thigh,
		body.KneeGirth: f.knee, body.CalfGirth: f.calf, body.AnkleGirth: f.ankle,
		body.NeckGirth: f.neck, body.ChestGirth: f.chest, body.UnderBustGirth: f.underBust,
		body.UpperArmGirth: f.at(body.UpperArmGirth), body.WristGirth: f.wrist,
	}
}

// A girth's tape is level, at its level, and goes round the part of the body
// that is drawn there, from one edge to the other.
func TestRingsGoRoundTheBody(t *testing.T) {
	for name, f := range bodies(t) {
		for id, level := range rings(f) {
			p, ok := f.placeOf(id)
			if !ok || p.length {
				t.Fatalf("%s: no ring for the %s", name, id)
			}
			a, b := p.near.Start(), p.near.End()
			if math.Abs(a.Y+level) > near || math.Abs(b.Y+level) > near {
				t.Errorf("%s: the %s is taken at %.0f and %.0f, want level at %.0f", name, id, -a.Y, -b.Y, level)
			}
			if p.hidden.Start() != a || p.hidden.End() != b {
				t.Errorf("%s: the tape of the %s does not close behind", name, id)
			}
			for _, end := range []geom.Pt{a, b} {
				if off := offTheSkin(f.seen(p), end); off > 2 {
					t.Errorf("%s: the tape of the %s ends %.0f mm from the edge of the body", name, id, off)
				}
			}
			if middle := a.Lerp(b, 0.5); !onTheSkin(f.seen(p), middle) {
				t.Errorf("%s: the tape of the %s goes round nothing", name, id)
			}
		}
		// Over the heel and the instep: from the one to the other, slanting.
		p, _ := f.placeOf(body.HeelGirth)
		if low, high := p.near.Start(), p.near.End(); !(-low.Y < 0.15*f.ankle && -high.Y > 0.4*f.ankle && -high.Y < f.ankle && low.X < high.X) {
			t.Errorf("%s: the heel girth goes from %v to %v", name, low, high)
		}
		if f.at(body.UpperArmGirth) >= f.armpit || f.at(body.UpperArmGirth) <= f.elbow {
			t.Errorf("%s: the upper arm is taken at %.0f", name, f.at(body.UpperArmGirth))
		}
		// The natural waist is where the trunk is narrowest, the hip where the
		// seat is fullest.
		if f.wide[body.WaistGirth] >= f.wide[body.UnderBustGirth] {
			t.Errorf("%s: the trunk is narrower above the waist", name)
		}
	}
}

func offTheSkin(o outline, q geom.Pt) float64 {
	off := math.Inf(1)
	for _, s := range o.skin {
		_, d := s.Nearest(q)
		off = min(off, d)
	}
	return off
}

func onTheSkin(o outline, q geom.Pt) bool {
	for _, s := range o.skin {
		if geom.Contains(s.Flatten(0.5), q) {
			return true
		}
	}
	return false
}

// A length's tape goes from the one end of the definition to the other.
func TestLengthsGoFromEndToEnd(t *testing.T) {
	for name, f := range bodies(t) {
		drop := f.seatDrop()
		for id, ends := range map[body.ID][2]float64{
			body.WaistToHips: {f.waist, f.hip}, body.BodyRise: {f.waist - drop, f.fork - drop},
			body.TotalCrotchLength: {f.waist, f.waist}, body.FrontCrotchLength: {f.waist, f.fork}, body.BackCrotchLength: {f.fork, f.waist},
			body.InsideLegLength: {f.fork, 0}, body.OutsideLegLength: {f.waist, 0}, body.KneeHeight: {f.knee, 0}, body.Stature: {f.stature, 0},
			body.ShoulderLength: {-f.neckSide().Y, f.shoulder}, body.BackWaistLength: {f.nape, f.waist}, body.ArmLength: {f.shoulder, f.wrist},
		} {
			p, ok := f.placeOf(id)
			if !ok || !p.length {
				t.Fatalf("%s: no length for the %s", name, id)
			}
			if a, b := -p.near.Start().Y, -p.near.End().Y; math.Abs(a-ends[0]) > near || math.Abs(b-ends[1]) > near {
				t.Errorf("%s: the %s goes from %.0f to %.0f, want %.0f to %.0f", name, id, a, b, ends[0], ends[1])
			}
			switch id {
			case body.WaistToHips, body.BodyRise, body.InsideLegLength, body.OutsideLegLength, body.KneeHeight, body.Stature, body.BackWaistLength:
				if p.near.Start().X != p.near.End().X {
					t.Errorf("%s: the %s does not hang straight", name, id)
				}
			case body.TotalCrotchLength:
				if low := p.near.Bounds(0.5).Max.Y; math.Abs(-low-f.fork) > 2 || p.near.Start().X <= p.near.End().X {
					t.Errorf("%s: the total crotch length goes down to %.0f, want the fork at %.0f, front first", name, -low, f.fork)
				}
			default: // along the body
			}
		}
		before, behind := f.throughTheFork()
		if before.End() != behind.Start() {
			t.Errorf("%s: the two parts of the crotch length do not meet", name)
		}
	}
}

// Every measurement that there is has a drawing with its tape in sight.
func TestEveryMeasurementIsDrawn(t *testing.T) {
	for name, f := range bodies(t) {
		for _, d := range body.Defs() {
			p, ok := f.placeOf(d.ID)
			if !ok {
				t.Fatalf("%s is not drawn", d.ID)
			}
			box := p.near.Bounds(0.5)
			if -box.Min.Y > p.high+near || -box.Max.Y < p.low-near {
				t.Errorf("%s: the tape of the %s is out of sight", name, d.ID)
			}
			// A tenth of what is shown is 15 px at 150 px high.
			if tall := p.high - p.low; max(box.W(), box.H()) < tall/10 {
				t.Errorf("%s: the tape of the %s is %.0f by %.0f mm in a drawing %.0f mm high", name, d.ID, box.W(), box.H(), tall)
			}
		}
	}
	for _, d := range body.Defs() {
		svg := Drawing(d.ID, body.Women, nil)
		if !strings.Contains(svg, `"fig-tape"`) || strings.Contains(svg, "style=") {
			t.Errorf("%s: %.80s", d.ID, svg)
		}
		for x := xml.NewDecoder(strings.NewReader(svg)); ; {
			if _, err := x.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
	}
	if Drawing("left ear", body.Women, nil) != "" {
		t.Error("a measurement that there is not is drawn")
	}
}
