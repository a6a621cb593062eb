package job

import (
	"fmt"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
)

func (d *decoder) alterations(n *node) []Alteration {
	var out []Alteration
	for i, v := range d.objects(n, "alterations", "alterations") {
		at := fmt.Sprintf("alterations[%d]", i)
		if !d.is(v, at, plain.Object) {
			continue
		}
		d.known(v, at, []string{"kind", "by", "side", "for"})
		a := Alteration{Kind: d.text(v, "kind", at+".kind")}
		a.For = For(d.choice(v, "for", at+".for", string(ForJob), string(ForClient)))
		if side := Side(d.choice(v, "side", at+".side", "both", string(LeftSide), string(RightSide))); side != "both" {
			a.Side = side
		}
		if a.Kind == "" {
			d.fail(at+".kind", "", say.Of("missing; name what was altered"))
		}
		by, given := v.at["by"]
		if !given {
			d.fail(at+".by", "", say.Of("missing; write by how much, such as 1/2 in"))
			continue
		}
		var ok bool
		if a.By, ok = d.quantity(by, at+".by"); ok && a.By.Length() <= 0 {
			d.fail(at+".by", a.By.String(), say.Of("nothing is altered by it; write more than nought, or take the alteration out"))
		}
		out = append(out, a)
	}
	return out
}

func (e *encoder) alterations(all []Alteration) {
	if len(all) == 0 {
		return
	}
	e.Key("alterations").Open('[')
	for _, a := range all {
		e.Next().Open('{')
		e.TextIf("kind", a.Kind)
		e.length("by", a.By)
		e.TextIf("side", string(a.Side))
		e.TextIf("for", or(string(a.For), string(ForJob)))
		e.Shut('}')
	}
	e.Shut(']')
}
