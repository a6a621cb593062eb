package seal_test

import (
	"bytes"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"golang.org/x/crypto/chacha20poly1305"
	"pgregory.net/rapid"

	"chalkfold/sync/seal"
	"chalkfold/sync/wire"
)

// random draws from a seed.
func random(seed byte) seal.Random {
	r := rand.NewChaCha8([32]byte{seed})
	return func(b []byte) { _, _ = r.Read(b) } // it never fails
}

func TestSealAndOpen(t *testing.T) {
	draw := random(1)
	k := seal.KeysOf(seal.NewKey(draw))
	slot, id := k.Slot("job", "a"), wire.Name{1}
	for _, n := range []int{0, 1, 251, 252, 253, 1000, seal.MostText} {
		text := make([]byte, n)
		draw(text)
		blob := k.Seal(slot, id, seal.NewNonce(draw), text)
		if got, err := k.Open(slot, id, blob); err != nil || !bytes.Equal(got, text) {
			t.Errorf("%d bytes: %d, %v", n, len(got), err)
		}
		if len(blob) > wire.MostBlob {
			t.Errorf("%d bytes make a blob of %d", n, len(blob))
		}
		name := k.Chunk(wire.Name{9}, 3)
		if n <= seal.ChunkText {
			chunk := k.SealChunk(name, seal.NewNonce(draw), text)
			if got, err := k.OpenChunk(name, chunk); err != nil || !bytes.Equal(got, text) {
				t.Errorf("a chunk of %d bytes: %d, %v", n, len(got), err)
			}
		}
	}
	if n := len(k.SealChunk(wire.Name{}, seal.Nonce{}, make([]byte, seal.ChunkText))); n > 32<<10+100 || n > wire.MostChunk {
		t.Errorf("a whole chunk has %d bytes", n)
	}
}

// TestPlace: a blob opens where it was sealed for, and nowhere else.
func TestPlace(t *testing.T) {
	draw := random(2)
	key := seal.NewKey(draw)
	k, other := seal.KeysOf(key), seal.KeysOf(seal.NewKey(draw))
	slot, id := k.Slot("job", "a"), wire.Name{1}
	blob := k.Seal(slot, id, seal.NewNonce(draw), []byte("text"))
	refuse := func(what string, open func() ([]byte, error), want error) {
		t.Helper()
		if text, err := open(); !errors.Is(err, want) || text != nil {
			t.Errorf("%s: %q, %v", what, text, err)
		}
	}
	refuse("another slot", func() ([]byte, error) { return k.Open(k.Slot("job", "b"), id, blob) }, seal.ErrOpen)
	refuse("another entry", func() ([]byte, error) { return k.Open(slot, wire.Name{2}, blob) }, seal.ErrOpen)
	refuse("another workshop", func() ([]byte, error) { return other.Open(slot, id, blob) }, seal.ErrOpen)
	refuse("as a chunk", func() ([]byte, error) { return k.OpenChunk(slot, blob) }, seal.ErrOpen)
	for i := range blob {
		changed := bytes.Clone(blob)
		changed[i] ^= 0x80
		want := seal.ErrOpen
		if i == 0 {
			want = seal.ErrNewer
		}
		refuse("changed", func() ([]byte, error) { return k.Open(slot, id, changed) }, want)
		refuse("cut short", func() ([]byte, error) { return k.Open(slot, id, blob[:i]) }, seal.ErrOpen)
	}
	if again := seal.KeysOf(key); *again != *k {
		t.Error("the same key makes other keys")
	}
	if bytes.Equal(k.Seal(slot, id, seal.NewNonce(draw), []byte("text")), blob) {
		t.Error("the same text was sealed the same twice")
	}
}

