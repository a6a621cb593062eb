package qr

// What makes a code hard to read, by weight (ISO/IEC 18004, 7.8.3).
const (
	weighRun     = 3  // five modules of one colour in a row, one more for each more
	weighSquare  = 3  // two by two of one colour
	weighLike    = 40 // a row like the corner patterns
	weighBalance = 10 // each twentieth from half dark, half light
)

// penalty is how hard the code is to read.
func (c *Code) penalty() int {
	sum, dark := 0, 0
	for a := range c.Size {
		sum += runs(func(i int) bool { return c.Dark(i, a) }, c.Size)
		sum += runs(func(i int) bool { return c.Dark(a, i) }, c.Size)
		for b := range c.Size {
			d := c.Dark(b, a)
			if d {
				dark++
			}
			if a > 0 && b > 0 && c.Dark(b-1, a) == d && c.Dark(b, a-1) == d && c.Dark(b-1, a-1) == d {
				sum += weighSquare
			}
		}
	}
	all := c.Size * c.Size // odd: never just half
	off := max(20*dark-10*all, 10*all-20*dark)
	return sum + (off-1)/all*weighBalance
}

// runs weighs one row: its runs, and what is like a corner pattern, which is one
// dark, one light, three dark, one light, one dark with four light beside it.
func runs(dark func(i int) bool, size int) int {
	sum, run := 0, 0
	const like, window = 0b0000_1011101_0000, 1<<11 - 1
	seen := 0
	for i := -4; i < size+4; i++ {
		d := i >= 0 && i < size && dark(i)
		seen <<= 1
		if d {
			seen |= 1
		}
		if i >= 6 && seen&window == like>>4 || i >= 6 && seen&window == like&window {
			sum += weighLike
		}
		if i < 0 || i >= size {
			continue
		}
		if i > 0 && dark(i-1) == d {
			run++
		} else {
			run = 1
		}
		switch {
		case run == 5:
			sum += weighRun
		case run > 5:
			sum++
		}
	}
	return sum
}
