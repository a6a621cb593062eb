// Package chalk guides the hand: it reads a construction and its pieces as
// marks in the order in which they are chalked, each measured from an edge or
// mark that lies on the table, in the tape's own units, with the sum behind it.
// Curves are given by what a tape can reach: how far along the straight line
// between two marks, how far off it, and the diagonal at the corner.
//
// Of is the one entry. The first panel is chalked on the cloth, the next from
// the cut one before it, then the pieces cut from what is left.
package chalk
