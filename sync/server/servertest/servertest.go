// Package servertest is the one conformance suite of every server: it speaks to it
// over HTTP alone.
package servertest

import (
	"bytes"
	"context"
	"crypto/rand"
	"io"
	"net/http"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/server"
	"chalkfold/sync/wire"
)

// Invitation is the one that a server under test admits, unless it admits everyone.
const Invitation = "a friend of the house"

// Run runs the whole suite against the server at base, "http://127.0.0.1:8765". Each
// test has workshops of its own.
func Run(t *testing.T, base string) {
	t.Helper()
	tests := []struct {
		name string
		run  func(t *testing.T, base string)
	}{
		{"a workshop's days", days},
		{"chunks", chunks},
		{"boxes", boxes},
		{"close", closing},
		{"credentials", credentials},
		{"malformed", malformed},
		{"headers", headers},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { tt.run(t, base) })
	}
}

// A device speaks to a server.
type device struct {
	t      *testing.T
	base   string
	bearer string
}

// stranger is a device of a workshop that is not there yet.
func stranger(t *testing.T, base string) device {
	t.Helper()
	return device{t, base, wire.Bearer(wire.Workshop(random(16)), wire.Token(random(32)))}
}

// founder is a device of a new workshop.
func founder(t *testing.T, base string) device {
	t.Helper()
	d := stranger(t, base)
	d.want(http.StatusOK, "create", wire.Create{Invite: Invitation}.Encode())
	return d
}

func random(n int) []byte {
	b := make([]byte, n)
	_, _ = rand.Read(b) // it never fails
	return b
}

func newName() wire.Name { return wire.Name(random(16)) }

// post sends a message, and returns the answer.
func (d device) post(path string, message []byte) *http.Response {
	d.t.Helper()
	return d.send(d.request(path, message))
}

func (d device) request(path string, message []byte) *http.Request {
	d.t.Helper()
	r, err := http.NewRequestWithContext(context.Background(), http.MethodPost, d.base+server.Path+path, bytes.NewReader(message))
	if err != nil {
		d.t.Fatal(err)
	}
	if d.bearer != "" {
		r.Header.Set("Authorization", d.bearer)
	}
	return r
}

func (d device) send(r *http.Request) *http.Response {
	d.t.Helper()
	answer, err := d.try(r)
	if err != nil {
		d.t.Fatal(err)
	}
	return answer
}

// try sends a request, and reads the answer if there is one. No other request uses its
// connection, since a server may cut that of a request which was too long to be read.
func (d device) try(r *http.Request) (*http.Response, error) {
	client := http.Client{Transport: &http.Transport{DisableKeepAlives: true, ExpectContinueTimeout: 300 * time.Millisecond}}
	answer, err := client.Do(r)
	if err != nil {
		return nil, err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		return nil, err
	}
	answer.Body = io.NopCloser(bytes.NewReader(body))
	return answer, nil
}

// tooLong sends a message that is longer than any. A server says so, or cuts the
// connection before it has read it all, as some runtimes do to whoever goes on sending;
// it never takes it for a message.
func (d device) tooLong(path string) {
	d.t.Helper()
	r := d.request(path, make([]byte, wire.MostMessage+1))
	r.Header.Set("Expect", "100-continue") // so that a refusal can be read
	answer, err := d.try(r)
	switch {
	case err != nil:
		d.t.Logf("%s, too long: the connection was cut: %v", path, err)
		d.want(http.StatusBadRequest, path, nil) // it still answers
	case answer.StatusCode != http.StatusRequestEntityTooLarge:
		d.t.Errorf("%s, too long: %s", path, answer.Status)
	}
}

// want sends a message and returns the body of the answer, which must have that
// status.
func (d device) want(status int, path string, message []byte) []byte {
	d.t.Helper()
	answer := d.post(path, message)
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != status {
		d.t.Fatalf("%s: %s, %.100q, %v; want %d", path, answer.Status, body, err, status)
	}
	return body
}

func (d device) push(base wire.Position, entries ...wire.Entry) wire.Position {
	d.t.Helper()
	at, err := wire.DecodePosition(d.want(http.StatusOK, "push", wire.Push{Base: base, Entries: entries}.Encode()))
	if err != nil {
		d.t.Fatal(err)
	}
	return at
}

// pull pulls from the start.
func (d device) pull(most uint32) wire.Page {
	d.t.Helper()
	page, err := wire.DecodePage(d.want(http.StatusOK, "pull", wire.Pull{Most: most}.Encode()))
	if err != nil {
		d.t.Fatal(err)
	}
	return page
}

func newEntry(blob string) wire.Entry {
	return wire.Entry{ID: newName(), Slot: newName(), Blob: []byte(blob)}
}

