// Package prove drafts for every body of a survey, in several styles, and
// counts what the proofs say: the wide test of the drafting, since one body
// proves little.
//
// Bodies reads a survey, Styles are the styles, Run drafts each body in each
// style and counts. What drafts is passed in, so that this package knows no
// garment's construction and takes no side. Bodies come as in the columns of
// ANSUR II (mm; see testdata/body/SOURCES.md), their waists at the navel; all
// that is measured is used, nothing is moved to the natural waist.
//
// Nothing is let through: a draft passes when no finding stops the cut, is
// stopped when one does or when it is refused with a reason, and is a panic
// when the program failed. The counts do not depend on how many workers drew.
package prove
