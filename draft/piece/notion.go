package piece

import "chalkfold/draft/unit"

// Notion is what a garment needs besides its cloths. Its name is English.
type Notion struct {
	ID    string // "zip"
	Name  string
	Count int         // 0 when it is bought by length
	Least unit.Length // how long it must be; 0 when it has no length
}
