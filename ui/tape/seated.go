package tape

import (
	"chalkfold/draft/body"
	"chalkfold/draft/geom"
)

// seatDrop is how much lower a seated body is: its fork is on the chair, which
// is as high as lets the feet stand on the floor.
func (f form) seatDrop() float64 { return f.fork - 0.92*f.knee }

// seated is the body from its right side, upright on a flat chair.
func (f form) seated() outline {
	drop := geom.Translate(geom.Vec{Y: f.seatDrop()})
	front, back := f.edges(body.NeckGirth, body.ChestGirth, body.UnderBustGirth, body.WaistGirth, body.TopHipGirth)
	front, back = front.Map(drop), back.Map(drop)
	chair := 0.92 * f.knee
	_, seat := f.profile(body.HipGirth)
	thick := min(f.thick[body.ThighGirth]*0.85, 0.9*(f.topHip-f.fork))
	shin := f.thick[body.CalfGirth]
	kneeAt := seat + 0.335*f.stature // from the back of the seat to the front of the knee
	lap := chair + thick*0.8
	hollow := kneeAt - shin*1.05
	a, b := front.End(), back.End()
	legs := geom.Path{
		{A: a, B: pt(a.X+8, lap+30), C: pt(a.X+20, lap+4), D: pt(a.X+70, lap)},
	}
	legs = legs.Join(
		geom.Polyline(legs.End(), pt(kneeAt-50, f.knee+18)),
		geom.Path{{A: pt(kneeAt-50, f.knee+18), B: pt(kneeAt-10, f.knee+16), C: pt(kneeAt, f.knee-10), D: pt(kneeAt-2, f.knee-60)}},
		geom.Polyline(pt(kneeAt-2, f.knee-60), pt(kneeAt-22, f.ankle)),
		geom.Path{{A: pt(kneeAt-22, f.ankle), B: pt(kneeAt, f.ankle*0.5), C: pt(kneeAt+0.08*f.stature, f.ankle*0.5), D: pt(kneeAt+0.085*f.stature, f.ankle*0.12)}},
		geom.Polyline(pt(kneeAt+0.085*f.stature, f.ankle*0.12), pt(kneeAt+0.08*f.stature, 0), pt(kneeAt-0.065*f.stature, 0), pt(kneeAt-0.062*f.stature, f.ankle)),
		geom.Path{{A: pt(kneeAt-0.062*f.stature, f.ankle), B: pt(hollow-18, f.calf), C: pt(hollow-6, chair-40), D: pt(hollow, chair)}},
		geom.Polyline(pt(hollow, chair), pt(seat*0.7, chair)),
		geom.Path{{A: pt(seat*0.7, chair), B: pt(seat*1.1, chair), C: pt(seat*1.1, chair+(f.hip-f.fork)*0.6), D: b}},
	)
	top, left, right := chair-4, seat-30, hollow-24
	return outline{
		skin: []geom.Path{f.head(8, 0.108*f.stature).Map(drop), front.Join(legs, back.Reverse())},
		lines: []geom.Path{
			geom.Polyline(pt(left, top), pt(right, top), pt(right, top-26), pt(left, top-26), pt(left, top)),
			geom.Polyline(pt(left+14, top-26), pt(left+14, 0)), geom.Polyline(pt(right-14, top-26), pt(right-14, 0)),
		},
	}
}
