package sheet

import "chalkfold/draft/piece"

// Draft draws the pieces upright beside each other, none overlapping.
func Draft(pieces []piece.Piece, opt Options) Drawing { return Drawing{} }
