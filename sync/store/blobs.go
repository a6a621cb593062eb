package store

import (
	"context"
	"errors"
	"unicode/utf8"
)

// Blobs keeps the bytes of pictures beside the records, under names that records
// give them. A blob is not read when records are; other bytes should have another name.
// A Store may have a place for them or not.
type Blobs interface {
	// PutBlob keeps a blob and the records that name it, with the same care as Put:
	// both or none.
	PutBlob(ctx context.Context, name string, data []byte, records ...Record) error
	// Blob returns the bytes of that name, or ErrNotFound.
	Blob(ctx context.Context, name string) ([]byte, error)
	// BlobNames returns all names that are kept, in their order, without reading the
	// bytes.
	BlobNames(ctx context.Context) ([]string, error)
	// DropBlobs removes blobs. One that is not there is no error.
	DropBlobs(ctx context.Context, names ...string) error
}

// Recent finds what was put last, without reading the rest. A Store may be able to or
// not.
type Recent interface {
	// Newest returns, of the records of a kind that are wanted, the one that was made
	// last, or ErrNotFound; and how many records there are of the kind.
	Newest(ctx context.Context, kind string, wanted func(Record) bool) (r Record, n int, err error)
}

// CheckBlob says what keeps a blob from being kept.
func CheckBlob(name string, data []byte) error {
	switch {
	case name == "" || !utf8.ValidString(name):
		return errors.New("blob: the name is empty, or no UTF-8: give it one")
	case len(data) == 0:
		return errors.New("blob: it is empty")
	}
	return nil
}
