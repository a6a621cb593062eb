// Package trouser drafts trousers by the quarter method: front first, on the
// centre-front line, and the back on the front, as makers chalk them on folded
// cloth (common practice). Draft is the one entry; read it first: levels,
// widths, front marks, back marks, truings, lines, panels, pieces, claims.
//
// As it is spoken the method loses hip at the tilted seat line, makes the back
// inseam longer than the front, and meets at corners that are not square. Each
// truing mends one of these under a name of its own and can be switched off:
//
//   - level: the hip line is kept between the waist and the fork line;
//   - ease: the rule of thumb is for the body; room is added, a quarter of it
//     to each panel;
//   - dart: a dart takes in no more than hip and waist differ by;
//   - reach: where the thigh is too wide for the fork line, the front fork
//     extension grows;
//   - thigh: front and back share the thigh so that neither bulges;
//   - tilt: where the hip line lies higher than the tilt was meant for, the seat
//     line keeps its slope and leans in less;
//   - hip: the back hip is measured square to the seat line;
//   - leg: the back crease halves the back fork line, so that inseam and side
//     share what the leg narrows below it;
//   - waist: the waist is drawn with the darts closed, square at centre front,
//     centre back and side;
//   - side: the back side is made as long as the front;
//   - inseam: the back fork tip drops until the inseams agree;
//   - fork: the fork curve runs smoothly across the inseam, and the back fork
//     is let out by what that takes from the length of the fork seam.
//
// The panels' marks lie in one frame: x = 0 is the centre front, x grows to
// the side, y = 0 is the waist seam (the lower edge of the band), y grows to
// the hem.
package trouser
