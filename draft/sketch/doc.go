// Package sketch draws the finished garment flat, front and back, as a tailor
// sketches it: in this body's proportions, with everything that shows. Of draws
// both views; Apart tells where two views differ.
//
// The sketch is drawn from the panels and from what is told of them, by the
// place that each edge has in the garment, so it knows no garment by name. It
// shows the garment lying flat: at each level the width is half of what the
// garment measures round there, with the side seams at its edges, so front and
// back have one outline. Where the sides of the body differ, each is drawn of its
// own panels. Lengths are those of the panels. Two things are not to scale: what
// the fork reaches through from front to back is not seen, so from the fork to
// where the leg has settled its lines run in one sweep; and a leg wider than the
// seat hangs in folds, so it widens evenly down to its hem.
//
// Coordinates are millimetres, y downwards, x from the middle of the body. In
// front the wearer's left is on the right of the drawing, from behind on the
// left.
package sketch
