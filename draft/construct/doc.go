// Package construct keeps the construction of a draft as it is made: every
// point, line and curve is laid down by a named Step with a formula over
// measurements, house rules and earlier steps, the value that formula gave,
// and the mark it is measured from. Geometry, chalk guide and "why is this
// 10½?" are three readings of that one Record; nothing is worked out twice.
//
// Use it so: New over the named quantities, then lay steps down in the order
// of the hand (Value, Origin, Measure, Mid, Swing, Place, Curve ...), then
// Record. The first mistake (an unknown name, lengths added to plain numbers)
// is kept and returned by Record; steps after it are not laid.
//
// A truing is a step like any other that carries the name of its truing; when
// it moves a point that was already marked, the step keeps both places. A
// draft "as spoken" is the same list without those steps.
//
// Formulas are plain arithmetic: + - * / and brackets over names, numbers,
// lengths such as "2 in" or "4.5 cm", and least(a, b), most(a, b), root(a).
// Lengths are carried in millimetres and checked: adding a length to a plain
// number is an error, as is a formula that gives an area where a length is due.
package construct
