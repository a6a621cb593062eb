//go:build !js

// Package hints tells the devices that are listening when their workshop's ledger
// has moved, over a WebSocket, as the package comment of sync says.
//
//	hub := hints.New(l, hints.Common())
//	mux.Handle(hints.Path, hub)
//	mux.Handle(server.Path, server.New(server.Config{Ledger: l, Moved: hub.Moved}))
//	...
//	hub.Close()
//
// A device that is slow to read is told of the newest head only; nobody waits for it.
package hints

import (
	"context"
	"net/http"
	"sync"
	"time"

	"github.com/coder/websocket"

	"chalkfold/sync/ledger"
	"chalkfold/sync/server"
	"chalkfold/sync/wire"
)

// Path is where devices listen.
const Path = server.Path + "hints"

// Limits are those of a hub.
type Limits struct {
	All, Workshop int           // listeners at once
	Patience      time.Duration // for a device to show its credentials, or to take a hint
	Quiet         time.Duration // between two looks whether a device is still there
}

// Common are the limits where nobody chose others.
func Common() Limits {
	return Limits{All: 4096, Workshop: 16, Patience: 5 * time.Second, Quiet: 50 * time.Second}
}

// Hub is a handler of listeners.
type Hub struct {
	ledger ledger.Ledger
	limits Limits
	ctx    context.Context // until the hub is closed
	end    context.CancelFunc

	mu        sync.Mutex
	all       int // listeners, admitted or not
	listeners map[wire.Workshop]map[*listener]struct{}
}

// A listener has room for one head, the newest.
type listener struct{ heads chan wire.Position }

// New returns a hub of the workshops of a ledger.
func New(l ledger.Ledger, limits Limits) *Hub {
	ctx, end := context.WithCancel(context.Background())
	return &Hub{ledger: l, limits: limits, ctx: ctx, end: end, listeners: map[wire.Workshop]map[*listener]struct{}{}}
}

// Close sends all listeners away, and admits no more.
func (h *Hub) Close() { h.end() }

// Listeners returns how many devices listen.
func (h *Hub) Listeners() int {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.all
}

// Moved tells those who listen to a workshop of its new head. It does not wait.
func (h *Hub) Moved(w wire.Workshop, head wire.Position) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for l := range h.listeners[w] {
		l.tell(head)
	}
}

// tell leaves the head for a listener, in place of an older one. The hub's lock must
// be held.
func (l *listener) tell(head wire.Position) {
	select {
	case waiting := <-l.heads:
		if waiting.Seq > head.Seq { // two pushes are told of in the other order
			head = waiting
		}
	default:
	}
	l.heads <- head
}

// ServeHTTP speaks to one device until it or the hub ends.
func (h *Hub) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if !h.enter() {
		w.Header().Set("Retry-After", "60")
		http.Error(w, "too many are listening", http.StatusServiceUnavailable)
		return
	}
	defer h.leave()
	// It looks at the Origin header: a page from elsewhere is refused.
	c, err := websocket.Accept(w, r, &websocket.AcceptOptions{CompressionMode: websocket.CompressionDisabled})
	if err != nil {
		return // it was answered
	}
	defer func() { _ = c.CloseNow() }()
	c.SetReadLimit(256)
	workshop, err := h.admit(c)
	if err != nil {
		_ = c.Close(websocket.StatusPolicyViolation, "no such workshop, or not its token")
		return
	}
	l := &listener{make(chan wire.Position, 1)}
	if !h.join(workshop, l) {
		_ = c.Close(websocket.StatusTryAgainLater, "too many devices of the workshop are listening")
		return
	}
	defer h.part(workshop, l)
	h.speak(c, l)
}

// admit reads the credentials.
func (h *Hub) admit(c *websocket.Conn) (wire.Workshop, error) {
	ctx, cancel := context.WithTimeout(h.ctx, h.limits.Patience)
	defer cancel()
	_, credentials, err := c.Read(ctx)
	if err != nil {
		return wire.Workshop{}, err
	}
	return server.Admit(ctx, h.ledger, string(credentials))
}

// speak sends heads, and looks now and then whether the device is still there.
func (h *Hub) speak(c *websocket.Conn, l *listener) {
	there := c.CloseRead(context.Background()) // until it says anything, or goes
	quiet := time.NewTicker(h.limits.Quiet)
	defer quiet.Stop()
	for {
		var err error
		select {
		case <-there.Done():
			return
		case <-h.ctx.Done():
			_ = c.Close(websocket.StatusGoingAway, "the server stops")
			return
		case head := <-l.heads:
			err = h.soon(func(ctx context.Context) error { return c.Write(ctx, websocket.MessageBinary, head.Encode()) })
		case <-quiet.C:
			err = h.soon(c.Ping)
		}
		if err != nil {
			return
		}
	}
}

// soon does something for as long as patience lasts.
func (h *Hub) soon(do func(context.Context) error) error {
	ctx, cancel := context.WithTimeout(h.ctx, h.limits.Patience)
	defer cancel()
	return do(ctx)
}

func (h *Hub) enter() bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.all >= h.limits.All || h.ctx.Err() != nil {
		return false
	}
	h.all++
	return true
}

func (h *Hub) leave() {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.all--
}

func (h *Hub) join(w wire.Workshop, l *listener) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.listeners[w]) >= h.limits.Workshop {
		return false
	}
	if h.listeners[w] == nil {
		h.listeners[w] = map[*listener]struct{}{}
	}
	h.listeners[w][l] = struct{}{}
	return true
}

func (h *Hub) part(w wire.Workshop, l *listener) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if delete(h.listeners[w], l); len(h.listeners[w]) == 0 {
		delete(h.listeners, w)
	}
}
