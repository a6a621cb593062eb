package sheet

import (
	"math"

	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/unit"
)

// A screen shows a whole draft small: its text is this share of the width of
// the tall pieces beside each other, which leaves about 12 px on a narrow
// phone.
const screenText = 1.0 / 30

// tallShare is how tall a piece is, beside the tallest, to stand in the first
// row.
const tallShare = 0.6

// Draft draws the pieces upright for a screen: the tall ones beside each other
// in the order given, the others in rows beneath, none overlapping. A label
// that does not fit inside its piece stands under it. A zero opt.Text gives
// text that can be read when the whole draft is shown.
func Draft(pieces []piece.Piece, opt Options) Drawing {
	opt.Brief = true
	tallest := 0.0
	for _, p := range pieces {
		tallest = math.Max(tallest, p.Bounds().H())
	}
	var first, rest []piece.Piece
	width := 0.0
	for _, p := range pieces {
		if p.Bounds().H() >= tallShare*tallest {
			first = append(first, p)
			width += p.Bounds().W()
		} else {
			rest = append(rest, p)
			width = math.Max(width, p.Bounds().W())
		}
	}
	if opt.Text <= 0 {
		opt.Text = max(MinText, unit.Length(width*screenText))
	}
	v := &view{opt: opt, gap: 1.2 * opt.text(), width: math.Inf(1), deep: tallest + 1}
	for _, p := range first {
		v.add(p)
	}
	v.newRow()
	v.deep = 0
	v.width = math.Max(v.d.Bounds.W(), width)
	for _, p := range rest {
		v.add(p)
	}
	v.newRow()
	v.d.Bounds = grow(v.d.Bounds, v.gap/2)
	return v.d
}

// view is a draft being set in rows.
type view struct {
	d     Drawing
	opt   Options
	gap   float64
	width float64 // of a row
	at    geom.Pt // where the next piece goes
	row   float64 // height of the row so far
	deep  float64 // height of a row whose pieces stand level at the foot; else 0
}

func (v *view) newRow() {
	if v.at.X > 0 {
		v.at = geom.Pt{Y: v.at.Y + v.row + v.gap}
		v.row = 0
	}
}

func (v *view) add(p piece.Piece) {
	one, fits := drawPiece(p, v.opt)
	box := one.Bounds
	size := v.opt.text()
	lines := labelLines(p, v.opt)
	w, foot := box.W(), 0.0
	if !fits {
		for i, s := range lines {
			lines[i] = s
			w = math.Max(w, TextWidth(s, v.opt.Text).MM())
		}
		foot = size * leading * float64(len(lines))
	}
	if v.at.X > 0 && v.at.X+w > v.width {
		v.newRow()
	}
	// The piece stands in the middle of its column.
	left := v.at.X + (w-box.W())/2
	drop := math.Max(0, v.deep-box.H())
	v.d.place(one, geom.Translate(geom.Pt{X: left, Y: v.at.Y + drop}.Sub(box.Min)))
	if !fits {
		for i, s := range lines {
			v.d.Text(Text{
				Role: Label, At: geom.Pt{X: v.at.X + w/2, Y: v.at.Y + drop + box.H() + size*(leading*float64(i)+1)},
				Size: v.opt.Text, Anchor: Middle, S: s,
			})
		}
	}
	v.row = math.Max(v.row, drop+box.H()+foot)
	v.d.Bounds = v.d.Bounds.Union(geom.Rect{Min: v.at, Max: v.at.Add(geom.Vec{X: w, Y: drop + box.H() + foot})})
	v.at.X += w + v.gap
}
