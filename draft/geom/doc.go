// Package geom is plane geometry in millimetres for cloth on a table: points,
// cubic curves, paths of them, and rings of points. x grows to the right, y
// grows from waist to hem, so "clockwise" is as seen on the cloth.
//
// It is the one package that works in bare float64. Start from Line, Fair
// or Curve; join them into a Path; ask a Path for its length, the point at a
// length, and its Flatten-ed points when a ring is wanted.
//
// Lengths are right within a ten-thousandth of a millimetre. Nothing here
// keeps state, and the same input gives the same bits on every platform that
// rounds as IEEE 754 says (checked natively and under wasm).
package geom
