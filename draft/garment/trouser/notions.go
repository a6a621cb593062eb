package trouser

import (
	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// elasticIn is how much shorter than the body an elastic is cut (common
// practice).
const elasticIn = 2 * unit.Inch

// notions are what the draft knows of: a zip as long as the opening, and what
// closes the band over it (common practice).
func (s *shape) notions() []piece.Notion {
	var out []piece.Notion
	if s.slanted() {
		out = append(out, piece.Notion{ID: "tape", Name: say.Word("narrow tape for the pocket mouths"), Least: 2 * (unit.Length(s.rec.Path("front.pocket_mouth").Len()) + unit.Inch)})
	}
	if s.has("closure", "elastic") {
		waist, _, _ := s.measure(body.WaistGirth)
		return append(out, piece.Notion{ID: "elastic", Name: say.Word("elastic for the band, or a drawstring twice as long"), Least: waist - elasticIn})
	}
	name := "zip.length"
	if s.fly() {
		name = "fly.length"
	}
	zip := s.mm(name)
	return append(out, []piece.Notion{
		{ID: "zip", Name: say.Word("zip, closed at its lower end"), Count: 1, Least: zip},
		{ID: "fastening", Name: say.Word("button, or hook and bar, for the band"), Count: 1},
	}...)
}
