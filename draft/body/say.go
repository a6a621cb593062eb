package body

import (
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// said names a taking with its figure. Every doubt ends in the same words,
// measure again or keep it: nobody's body is wrong.
func said(id ID, t Taking) say.Told {
	if t.Of == OfGarment {
		return say.Of("%s of the garment %s", say.Name(id.name()), t.Value)
	}
	return say.Of("%s %s", say.Name(id.name()), t.Value)
}

func bandText(d Def, t Takings, got Taking, e expected) say.Msg {
	f := shown(got.Value)
	low, high, who := f.Told(e.Low), f.Told(e.High), say.Name(e.who)
	var beside say.List
	for _, id := range e.restsOn() {
		if p, ok := t.taken(id); ok {
			beside = append(beside, said(id, p))
		}
	}
	about := said(d.ID, got)
	if len(beside) > 0 {
		about = say.Of("%s beside %s", about, beside)
	}
	if raised(d.ID) != 0 || d.ID == WaistGirth {
		return say.Of("%s: of the %s in the survey nearly all lie from %s to %s, with room for a waist taken above the navel; measure again, or keep it", about, who, low, high)
	}
	return say.Of("%s: of the %s in the survey nearly all lie from %s to %s; measure again, or keep it", about, who, low, high)
}

// restsOn are the measurements a band was worked out from.
func (e expected) restsOn() []ID {
	switch e.From {
	case onStature.String():
		return []ID{Stature}
	case onHip.String():
		return []ID{HipGirth}
	case onAll.String():
		return []ID{WaistGirth, HipGirth, Stature}
	case onRise.String():
		return []ID{BodyRise, HipGirth, WaistGirth}
	}
	return nil
}

func sumText(w Taking, whole ID, p Taking, a ID, q Taking, b ID, parts unit.Length) say.Msg {
	return say.Of("%s, but %s and %s come to %s; measure again, or keep it",
		said(whole, w), said(a, p), said(b, q), shown(w.Value).Told(parts))
}

func impliedText(out, inside Taking, left unit.Length, e expected) say.Msg {
	f := shown(out.Value)
	return say.Of("%s and %s leave a body rise of %s, which in nearly all %s of the survey is from %s to %s; measure again, or keep it",
		said(OutsideLegLength, out), said(InsideLegLength, inside), f.Told(left), say.Name(e.who), f.Told(e.Low), f.Told(e.High))
}

func underText(big Taking, id ID, small Taking, smaller ID) say.Msg {
	return say.Of("%s is less than %s; measure again, or keep it", said(id, big), said(smaller, small))
}

func apartText(l Taking, left ID, r Taking, right ID) say.Msg {
	by := r.ofBody(right) - l.ofBody(left)
	return say.Of("%s and %s differ by %s, as the sides of few do; measure again, or keep it", said(left, l), said(right, r), shown(r.Value).Told(max(by, -by)))
}
