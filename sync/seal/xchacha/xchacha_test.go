package xchacha_test

import (
	"bytes"
	"encoding/hex"
	"errors"
	"math/rand/v2"
	"testing"

	"golang.org/x/crypto/chacha20"
	"golang.org/x/crypto/chacha20poly1305"

	"chalkfold/sync/seal/xchacha"
)

func unhex(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// draft-irtf-cfrg-xchacha-03, 2.2.1.
func TestDeriveVector(t *testing.T) {
	k := xchacha.Key(unhex(t, "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f"))
	got := xchacha.Derive(&k, [16]byte(unhex(t, "000000090000004a0000000031415927")))
	if want := unhex(t, "82413b4227b27bfed30e42508a877d73a0f9e4d58a74a853c12ec41326d3ecdc"); !bytes.Equal(got[:], want) {
		t.Errorf("%x, want %x", got, want)
	}
}

// draft-irtf-cfrg-xchacha-03, A.3.1.
func TestSealVector(t *testing.T) {
	text := []byte("Ladies and Gentlemen of the class of '99: If I could offer you only one tip for the future, sunscreen would be it.")
	with := unhex(t, "50515253c0c1c2c3c4c5c6c7")
	k := xchacha.Key(unhex(t, "808182838485868788898a8b8c8d8e8f909192939495969798999a9b9c9d9e9f"))
	n := xchacha.Nonce(unhex(t, "404142434445464748494a4b4c4d4e4f5051525354555657"))
	want := unhex(t, "bd6d179d3e83d43b9576579493c0e939572a1700252bfaccbed2902c21396cbb"+
		"731c7f1b0b4aa6440bf3a82f4eda7e39ae64c6708c54c216cb96b72e1213b452"+
		"2f8c9ba40db5d945b11b69b982c1bb9e3f3fac2bc369488f76b2383565d3fff9"+
		"21f9664c97637da9768812f615c68b13b52e"+"c0875924c1c7987947deafd8780acf49")
	if got := xchacha.Seal(&k, &n, text, with); !bytes.Equal(got, want) {
		t.Errorf("%x, want %x", got, want)
	}
	if got, err := xchacha.Open(&k, &n, want, with); err != nil || !bytes.Equal(got, text) {
		t.Errorf("%q, %v", got, err)
	}
}

// same seals both ways and opens what the other sealed.
func same(t *testing.T, key, nonce, text, with []byte) {
	t.Helper()
	aead, err := chacha20poly1305.NewX(key)
	if err != nil {
		t.Fatal(err)
	}
	k, n := xchacha.Key(key), xchacha.Nonce(nonce)
	want := aead.Seal(nil, nonce, text, with)
	got := xchacha.Seal(&k, &n, text, with)
	if !bytes.Equal(got, want) {
		t.Fatalf("%d bytes with %d sealed: %x, golang.org/x/crypto has %x", len(text), len(with), got, want)
	}
	if opened, err := xchacha.Open(&k, &n, want, with); err != nil || !bytes.Equal(opened, text) {
		t.Fatalf("opened: %q, %v, want %q", opened, err, text)
	}
	derived, err := chacha20.HChaCha20(key, nonce[:16])
	if err != nil {
		t.Fatal(err)
	}
	if got := xchacha.Derive(&k, [16]byte(nonce[:16])); !bytes.Equal(got[:], derived) {
		t.Fatalf("derived %x, golang.org/x/crypto has %x", got, derived)
	}
}

func TestAgainstReference(t *testing.T) {
	r := rand.NewChaCha8([32]byte{1})
	some := func(n int) []byte {
		b := make([]byte, n)
		_, _ = r.Read(b) // it never fails
		return b
	}
	for n := range 300 {
		same(t, some(32), some(24), some(n), some(n%37))
	}
	for _, n := range []int{1 << 16, 1<<16 + 1, 256 << 10} {
		same(t, some(32), some(24), some(n), some(300))
	}
	ones := func(n int) []byte { return bytes.Repeat([]byte{0xff}, n) }
	for n := range 80 { // the highest limbs
		same(t, ones(32), ones(24), ones(n), ones(n))
		same(t, make([]byte, 32), make([]byte, 24), make([]byte, n), nil)
	}
}

func FuzzSeal(f *testing.F) {
	f.Add(make([]byte, 32), make([]byte, 24), []byte("text"), []byte("with"))
	f.Fuzz(func(t *testing.T, key, nonce, text, with []byte) {
		key, nonce = append(key, make([]byte, 32)...), append(nonce, make([]byte, 24)...)
		same(t, key[:32], nonce[:24], text, with)
	})
}

// TestChanged: whatever is changed, cut or exchanged, nothing opens.
func TestChanged(t *testing.T) {
	k, n, with := xchacha.Key{1}, xchacha.Nonce{2}, []byte("with")
	sealed := xchacha.Seal(&k, &n, []byte("the text"), with)
	refuse := func(what string, k xchacha.Key, n xchacha.Nonce, sealed, with []byte) {
		t.Helper()
		if text, err := xchacha.Open(&k, &n, sealed, with); !errors.Is(err, xchacha.ErrOpen) || text != nil {
			t.Errorf("%s: %q, %v", what, text, err)
		}
	}
	for i := range sealed {
		for bit := range 8 {
			flipped := bytes.Clone(sealed)
			flipped[i] ^= 1 << bit
			refuse("a flipped bit", k, n, flipped, with)
		}
		refuse("cut short", k, n, sealed[:i], with)
	}
	refuse("longer", k, n, append(bytes.Clone(sealed), 0), with)
	refuse("another key", xchacha.Key{2}, n, sealed, with)
	refuse("another nonce", k, xchacha.Nonce{3}, sealed, with)
	refuse("with other things", k, n, sealed, []byte("What"))
	refuse("with nothing", k, n, sealed, nil)
}

func BenchmarkSeal(b *testing.B) {
	k, n, text := xchacha.Key{1}, xchacha.Nonce{2}, make([]byte, 16<<10)
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		xchacha.Seal(&k, &n, text, nil)
	}
}
