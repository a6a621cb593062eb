// Package unit keeps lengths as makers write them.
//
// Parse reads what is typed ("34½", "34 1/2", "86,4 cm", "1 1/2 yd") into a
// Quantity, which remembers exactly what was entered and gives it back as it
// was. Quantity.Length turns it, once, into the millimetres the drafting uses.
// A Format prints a Length for the tape on the table, to the eighth of an inch
// or the tenth of a centimetre.
//
// Promised: what a Format prints, Parse reads back as exactly the length that
// Format.Round gives; what Quantity.String prints, Parse reads back as the same
// Quantity. Nothing here ever prints 34.4999.
package unit