// TestForm: a blob is what the protocol says, read with another implementation.
func TestForm(t *testing.T) {
	draw := random(3)
	k := seal.KeysOf(seal.NewKey(draw))
	entries := k.Entries()
	aead, err := chacha20poly1305.NewX(entries[:])
	if err != nil {
		t.Fatal(err)
	}
	slot, id := k.Slot("client", "a"), wire.Name{7}
	blob := k.Seal(slot, id, seal.NewNonce(draw), []byte("Amina"))
	with := append([]byte{1}, k.Workshop[:]...)
	with = append(append(with, slot[:]...), id[:]...)
	padded, err := aead.Open(nil, blob[1:25], blob[25:], with)
	if want := append([]byte("\x00\x00\x00\x05Amina"), make([]byte, 247)...); err != nil || blob[0] != 1 || !bytes.Equal(padded, want) {
		t.Errorf("within is %q, %v", padded, err)
	}
}

// TestBuckets: by the definition of Padmé and its promise of 12 % at most.
func TestBuckets(t *testing.T) {
	k := seal.KeysOf(seal.Key{1})
	for n := 0; n < 20_000; n++ {
		padded := len(k.Seal(wire.Name{}, wire.Name{}, seal.Nonce{}, make([]byte, n))) - (1 + 24 + 16)
		l := float64(n + 4)
		e := math.Floor(math.Log2(l))
		step := math.Exp2(e - math.Floor(math.Log2(e)) - 1)
		want := max(256, int(math.Ceil(l/step)*step))
		if padded != want || n > 256 && float64(padded) > 1.12*l {
			t.Fatalf("%d bytes are padded to %d, want %d", n, padded, want)
		}
	}
}

// TestNames: slots, chunks and keys of all kinds differ from one another.
func TestNames(t *testing.T) {
	k := seal.KeysOf(seal.Key{1})
	seen := map[wire.Name]string{}
	note := func(n wire.Name, what string) {
		if was, twice := seen[n]; twice {
			t.Errorf("%s has the name of %s", what, was)
		}
		seen[n] = what
	}
	long := strings.Repeat("x", 40)
	for _, r := range [][2]string{{"job", "a"}, {"jo", "ba"}, {"joba", ""}, {"", "joba"}, {"job", "a\x00"}, {"job", long}, {"job", long[1:]}, {"job" + long, ""}} {
		note(k.Slot(r[0], r[1]), r[0]+" "+r[1])
	}
	for i := range uint32(300) {
		note(k.Chunk(wire.Name{1}, i), "a chunk")
		note(k.Chunk(wire.Name{2}, i), "another's chunk")
	}
	note(wire.Name(k.Workshop), "the workshop")
	note(wire.Name(k.Token[:16]), "the token")
	if seal.KeysOf(seal.Key{2}).Slot("job", "a") == k.Slot("job", "a") {
		t.Error("two workshops have one slot")
	}
}

func TestNoncesDiffer(t *testing.T) {
	draw, seen := random(4), map[seal.Nonce]bool{}
	for range 100_000 {
		n := seal.NewNonce(draw)
		if seen[n] {
			t.Fatal("a nonce came twice")
		}
		seen[n] = true
	}
}

func FuzzOpen(f *testing.F) {
	k := seal.KeysOf(seal.Key{1})
	f.Add(k.Seal(wire.Name{1}, wire.Name{2}, seal.Nonce{3}, []byte("text")))
	f.Add([]byte{1})
	f.Fuzz(func(t *testing.T, blob []byte) {
		text, err := k.Open(wire.Name{1}, wire.Name{2}, blob)
		if err == nil && !bytes.Equal(k.Seal(wire.Name{1}, wire.Name{2}, seal.Nonce(blob[1:25]), text), blob) {
			t.Errorf("%x opens as %q, which is sealed another way", blob, text)
		}
		if c, err := k.OpenChunk(wire.Name{1}, blob); err == nil {
			t.Errorf("a chunk opens: %q", c)
		}
	})
}

func TestWordsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var k seal.Key
		copy(k[:], rapid.SliceOfN(rapid.Byte(), 32, 32).Draw(t, "key"))
		words := k.Words()
		text := strings.Join(words, rapid.SampledFrom([]string{" ", "\n", " - ", ", "}).Draw(t, "between"))
		if rapid.Bool().Draw(t, "capitals") {
			text = "  " + strings.ToUpper(text) + "\n"
		}
		if got, err := seal.ReadWords(text); err != nil || got != k || len(words) != seal.KeyWords {
			t.Fatalf("%q: %v", text, err)
		}
	})
}
