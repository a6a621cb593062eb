//go:build js && wasm

package main

import (
	"bytes"
	"context"
	"database/sql"
	"io"
	"maps"
	"net/http"
	"time"

	"github.com/syumai/workers/cloudflare"
	"github.com/syumai/workers/cloudflare/d1"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/mem"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/server"
	"chalkfold/sync/wire"
)

// inside is the prefix of what the front alone asks an object for.
const inside = "/inside/"

// front answers messages.
func front() http.Handler {
	if variable("STORE") == "d1" {
		h, err := onD1()
		if err != nil {
			return failing(err)
		}
		return h
	}
	objects, err := cloudflare.NewDurableObjectNamespace("WORKSHOPS")
	if err != nil {
		return failing(err)
	}
	return passing{objects, nothing()}
}

// nothing is a server without any workshop: it answers whatever is no message to one
// as every server does.
func nothing() http.Handler {
	l := mem.New(ledger.Common())
	return server.New(server.Config{Ledger: l, Boxes: l, Now: clock})
}

// clock is the only one of the edge.
func clock() time.Time { return time.Now() } //nolint:forbidigo // here it comes from

// sealed sets the headers of every answer.
func sealed(w http.ResponseWriter) {
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("X-Content-Type-Options", "nosniff")
}

// failing answers that nothing can be answered.
func failing(err error) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		http.Error(w, "the server is not set up: "+err.Error(), http.StatusServiceUnavailable)
	})
}

// passing passes each message on to the object that it is for.
type passing struct {
	objects *cloudflare.DurableObjectNamespace
	nobody  http.Handler
}

func (p passing) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.Method != http.MethodPost {
		p.nobody.ServeHTTP(w, r)
		return
	}
	switch r.URL.Path {
	case server.Path + "box/take":
		p.take(w, r)
		return
	case server.Path + "box/put":
		p.leave(w, r)
		return
	}
	workshop, _, err := wire.ReadBearer(r.Header.Get("Authorization"))
	if err != nil {
		p.nobody.ServeHTTP(w, r)
		return
	}
	p.pass(w, workshop.String(), r.URL.Path, r.Header, r.Body)
}

// pass asks an object and hands its answer on.
func (p passing) pass(w http.ResponseWriter, object, path string, head http.Header, body io.Reader) {
	answer, err := p.ask(object, path, head, body)
	if err != nil {
		http.Error(w, "the server cannot answer now: try again", http.StatusServiceUnavailable)
		return
	}
	defer func() { _ = answer.Body.Close() }()
	clear(w.Header())
	maps.Copy(w.Header(), answer.Header)
	w.WriteHeader(answer.StatusCode)
	_, _ = io.Copy(w, answer.Body) // nobody is there to be told
}

func (p passing) ask(object, path string, head http.Header, body io.Reader) (*http.Response, error) {
	r, err := http.NewRequest(http.MethodPost, "https://object"+path, body)
	if err != nil {
		return nil, err
	}
	for _, name := range []string{"Authorization", "Content-Encoding"} {
		if v := head.Get(name); v != "" {
			r.Header.Set(name, v)
		}
	}
	stub, err := p.objects.Get(p.objects.IdFromName(object))
	if err != nil {
		return nil, err
	}
	return stub.Fetch(r)
}

// message reads a short message, which some object is to be found by. It may be read
// again.
func message(r *http.Request) ([]byte, *http.Request) {
	m, err := io.ReadAll(io.LimitReader(r.Body, wire.MostMessage+1))
	again := r.Clone(r.Context())
	again.Body = io.NopCloser(io.MultiReader(bytes.NewReader(m), failedReader{err}))
	return m, again
}

// failedReader ends as a reader did.
type failedReader struct{ err error }

func (f failedReader) Read([]byte) (int, error) {
	if f.err != nil {
		return 0, f.err
	}
	return 0, io.EOF
}

// box is the name of a box's object, which is no workshop's.
func box(name wire.Name) string { return "box-" + name.String() }

func (p passing) take(w http.ResponseWriter, r *http.Request) {
	m, r := message(r)
	names, err := wire.DecodeNames(m)
	if err != nil || len(names) != 1 {
		p.nobody.ServeHTTP(w, r)
		return
	}
	p.pass(w, box(names[0]), r.URL.Path, r.Header, bytes.NewReader(m))
}

// leave puts a parcel into its box on behalf of a workshop, whose object says first
// whether it is that.
func (p passing) leave(w http.ResponseWriter, r *http.Request) {
	m, r := message(r)
	workshop, _, err := wire.ReadBearer(r.Header.Get("Authorization"))
	if err != nil {
		p.nobody.ServeHTTP(w, r)
		return
	}
	answer, err := p.ask(workshop.String(), server.Path+"usage", r.Header, bytes.NewReader(wire.EncodeAsk()))
	if err != nil || answer.StatusCode != http.StatusOK {
		p.pass(w, workshop.String(), server.Path+"usage", r.Header, bytes.NewReader(wire.EncodeAsk()))
		return
	}
	_ = answer.Body.Close()
	parcel, err := wire.DecodeParcel(m)
	sealed(w)
	switch {
	case len(m) > wire.MostMessage:
		http.Error(w, "the message is too long", http.StatusRequestEntityTooLarge)
	case err != nil:
		http.Error(w, err.Error(), http.StatusBadRequest)
	default:
		p.pass(w, box(parcel.Name), inside+"leave", nil, bytes.NewReader(m))
	}
}

// onD1 keeps all workshops in one database.
func onD1() (http.Handler, error) {
	connector, err := d1.OpenConnector("D1")
	if err != nil {
		return nil, err
	}
	db := database{sql.OpenDB(connector)}
	if err := made(context.Background(), db); err != nil {
		return nil, err
	}
	l := tables.New(db, quota())
	return server.New(server.Config{Ledger: l, Boxes: l, Now: clock, Invite: invitations(), Failed: failed}), nil
}

// made makes the tables where they are not.
func made(ctx context.Context, db tables.DB) error {
	rows, err := db.Read(ctx, tables.Made)
	if err != nil || len(rows) > 0 {
		return err
	}
	for _, s := range tables.Make() {
		if _, err := db.Write(ctx, s); err != nil {
			return err
		}
	}
	return nil
}

// A database is one behind database/sql.
type database struct{ db *sql.DB }

func (d database) Read(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	rows, err := d.db.QueryContext(ctx, statement, parameters...)
	if err != nil {
		return nil, err
	}
	return tables.Collect(rows)
}

func (d database) Write(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	return d.Read(ctx, statement, parameters...)
}
