package kit

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"chalkfold/draft/geom"
)

func TestPen(t *testing.T) {
	var p Pen
	p.Reach(geom.Rect{Min: geom.Pt{X: -12.34, Y: -0.04}, Max: geom.Pt{X: 100, Y: 50.25}})
	p.Reach(geom.Rect{Max: geom.Pt{X: 120, Y: 10}})
	p.Ring("cut", []geom.Pt{{X: -0.04}, {X: 10.06}, {X: 10, Y: 20.949}}, geom.Translate(geom.Vec{X: 1}))
	p.Path("sew", geom.Path{geom.Line(geom.Pt{}, geom.Pt{X: 3}), {A: geom.Pt{X: 3}, B: geom.Pt{X: 4, Y: 2}, C: geom.Pt{X: 5, Y: 2}, D: geom.Pt{X: 6}}}, geom.Identity())
	p.Path("none", nil, geom.Identity())
	p.Ring("none", nil, geom.Identity())
	p.Dot("spot", geom.Pt{X: -1.25, Y: 2}, 0.5)
	p.Text("label", `<&> "Front"`+"\x01", geom.Pt{X: 1, Y: 2}, 40)
	p.Upright("label", "Band", geom.Pt{X: 1, Y: 2}, 30)
	want := `<svg xmlns="http://www.w3.org/2000/svg" preserveAspectRatio="xMidYMid meet" viewBox="-12.3 0 132.3 50.3">` +
		`<path class="cut" d="M1 0L11.1 0L11 20.9Z"/>` +
		`<path class="sew" d="M0 0L3 0C4 2 5 2 6 0"/>` +
		`<circle class="spot" cx="-1.3" cy="2" r="0.5"/>` +
		`<text text-anchor="middle" class="label" x="1" y="2" font-size="40">&lt;&amp;&gt; "Front" </text>` +
		`<g transform="rotate(-90 1 2)"><text text-anchor="middle" class="label" x="1" y="12" font-size="30">Band</text></g></svg>`
	if got := p.String(); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for d := xml.NewDecoder(strings.NewReader(p.String())); ; {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
}
