package seal

import (
	"errors"
	"math/bits"

	"chalkfold/sync/seal/xchacha"
	"chalkfold/sync/wire"
)

// The errors of Open and OpenChunk.
var (
	// ErrOpen says that a blob was changed, is not the whole of it, or was not
	// sealed for this place with this key.
	ErrOpen = errors.New("a sealed record does not open: it was changed, or sealed with another key")
	// ErrNewer says that a blob has a form of seal that this version does not know.
	ErrNewer = errors.New("a sealed record is of a newer version of this program")
)

const (
	sealForm   = 1
	lengthSize = 4
	leastText  = 256 // padded
	overhead   = 1 + xchacha.NonceSize + xchacha.Overhead
)

// The longest texts, in bytes.
const (
	MostText  = wire.MostBlob - 32<<10 // padded, it still is a blob
	ChunkText = 32<<10 - lengthSize    // of every chunk of a photo but the last
)

// Nonce is 24 random bytes, for one sealing.
type Nonce = xchacha.Nonce

// NewNonce draws a nonce.
func NewNonce(random Random) (n Nonce) {
	random(n[:])
	return n
}

// Seal seals the text of an entry, at most MostText bytes, for its slot and id.
func (k *Keys) Seal(slot, entry wire.Name, n Nonce, text []byte) []byte {
	return shut(&k.entries, &n, k.place(slot, entry), text)
}

// Open opens the blob of an entry.
func (k *Keys) Open(slot, entry wire.Name, blob []byte) ([]byte, error) {
	return open(&k.entries, k.place(slot, entry), blob)
}

// SealChunk seals a chunk of a photo, at most ChunkText bytes.
func (k *Keys) SealChunk(name wire.Name, n Nonce, text []byte) []byte {
	return shut(&k.photos, &n, k.place(name, wire.Name{}), text)
}

// OpenChunk opens the blob of a chunk.
func (k *Keys) OpenChunk(name wire.Name, blob []byte) ([]byte, error) {
	return open(&k.photos, k.place(name, wire.Name{}), blob)
}

// place is what goes with a blob: where alone it opens.
func (k *Keys) place(slot, entry wire.Name) []byte {
	with := make([]byte, 0, 1+len(k.Workshop)+len(slot)+len(entry))
	with = append(with, sealForm)
	with = append(with, k.Workshop[:]...)
	with = append(with, slot[:]...)
	return append(with, entry[:]...)
}

func shut(k *xchacha.Key, n *Nonce, with, text []byte) []byte {
	padded := make([]byte, bucket(lengthSize+len(text)))
	size := uint32(len(text))
	padded[0], padded[1], padded[2], padded[3] = byte(size>>24), byte(size>>16), byte(size>>8), byte(size)
	copy(padded[lengthSize:], text)
	blob := make([]byte, 0, overhead+len(padded))
	blob = append(blob, sealForm)
	blob = append(blob, n[:]...)
	return append(blob, xchacha.Seal(k, n, padded, with)...)
}

func open(k *xchacha.Key, with, blob []byte) ([]byte, error) {
	if len(blob) > 0 && blob[0] > sealForm {
		return nil, ErrNewer
	}
	if len(blob) < overhead+lengthSize || blob[0] != sealForm {
		return nil, ErrOpen
	}
	n := Nonce(blob[1 : 1+xchacha.NonceSize])
	padded, err := xchacha.Open(k, &n, blob[1+xchacha.NonceSize:], with)
	if err != nil {
		return nil, ErrOpen
	}
	size := int(uint32(padded[0])<<24 | uint32(padded[1])<<16 | uint32(padded[2])<<8 | uint32(padded[3]))
	if size > len(padded)-lengthSize {
		return nil, ErrOpen
	}
	return padded[lengthSize : lengthSize+size], nil
}

// bucket is the length to which so many bytes are padded: by Padmé, of which only
// so many bits are told as the length of the length has (Nikitin et al., "Reducing
// Metadata Leakage from Encrypted Files and Communication with PURBs", PETS 2019,
// algorithm 1), and leastText at the least.
func bucket(n int) int {
	if n <= leastText {
		return leastText
	}
	e := bits.Len(uint(n)) - 1
	s := bits.Len(uint(e))
	mask := 1<<(e-s) - 1
	return (n + mask) &^ mask
}
