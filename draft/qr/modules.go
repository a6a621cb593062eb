package qr

// set draws a module that is no data.
func (c *Code) set(x, y int, dark bool) {
	c.dark[y*c.Size+x], c.kept[y*c.Size+x] = dark, true
}

// patterns draws all that is no data: what a reader finds the code by, and room
// for what it is told of it.
func (c *Code) patterns(v int) {
	last := c.Size - 1
	for i := range c.Size { // timing
		c.set(6, i, i%2 == 0)
		c.set(i, 6, i%2 == 0)
	}
	for _, at := range [][2]int{{3, 3}, {last - 3, 3}, {3, last - 3}} {
		c.rings(at[0], at[1], 4, 2)
	}
	places := alignments(v)
	for i, x := range places {
		for j, y := range places {
			far := len(places) - 1
			if i == 0 && (j == 0 || j == far) || i == far && j == 0 {
				continue // a corner
			}
			c.rings(x, y, 2, 1)
		}
	}
	c.format(0)
	c.version(v)
}

// rings draws rings around a place, out to a reach: all dark but the one that is
// light, and the light one around the corners.
func (c *Code) rings(x, y, reach, light int) {
	for py := max(0, y-reach); py <= min(c.Size-1, y+reach); py++ {
		for px := max(0, x-reach); px <= min(c.Size-1, x+reach); px++ {
			ring := max(px-x, x-px, py-y, y-py)
			c.set(px, py, ring != light && ring < 4)
		}
	}
}

// alignments are where the middles of the alignment patterns stand, across and
// down.
func alignments(v int) []int {
	if v == 1 {
		return nil
	}
	n := v/7 + 2
	step := (v*8 + n*3 + 5) / (n*4 - 4) * 2
	out := make([]int, n)
	out[0] = 6
	for i := 1; i < n; i++ {
		out[n-i] = 17 + 4*v - 7 - (i-1)*step
	}
	return out
}

// format tells level and mask, twice (ISO/IEC 18004, 7.9).
func (c *Code) format(mask int) {
	const levelM, generator, cover = 0, 0x537, 0x5412
	told := levelM<<3 | mask
	rest := told
	for range 10 {
		rest = rest<<1 ^ rest>>9*generator
	}
	bits := (told<<10 | rest) ^ cover
	last := c.Size - 1
	for i := range 15 {
		dark := bits>>i&1 == 1
		switch { // beside the upper left corner
		case i < 6:
			c.set(8, i, dark)
		case i < 8:
			c.set(8, i+1, dark)
		case i == 8:
			c.set(7, 8, dark)
		default:
			c.set(14-i, 8, dark)
		}
		if i < 8 { // and beside the two others
			c.set(last-i, 8, dark)
		} else {
			c.set(8, last-14+i, dark)
		}
	}
	c.set(8, last-7, true)
}

// version tells the version, twice, where it is 7 or more (7.10).
func (c *Code) version(v int) {
	if v < 7 {
		return
	}
	const generator = 0x1f25
	rest := v
	for range 12 {
		rest = rest<<1 ^ rest>>11*generator
	}
	bits := v<<12 | rest
	for i := range 18 {
		dark := bits>>i&1 == 1
		a, b := c.Size-11+i%3, i/3
		c.set(a, b, dark)
		c.set(b, a, dark)
	}
}

// fill lays the codewords, in columns of two from the right, up and down.
func (c *Code) fill(words []byte) {
	i := 0
	for right := c.Size - 1; right > 0; right -= 2 {
		if right == 6 {
			right-- // the timing
		}
		for n := range c.Size {
			y := n
			if (right+1)&2 == 0 {
				y = c.Size - 1 - n
			}
			for _, x := range [2]int{right, right - 1} {
				if at := y*c.Size + x; !c.kept[at] && i < 8*len(words) {
					c.dark[at] = words[i/8]>>(7-i%8)&1 == 1
					i++
				}
			}
		}
	}
}

// masks is how many masks there are.
const masks = 8

// mask turns modules of data over.
func (c *Code) mask(mask int) {
	for y := range c.Size {
		for x := range c.Size {
			if at := y*c.Size + x; !c.kept[at] && turned(mask, x, y) {
				c.dark[at] = !c.dark[at]
			}
		}
	}
}

// turned is whether a mask turns a module over (ISO/IEC 18004, table 10).
func turned(mask, x, y int) bool {
	switch mask {
	case 0:
		return (x+y)%2 == 0
	case 1:
		return y%2 == 0
	case 2:
		return x%3 == 0
	case 3:
		return (x+y)%3 == 0
	case 4:
		return (x/3+y/2)%2 == 0
	case 5:
		return x*y%2+x*y%3 == 0
	case 6:
		return (x*y%2+x*y%3)%2 == 0
	}
	return ((x+y)%2+x*y%3)%2 == 0
}
