package draft

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/trouser"
)

// Garments are the garments that the page can make: it has no room for more.
func Garments() []garment.Garment { return []garment.Garment{trouser.Garment()} }
