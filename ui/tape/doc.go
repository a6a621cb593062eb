// Package tape is the stage where measurements are taken: what was typed, what
// it means, and what is doubtful about it.
package tape
