// Package sheet lays a draft out for the eye and for paper: a Drawing is a
// display list in millimetres, y downwards, and a Canvas is whatever it is
// played onto. The writers are siblings (sheet/svg, sheet/pdf); a *Drawing is
// itself a Canvas, so a layout is tested by reading back what it recorded,
// with no file format in the way.
//
// Start here:
//
//	Piece(p, opt)              one piece, true to scale
//	Draft(pieces, opt)         all pieces beside each other, for a screen
//	Lay(cloth, laid, opt)      pieces on the cloth
//	OnPaper(pieces, grid)      pieces placed to touch few sheets of paper
//	Tiles(d, paper, opt)       a drawing cut into numbered sheets to be joined
//	Since(editions, pieces, …) the sheets that differ from those printed before
//
// Everything is drawn by role (cut line, sew line, grain ...), never by a raw
// colour; StyleOf says what a role looks like in print. The same input gives
// the same items in the same order.
package sheet
