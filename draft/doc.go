// Package draft is the whole flow, from a job to a proved garment ready to be
// laid and chalked. Make is the one entry; read draft.go, which is the flow on
// one page, then the stage that you came for:
//
//	job            the file: what was measured, by which rules, in which style, on which cloth
//	plain          how it and other records are written and read as JSON
//	unit, geom     lengths; points, lines, curves
//	body           1  measurements, what is believable, what can be estimated
//	rules          2  house rules: constants with ranges and levels
//	construct      3  the record of a construction: each step with its formula, value and place
//	garment/…      4  body + rules + style → construction → sew lines → pieces and claims
//	piece          5  sew lines → pieces: allowances, corners, notches, grain
//	proof          6  what is claimed, measured on the finished outlines
//	lay            7  pieces on cloth
//	chalk, sheet   8  marks to draw by hand, in order; drawings and sheets of paper
//	sketch            the garment as it is worn, front and back
//
// Garments that are cut from one length of cloth are put together by Join, and laid
// as one.
//
// Once it was tried on, what was seen is one of the garment's Signs, and what is
// altered stands in the job; RecutOf tells what a cut that there is can give.
//
// The flow has one direction and no stage changes what it was given, so a
// Result can be kept, shown and compared. Same job, same result: no clock, no
// chance, no file.
//
// What can go wrong is of three kinds. A job that cannot be used is a *job.Bad,
// each problem with the path of its key; a draft that cannot be made of these
// measurements and rules is a *garment.Impossible; a draft that was made but
// must not be cut is no error at all: its Report says so.
package draft
