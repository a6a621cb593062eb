package body

import (
	"fmt"

	"chalkfold/draft/unit"
)

// again ends every doubt: nobody's body is wrong.
const again = "; measure again, or keep it"

func said(id ID, t Taking) string {
	of := ""
	if t.Of == OfGarment {
		of = " of the garment"
	}
	return fmt.Sprintf("%s%s %s", id.name(), of, t.Value)
}

func bandText(d Def, t Takings, got Taking, e expected) string {
	f := shown(got.Value)
	beside := ""
	for _, id := range e.restsOn() {
		if p, ok := t.taken(id); ok {
			beside = join(beside, said(id, p))
		}
	}
	if beside != "" {
		beside = " beside " + beside
	}
	note := ""
	if raised(d.ID) != 0 || d.ID == WaistGirth {
		note = ", with room for a waist taken above the navel"
	}
	return fmt.Sprintf("%s%s: of the %s in the survey nearly all lie from %s to %s%s%s",
		said(d.ID, got), beside, e.who, f.Text(e.Low), f.Text(e.High), note, again)
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

func join(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

func sumText(w Taking, whole ID, p Taking, a ID, q Taking, b ID, parts unit.Length) string {
	return fmt.Sprintf("%s, but %s and %s come to %s%s",
		said(whole, w), said(a, p), said(b, q), shown(w.Value).Text(parts), again)
}

func impliedText(out, inside Taking, left unit.Length, e expected) string {
	f := shown(out.Value)
	return fmt.Sprintf("%s and %s leave a body rise of %s, which in nearly all %s of the survey is from %s to %s%s",
		said(OutsideLegLength, out), said(InsideLegLength, inside), f.Text(left), e.who, f.Text(e.Low), f.Text(e.High), again)
}

func underText(big Taking, id ID, small Taking, smaller ID) string {
	return fmt.Sprintf("%s is less than %s%s", said(id, big), said(smaller, small), again)
}
