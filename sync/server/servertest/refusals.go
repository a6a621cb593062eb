package servertest

import (
	"context"
	"io"
	"net/http"
	"strings"
	"testing"

	"chalkfold/sync/server"
	"chalkfold/sync/wire"
)

// credentials: without them nothing is told, not even which workshops there are.
func credentials(t *testing.T, base string) {
	d := founder(t, base)
	d.push(wire.Position{}, newEntry("one"))
	wrong := d.bearer[:len(d.bearer)-1] + flipped(d.bearer)
	var told []string
	for _, bearer := range []string{"", "Basic eDp5", d.bearer + "0", d.bearer[:40], strings.ToUpper(d.bearer), wrong, stranger(t, base).bearer} {
		thief := device{t, base, bearer}
		for path, message := range byMembers() {
			told = append(told, string(thief.want(http.StatusUnauthorized, path, message)))
		}
	}
	told = append(told, string(device{t, base, wrong}.want(http.StatusUnauthorized, "create", wire.Create{Invite: Invitation}.Encode())))
	for _, s := range told {
		if s != told[0] {
			t.Errorf("two refusals differ: %q, %q", s, told[0])
		}
	}
	if n := len(d.pull(1000).Entries); n != 1 {
		t.Errorf("%d entries are there after it", n)
	}
}

func malformed(t *testing.T, base string) {
	d := founder(t, base)
	all := byMembers()
	all["create"] = wire.Create{}.Encode()
	all["box/take"] = wire.EncodeNames([]wire.Name{newName()})
	for path, message := range all {
		for _, bad := range [][]byte{nil, message[:len(message)-1], append([]byte{9}, message[1:]...), append(message[:len(message):len(message)], 0)} {
			d.want(http.StatusBadRequest, path, bad)
		}
		d.tooLong(path)
	}
	d.want(http.StatusBadRequest, "chunk/get", wire.EncodeNames(make([]wire.Name, 2)))
	d.want(http.StatusNotFound, "nothing", wire.EncodeAsk())
	if n := len(d.pull(1000).Entries); n != 0 {
		t.Errorf("%d entries are there after it", n)
	}
}

func headers(t *testing.T, base string) {
	d := founder(t, base)
	for path, message := range byMembers() {
		if path == "close" {
			continue
		}
		if got := d.post(path, message).Header; got.Get("Cache-Control") != "no-store" || got.Get("X-Content-Type-Options") != "nosniff" {
			t.Errorf("%s: %v", path, got)
		}
	}
	for _, tt := range []struct {
		method, encoding string
		want             int
	}{
		{http.MethodGet, "", http.StatusMethodNotAllowed},
		{http.MethodPut, "", http.StatusMethodNotAllowed},
		{http.MethodPost, "gzip", http.StatusUnsupportedMediaType},
		{http.MethodPost, "br", http.StatusUnsupportedMediaType},
	} {
		r, err := http.NewRequestWithContext(context.Background(), tt.method, base+server.Path+"usage", nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Authorization", d.bearer)
		if tt.encoding != "" {
			r.Header.Set("Content-Encoding", tt.encoding)
		}
		answer := d.send(r)
		if body, _ := io.ReadAll(answer.Body); answer.StatusCode != tt.want {
			t.Errorf("%s %s: %s, %.100q", tt.method, tt.encoding, answer.Status, body)
		}
	}
}
