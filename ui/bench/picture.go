package bench

import (
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/bench"
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/ui/drafting"
	"chalkfold/ui/kit"
)

// How a step is drawn, mm.
const (
	apart  = 40.0  // between pieces
	around = 70.0  // what is sewn
	low    = 240.0 // the least that is shown
)

// heap is pieces that lie on one another, since they lie on one panel.
type heap struct {
	pieces []piece.Piece
	box    geom.Rect // of the pieces
	lit    geom.Rect // of what is sewn
	any    bool      // something of them is
}

// Picture draws what a task takes in hand, and on it what it sews, and names the
// pieces by the numbers in the drawing.
func Picture(all []piece.Piece, t bench.Task, w *say.Words) (svg, names string) {
	heaps := heaped(all, t)
	var p kit.Pen
	labels := kit.Labels{Pen: &p}
	x, deep, from := 0.0, 0.0, math.Inf(1)
	var legend []string
	for i, h := range heaps {
		at := geom.Translate(geom.Pt{X: x}.Sub(geom.Pt{X: h.box.Min.X, Y: h.lit.Min.Y}))
		var on []string
		for _, q := range h.pieces {
			drafting.Outline(&p, q, at, false)
			on = append(on, w.T(q.Name))
		}
		for _, line := range lit(h.pieces, t) {
			p.Path("now", line, at)
		}
		legend = append(legend, strconv.Itoa(i+1)+" "+strings.Join(on, " + "))
		from = min(from, at.Pt(h.box.Min).Y)
		deep = max(deep, h.lit.H())
		box := geom.Rect{Min: at.Pt(h.box.Min), Max: at.Pt(h.box.Max)}
		box.Min.Y, box.Max.Y = max(box.Min.Y, -around), min(box.Max.Y, h.lit.H()+around)
		labels.Inside("label", strconv.Itoa(i+1), strconv.Itoa(i+1), box)
		x += h.box.W() + apart
	}
	view := geom.Rect{Min: geom.Pt{X: -apart, Y: max(from-apart, -around)}, Max: geom.Pt{X: x, Y: deep + around}}
	if len(heaps) == 1 && heaps[0].any {
		h := heaps[0]
		view.Min.X, view.Max.X = max(view.Min.X, h.lit.Min.X-h.box.Min.X-around), min(x, h.lit.Max.X-h.box.Min.X+around)
	}
	view.Max.Y = max(view.Max.Y, view.Min.Y+low)
	p.Reach(view)
	return p.String(), strings.Join(legend, " · ") // a name may hold a comma
}

// heaped are the pieces of a task, those on one panel on one heap. Where nothing
// is sewn each lies by itself.
func heaped(all []piece.Piece, t bench.Task) []heap {
	var out []heap
	at := map[string]int{}
	for _, p := range all {
		if !t.Has(p.ID) {
			continue
		}
		i, there := at[p.On]
		if !there || p.On == "" || len(t.Sews) == 0 && len(t.Lines) == 0 {
			i = len(out)
			at[p.On] = i
			out = append(out, heap{box: p.Bounds()})
		}
		out[i].pieces, out[i].box = append(out[i].pieces, p), out[i].box.Union(p.Bounds())
	}
	for i, h := range out {
		for _, line := range lit(h.pieces, t) {
			box := line.Bounds(1)
			if out[i].any {
				box = box.Union(out[i].lit)
			}
			out[i].lit, out[i].any = box, true
		}
		if !out[i].any {
			out[i].lit = h.box
		}
	}
	return out
}

// lit are the lines of a task on these pieces.
func lit(pieces []piece.Piece, t bench.Task) []geom.Path {
	var out []geom.Path
	for _, p := range pieces {
		for _, runs := range [][]bench.Run{t.Sews, t.Along} {
			for _, r := range runs {
				for _, e := range p.Edges {
					if line := r.Stretch(p, e); len(line) > 0 {
						out = append(out, line)
					}
				}
			}
		}
		for _, l := range t.Lines {
			if l.Piece == p.ID {
				out = append(out, l.Path)
			}
		}
	}
	return out
}
