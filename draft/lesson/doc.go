// Package lesson asks a student for the figures of a construction before it
// shows them, and marks what she says.
//
// Of takes the record of a draft. Its steps come in the order of the hand; Asks
// says which are sums that can be done with the figures shown, and the others are
// only shown. Question has what she may look at, Check says whether an answer is
// right: within a step of the tape of what the draft has, or of what the figures
// shown give, which are rounded. A wrong one is explained by the formula, and by
// the slip that gives the same figure: each is the formula itself with one part
// left out, halved, turned round and so on, so that nothing is said of a sum that
// is not there.
//
// A Sitting is one student's way through a lesson, and Marks what it came to.
package lesson
