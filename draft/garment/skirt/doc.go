// Package skirt drafts a straight, A-line or pencil skirt by the quarter method:
// the front on the fold of the cloth, and the back on the front (common
// practice). Draft is the one entry; read it first: levels, widths, front marks,
// back marks, lines, panels, pieces, claims.
//
// As it is spoken the method takes no heed of how far hip and waist differ, and
// meets at corners that are not square. Each truing mends one of these under a
// name of its own and can be switched off:
//
//   - ease: the rule of thumb is for the body; room is added, a quarter of it
//     to each panel;
//   - dart: what hip and waist differ by is shared between the side and the
//     darts, and a dart too narrow to sew is left out;
//   - waist: the waist is drawn with the darts closed, square at the centre and
//     at the side;
//   - side: the back side is made as long as the front;
//   - hem: where the side runs out or in the hem is drawn square to it, straight
//     to half its width.
//
// The marks lie in one frame: x = 0 is the centre, x grows to the side, y = 0 is
// the waist seam, which lies at the waist (the band stands above it), y grows to
// the hem.
package skirt
