package client

import (
	"context"
	"encoding/binary"
	"errors"
	"maps"
	"slices"
	"time"

	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// ErrNoChunk says that the server does not have all of a photo, yet or any more.
var ErrNoChunk = errors.New("the server does not have all of this photo")

// Photo is a picture that a record names: by 16 random bytes, with its size in bytes.
type Photo struct {
	Name wire.Name
	Size int
}

// Photos makes the server even with the photos that records name. Those that were not
// sent yet are, if read has their bytes and does not say store.ErrNotFound. Those that
// were and that no record names any more are dropped: every lists all that are named
// at that moment, in whatever window; it is not ok where some record cannot be read, and
// nothing is dropped then.
func (c *Client) Photos(ctx context.Context, named []Photo, every func() (all []Photo, ok bool), read func(wire.Name) ([]byte, error)) error {
	if c.this == nil {
		return ErrNotBegun
	}
	for _, p := range named {
		if c.PhotoSent(p.Name) {
			continue
		}
		data, err := read(p.Name)
		if errors.Is(err, store.ErrNotFound) {
			continue
		}
		if err != nil {
			return err
		}
		if err := c.SendPhoto(ctx, p.Name, data); err != nil {
			return err
		}
	}
	left := c.photosBut(named)
	if len(left) == 0 {
		return nil
	}
	all, ok := every()
	if !ok {
		return nil
	}
	left = c.photosBut(all)
	for _, id := range slices.Sorted(maps.Keys(left)) {
		m := left[id]
		if m.era == c.this.era {
			if err := c.DropPhoto(ctx, m.photo.Name, m.photo.Size); err != nil {
				return err
			}
		}
		if err := c.unmarkPhoto(ctx, id); err != nil {
			return err
		}
	}
	return nil
}

// photoMark notes that the server has a photo.
type photoMark struct {
	photo Photo
	era   uint32 // in which it had
}

// PhotoSent reports whether the server has a photo, as far as this device knows.
func (c *Client) PhotoSent(photo wire.Name) bool {
	if c.this == nil {
		return false
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	m, ok := c.photos[photo.String()]
	return ok && m.era == c.this.era
}

// photosBut are the photos that were sent, but for those that are named.
func (c *Client) photosBut(named []Photo) map[string]photoMark {
	c.mu.Lock()
	defer c.mu.Unlock()
	left := maps.Clone(c.photos)
	for _, p := range named {
		delete(left, p.Name.String())
	}
	return left
}

// markPhoto notes that the server has a photo now.
func (c *Client) markPhoto(ctx context.Context, p Photo) error {
	id, m := p.Name.String(), photoMark{p, c.this.era}
	r, err := c.Store.Get(ctx, KindPhoto, id)
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return err
	}
	data := binary.BigEndian.AppendUint32([]byte{keptForm}, m.era)
	data = binary.BigEndian.AppendUint32(data, uint32(p.Size))
	err = c.Store.Put(ctx, store.Record{Kind: KindPhoto, ID: id, Rev: r.Rev + 1, Data: data, Updated: time.UnixMilli(c.Now())})
	if err != nil && !errors.Is(err, store.ErrStale) { // stale: another window has noted it
		return err
	}
	c.mu.Lock()
	c.photos[id] = m
	c.mu.Unlock()
	return nil
}

// unmarkPhoto forgets that the server had a photo.
func (c *Client) unmarkPhoto(ctx context.Context, id string) error {
	r, err := c.Store.Get(ctx, KindPhoto, id)
	if err == nil {
		err = c.Store.Delete(ctx, KindPhoto, id, r.Rev)
	}
	if err != nil && !errors.Is(err, store.ErrNotFound) {
		return err
	}
	c.mu.Lock()
	delete(c.photos, id)
	c.mu.Unlock()
	return nil
}

// decodePhotoMark reads a mark; one that is damaged says nothing.
func decodePhotoMark(r store.Record) (m photoMark, ok bool) {
	name, err := wire.ReadName(r.ID)
	b := r.Data
	if err != nil || len(b) != 9 || b[0] != keptForm {
		return m, false
	}
	return photoMark{Photo{name, int(binary.BigEndian.Uint32(b[5:]))}, binary.BigEndian.Uint32(b[1:])}, true
}

// Chunks is how many chunks a photo of so many bytes has.
func Chunks(size int) int { return (size + seal.ChunkText - 1) / seal.ChunkText }

// SendPhoto sends a photo under its name, 16 random bytes that its record keeps with
// its size. Of a photo that was sent in part, the rest is sent.
func (c *Client) SendPhoto(ctx context.Context, photo wire.Name, data []byte) error {
	if c.this == nil {
		return ErrNotBegun
	}
	for first := 0; first < Chunks(len(data)); first += wire.MostNames {
		names := c.chunkNames(photo, first, min(Chunks(len(data)), first+wire.MostNames))
		number := make(map[wire.Name]int, len(names))
		for i, n := range names {
			number[n] = first + i
		}
		body, err := c.ask(ctx, "chunk/missing", wire.EncodeNames(names))
		if err != nil {
			return err
		}
		missing, err := wire.DecodeNames(body)
		if err != nil {
			return err
		}
		for _, name := range missing {
			i, ours := number[name]
			if !ours {
				return wire.ErrMessage
			}
			text := data[i*seal.ChunkText : min(len(data), (i+1)*seal.ChunkText)]
			chunk := wire.Chunk{Name: name, Blob: c.keys.SealChunk(name, seal.NewNonce(c.Random), text)}
			if _, err := c.ask(ctx, "chunk/put", chunk.Encode()); err != nil {
				return err
			}
		}
	}
	return c.markPhoto(ctx, Photo{photo, len(data)})
}

// FetchPhoto fetches the chunks of a photo of so many bytes from that number on, and
// hands each to got with its number. A photo is fetched on from where the line was
// cut. The error is ErrNoChunk where the server does not have one, seal.ErrOpen where
// one does not open.
func (c *Client) FetchPhoto(ctx context.Context, photo wire.Name, size, from int, got func(number int, text []byte) error) error {
	if c.this == nil {
		return ErrNotBegun
	}
	for i := from; i < Chunks(size); i++ {
		names := c.chunkNames(photo, i, i+1)
		body, err := c.ask(ctx, "chunk/get", wire.EncodeNames(names))
		if err != nil {
			return err
		}
		chunk, err := wire.DecodeChunk(body)
		if err != nil {
			return err
		}
		text, err := c.keys.OpenChunk(names[0], chunk.Blob)
		if err != nil {
			return err
		}
		if want := min(seal.ChunkText, size-i*seal.ChunkText); chunk.Name != names[0] || len(text) != want {
			return seal.ErrOpen
		}
		if err := got(i, text); err != nil {
			return err
		}
	}
	return c.markPhoto(ctx, Photo{photo, size})
}

// DropPhoto removes a photo of so many bytes from the server. The record that named
// it must be gone, or name it no more, and that must have been sent.
func (c *Client) DropPhoto(ctx context.Context, photo wire.Name, size int) error {
	if c.this == nil {
		return ErrNotBegun
	}
	for first := 0; first < Chunks(size); first += wire.MostNames {
		names := c.chunkNames(photo, first, min(Chunks(size), first+wire.MostNames))
		if _, err := c.ask(ctx, "chunk/drop", wire.EncodeNames(names)); err != nil {
			return err
		}
	}
	return nil
}

func (c *Client) chunkNames(photo wire.Name, from, to int) []wire.Name {
	names := make([]wire.Name, 0, to-from)
	for i := from; i < to; i++ {
		names = append(names, c.keys.Chunk(photo, uint32(i)))
	}
	return names
}

// ask sends a message of which only one answer is of use.
func (c *Client) ask(ctx context.Context, path string, message []byte) ([]byte, error) {
	status, body, err := c.send(ctx, path, message)
	switch {
	case err != nil:
		return nil, err
	case status == statusNotFound:
		return nil, ErrNoChunk
	case status != statusOK:
		return nil, refusal(path, status)
	}
	return body, nil
}