func days(t *testing.T, base string) {
	d := founder(t, base)
	one := d.push(wire.Position{}, newEntry("one"), newEntry("two"))
	two := d.push(one, newEntry("three"))
	page := d.pull(wire.MostPage)
	if page.To != two || page.More || len(page.Entries) != 3 || string(page.Entries[2].Blob) != "three" {
		t.Errorf("pulled %+v", page)
	}
	if first := d.pull(1); !first.More || len(first.Entries) != 1 {
		t.Errorf("pulled %d entries of one byte at most, more %v", len(first.Entries), first.More)
	}
	late := wire.Push{Base: one, Entries: []wire.Entry{newEntry("four")}}
	behind, err := wire.DecodePage(d.want(http.StatusConflict, "push", late.Encode()))
	if err != nil || behind.To != two || len(behind.Entries) != 1 || string(behind.Entries[0].Blob) != "three" {
		t.Errorf("what it was behind of is %+v, %v", behind, err)
	}
	late.Base = two
	for range 2 { // the answer was lost
		at, err := wire.DecodePosition(d.want(http.StatusOK, "push", late.Encode()))
		if err != nil || at.ID != late.Entries[0].ID || at.Seq <= two.Seq {
			t.Errorf("pushed again: %+v, %v", at, err)
		}
	}
	other := wire.Position{Seq: two.Seq, ID: newName()}
	d.want(http.StatusPreconditionFailed, "pull", wire.Pull{After: other, Most: 1}.Encode())
	d.want(http.StatusPreconditionFailed, "push", wire.Push{Base: other, Entries: []wire.Entry{newEntry("five")}}.Encode())
	u, err := wire.DecodeUsage(d.want(http.StatusOK, "usage", wire.EncodeAsk()))
	if err != nil || u.Entries != 4 || u.LogBytes != uint64(len("onetwothreefour")) || u.LogQuota == 0 || u.ChunkQuota == 0 {
		t.Errorf("usage %+v, %v", u, err)
	}
	head, err := wire.DecodePosition(d.want(http.StatusOK, "create", wire.Create{}.Encode()))
	if err != nil || head.ID != late.Entries[0].ID {
		t.Errorf("created again at %+v, %v", head, err)
	}
}

func chunks(t *testing.T, base string) {
	d := founder(t, base)
	c := wire.Chunk{Name: newName(), Blob: random(wire.MostChunk)}
	d.want(http.StatusNotFound, "chunk/get", wire.EncodeNames([]wire.Name{c.Name}))
	for range 2 {
		d.want(http.StatusOK, "chunk/put", c.Encode())
	}
	got, err := wire.DecodeChunk(d.want(http.StatusOK, "chunk/get", wire.EncodeNames([]wire.Name{c.Name})))
	if err != nil || got.Name != c.Name || !bytes.Equal(got.Blob, c.Blob) {
		t.Errorf("got %v, %d bytes, %v", got.Name, len(got.Blob), err)
	}
	absent := newName()
	missing, err := wire.DecodeNames(d.want(http.StatusOK, "chunk/missing", wire.EncodeNames([]wire.Name{c.Name, absent})))
	if err != nil || len(missing) != 1 || missing[0] != absent {
		t.Errorf("missing %v, %v", missing, err)
	}
	d.want(http.StatusOK, "chunk/drop", wire.EncodeNames([]wire.Name{c.Name}))
	d.want(http.StatusNotFound, "chunk/get", wire.EncodeNames([]wire.Name{c.Name}))
	other := founder(t, base)
	d.want(http.StatusOK, "chunk/put", c.Encode())
	other.want(http.StatusNotFound, "chunk/get", wire.EncodeNames([]wire.Name{c.Name}))
}

func boxes(t *testing.T, base string) {
	d := founder(t, base)
	p := wire.Parcel{Name: newName(), Blob: []byte("a key, sealed")}
	d.want(http.StatusOK, "box/put", p.Encode())
	nobody := device{t, base, ""}
	got, err := wire.DecodeParcel(nobody.want(http.StatusOK, "box/take", wire.EncodeNames([]wire.Name{p.Name})))
	if err != nil || !bytes.Equal(got.Blob, p.Blob) {
		t.Errorf("took %q, %v", got.Blob, err)
	}
	nobody.want(http.StatusNotFound, "box/take", wire.EncodeNames([]wire.Name{p.Name}))
	nobody.want(http.StatusUnauthorized, "box/put", p.Encode())
}

func closing(t *testing.T, base string) {
	d := founder(t, base)
	d.push(wire.Position{}, newEntry("one"))
	d.want(http.StatusOK, "close", wire.EncodeClose())
	d.want(http.StatusOK, "close", wire.EncodeClose())
	for path, message := range byMembers() {
		if path != "close" {
			d.want(http.StatusGone, path, message)
		}
	}
	d.want(http.StatusGone, "create", wire.Create{Invite: Invitation}.Encode())
	thief := d
	thief.bearer = d.bearer[:len(d.bearer)-1] + flipped(d.bearer)
	thief.want(http.StatusUnauthorized, "pull", wire.Pull{}.Encode())
}

// flipped is another last digit.
func flipped(bearer string) string {
	if strings.HasSuffix(bearer, "0") {
		return "1"
	}
	return "0"
}

// byMembers has a message for each path that needs credentials.
func byMembers() map[string][]byte {
	names := wire.EncodeNames([]wire.Name{newName()})
	return map[string][]byte{
		"pull": wire.Pull{Most: 1}.Encode(), "push": wire.Push{Entries: []wire.Entry{newEntry("x")}}.Encode(),
		"close": wire.EncodeClose(), "usage": wire.EncodeAsk(),
		"chunk/put": wire.Chunk{Name: newName(), Blob: []byte("x")}.Encode(),
		"chunk/get": names, "chunk/missing": names, "chunk/drop": names,
		"box/put": wire.Parcel{Name: newName(), Blob: []byte("x")}.Encode(),
	}
}
