package draft

import (
	"chalkfold/draft/garment"
	"chalkfold/draft/garment/bodice"
	"chalkfold/draft/garment/skirt"
	"chalkfold/draft/garment/trouser"
)

// Garments are the garments that can be made.
func Garments() []garment.Garment {
	return []garment.Garment{trouser.Garment(), skirt.Garment(), bodice.Garment()}
}
