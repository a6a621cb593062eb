package trouser

import (
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// notions are what the draft knows of: a zip as long as the fly opens, and what
// closes the band over it (common practice).
func (s *shape) notions() []piece.Notion {
	return []piece.Notion{
		{Name: say.Word("zip, closed at its lower end"), Count: 1, Least: s.mm("fly.length")},
		{Name: say.Word("button, or hook and bar, for the band"), Count: 1},
	}
}
