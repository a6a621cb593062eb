// Package tape is the stage where the measurements are taken. Read understands
// what was typed; View shows it.
package tape
