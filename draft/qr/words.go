package qr

// mostVersion is the largest version: 97 modules on a side, which a cheap phone
// still reads from another's screen.
const mostVersion = 20

// level is how the codewords of a version at level M are shared out (ISO/IEC
// 18004, table 9): blocks, each with so many codewords that correct errors.
func level(v int) (blocks, correcting int) {
	const (
		blocksOf     = "\x01\x01\x01\x02\x02\x04\x04\x04\x05\x05\x05\x08\x09\x09\x0a\x0a\x0b\x0d\x0e\x10"
		correctingOf = "\x0a\x10\x1a\x12\x18\x10\x12\x16\x16\x1a\x1e\x16\x16\x18\x18\x1c\x1c\x1a\x1a\x1a"
	)
	return int(blocksOf[v-1]), int(correctingOf[v-1])
}

// codewords is how many codewords a version holds, data and correction: what is
// left of the square beside its patterns.
func codewords(v int) int {
	bits := (16*v+128)*v + 64
	if v >= 2 {
		n := v/7 + 2 // alignment patterns on a side
		bits -= (25*n-10)*n - 55
		if v >= 7 {
			bits -= 36
		}
	}
	return bits / 8
}

// data is how many of them carry data.
func data(v int) int {
	blocks, correcting := level(v)
	return codewords(v) - blocks*correcting
}

// countBits is how many bits say how many bytes follow.
func countBits(v int) int {
	if v < 10 {
		return 8
	}
	return 16
}

// room is how many bytes of text a version holds.
func room(v int) int { return (8*data(v) - 4 - countBits(v)) / 8 }

// stream is the data of a version: that bytes follow, how many, the bytes, the
// end, and padding.
func stream(v int, text string) []byte {
	const asBytes = 0b0100
	out, have := make([]byte, 0, data(v)), 0
	put := func(value, bits int) {
		for i := bits - 1; i >= 0; i-- {
			if have%8 == 0 {
				out = append(out, 0)
			}
			out[len(out)-1] |= byte(value>>i&1) << (7 - have%8)
			have++
		}
	}
	put(asBytes, 4)
	put(len(text), countBits(v))
	for i := range len(text) {
		put(int(text[i]), 8)
	}
	put(0, min(4, 8*data(v)-have))
	for pad := byte(0xec); len(out) < data(v); pad ^= 0xec ^ 0x11 {
		out = append(out, pad)
	}
	return out
}

// interleave cuts the data into blocks, corrects each, and takes a codeword of
// each by turns. The last blocks are one longer where it does not come out even.
func interleave(v int, stream []byte) []byte {
	blocks, correcting := level(v)
	all := codewords(v)
	short, long := all/blocks-correcting, all%blocks
	var parts, corrections [][]byte
	for i := range blocks {
		n := short
		if i >= blocks-long {
			n++
		}
		parts = append(parts, stream[:n])
		corrections = append(corrections, correction(stream[:n], correcting))
		stream = stream[n:]
	}
	out := make([]byte, 0, all)
	for i := range short + 1 {
		for _, p := range parts {
			if i < len(p) {
				out = append(out, p[i])
			}
		}
	}
	for i := range correcting {
		for _, c := range corrections {
			out = append(out, c[i])
		}
	}
	return out
}

// correction is the remainder of data by the generator of that degree: Reed and
// Solomon's code over the field of 256.
func correction(data []byte, degree int) []byte {
	generator := make([]byte, degree)
	generator[degree-1] = 1
	root := byte(1)
	for range degree {
		for i := range generator {
			generator[i] = times(generator[i], root)
			if i+1 < degree {
				generator[i] ^= generator[i+1]
			}
		}
		root = times(root, 2)
	}
	out := make([]byte, degree)
	for _, b := range data {
		factor := b ^ out[0]
		copy(out, out[1:])
		out[degree-1] = 0
		for i, g := range generator {
			out[i] ^= times(g, factor)
		}
	}
	return out
}

// times multiplies in the field of 256, modulo x⁸+x⁴+x³+x²+1.
func times(a, b byte) byte {
	product := 0
	for i := 7; i >= 0; i-- {
		product <<= 1
		if product > 255 {
			product ^= 0x11d
		}
		if b>>i&1 == 1 {
			product ^= int(a)
		}
	}
	return byte(product)
}
