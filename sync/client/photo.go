package client

import (
	"context"
	"errors"

	"chalkfold/sync/seal"
	"chalkfold/sync/wire"
)

// ErrNoChunk says that the server does not have all of a photo, yet or any more.
var ErrNoChunk = errors.New("the server does not have all of this photo")

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
	return nil
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
	return nil
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
