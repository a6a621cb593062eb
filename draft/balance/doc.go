// Package balance finds the least change of a few figures for which measured
// lengths come out as they are wished: the balanced method of any garment.
//
// A figure (Unknown) has the range that its rule allows, and a change that
// weighs as one. A Wish is a length that is to come out; where the ranges do
// not let all of them come true, those of more weight come first. What
// measures is passed in: it draws with the figures changed and measures, so
// that nothing is worked out twice.
//
// Solve is a Gauss-Newton method. Each step asks for the smallest change of
// all, counted from the house's own figures, that brings the wishes nearest
// within the ranges; that is one convex problem, so its answer is the only
// one. The slopes are measured once and then corrected from step to step
// (Broyden), and measured anew when a step does not help. A step that cannot
// be drawn, or that makes it worse, is halved; a figure that cannot be drawn any
// further has come to its end. The general-purpose library at hand was weighed
// at 50 kB of what the page loads, and knows no ranges.
package balance
