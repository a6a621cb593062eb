package client

import (
	"context"
	"encoding/binary"
	"errors"

	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// ErrNoParcel says that a code is wrong, was used before, or has lapsed.
var ErrNoParcel = errors.New("no phone offers its workshop under this code: show a new one there, it holds for ten minutes and works once")

// Offer leaves the workshop's key on the server, sealed, for the one phone that is
// told the code within ten minutes.
func (c *Client) Offer(ctx context.Context, code seal.Code) error {
	if c.this == nil {
		return ErrNotBegun
	}
	p := code.Parcel(c.this.key, seal.NewNonce(c.Random))
	_, err := c.ask(ctx, "box/put", p.Encode())
	return err
}

// Accept fetches the key that another phone offers.
func Accept(ctx context.Context, line Line, code seal.Code) (seal.Key, error) {
	status, body, err := line.Send(ctx, "box/take", "", wire.EncodeNames([]wire.Name{code.Box()}))
	switch {
	case err != nil:
		return seal.Key{}, err
	case status == statusNotFound:
		return seal.Key{}, ErrNoParcel
	case status != statusOK:
		return seal.Key{}, refusal("box/take", status)
	}
	p, err := wire.DecodeParcel(body)
	if err != nil {
		return seal.Key{}, err
	}
	return code.Unpack(p)
}

// The errors of Take.
var (
	ErrNoBundle = errors.New("this is no file of a second copy, or not the whole of it")
	ErrOthers   = errors.New("this file is of another workshop")
)

// A bundle is all docs in one file, for phones side by side where there is no
// server: this, the workshop's name, then pages, each after its length in four bytes,
// the last without an entry.
const bundleHead = "chalkfold second copy 1\n"

// Bundle writes the whole copy, sealed, for a phone of this workshop.
func (c *Client) Bundle(ctx context.Context) (file []byte, err error) {
	if c.this == nil {
		return nil, ErrNotBegun
	}
	c.patience = patience
	err = c.again(func() error {
		file, err = c.bundle(ctx)
		return err
	})
	return file, err
}

func (c *Client) bundle(ctx context.Context) ([]byte, error) {
	if err := c.gather(ctx); err != nil {
		return nil, err
	}
	c.mu.Lock()
	todo := sorted(c.notes)
	c.mu.Unlock()
	file := append([]byte(bundleHead), c.keys.Workshop[:]...)
	for len(todo) > 0 {
		s, err := c.seal(ctx, todo, mostAtOnce)
		if err != nil {
			return nil, err
		}
		rest := todo[:0:0]
		for _, k := range todo {
			if s.docs[k] == nil && !c.heavy[k] {
				rest = append(rest, k)
			}
		}
		if len(s.docs) == 0 && len(rest) == len(todo) {
			return nil, store.ErrStale
		}
		todo = rest
		if len(s.docs) == 0 { // all of them too large
			continue
		}
		var p wire.Page
		for i, e := range s.push.Entries {
			e.Seq = uint64(i + 1)
			p.Entries, p.To = append(p.Entries, e), e.At()
		}
		file = appendPage(file, p)
	}
	return appendPage(file, wire.Page{}), nil
}

func appendPage(file []byte, p wire.Page) []byte {
	page := p.Encode()
	return append(binary.BigEndian.AppendUint32(file, uint32(len(page))), page...)
}

// Take takes in what a bundle holds, and tells of how many records. A file that is
// cut short is refused before anything of it is taken.
func (c *Client) Take(ctx context.Context, file []byte) (int, error) {
	if c.this == nil {
		return 0, ErrNotBegun
	}
	pages, err := c.pages(file)
	if err != nil {
		return 0, err
	}
	if err := c.gather(ctx); err != nil {
		return 0, err
	}
	n := 0
	for _, p := range pages {
		if err := c.applyBeside(ctx, p.Entries); err != nil {
			return n, err
		}
		n += len(p.Entries)
	}
	return n, c.gather(ctx)
}

// pages reads the pages of a bundle.
func (c *Client) pages(file []byte) ([]wire.Page, error) {
	const start = len(bundleHead) + len(wire.Workshop{})
	if len(file) < start || string(file[:len(bundleHead)]) != bundleHead {
		return nil, ErrNoBundle
	}
	if wire.Workshop(file[len(bundleHead):start]) != c.keys.Workshop {
		return nil, ErrOthers
	}
	var pages []wire.Page
	slots := map[wire.Name]bool{}
	for file = file[start:]; ; {
		if len(file) < 4 || uint64(binary.BigEndian.Uint32(file)) > uint64(len(file)-4) {
			return nil, ErrNoBundle
		}
		size := int(binary.BigEndian.Uint32(file))
		p, err := wire.DecodePage(file[4 : 4+size])
		if err != nil {
			return nil, ErrNoBundle
		}
		for _, e := range p.Entries {
			if slots[e.Slot] {
				return nil, ErrNoBundle
			}
			slots[e.Slot] = true
			if _, err := c.open(e); errors.Is(err, seal.ErrOpen) {
				return nil, ErrNoBundle
			}
		}
		file = file[4+size:]
		if len(p.Entries) == 0 {
			break
		}
		pages = append(pages, p)
	}
	if len(file) > 0 {
		return nil, ErrNoBundle
	}
	return pages, nil
}
