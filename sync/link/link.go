// Package link frames what is lent by a link: bytes in the fragment of an
// address, which no browser sends to a server. Encode makes the fragment,
// Decode reads it, or a whole address that ends in one.
//
// A frame is
//
//	2 bytes  magic, C7 5F
//	1 byte   version of the frame, 1
//	1 byte   kind of what is carried
//	n bytes  what is carried, at most MaxData
//	4 bytes  CRC-32 (IEEE) of all before it, the highest byte first
//
// written in base64url without padding after the name of its kind: "rules=…".
// A frame has one spelling: what Decode accepts, Encode writes again the same.
// The sum finds a link that was cut or mistyped on its way. It keeps no secret
// and proves no sender: whoever opens a link is shown what is in it first.
package link

import (
	"encoding/base64"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"slices"
	"strings"
)

// Kind is what a frame carries.
type Kind byte

// The kinds. A number is never used again for something else.
const (
	Rules Kind = 1 // a rule set
	Draft Kind = 2 // what a job is drafted from
	Lay   Kind = 3 // a job with its pieces where they lie on the cloth
)

// kinds are the kinds that are known.
func kinds() []Kind { return []Kind{Rules, Draft, Lay} }

// name is what stands before the frame in the fragment.
func (k Kind) name() string {
	switch k {
	case Rules:
		return "rules"
	case Draft:
		return "draft"
	case Lay:
		return "lay"
	}
	return ""
}

const (
	magic0, magic1 = 0xC7, 0x5F
	version        = 1
	head, tail     = 4, 4
)

// MaxData is how many bytes a frame carries at most: a link is pasted into
// messages, some of which cut a long one.
const MaxData = 16 << 10

// maxText bounds what is looked at.
const maxText = 2*MaxData + 2048

// Reasons why a link is refused, to be told apart by errors.Is.
var (
	ErrNone    = errors.New("this is no link of this program: paste the whole of it, with what stands after the # sign")
	ErrDamaged = errors.New("the link is damaged or cut short: have it sent again, and paste the whole of it")
	ErrNewer   = errors.New("the link is of a newer version: take the newer version of the program, then open it again")
	ErrTooLong = errors.New("this is too much for a link: leave something out")
)

// Encode is the fragment of a link, without its # sign.
func Encode(kind Kind, data []byte) (string, error) {
	if len(data) > MaxData {
		return "", ErrTooLong
	}
	if kind.name() == "" {
		return "", ErrNewer
	}
	frame := append([]byte{magic0, magic1, version, byte(kind)}, data...)
	frame = binary.BigEndian.AppendUint32(frame, crc32.ChecksumIEEE(frame))
	return kind.name() + "=" + encoding().EncodeToString(frame), nil
}

func encoding() *base64.Encoding { return base64.RawURLEncoding.Strict() }

// KindOf is the kind that a fragment or an address means to be, false when it
// is no link of this package.
func KindOf(text string) (Kind, bool) {
	name, _, ok := strings.Cut(fragment(text), "=")
	i := slices.IndexFunc(kinds(), func(k Kind) bool { return k.name() == name })
	if !ok || i < 0 {
		return 0, false
	}
	return kinds()[i], true
}

// fragment is what stands after the # sign, without what a message has put in.
func fragment(text string) string {
	text = strings.Join(strings.Fields(text), "")
	return text[strings.LastIndexByte(text, '#')+1:]
}

// Decode reads a fragment or an address. Spaces and line ends that a message
// has put in are passed over.
func Decode(text string) (Kind, []byte, error) {
	if len(text) > maxText {
		return 0, nil, ErrTooLong
	}
	want, ok := KindOf(text)
	if !ok {
		return 0, nil, ErrNone
	}
	_, code, _ := strings.Cut(fragment(text), "=")
	frame, err := encoding().DecodeString(code)
	if err != nil || len(frame) < head+tail || frame[0] != magic0 || frame[1] != magic1 {
		return 0, nil, ErrDamaged
	}
	body := frame[:len(frame)-tail]
	if binary.BigEndian.Uint32(frame[len(body):]) != crc32.ChecksumIEEE(body) {
		return 0, nil, ErrDamaged
	}
	kind := Kind(body[3])
	switch {
	case body[2] > version || kind.name() == "":
		return 0, nil, ErrNewer
	case body[2] != version || kind != want:
		return 0, nil, ErrDamaged
	case len(body)-head > MaxData:
		return 0, nil, ErrTooLong
	}
	return kind, body[head:], nil
}
