package server

import (
	"context"
	"errors"
	"net/http"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// pageAfterPush is how much of what a device is behind comes with the refusal of
// its push.
const pageAfterPush = 32 << 10

func (s *server) create(r *http.Request, message []byte) ([]byte, error) {
	w, proof, err := proofOf(r.Header.Get("Authorization"))
	if err != nil {
		return nil, err
	}
	c, err := wire.DecodeCreate(message)
	if err != nil {
		return nil, err
	}
	// One that is there needs no invitation any more.
	if _, err := s.Ledger.Proof(r.Context(), w); errors.Is(err, ledger.ErrUnknown) && s.Invite != nil && !s.Invite(r.Context(), c.Invite) {
		return nil, refused{http.StatusForbidden, "this server admits only whoever is invited"}
	}
	head, err := s.Ledger.Create(r.Context(), w, proof)
	return head.Encode(), err
}

func (s *server) pull(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	p, err := wire.DecodePull(message)
	if err != nil {
		return nil, err
	}
	page, err := s.Ledger.Pull(ctx, w, p.After, int(min(p.Most, wire.MostPage)))
	return page.Encode(), err
}

func (s *server) push(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	p, err := wire.DecodePush(message)
	if err != nil {
		return nil, err
	}
	at, err := s.Ledger.Append(ctx, w, p.Base, p.Entries)
	if errors.Is(err, ledger.ErrBehind) {
		page, pullErr := s.Ledger.Pull(ctx, w, p.Base, pageAfterPush)
		if pullErr != nil {
			return nil, pullErr
		}
		return page.Encode(), err
	}
	if err == nil && s.Moved != nil {
		s.Moved(w, at)
	}
	return at.Encode(), err
}

func (s *server) close(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	if err := wire.DecodeClose(message); err != nil {
		return nil, err
	}
	return wire.EncodeDone(), s.Ledger.Close(ctx, w)
}

func (s *server) usage(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	if err := wire.DecodeAsk(message); err != nil {
		return nil, err
	}
	u, err := s.Ledger.Usage(ctx, w)
	return u.Encode(), err
}

func (s *server) putChunk(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	c, err := wire.DecodeChunk(message)
	if err != nil {
		return nil, err
	}
	return wire.EncodeDone(), s.Ledger.PutChunk(ctx, w, c)
}

func (s *server) chunk(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	name, err := oneName(message)
	if err != nil {
		return nil, err
	}
	c, err := s.Ledger.Chunk(ctx, w, name)
	return c.Encode(), err
}

func (s *server) missing(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	names, err := wire.DecodeNames(message)
	if err != nil {
		return nil, err
	}
	missing, err := s.Ledger.Missing(ctx, w, names)
	return wire.EncodeNames(missing), err
}

func (s *server) dropChunks(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	names, err := wire.DecodeNames(message)
	if err != nil {
		return nil, err
	}
	return wire.EncodeDone(), s.Ledger.DropChunks(ctx, w, names)
}

func (s *server) leave(ctx context.Context, w wire.Workshop, message []byte) ([]byte, error) {
	p, err := wire.DecodeParcel(message)
	if err != nil {
		return nil, err
	}
	if _, err := s.Ledger.Usage(ctx, w); err != nil { // a closed workshop leaves nothing
		return nil, err
	}
	return wire.EncodeDone(), s.Boxes.Leave(ctx, p, s.Now().Add(ledger.BoxTime))
}

func (s *server) take(r *http.Request, message []byte) ([]byte, error) {
	name, err := oneName(message)
	if err != nil {
		return nil, err
	}
	p, err := s.Boxes.Take(r.Context(), name, s.Now())
	return p.Encode(), err
}

// oneName reads the one name of a message.
func oneName(message []byte) (wire.Name, error) {
	names, err := wire.DecodeNames(message)
	if err == nil && len(names) != 1 {
		err = wire.ErrMessage
	}
	if err != nil {
		return wire.Name{}, err
	}
	return names[0], nil
}
