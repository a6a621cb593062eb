package xchacha

import (
	"bytes"
	"math/big"
	"testing"
)

// polyOf is Poly1305 as RFC 8439, 2.5.1 defines it, over whole numbers.
func polyOf(key [32]byte, text []byte) (tag [16]byte) {
	number := func(b []byte) *big.Int {
		n := new(big.Int)
		for i := len(b) - 1; i >= 0; i-- {
			n.Add(n.Lsh(n, 8), big.NewInt(int64(b[i])))
		}
		return n
	}
	r, s := number(key[:16]), number(key[16:])
	clamp, _ := new(big.Int).SetString("0ffffffc0ffffffc0ffffffc0fffffff", 16)
	r.And(r, clamp)
	p := new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), 130), big.NewInt(5))
	sum := new(big.Int)
	for len(text) > 0 {
		n := min(16, len(text))
		block := append(bytes.Clone(text[:n]), 1)
		text = text[n:]
		sum.Mod(sum.Mul(sum.Add(sum, number(block)), r), p)
	}
	sum.Add(sum, s)
	for i := range tag {
		tag[i] = byte(new(big.Int).Rsh(sum, uint(8*i)).Uint64())
	}
	return tag
}

func samePoly(t *testing.T, key [32]byte, text []byte) {
	t.Helper()
	p := newPoly(&key)
	whole := len(text) / 16 * 16
	p.padded(text[:whole]) // of a last block that is not whole, the package pads the text itself
	if got, want := p.tag(), polyOf(key, text[:whole]); got != want {
		t.Errorf("of %x under %x: %x, want %x", text[:whole], key, got, want)
	}
}

// The vectors of RFC 8439, A.3, 7 to 11, in which limbs run over (from memory, and
// held to the definition above).
func TestPolyRunsOver(t *testing.T) {
	ff := bytes.Repeat([]byte{0xff}, 16)
	after := func(b byte, with byte) []byte { return append([]byte{b}, bytes.Repeat([]byte{with}, 15)...) }
	for _, tt := range []struct {
		r, s byte
		text []byte
		want []byte
	}{
		{2, 0, ff, after(3, 0)},
		{2, 0xff, after(2, 0), after(3, 0)},
		{1, 0, append(append(bytes.Clone(ff), after(0xf0, 0xff)...), after(0x11, 0)...), after(5, 0)},
		{1, 0, append(append(bytes.Clone(ff), after(0xfb, 0xfe)...), after(1, 1)...), after(0, 0)},
		{2, 0, after(0xfd, 0xff), after(0xfa, 0xff)},
	} {
		var key [32]byte
		key[0] = tt.r
		copy(key[16:], bytes.Repeat([]byte{tt.s}, 16))
		p := newPoly(&key)
		p.padded(tt.text)
		if got := p.tag(); !bytes.Equal(got[:], tt.want) {
			t.Errorf("of %x: %x, want %x", tt.text, got, tt.want)
		}
		samePoly(t, key, tt.text)
	}
}

func FuzzPoly(f *testing.F) {
	f.Add(bytes.Repeat([]byte{0xff}, 32), bytes.Repeat([]byte{0xff}, 64))
	f.Fuzz(func(t *testing.T, key, text []byte) {
		key = append(key, make([]byte, 32)...)
		samePoly(t, [32]byte(key[:32]), text)
	})
}
