package sheet

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Correction is by how much a printer is to be sent more than it shall print,
// across the sheet and along it: 1.004 for one that prints 100 mm as 99.6. A
// nought counts as 1.
type Correction struct{ Across, Along float64 }

// most that a printer may be off: what is further off was fitted to a page (A4
// fitted onto Letter shrinks to 94.1 %).
const mostOff = 0.03

// Measured returns the correction for a printer on which, sent with c, the square
// of 100 mm measures across by along; or, in inches, the one of 4 in.
func (c Correction) Measured(across, along unit.Quantity) (Correction, error) {
	next := c.set()
	for _, side := range []struct {
		unit.Quantity
		sent *float64
	}{{across, &next.Across}, {along, &next.Along}} {
		wanted, square := gaugeMM, say.Of("100 mm")
		if !side.System().Metric() {
			wanted, square = gaugeIn, say.Of("4 in")
		}
		if math.Abs(side.Length().MM()-wanted) > mostOff*wanted {
			return c, say.Errorf("the square of %s measures %s: that is no printer's error; print again at 100 %%, not fitted to the page", square, side.Quantity)
		}
		*side.sent *= wanted / side.Length().MM()
	}
	return next, next.check()
}

// set returns c with nothing left at nought.
func (c Correction) set() Correction {
	if c.Across == 0 {
		c.Across = 1
	}
	if c.Along == 0 {
		c.Along = 1
	}
	return c
}

func (c Correction) check() error {
	c = c.set()
	for _, k := range [2]float64{c.Across, c.Along} {
		if !(math.Abs(k-1) <= 2*mostOff) {
			return say.Errorf("printer correction %.4f by %.4f: use 0.94 to 1.06; if the print is further off, print at 100 %%, not fitted to the page", c.Across, c.Along)
		}
	}
	return nil
}

// send maps what is to be printed to what is sent, about the paper's corner.
func (c Correction) send() geom.Affine {
	c = c.set()
	return geom.Affine{A: c.Across, D: c.Along}
}

// printed returns r as the printer prints what is sent as r.
func (c Correction) printed(r geom.Rect) geom.Rect { return mapRect(r, inverse(c.send())) }
