// Package strip sets text as one long picture for a receipt printer: black on
// white, one bit to the dot, as wide as the print head. Write is the one entry.
// The letters are those of the font that is given, drawn here, since no other
// part of the program needs letters as dots.
package strip
