// Package server answers the messages of package sync over HTTP, for any ledger.
//
//	mux.Handle(server.Path, server.New(server.Config{Ledger: l, Boxes: l, Now: time.Now}))
//
// It checks credentials and sizes, and passes on what fits. It never sees a key:
// nothing here can open what it carries, and the package of sealing must not be
// imported. Quotas are the ledger's; limits of rate, timeouts and TLS are those of
// the program that listens.
package server

import (
	"context"
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"io"
	"net/http"
	"strings"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// Path is the prefix of all messages; what follows it is in sync's table.
const Path = "/sync/1/"

// Config is what a server works with.
type Config struct {
	Ledger ledger.Ledger
	Boxes  ledger.Boxes
	Now    func() time.Time
	// Invite says whether whoever shows an invitation may create a workshop. Nil
	// admits everyone.
	Invite func(ctx context.Context, invitation string) bool
	// Moved, if it is not nil, hears of every new head.
	Moved func(w wire.Workshop, head wire.Position)
	// Failed, if it is not nil, hears of every error that is nobody's doing. It
	// must not be told to whoever asked.
	Failed func(r *http.Request, err error)
}

// New returns the handler of everything below Path.
func New(c Config) http.Handler {
	s := &server{c}
	mux := http.NewServeMux()
	for path, answer := range map[string]answerer{
		"create":        s.create,
		"pull":          s.within(s.pull),
		"push":          s.within(s.push),
		"close":         s.within(s.close),
		"usage":         s.within(s.usage),
		"chunk/put":     s.within(s.putChunk),
		"chunk/get":     s.within(s.chunk),
		"chunk/missing": s.within(s.missing),
		"chunk/drop":    s.within(s.dropChunks),
		"box/put":       s.within(s.leave),
		"box/take":      s.take,
	} {
		mux.Handle(Path+path, s.handler(answer))
	}
	return mux
}

// Invited returns an Invite that admits whoever shows one of the invitations. It takes
// as long for any that is wrong.
func Invited(all []string) func(context.Context, string) bool {
	sums := make([][sha256.Size]byte, len(all))
	for i, s := range all {
		sums[i] = sha256.Sum256([]byte(strings.TrimSpace(s)))
	}
	return func(_ context.Context, shown string) bool {
		sum, known := sha256.Sum256([]byte(strings.TrimSpace(shown))), 0
		for i := range sums {
			known |= subtle.ConstantTimeCompare(sum[:], sums[i][:])
		}
		return known == 1
	}
}

type server struct{ Config }

// An answerer answers the message of a request.
type answerer func(r *http.Request, message []byte) (answer []byte, err error)

// A member answers the message of a device that has shown its credentials.
type member func(ctx context.Context, w wire.Workshop, message []byte) (answer []byte, err error)

// refused is an error with its status. An answer of 409 goes with its page.
type refused struct {
	status int
	why    string
}

func (r refused) Error() string { return r.why }

// handler reads the message and writes the answer.
func (s *server) handler(answer answerer) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		head := w.Header()
		head.Set("Cache-Control", "no-store")
		head.Set("X-Content-Type-Options", "nosniff")
		message, err := read(w, r)
		var body []byte
		if err == nil {
			body, err = answer(r, message)
		}
		status := http.StatusOK
		if err != nil {
			var why string
			if status, why = s.status(r, err); status != http.StatusConflict {
				http.Error(w, why, status)
				return
			}
		}
		head.Set("Content-Type", "application/octet-stream")
		w.WriteHeader(status)
		_, _ = w.Write(body) // nobody is there to be told
	})
}

// read reads the message of a request.
func read(w http.ResponseWriter, r *http.Request) ([]byte, error) {
	if r.Method != http.MethodPost {
		w.Header().Set("Allow", http.MethodPost)
		return nil, refused{http.StatusMethodNotAllowed, "messages are sent by POST"}
	}
	if e := r.Header.Get("Content-Encoding"); e != "" && e != "identity" {
		return nil, refused{http.StatusUnsupportedMediaType, "messages are sent as they are"}
	}
	if r.ContentLength > wire.MostMessage {
		return nil, refused{http.StatusRequestEntityTooLarge, "the message is too long"}
	}
	message, err := io.ReadAll(http.MaxBytesReader(w, r.Body, wire.MostMessage))
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &long):
		return nil, refused{http.StatusRequestEntityTooLarge, "the message is too long"}
	case err != nil:
		return nil, refused{http.StatusBadRequest, "the message was cut short"}
	}
	return message, nil
}

// status tells an error as a status and a line of text.
func (s *server) status(r *http.Request, err error) (int, string) {
	var no refused
	if errors.As(err, &no) {
		return no.status, no.why
	}
	for _, known := range []struct {
		err    error
		status int
	}{
		{wire.ErrMessage, http.StatusBadRequest},
		{ledger.ErrUnknown, http.StatusUnauthorized},
		{ledger.ErrTaken, http.StatusUnauthorized},
		{ledger.ErrClosed, http.StatusGone},
		{ledger.ErrBehind, http.StatusConflict},
		{ledger.ErrDiverged, http.StatusPreconditionFailed},
		{ledger.ErrFull, http.StatusInsufficientStorage},
		{ledger.ErrNoChunk, http.StatusNotFound},
		{ledger.ErrNoParcel, http.StatusNotFound},
	} {
		if errors.Is(err, known.err) {
			if known.status == http.StatusUnauthorized {
				return known.status, errWho.why
			}
			return known.status, known.err.Error()
		}
	}
	if s.Failed != nil {
		s.Failed(r, err)
	}
	return http.StatusServiceUnavailable, "the server cannot answer now: try again"
}

// errWho is the one answer to credentials that are missing, wrong, or of no
// workshop.
var errWho = refused{http.StatusUnauthorized, "no such workshop, or not its token"}

// proofOf reads credentials.
func proofOf(credentials string) (wire.Workshop, ledger.Proof, error) {
	w, token, err := wire.ReadBearer(credentials)
	if err != nil {
		return w, ledger.Proof{}, errWho
	}
	return w, sha256.Sum256(token[:]), nil
}

// within answers only to the workshop's own devices.
func (s *server) within(answer member) answerer {
	return func(r *http.Request, message []byte) ([]byte, error) {
		w, err := Admit(r.Context(), s.Ledger, r.Header.Get("Authorization"))
		if err != nil {
			return nil, err
		}
		return answer(r.Context(), w, message)
	}
}

// Admit returns the workshop of credentials, the text of an Authorization header, if
// the ledger knows both. Refusals are alike, whatever was wrong; any other error is
// the ledger's.
func Admit(ctx context.Context, l ledger.Ledger, credentials string) (wire.Workshop, error) {
	w, shown, err := proofOf(credentials)
	if err != nil {
		return wire.Workshop{}, err
	}
	kept, err := l.Proof(ctx, w)
	if err != nil && !errors.Is(err, ledger.ErrUnknown) {
		return wire.Workshop{}, err
	}
	same := subtle.ConstantTimeCompare(kept[:], shown[:]) == 1 // nought is no token's
	if err != nil || !same {
		return wire.Workshop{}, errWho
	}
	return w, nil
}
