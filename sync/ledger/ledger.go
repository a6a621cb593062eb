// Package ledger says what a server keeps of workshops: for each a ledger of sealed
// entries and the chunks of its photos, and for all of them boxes with parcels for
// devices that are being paired. The package comment of sync says what these are.
//
//	err := l.Create(ctx, workshop, proof)      // once for each workshop
//	at, err := l.Append(ctx, workshop, base, entries)
//	page, err := l.Pull(ctx, workshop, after, most)
//
// A ledger knows nothing of what it keeps, and checks no credentials: package server
// does, with the proof that it gets from here. ledgertest is the one conformance
// suite of every ledger; mem keeps them in memory.
package ledger

import (
	"context"
	"errors"
	"time"

	"chalkfold/sync/wire"
)

// Proof is the SHA-256 of a workshop's token.
type Proof [32]byte

// BoxTime is how long a parcel can be taken.
const BoxTime = 10 * time.Minute

// Stubs is how many of the latest entries of a workshop keep at least a stub.
const Stubs = 1 << 16

// The errors that a caller may want to tell apart, by errors.Is. After any of them
// nothing has changed.
var (
	ErrUnknown  = errors.New("no such workshop")
	ErrTaken    = errors.New("a workshop of that name is there, with another proof")
	ErrClosed   = errors.New("the workshop was closed")
	ErrBehind   = errors.New("the base is not the head: pull first")
	ErrDiverged = errors.New("the position is none of this ledger: pull from the start")
	ErrFull     = errors.New("the workshop's quota is used up")
	ErrNoChunk  = errors.New("no such chunk")
	ErrNoParcel = errors.New("no parcel there: it was taken, or its time is over")
)

// Quota is how much a workshop may keep, in bytes.
type Quota struct {
	Log    int64 // of the blobs of live entries
	Chunks int64
}

// Common is the quota of a workshop where nobody chose another: some 20,000 records
// of usual size, and some 2,000 photos.
func Common() Quota { return Quota{Log: 64 << 20, Chunks: 512 << 20} }

// Ledger keeps workshops. Every method may be called from several goroutines at
// once. What returned nil has reached the disk, if there is one. An error of the
// context, or one that is none of this package, leaves open whether a change was
// made; every change can be asked for again.
//
// Every method but Create and Proof returns ErrUnknown where there is no such
// workshop, and every one but Create, Proof and Close returns ErrClosed for one that
// was closed. What is passed in is not changed or held on to, what is returned
// shares memory with nothing.
type Ledger interface {
	// Create makes a workshop with that proof, and returns the head: the zero
	// position for a new one. It is no error if it is there with that proof; with
	// another, the error is ErrTaken, once it is closed, ErrClosed.
	Create(ctx context.Context, w wire.Workshop, p Proof) (wire.Position, error)
	// Proof returns the proof of a workshop, closed or not.
	Proof(ctx context.Context, w wire.Workshop) (Proof, error)
	// Append adds the entries after base, all of them or none, and returns the
	// position of the last of them. Their Seq is not looked at. The push must pass
	// wire's Check.
	//
	// If every id is in the ledger already, live or as a stub, nothing is added,
	// and the position of the one with the highest number is returned, whatever
	// base is. Else base must be the head, in number and id, or the error is
	// ErrBehind. ErrFull says that with the entries, and without those that they
	// supersede, more would be kept than the quota allows.
	//
	// Numbers rise, may leave gaps, and are below wire.LargestSeq. Once the
	// entries are in, earlier ones of their slots are stubs.
	Append(ctx context.Context, w wire.Workshop, base wire.Position, entries []wire.Entry) (wire.Position, error)
	// Pull returns the live entries after a position, by their numbers, as many as
	// have most bytes by their Size, but one at least. most is held to
	// wire.MostPage. The error is ErrDiverged if after is neither the zero position
	// nor the position of an entry or stub that is there.
	Pull(ctx context.Context, w wire.Workshop, after wire.Position, most int) (wire.Page, error)
	// Usage tells what the workshop keeps, and what it may.
	Usage(ctx context.Context, w wire.Workshop) (wire.Usage, error)
	// Close removes all that a workshop keeps, and remembers its proof. One that is
	// closed is no error.
	Close(ctx context.Context, w wire.Workshop) error

	// PutChunk keeps a chunk, unless one of that name is there, which is no error.
	PutChunk(ctx context.Context, w wire.Workshop, c wire.Chunk) error
	// Chunk returns a chunk, or ErrNoChunk.
	Chunk(ctx context.Context, w wire.Workshop, name wire.Name) (wire.Chunk, error)
	// Missing returns those of the names under which there is no chunk, in the order
	// given.
	Missing(ctx context.Context, w wire.Workshop, names []wire.Name) ([]wire.Name, error)
	// DropChunks removes chunks. One that is not there is no error.
	DropChunks(ctx context.Context, w wire.Workshop, names []wire.Name) error
}

// Boxes keep parcels for a short time, on behalf of no workshop in particular.
type Boxes interface {
	// Leave keeps a parcel until then, in place of one of that name.
	Leave(ctx context.Context, p wire.Parcel, until time.Time) error
	// Take returns a parcel and removes it, so that it is had once. The error is
	// ErrNoParcel if there is none, or its time was over at now.
	Take(ctx context.Context, name wire.Name, now time.Time) (wire.Parcel, error)
}
