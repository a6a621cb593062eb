// Package lay lays pieces on cloth and says how much cloth they take.
//
// Take the Items of the pieces for a Cloth, then Pack them; a Result says
// where each lies, the length used, whether it fits the cloth at hand and by
// how much it is short, and what is left over. NewSearch and Run do the same
// with stops in between; Resume goes on from a lay that was found before, by
// another search, in another program or by hand. Verify checks any lay, however it was made, in whole
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
// Stripes and checks: where an item has a Match, it lies as the others of the
// same name lie on the stripes, within half a millimetre.
//
//   - Cross stripes, the repeat along: the points that match lie whole repeats
//     apart along the cloth, so that the stripes meet across the seam between
//     front and back, and the two of a pair are alike at the centre front and
//     the centre back. A piece turned end for end matches only on stripes that
//     are the same from both sides; then the cut edge, or the crosswise fold, is
//     taken to lie along the middle of a stripe or midway between two, and the
//     piece lies as its image in that line would. Uneven stripes, not the same
//     from both sides, are one-way cloth.
//   - Lengthwise stripes, the repeat across: pieces cut from one panel lie on
//     the stripes as they lie on the panel; of a pair, one is the image of the
//     other in the middle of the cloth, which is taken to lie along the middle of
//     a stripe or midway between two. Folded lengthwise there, pairs cut double
//     match of themselves. Stripes are not matched across a seam that runs down
//     them, as the side seam and the inseam do. The corners of a remnant are
//     measured from the middle of a stripe, both ways.
//   - The first of the items that match, or one that is locked, settles where
//     the stripes fall; each further one goes to the best place that keeps to
//     them. Nothing that matches is tilted or lies across the grain.
//
// Cloth that is not washed before it is cut shrinks in the garment: its pieces
// are laid so much larger, along the grain and across it.
//
// How it is laid. First each piece goes to the free spot nearest the cut edge,
// one after the other, in a number of orders by size. The free spots are exact:
// the places where a piece would run into one already laid are the union of the
// sums of their convex parts, and a lowest free place is always an end of a
// stretch of the edge of that union.
//
// Then the best of those lays is squeezed: some of its length is taken away, so
// that pieces run into each other, and they are moved one at a time to where
// they run into the others least, until nothing does or it is given up. How
// deep two pieces are in each other is the way to the edge of that union, kept in
// a grid for every two ways round that meet, and what stays in the way weighs
// more with each pass. That is overlap minimisation by guided
// local search on a shrinking strip, the family of methods behind the densest
// lays published: Egeblad, Nielsen and Odgaard 2007; Umetani and others 2009;
// Elkeran 2013; Gardeyn, Vanden Berghe and Wauters 2025. What else was tried,
// and what each part brought, is in TRIED.md beside this file.
//
// On striped cloth the stripes stay where the first lay has them, and a piece
// that must match is moved by whole repeats alone. On a remnant the cloth missing
// round it is one more thing not to run into; what is left out of it, or of a
// short length, is pressed in between the others in the same way, and the orders
// of laying are changed a little at a time in between.
//
// At last each piece is slid towards the cut edge and the left as far as it goes,
// so that none floats in a gap. Where the cloth that must be bought leaves some
// millimetres over, they are spent on round figures: the pieces are brought onto
// a grid on which every grain line begins where the tape has a mark (Even), by
// the same means as above.
//
// Searches side by side, in goroutines, go on from each other's best (Share);
// searches in different programs hand each other their lays (Encode, Decode,
// Resume).
//
// Cut lines of many points are replaced by a ring of fewer that holds them and
// stands at most a millimetre outside. Same cloth, items, seed and work:
// same lay; no clock is read.
package lay
