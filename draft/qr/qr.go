// Package qr draws a text as a QR code, as ISO/IEC 18004 tells: bytes as they
// are, versions 1 to 20, level M, which still reads with a seventh of it
// damaged. Of returns the code, SVG draws it.
package qr

import "errors"

// ErrTooLong is a text that takes more than the largest code here.
var ErrTooLong = errors.New("qr: the text is too long for a code that a phone reads well; leave something out")

// Code is a QR code: a square of modules, each dark or light.
type Code struct {
	Size int // modules on a side
	dark []bool
	kept []bool // modules that are no data
}

// Dark tells whether the module at a column and a row is dark. Outside is light.
func (c *Code) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < c.Size && y < c.Size && c.dark[y*c.Size+x]
}

// Of returns the smallest code of a text.
func Of(text string) (*Code, error) {
	for v := 1; v <= mostVersion; v++ {
		if len(text) <= room(v) {
			c := bare(v, text)
			c.finish()
			return c, nil
		}
	}
	return nil, ErrTooLong
}

// bare is the code of a version without a mask.
func bare(v int, text string) *Code {
	c := &Code{Size: 17 + 4*v}
	c.dark, c.kept = make([]bool, c.Size*c.Size), make([]bool, c.Size*c.Size)
	c.patterns(v)
	c.fill(interleave(v, stream(v, text)))
	return c
}

// finish lays the mask over the code that makes it easiest to read.
func (c *Code) finish() {
	best, least := 0, -1
	for mask := range masks {
		c.mask(mask)
		c.format(mask)
		if p := c.penalty(); least < 0 || p < least {
			best, least = mask, p
		}
		c.mask(mask) // a second time takes it off
	}
	c.mask(best)
	c.format(best)
}
