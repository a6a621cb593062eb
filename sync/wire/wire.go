// Package wire is the messages between a device and a server, as Go values and as
// bytes. The package comment of sync says what they mean and which answers which.
//
//	body := wire.Pull{After: at, Most: 64 << 10}.Encode()
//	page, err := wire.DecodePage(answer)
//
// A message is one byte of the form of these messages, 1, one that tells which
// message it is, and its parts in the order of its fields. Numbers are big-endian:
// four bytes for a length or a count, eight for the rest. Names are 16 bytes as
// they are. Bytes and texts have their length before them, lists their count.
//
// Decoders take any bytes at all. They refuse what is cut short, what goes on after
// its end and what is over a limit, make no room for more than they were given, and
// what they accept encodes to the same bytes again. What they return shares memory
// with what they were given.
package wire

import (
	"encoding/hex"
	"errors"
	"fmt"
)

// The limits, in bytes unless they say otherwise.
const (
	MostBlob     = 256 << 10 // of an entry
	MostChunk    = 64 << 10  // sealed
	MostParcel   = 1 << 10
	MostInvite   = 64
	MostEntries  = 256     // entries of one push
	MostNames    = 1024    // names of one message
	MostPage     = 1 << 20 // entries of one page by their Size
	MostMessage  = 1<<20 + 64<<10
	LargestSeq   = 1<<53 - 1 // of an entry's number: what a double holds
	entryHead    = 16 + 16 + 4
	seqEntryHead = 8 + entryHead
)

// Workshop is the name of a workshop: 16 bytes made from its key.
type Workshop [16]byte

// String is the name in hex.
func (w Workshop) String() string { return hex.EncodeToString(w[:]) }

// Token shows that a device belongs to a workshop. It is secret.
type Token [32]byte

// Name is the name of a slot, an entry, a chunk or a box.
type Name [16]byte

// String is the name in hex.
func (n Name) String() string { return hex.EncodeToString(n[:]) }

// ReadName reads what String wrote.
func ReadName(s string) (n Name, err error) {
	b, err := hex.DecodeString(s)
	if err != nil || len(b) != len(n) {
		return n, fmt.Errorf("%w: no name: %q", ErrMessage, s)
	}
	return Name(b), nil
}

// Position is everything up to an entry of a ledger. The zero value is before the
// first.
type Position struct {
	Seq uint64 // the entry's number, at most LargestSeq
	ID  Name   // the entry's id
}

// Entry is one sealed state of one record.
type Entry struct {
	// Seq is its number in the ledger; nought before it has one.
	Seq  uint64
	ID   Name
	Slot Name
	Blob []byte // not empty
}

// Size is how many bytes the entry takes in a page.
func (e Entry) Size() int { return seqEntryHead + len(e.Blob) }

// At is the position of the entry.
func (e Entry) At() Position { return Position{e.Seq, e.ID} }

// Create asks for a workshop's ledger.
type Create struct{ Invite string }

// Pull asks for what follows After, in Most bytes by the Size of the entries. A
// server may send less; it sends one entry at least, if there is one, however large.
type Pull struct {
	After Position
	Most  uint32
}

// Page is what follows a position.
type Page struct {
	// To is the position up to which the page tells everything.
	To Position
	// More says that there is more after To.
	More    bool
	Entries []Entry // by Seq, rising
}

// Push asks to append entries after Base, which must be the head.
type Push struct {
	Base    Position
	Entries []Entry // their Seq is not sent
}

// Usage is what a workshop's copy takes up.
type Usage struct {
	Entries    uint64 // live ones
	LogBytes   uint64 // of their blobs
	LogQuota   uint64
	Chunks     uint64
	ChunkBytes uint64
	ChunkQuota uint64
}

// Chunk is a sealed piece of a photo.
type Chunk struct {
	Name Name
	Blob []byte // not empty
}

// Parcel is a key, sealed for whoever knows the pairing code.
type Parcel struct {
	Name Name // of its box
	Blob []byte
}

// Bearer is the text of the Authorization header.
func Bearer(w Workshop, t Token) string {
	return "Bearer " + hex.EncodeToString(w[:]) + hex.EncodeToString(t[:])
}

// ErrCredentials says that an Authorization header is none of ours.
var ErrCredentials = errors.New("the credentials are not of this protocol")

// ReadBearer reads what Bearer wrote.
func ReadBearer(s string) (w Workshop, t Token, err error) {
	const scheme, digits = "Bearer ", 2 * (len(w) + len(t))
	if len(s) != len(scheme)+digits || s[:len(scheme)] != scheme {
		return w, t, ErrCredentials
	}
	both, err := hex.DecodeString(s[len(scheme):])
	if err != nil {
		return w, t, ErrCredentials
	}
	copy(w[:], both)
	copy(t[:], both[len(w):])
	if Bearer(w, t) != s { // capitals
		return Workshop{}, Token{}, ErrCredentials
	}
	return w, t, nil
}

// Check says why a push cannot be appended whatever the ledger holds.
func (p Push) Check() error {
	if n := len(p.Entries); n == 0 || n > MostEntries {
		return fmt.Errorf("%w: a push of %d entries", ErrMessage, n)
	}
	seen := make(map[Name]bool, 2*len(p.Entries))
	slots := make(map[Name]bool, len(p.Entries))
	for _, e := range p.Entries {
		switch {
		case seen[e.ID]:
			return fmt.Errorf("%w: the id %v twice", ErrMessage, e.ID)
		case slots[e.Slot]:
			return fmt.Errorf("%w: the slot %v twice", ErrMessage, e.Slot)
		case e.ID == Name{}:
			return fmt.Errorf("%w: an entry without an id", ErrMessage)
		case len(e.Blob) == 0 || len(e.Blob) > MostBlob:
			return fmt.Errorf("%w: a blob of %d bytes", ErrMessage, len(e.Blob))
		}
		seen[e.ID], slots[e.Slot] = true, true
	}
	return nil
}
