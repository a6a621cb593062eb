// Package piece turns sew lines into pieces of cloth: cut lines with their
// allowances and corners, notches, grain, how many to cut and of which cloth.
// Outline draws the two rings of a piece; start there.
//
// A cut line is the sew line moved outwards by the allowance of each edge. Its
// corners are where making lives: a mitre where two allowances simply meet, a
// corner squared to the seam that is sewn first, and beside a turned-up edge
// the mirrored shape that lies flat when it is turned.
//
// It also holds what a draft claims of itself (Claims): which edges are sewn
// together, what goes round the body, what must be square. The claims name
// edges and marks; package proof measures them on the finished outlines.
package piece
