package seal

import (
	"encoding/base64"
	"errors"

	"chalkfold/sync/seal/xchacha"
	"chalkfold/sync/wire"
)

// The labels of what is made of a code.
const (
	forBox    = "chalkfold/box /1"
	forParcel = "chalkfold/parc/1"
)

// Box is the name of the box where the code's parcel lies.
func (c Code) Box() wire.Name {
	k := c.key(forBox)
	return wire.Name(k[:16])
}

// Parcel seals a workshop's key for whoever has the code.
func (c Code) Parcel(k Key, n Nonce) wire.Parcel {
	box, with := c.Box(), c.key(forParcel)
	return wire.Parcel{Name: box, Blob: shut(&with, &n, box[:], k[:])}
}

// Unpack opens the code's parcel.
func (c Code) Unpack(p wire.Parcel) (Key, error) {
	box, with := c.Box(), c.key(forParcel)
	text, err := open(&with, box[:], p.Blob)
	if err != nil {
		return Key{}, err
	}
	if len(text) != len(Key{}) {
		return Key{}, ErrOpen
	}
	return Key(text), nil
}

// ErrLate says that a handover was made too long ago.
var ErrLate = errors.New("this pairing code has lapsed: show a new one")

// HandoverTime is how long a handover holds, in ms.
const HandoverTime = 10 * 60 * 1000

// handoverSkew is how far the clocks of two phones may be apart, in ms: a phone that
// has had no network for months.
const handoverSkew = 60 * 60 * 1000

// The bytes of a handover: its form, when it lapses in ms since 1970, the key, and a
// sum against mistakes.
const (
	handoverForm = 1
	handoverSize = 1 + 6 + len(Key{}) + 4
)

// Handover is a workshop's key for a phone side by side with this one, with no
// server between: letters for a link or a code to scan. Whoever reads it has the
// key, so it is shown only as long as it takes. now is in ms since 1970.
func Handover(k Key, now int64) string {
	b := make([]byte, 0, handoverSize)
	b = append(b, handoverForm)
	for at := 40; at >= 0; at -= 8 {
		b = append(b, byte((now+HandoverTime)>>at))
	}
	b = append(b, k[:]...)
	return base64.RawURLEncoding.EncodeToString(append(b, sumOf(b)...))
}

// ReadHandover reads what Handover wrote; a line may have been broken on its way. The
// error is ErrHandover for what is none.
// It is ErrLate for one that has lapsed, by this phone's clock: the key is returned
// all the same, for whoever sees the code on the other phone now and knows that one
// of the clocks is wrong.
func ReadHandover(text string, now int64) (Key, error) {
	b, err := base64.RawURLEncoding.Strict().DecodeString(text)
	if err != nil || len(b) != handoverSize || b[0] != handoverForm {
		return Key{}, ErrHandover
	}
	body := b[:handoverSize-4]
	if string(sumOf(body)) != string(b[len(body):]) {
		return Key{}, ErrHandover
	}
	var until int64
	for _, digit := range b[1:7] {
		until = until<<8 | int64(digit)
	}
	if now > until+handoverSkew || now < until-HandoverTime-handoverSkew {
		return Key(body[7:]), ErrLate
	}
	return Key(body[7:]), nil
}

// sumOf is four bytes that tell a mistake in a text.
func sumOf(text []byte) []byte {
	sum := pseudonym(xchacha.Key{}, text)
	return sum[:4]
}
