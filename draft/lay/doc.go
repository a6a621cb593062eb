// Package lay lays pieces on cloth and says how much cloth they take.
//
// Take the Items of the pieces for a Cloth, then Pack them; a Result says
// where each lies, the length used, whether it fits the cloth at hand and by
// how much it is short, and what is left over. NewSearch and Run do the same
// with stops in between. Verify checks any lay, however it was made, in whole
// numbers; it shares none of the sums of the search.
//
// Table coordinates are in millimetres: x across, from the left selvedge on
// open cloth and from the fold on cloth folded lengthwise; y along the cloth,
// from the cut edge, or from the fold under a crosswise fold. The straight
// grain of a piece is laid along y, either way round unless the cloth is
// one-way; a piece that may lie on any grain may take a quarter turn too.
//
// What is cut how:
//
//   - Open cloth: every copy by itself; of a pair, half are turned over. A
//     piece with a fold edge is laid whole.
//   - Folded cloth: a pair is one item, cut once through both layers, and so
//     are two copies of a piece that is the same turned over. Under a
//     lengthwise fold a piece with a fold edge lies against the fold; under a
//     crosswise fold it is laid whole.
//   - A single on folded cloth goes into a gap of the folded part when one is
//     free there (cut from the upper layer, or through both with one to
//     spare), because that costs no length. Else it goes on the opened rest:
//     past the last folded piece the cloth is opened out and laid across its
//     full width. When it makes the whole shorter, the folded part is let grow
//     for it instead; a long waistband is cheaper so.
//   - The length used is that of the folded part (twice, under a crosswise
//     fold) and of the opened rest together.
//   - One-way cloth is not folded crosswise: the nap of the layers would run
//     against each other.
//   - Flaws count through both layers of a lengthwise fold. Under a crosswise
//     fold they are refused, since where the fold falls is only known once
//     everything is laid.
//   - On a remnant with an outline, items that find no place are left Out.
//
// How it is laid: each piece goes to the free spot nearest the cut edge, one
// after the other, in a number of orders by size, then in small changes to the
// best plan so far. The free spots are exact: the places where a piece would run
// into one already laid are the union of the sums of their convex parts, and
// a lowest free place is always an end of a stretch of the edge of that union.
// Cut lines of many points are replaced by a ring of fewer that holds them and
// stands at most a millimetre outside. Same cloth, items, seed and work:
// same lay; no clock is read.
package lay
