package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"os"
	"runtime"
	"strings"
	"time"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/sqlite"
	"chalkfold/sync/ledger/tables"
	"chalkfold/sync/server"
	"chalkfold/sync/server/guard"
	"chalkfold/sync/server/hints"
)

// copies are the page and, if there is a store, the second copies of workshops.
type copies struct {
	site  http.Handler
	guard *guard.Guard
	db    *sqlite.DB // nil if there is none
	sync  http.Handler
	hub   *hints.Hub
	// secure says that whoever comes has come by TLS.
	secure bool
}

// clock is the only one of the server.
func clock() time.Time { return time.Now() } //nolint:forbidigo // here it comes from

// open opens the store, if one is named.
func (s *serving) open(ctx context.Context, site http.Handler, errs io.Writer) (*copies, error) {
	level := slog.LevelInfo
	if s.quiet {
		level = slog.LevelWarn
	}
	log := slog.New(slog.NewJSONHandler(errs, &slog.HandlerOptions{Level: level}))
	address := guard.Remote
	if s.behindProxy {
		address = guard.Forwarded
	}
	c := &copies{site: site, secure: s.behindProxy || s.hosts != "", guard: guard.New(guard.Config{Limits: guard.Common(), Now: clock, Address: address, Answered: answeredTo(log)})}
	c.guard.Gauge("memory_bytes", memory)
	if s.store == "" {
		return c, nil
	}
	invite, err := invitations(s.invitations)
	if err != nil {
		return nil, err
	}
	if c.db, err = sqlite.Open(ctx, s.store); err != nil {
		return nil, err
	}
	l := tables.New(c.db, ledger.Quota{Log: s.log << 20, Chunks: s.chunks << 20})
	c.hub = hints.New(l, hints.Common())
	c.guard.Gauge("listeners", func() float64 { return float64(c.hub.Listeners()) })
	c.guard.Gauge("store_bytes", c.db.Size)
	c.sync = server.New(server.Config{
		Ledger: l, Boxes: l, Now: clock, Invite: invite, Moved: c.hub.Moved,
		Failed: func(r *http.Request, err error) {
			if !errors.Is(err, context.Canceled) { // who asked has gone
				log.Error("the store failed", "path", r.Pattern, "error", err)
			}
		},
	})
	return c, nil
}

// Close closes the store.
func (c *copies) Close() error {
	if c.db == nil {
		return nil
	}
	c.hub.Close()
	return c.db.Close()
}

// Handler answers the page's devices.
func (c *copies) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.Handle("/", c.guard.Watch("page", c.site))
	if c.sync != nil {
		mux.Handle(server.Path, c.guard.Watch("sync", c.guard.Limit(c.sync)))
		mux.Handle(hints.Path, c.guard.Pace(c.hub))
	} else {
		// The page asks whether there is a second copy to be had here.
		mux.Handle(server.Path, c.guard.Watch("sync", http.NotFoundHandler()))
	}
	if !c.secure {
		return mux
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Strict-Transport-Security", "max-age=31536000; includeSubDomains")
		mux.ServeHTTP(w, r)
	})
}

// Watched answers the operator.
func (c *copies) Watched() http.Handler {
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", c.guard.Metrics())
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, r *http.Request) {
		if c.db != nil {
			if _, err := c.db.Read(r.Context(), "SELECT count(*) FROM workshop"); err != nil {
				http.Error(w, "the store does not answer: "+err.Error(), http.StatusServiceUnavailable)
				return
			}
		}
		fmt.Fprintln(w, "ok")
	})
	return mux
}

// answeredTo logs requests: what was asked and how it went, never by whom.
func answeredTo(log *slog.Logger) func(context.Context, guard.Answer) {
	return func(ctx context.Context, a guard.Answer) {
		level := slog.LevelInfo
		if a.Panicked || a.Status >= http.StatusInternalServerError {
			level = slog.LevelError
		}
		log.LogAttrs(ctx, level, "answered", slog.String("part", a.Name), slog.String("path", a.Path), slog.Int("status", a.Status),
			slog.Int64("in", a.In), slog.Int64("out", a.Out), slog.Duration("took", a.Took), slog.Bool("limited", a.Limited), slog.Bool("panicked", a.Panicked))
	}
}

// invitations reads the invitations of a file. Without one, everyone is admitted.
func invitations(path string) (func(context.Context, string) bool, error) {
	if path == "" {
		return nil, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("the invitations cannot be read: %w", err)
	}
	defer f.Close()
	var all []string
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if line := strings.TrimSpace(lines.Text()); line != "" && !strings.HasPrefix(line, "#") {
			all = append(all, line)
		}
	}
	if err := lines.Err(); err != nil {
		return nil, fmt.Errorf("the invitations cannot be read: %w", err)
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%s has no invitation: write one on a line, or leave out -invitations", path)
	}
	return server.Invited(all), nil
}

// memory is how much the program has from the system.
func memory() float64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return float64(m.Sys - m.HeapReleased)
}
