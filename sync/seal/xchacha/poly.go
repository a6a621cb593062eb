package xchacha

// poly is Poly1305 (RFC 8439, 2.5): a sum of products modulo 2^130 - 5. Numbers
// are five limbs of 26 bits, so that products of limbs, and their sums, fit in 64.
type poly struct {
	sum, r [5]uint64
	s      [4]uint32
}

const limb = 1<<26 - 1

func newPoly(key *[32]byte) *poly {
	p := &poly{r: limbs(key[:16])}
	// Some bits of r are nought (2.5, "clamp").
	for i, keep := range [5]uint64{0x3ffffff, 0x3ffff03, 0x3ffc0ff, 0x3f03fff, 0x00fffff} {
		p.r[i] &= keep
	}
	for i := range p.s {
		p.s[i] = get32(key[16+4*i:])
	}
	return p
}

// limbs are the limbs of 16 bytes.
func limbs(b []byte) [5]uint64 {
	return [5]uint64{
		uint64(get32(b)) & limb,
		uint64(get32(b[3:])) >> 2 & limb,
		uint64(get32(b[6:])) >> 4 & limb,
		uint64(get32(b[9:])) >> 6 & limb,
		uint64(get32(b[12:])) >> 8 & limb,
	}
}

// padded adds a text, block by block, the last with noughts after it.
func (p *poly) padded(text []byte) {
	for ; len(text) >= 16; text = text[16:] {
		p.add(text, 1)
	}
	if len(text) > 0 {
		var last [16]byte
		copy(last[:], text)
		p.add(last[:], 1)
	}
}

// add adds a block of 16 bytes with a bit above them, and multiplies by r.
func (p *poly) add(block []byte, above uint64) {
	b := limbs(block)
	b[4] |= above << 24
	h0, h1, h2, h3, h4 := p.sum[0]+b[0], p.sum[1]+b[1], p.sum[2]+b[2], p.sum[3]+b[3], p.sum[4]+b[4]
	r0, r1, r2, r3, r4 := p.r[0], p.r[1], p.r[2], p.r[3], p.r[4]
	// 2^130 is 5 here: what is beyond comes back five times.
	s1, s2, s3, s4 := 5*r1, 5*r2, 5*r3, 5*r4
	d0 := h0*r0 + h1*s4 + h2*s3 + h3*s2 + h4*s1
	d1 := h0*r1 + h1*r0 + h2*s4 + h3*s3 + h4*s2
	d2 := h0*r2 + h1*r1 + h2*r0 + h3*s4 + h4*s3
	d3 := h0*r3 + h1*r2 + h2*r1 + h3*r0 + h4*s4
	d4 := h0*r4 + h1*r3 + h2*r2 + h3*r1 + h4*r0
	p.sum = [5]uint64{d0, d1, d2, d3, d4}
	p.carry()
}

// carry brings the limbs back to 26 bits, but for a little over in the second.
func (p *poly) carry() {
	h := &p.sum
	over := uint64(0)
	for i := range h {
		h[i] += over
		over = h[i] >> 26
		h[i] &= limb
	}
	h[0] += 5 * over
	h[1] += h[0] >> 26
	h[0] &= limb
}

// tag is the sum, whole, plus s.
func (p *poly) tag() [16]byte {
	p.carry()
	p.carry()
	h := p.sum
	// Less 2^130 - 5, if that is not below nought.
	var less [5]uint64
	over := uint64(5)
	for i := range h {
		less[i] = h[i] + over
		over = less[i] >> 26
		less[i] &= limb
	}
	keep := over - 1 // all ones where the sum is below 2^130 - 5
	for i := range h {
		h[i] = h[i]&keep | less[i]&^keep
	}
	words := [4]uint32{
		uint32(h[0] | h[1]<<26), uint32(h[1]>>6 | h[2]<<20),
		uint32(h[2]>>12 | h[3]<<14), uint32(h[3]>>18 | h[4]<<8),
	}
	var out [16]byte
	sum := uint64(0)
	for i := range words {
		sum += uint64(words[i]) + uint64(p.s[i])
		put32(out[4*i:], uint32(sum))
		sum >>= 32
	}
	return out
}
