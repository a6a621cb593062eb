// Package seal makes the keys of a workshop and seals with them what the server
// keeps. The package comment of sync says what is sealed how, and against whom.
//
//	key := seal.NewKey(random)        // on the first device
//	keys := seal.KeysOf(key)
//	slot := keys.Slot("job", id)
//	blob := keys.Seal(slot, entry, nonce, text)
//	text, err := keys.Open(slot, entry, blob)
//
// A key is written down as words (Words, ReadWords), told to a phone over the server
// by a code of a few words and a parcel (NewCode, Code.Parcel), or handed to one side
// by side (Handover). Every random byte is handed in.
package seal

import (
	"chalkfold/sync/seal/xchacha"
	"chalkfold/sync/wire"
)

// Key is the key of a workshop: 256 random bits, from which all else is made.
type Key xchacha.Key

// Random fills bytes with random ones, as good for keys as the device has them.
type Random func([]byte)

// NewKey makes a key. One whose words hold a coarse word is drawn again, which
// takes less than a tenth of a bit from the 256.
func NewKey(random Random) Key {
	for {
		var k Key
		random(k[:])
		if !coarse(k.Words()) {
			return k
		}
	}
}

// Keys are what is made of a workshop's key.
type Keys struct {
	// Workshop and Token are the credentials.
	Workshop wire.Workshop
	Token    wire.Token

	slots, chunks, entries, photos xchacha.Key
}

// The labels of the keys that are made of a workshop's key, each 16 bytes.
const (
	forWorkshop = "chalkfold/name/1"
	forToken    = "chalkfold/tokn/1"
	forSlots    = "chalkfold/slot/1"
	forChunks   = "chalkfold/chnk/1"
	forEntries  = "chalkfold/entr/1"
	forPhotos   = "chalkfold/phot/1"
	forCheck    = "chalkfold/word/1"
)

func (k Key) derive(label string) xchacha.Key {
	key := xchacha.Key(k)
	return xchacha.Derive(&key, [16]byte([]byte(label)))
}

// KeysOf makes the keys of a workshop.
func KeysOf(k Key) *Keys {
	name := k.derive(forWorkshop)
	return &Keys{
		Workshop: wire.Workshop(name[:16]),
		Token:    wire.Token(k.derive(forToken)),
		slots:    k.derive(forSlots),
		chunks:   k.derive(forChunks),
		entries:  k.derive(forEntries),
		photos:   k.derive(forPhotos),
	}
}

// Slot is the pseudonym of a record.
func (k *Keys) Slot(kind, id string) wire.Name {
	text := make([]byte, 0, 4+len(kind)+len(id))
	text = append(text, byte(len(kind)>>24), byte(len(kind)>>16), byte(len(kind)>>8), byte(len(kind)))
	text = append(append(text, kind...), id...)
	return pseudonym(k.slots, text)
}

// Chunk is the name of a photo's chunk of that number.
func (k *Keys) Chunk(photo wire.Name, number uint32) wire.Name {
	text := append(photo[:len(photo):len(photo)], byte(number>>24), byte(number>>16), byte(number>>8), byte(number))
	return pseudonym(k.chunks, text)
}

// pseudonym is a text of any length under a key: one key made from the other, block
// by block, beginning with the length, so that no text begins another (the cascade
// of Bellare, Canetti and Krawczyk, FOCS 1996).
func pseudonym(k xchacha.Key, text []byte) wire.Name {
	n := uint64(len(text))
	var block [16]byte
	for i := range 8 {
		block[i] = byte(n >> (8 * i))
	}
	k = xchacha.Derive(&k, block)
	for len(text) > 0 {
		block = [16]byte{}
		text = text[copy(block[:], text):]
		k = xchacha.Derive(&k, block)
	}
	return wire.Name(k[:16])
}
