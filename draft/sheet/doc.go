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
// What no placing of pieces on sheets can beat is the larger of two figures. By
// area: pieces do not lie over one another, so that their whole area is at most
// that printed of the sheets they touch. By reach: a piece whose box is w by h, as
// it lies, runs over at least w / (width of a sheet) columns and h / (height of
// one) rows, both rounded up. Since it is of one part, so are the sheets it
// touches, each beside the next over an edge; to come from one sheet to r rows and
// c columns takes r - 1 steps down or up and c - 1 to a side, each onto one sheet
// more. So they are r + c - 1 at least, and the least of that over all turns
// holds for any. Turns half a degree apart are looked at, with both sides of the
// box made less by as much as they can differ half way to the next: a side is
// how far the piece reaches along a direction, which a turn by an angle a changes
// by at most a times the piece's longest reach.
//
// Everything is drawn by role (cut line, sew line, grain ...), never by a raw
// colour; StyleOf says what a role looks like in print. The same input gives
// the same items in the same order.
package sheet
