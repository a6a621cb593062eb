// Package guard stands before a server that is open to everyone: it limits how much
// is asked at once and how often, and counts what is answered.
//
//	g := guard.New(guard.Config{Limits: guard.Common(), Now: time.Now, Address: guard.Remote})
//	mux.Handle(server.Path, g.Watch("sync", g.Limit(handler)))
//	mux.Handle("/metrics", g.Metrics())  // for the operator alone
//
// Nothing that it keeps, counts or logs says which workshop asked, or from where.
package guard

import (
	"context"
	"net"
	"net/http"
	"net/netip"
	"strconv"
	"strings"
	"sync"
	"time"

	"golang.org/x/time/rate"
)

// Limits are those of a guard.
type Limits struct {
	Rate   float64 // requests a second from one address, in the long run
	Burst  int     // and at once
	Guess  int     // how many requests one with wrong credentials counts for
	Flight int     // requests that are answered at one time
	Known  int     // addresses that are remembered
}

// Common are the limits where nobody chose others. A phone that sends a year's work
// needs some hundred requests; a shop may have a dozen phones behind one address.
func Common() Limits {
	return Limits{Rate: 20, Burst: 400, Guess: 40, Flight: 64, Known: 1 << 16}
}

// Config is what a guard works with.
type Config struct {
	Limits
	Now func() time.Time
	// Address tells who asks: Remote, or Forwarded behind a proxy.
	Address func(*http.Request) netip.Addr
	// Answered, if it is not nil, hears of every request that was watched.
	Answered func(context.Context, Answer)
}

// Answer is what is told of a request.
type Answer struct {
	Name     string // as given to Watch
	Path     string // of those that are served; empty for any other
	Status   int
	In, Out  int64 // bytes of the bodies
	Took     time.Duration
	Limited  bool
	Panicked bool
}

// Guard limits and counts.
type Guard struct {
	Config
	flight chan struct{}
	mu     sync.Mutex
	// Two generations of addresses: the older one goes as a whole when the newer is
	// full, and what is asked for again moves over. So memory is bounded, and
	// whoever comes often is remembered.
	young, old map[netip.Addr]*rate.Limiter
	counts     counts
}

// New returns a guard.
func New(c Config) *Guard {
	return &Guard{Config: c, flight: make(chan struct{}, c.Flight), young: map[netip.Addr]*rate.Limiter{}, counts: newCounts()}
}

// limiter returns that of an address.
func (g *Guard) limiter(of netip.Addr) *rate.Limiter {
	g.mu.Lock()
	defer g.mu.Unlock()
	l := g.young[of]
	if l != nil {
		return l
	}
	if l = g.old[of]; l == nil {
		l = rate.NewLimiter(rate.Limit(g.Rate), g.Burst)
	}
	if len(g.young) >= g.Known/2 {
		g.old, g.young = g.young, map[netip.Addr]*rate.Limiter{}
	}
	g.young[of] = l
	return l
}

// Limit lets through what is within the limits; the rest is told when to ask again.
func (g *Guard) Limit(next http.Handler) http.Handler {
	return g.Pace(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		select {
		case g.flight <- struct{}{}:
			defer func() { <-g.flight }()
			next.ServeHTTP(w, r)
		default:
			g.refuse(w, http.StatusServiceUnavailable, 2, "the server is busy: try again")
		}
	}))
}

// Pace limits how often is asked, and not how much at once: for what stays long.
func (g *Guard) Pace(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		limiter, now := g.limiter(g.Address(r)), g.Now()
		if !limiter.AllowN(now, 1) {
			g.refuse(w, http.StatusTooManyRequests, max(1, int(1/g.Rate)), "too many requests: wait a moment")
			return
		}
		seen := see(w)
		next.ServeHTTP(seen, r)
		if seen.status == http.StatusUnauthorized {
			limiter.ReserveN(now, min(g.Guess, g.Burst))
		}
	})
}

func (g *Guard) refuse(w http.ResponseWriter, status, wait int, why string) {
	if s, ok := w.(*seeing); ok {
		s.limited = true
	}
	w.Header().Set("Retry-After", strconv.Itoa(wait))
	w.Header().Set("Cache-Control", "no-store")
	http.Error(w, why, status)
}

// Remote is the address that a request came from. Of an IPv6 address only the
// network of 64 bits counts: whoever has one has all of it.
func Remote(r *http.Request) netip.Addr {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		host = r.RemoteAddr
	}
	return address(host)
}

// Forwarded is the address that the proxy in front of the server took the request
// from: the last that it wrote into X-Forwarded-For. Use it only behind one, since
// anybody can write the header.
func Forwarded(r *http.Request) netip.Addr {
	all := r.Header.Values("X-Forwarded-For")
	if len(all) == 0 {
		return Remote(r)
	}
	last := all[len(all)-1]
	return address(strings.TrimSpace(last[strings.LastIndexByte(last, ',')+1:]))
}

func address(s string) netip.Addr {
	a, err := netip.ParseAddr(s)
	if err != nil {
		return netip.Addr{} // all of these count as one
	}
	a = a.Unmap().WithZone("")
	if a.Is6() {
		if p, err := a.Prefix(64); err == nil {
			a = p.Addr()
		}
	}
	return a
}
