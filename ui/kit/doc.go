// Package kit holds the parts that several stages share: those that must touch
// the document themselves, Field and Drawing, and a few small shapes.
package kit
