package qr

import "strconv"

// quiet is how many light modules a reader wants around a code.
const quiet = 4

// SVG draws the code, dark on white with the quiet zone around it, one unit to a
// module.
func (c *Code) SVG() string {
	side := strconv.Itoa(c.Size + 2*quiet)
	b := []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + side + ` ` + side +
		`" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h` + side + `v` + side + `H0z"/><path d="`)
	for y := range c.Size {
		for x := 0; x < c.Size; x++ {
			from := x
			for c.Dark(x, y) {
				x++
			}
			if x == from {
				continue
			}
			b = append(b, 'M')
			b = strconv.AppendInt(b, int64(from+quiet), 10)
			b = append(b, ' ')
			b = strconv.AppendInt(b, int64(y+quiet), 10)
			b = append(b, 'h')
			b = strconv.AppendInt(b, int64(x-from), 10)
			b = append(b, "v1H"...)
			b = strconv.AppendInt(b, int64(from+quiet), 10)
			b = append(b, 'z')
		}
	}
	return string(append(b, `"/></svg>`...))
}
