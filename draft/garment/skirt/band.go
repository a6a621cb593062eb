package skirt

import "chalkfold/draft/say"

// bandSums are the sums of the band, on the waists as they are drawn.
func (d *drafter) bandSums() {
	rec, _ := d.Record()
	d.Part(say.Word("waistband"))
	for _, part := range parts() {
		w := rec.Path(part + ".waist")
		l := w.Len()
		for i := range d.darts[part] {
			a, _ := w.Nearest(d.Point(dartStep(part, i+1, "in")))
			b, _ := w.Nearest(d.Point(dartStep(part, i+1, "out")))
			l -= b - a
		}
		d.Solved(part+".waist_closed", d.F("half %s waist, darts closed", d.T(part)), l, d.T("measured along the waist seam"))
	}
	d.Value("band.waist", d.T("made-up waist"), "2 * (front.waist_closed + back.waist_closed)", d.T("front and back, darts sewn; measure the sewn garment before you cut the band"))
	d.Value("band.length", d.T("band, end to end"), "band.waist + skirt_band_lap", d.T("the made-up waist and the lap"))
	d.Value("band.cut_length", d.T("band as cut, length"), "band.length + 2 * seam_allowance", d.T("and an allowance at each end"))
	d.Value("band.cut_width", d.T("band as cut, width"), "2 * skirt_band_width + 2 * waist_allowance", d.T("folded double, with an allowance on each long edge"))
}
