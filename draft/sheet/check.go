package sheet

import (
	"chalkfold/draft/geom"
)

// Check draws a sheet with the squares alone, to check a printer by; see
// Correction. Of a roll, it is a page cut off it.
func Check(paper Paper, opt TileOptions) (Drawing, error) {
	paper = paper.cutOff()
	g, err := newGrid(paper, opt)
	if err != nil {
		return Drawing{}, err
	}
	var out Drawing
	n := &notice{d: &out, box: grow(g.frame, -gaugeInset)}
	n.write(Label, titleText, g.T("Test sheet for a printer"))
	n.write(Label, titleText, g.T("Print at 100 %, no fit-to-page."))
	n.box.Min.Y += titleText
	n.write(Note, titleText, g.T("Measure the inner square, 100 mm, or the outer one, 4 in, across the sheet and along it. Write both figures down where this sheet came from, at “The printer”; what is printed after that is true to scale."))
	r := rulers()[0]
	side := r.side()
	foot := geom.Pt{X: (g.frame.Min.X + g.frame.Max.X - side) / 2, Y: n.box.Min.Y + 2*gaugeInset + side}
	g.squares(&out, r, foot)
	say := func(at geom.Pt, dir geom.Vec, s string) {
		out.Text(Text{Role: Label, At: at, Size: titleText, Anchor: Middle, Dir: dir, S: s})
	}
	say(foot.Add(geom.Vec{X: side / 2, Y: 2 * titleText}), geom.Vec{X: 1}, g.T("across the sheet"))
	say(foot.Add(geom.Vec{X: -titleText, Y: -side / 2}), geom.Vec{Y: -1}, g.T("along the sheet"))
	sent := Drawing{Bounds: paper.box()}
	sent.place(out, g.printer.send())
	return sent, nil
}
