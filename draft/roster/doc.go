// Package roster is a table of clients and their measurements, as spreadsheets
// write and read it: CSV by RFC 4180, one row for each job.
//
//	client        whose it is
//	ticket        of the job
//	garment       its id, such as trousers
//	figure        women, men, or nothing
//	taken         the day of the measurements, ISO 8601: 2031-05-17
//	due           the day it is due
//	note          of the job
//	of_a_garment  the measurements that were taken of a garment that fits, blanks between them
//	hip_girth (in) … one column for each measurement, in the unit in its heading
//
// The columns may stand in any order, and any may be missing; a measurement goes
// by its id or its name in English. A cell may name another unit than its column:
// "86.4 cm". The separator is a comma, a semicolon or a tab, decimals have a point
// or a comma, fractions are read as a tape has them: what a spreadsheet makes of
// the file when it saves it is read again. Days may be written 17.05.2031 as well.
//
// A text that a spreadsheet would take for a formula is written with an
// apostrophe before it, which is taken off again.
package roster
