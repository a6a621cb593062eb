package sheet

import (
	"math"

	"chalkfold/draft/geom"
)

// upright returns d with every text turned about its middle that would stand on
// its head once d is placed by at. The texts of a group "label" are turned as one.
func upright(d Drawing, at geom.Affine) Drawing {
	var out Drawing
	out.Bounds, out.Outlines = d.Bounds, d.Outlines
	out.Items = append(out.Items, d.Items...)
	for i := 0; i < len(out.Items); i++ {
		n := 1
		switch v := out.Items[i].(type) {
		case Group:
			if v.ID != "label" {
				continue
			}
			i++
			for n = 0; i+n < len(out.Items); n++ {
				if _, text := out.Items[i+n].(Text); !text {
					break
				}
			}
		case Text:
		default:
			continue
		}
		turnTexts(out.Items[i:i+n], at)
		i += n - 1
	}
	return out
}

// turnTexts turns texts that read the same way about the middle of them all, if
// they would stand on their heads.
func turnTexts(items []Item, at geom.Affine) {
	if len(items) == 0 {
		return
	}
	dir := items[0].(Text).Reads()
	if read := at.Vec(dir).Unit(); read.X > 1e-9 || math.Abs(read.X) <= 1e-9 && read.Y < 0 {
		return
	}
	up := dir.Left()
	least, most := math.Inf(1), math.Inf(-1) // up the block
	from, to := math.Inf(1), math.Inf(-1)    // along its lines
	for _, it := range items {
		t := it.(Text)
		foot := t.At.Sub(geom.Pt{})
		w, size := TextWidth(t.S, t.Size).MM(), t.Size.MM()
		least, most = min(least, foot.Dot(up)-size*descent), max(most, foot.Dot(up)+size*ascent)
		from, to = min(from, foot.Dot(dir)-w*t.Anchor.share()), max(to, foot.Dot(dir)+w*(1-t.Anchor.share()))
	}
	mid := geom.Pt{}.Add(dir.Scale((from + to) / 2)).Add(up.Scale((least + most) / 2))
	turn := geom.RotateAbout(mid, math.Pi)
	for i, it := range items {
		t := it.(Text)
		t.At, t.Dir = turn.Pt(t.At), dir.Neg()
		items[i] = t
	}
}
