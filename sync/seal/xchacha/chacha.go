package xchacha

import "math/bits"

// state is the sixteen words of ChaCha20 (RFC 8439, 2.3).
type state [16]uint32

// start is a state of a key and its last four words.
func start(k *Key, last []byte) state {
	s := state{0x61707865, 0x3320646e, 0x79622d32, 0x6b206574} // "expand 32-byte k"
	for i := range 8 {
		s[4+i] = get32(k[4*i:])
	}
	for i := range 4 {
		s[12+i] = get32(last[4*i:])
	}
	return s
}

// counted is the state of a key, a nonce and a block's number.
func counted(k *Key, nonce *[12]byte, number uint32) state {
	var last [16]byte
	put32(last[:], number)
	copy(last[4:], nonce[:])
	return start(k, last[:])
}

// rounds does the twenty rounds, two at a time. The words are variables of their
// own, which in the page is twice as fast as a list.
func (s *state) rounds() {
	a0, a1, a2, a3 := s[0], s[1], s[2], s[3]
	b0, b1, b2, b3 := s[4], s[5], s[6], s[7]
	c0, c1, c2, c3 := s[8], s[9], s[10], s[11]
	d0, d1, d2, d3 := s[12], s[13], s[14], s[15]
	for range 10 {
		a0, b0, c0, d0 = quarter(a0, b0, c0, d0)
		a1, b1, c1, d1 = quarter(a1, b1, c1, d1)
		a2, b2, c2, d2 = quarter(a2, b2, c2, d2)
		a3, b3, c3, d3 = quarter(a3, b3, c3, d3)
		a0, b1, c2, d3 = quarter(a0, b1, c2, d3)
		a1, b2, c3, d0 = quarter(a1, b2, c3, d0)
		a2, b3, c0, d1 = quarter(a2, b3, c0, d1)
		a3, b0, c1, d2 = quarter(a3, b0, c1, d2)
	}
	*s = state{a0, a1, a2, a3, b0, b1, b2, b3, c0, c1, c2, c3, d0, d1, d2, d3}
}

func quarter(a, b, c, d uint32) (uint32, uint32, uint32, uint32) {
	a += b
	d = bits.RotateLeft32(d^a, 16)
	c += d
	b = bits.RotateLeft32(b^c, 12)
	a += b
	d = bits.RotateLeft32(d^a, 8)
	c += d
	b = bits.RotateLeft32(b^c, 7)
	return a, b, c, d
}

// block writes the block of the state.
func (s *state) block(to *[64]byte) {
	w := *s
	w.rounds()
	for i := range w {
		put32(to[4*i:], w[i]+s[i])
	}
}

// cipher writes the text, enciphered or deciphered, from block 1 on.
func cipher(k *Key, nonce *[12]byte, to, text []byte) {
	s := counted(k, nonce, 1)
	var block [64]byte
	for at := 0; at < len(text); at += len(block) {
		s.block(&block)
		s[12]++
		for i, b := range text[at:min(at+len(block), len(text))] {
			to[at+i] = b ^ block[i]
		}
	}
}

// Words are written with their lowest byte first.

func get32(b []byte) uint32 {
	return uint32(b[0]) | uint32(b[1])<<8 | uint32(b[2])<<16 | uint32(b[3])<<24
}

func put32(to []byte, n uint32) {
	to[0], to[1], to[2], to[3] = byte(n), byte(n>>8), byte(n>>16), byte(n>>24)
}

func put64(to []byte, n uint64) {
	put32(to, uint32(n))
	put32(to[4:], uint32(n>>32))
}
