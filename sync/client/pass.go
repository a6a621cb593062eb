package client

import (
	"context"
	"fmt"

	"chalkfold/sync/seal"
	"chalkfold/sync/wire"
)

// The statuses of answers, without net/http, which weighs much in the page.
const (
	statusOK        = 200
	statusWho       = 401
	statusInvite    = 403
	statusNotFound  = 404
	statusNoPost    = 405
	statusBehind    = 409
	statusMoved     = 410
	statusDiverged  = 412
	statusTooMany   = 429
	statusFull      = 507
	firstServerSide = 500
)

// Pass makes this device and the server even: what was changed here is noted, what
// the server has is fetched, and what it lacks is sent. When it returns nil the
// server had all of this device's records, and this device all of the server's. An
// error leaves everything such that the next pass goes on from there.
func (c *Client) Pass(ctx context.Context) error {
	if c.this == nil {
		return ErrNotBegun
	}
	if err := c.gather(ctx); err != nil {
		return err
	}
	if err := c.readLater(ctx); err != nil {
		return err
	}
	if !c.this.made {
		if err := c.create(ctx); err != nil {
			return err
		}
	}
	c.patience = patience
	if err := c.pull(ctx); err != nil {
		return err
	}
	for {
		// What was kept aside, or changed meanwhile.
		if err := c.gather(ctx); err != nil {
			return err
		}
		todo := c.unsent()
		if len(todo) == 0 {
			break
		}
		if known, err := c.knowsAll(ctx, todo); err != nil {
			return err
		} else if !known {
			if err := c.relist(ctx); err != nil {
				return err
			}
			continue
		}
		if err := c.push(ctx, todo); err != nil {
			return err
		}
	}
	if err := c.leaveOld(ctx); err != nil {
		return err
	}
	return c.revise(ctx, func(t *this) { t.even = c.Now() })
}

// patience is how often within a pass a server may answer with something that
// leads nowhere by itself: that others were first, or that it knows nothing.
const patience = 40

// waver reports whether that was once too often.
func (c *Client) waver() error {
	if c.patience--; c.patience < 0 {
		return fmt.Errorf("%w: it answers the same again and again", ErrBusy)
	}
	return nil
}

// send sends a message, and counts it.
func (c *Client) send(ctx context.Context, path string, message []byte) (status int, body []byte, err error) {
	status, body, err = c.Line.Send(ctx, path, wire.Bearer(c.keys.Workshop, c.keys.Token), message)
	c.mu.Lock()
	c.this.up += uint64(len(message) + headersUp)
	c.this.down += uint64(len(body) + headersDown)
	c.mu.Unlock()
	if err != nil {
		c.gauge.broke()
		return 0, nil, fmt.Errorf("%s: %w", path, err)
	}
	c.gauge.held()
	return status, body, nil
}

// What the headers of a request and of its answer take, about, in bytes.
const (
	headersUp   = 450
	headersDown = 300
)

// refusal is the error for a status that has no answer of its own.
func refusal(path string, status int) error {
	switch {
	case status == statusInvite:
		return ErrInvite
	case status == statusNotFound, status == statusNoPost:
		return fmt.Errorf("%w: %s, status %d", ErrNoCopies, path, status)
	case status == statusMoved:
		return ErrMoved
	case status == statusFull:
		return ErrFull
	case status == statusTooMany, status >= firstServerSide:
		return fmt.Errorf("%w: %s, status %d", ErrBusy, path, status)
	}
	return fmt.Errorf("%w: %s, status %d", ErrRefused, path, status)
}

// create makes the workshop on the server.
func (c *Client) create(ctx context.Context) error {
	status, _, err := c.send(ctx, "create", wire.Create{Invite: c.invite}.Encode())
	if err != nil {
		return err
	}
	if status != statusOK {
		return refusal("create", status)
	}
	return c.revise(ctx, func(t *this) { t.made = true })
}

// strayed answers for a ledger that is not the one that was known. It is not ok for
// any other status.
func (c *Client) strayed(ctx context.Context, status int, from reached) (ok bool, err error) {
	if status != statusDiverged && status != statusWho {
		return false, nil
	}
	if err := c.waver(); err != nil {
		return true, err
	}
	switch {
	case c.this.reached() != from: // another window has found that
		return true, nil
	case status == statusDiverged:
		return true, c.afresh(ctx, true)
	default: // the server has lost the workshop
		if err := c.afresh(ctx, false); err != nil {
			return true, err
		}
		return true, c.create(ctx)
	}
}

// pull fetches what this device does not have.
func (c *Client) pull(ctx context.Context) error {
	for {
		from := c.this.reached()
		status, body, err := c.send(ctx, "pull", wire.Pull{After: from.at, Most: c.gauge.most}.Encode())
		if err != nil {
			return err
		}
		if ok, err := c.strayed(ctx, status, from); err != nil {
			return err
		} else if ok {
			continue
		}
		if status != statusOK {
			return refusal("pull", status)
		}
		p, err := wire.DecodePage(body)
		if err != nil {
			return err
		}
		if err := c.apply(ctx, p, from); err != nil {
			return err
		}
		if !p.More && c.this.at == p.To {
			return nil
		}
		if c.this.at != p.To { // another window has gone on meanwhile
			if err := c.waver(); err != nil {
				return err
			}
		}
		if p.To.Seq <= from.at.Seq && p.More {
			return fmt.Errorf("%w: a page that goes back", wire.ErrMessage)
		}
	}
}

// push sends some of what is to be sent.
func (c *Client) push(ctx context.Context, todo []key) error {
	s, err := c.seal(ctx, todo, int(c.gauge.most))
	if err != nil || len(s.docs) == 0 {
		return err
	}
	status, body, err := c.send(ctx, "push", s.push.Encode())
	if err != nil {
		return err
	}
	if ok, err := c.strayed(ctx, status, s.from); err != nil {
		return err
	} else if ok {
		return c.pull(ctx)
	}
	switch status {
	case statusOK:
		at, err := wire.DecodePosition(body)
		if err != nil {
			return err
		}
		if last := s.push.Entries[len(s.push.Entries)-1]; at.ID != last.ID || at.Seq <= s.push.Base.Seq {
			return fmt.Errorf("%w: another position than that of what was sent", wire.ErrMessage)
		}
		return c.sent(ctx, s, at)
	case statusBehind:
		if err := c.waver(); err != nil {
			return err
		}
		p, err := wire.DecodePage(body)
		if err != nil {
			return err
		}
		if err := c.apply(ctx, p, s.from); err != nil || !p.More {
			return err
		}
		return c.pull(ctx)
	}
	return refusal("push", status)
}

// leaveOld closes the workshop that this one came from, once all of it is here.
func (c *Client) leaveOld(ctx context.Context) error {
	if !c.this.left {
		return nil
	}
	old := seal.KeysOf(c.this.leaving)
	status, _, err := c.Line.Send(ctx, "close", wire.Bearer(old.Workshop, old.Token), wire.EncodeClose())
	if err != nil {
		return err
	}
	if status != statusOK && status != statusWho { // where there is none, there is none to close
		return refusal("close", status)
	}
	return c.revise(ctx, func(t *this) { t.left, t.leaving = false, seal.Key{} })
}

// gauge says how many bytes to send or ask for at once: few on a line that breaks,
// so that little is lost when it does, and what broke is not tried again soon.
type gauge struct {
	most uint32
	top  uint32 // the most that may be tried
	good int    // messages since the line broke
}

const (
	leastAtOnce = 4 << 10
	firstAtOnce = 32 << 10
	mostAtOnce  = 512 << 10
	goodAtOnce  = 16 // messages after which more may be tried than what broke
)

func newGauge() gauge { return gauge{most: firstAtOnce, top: mostAtOnce} }

func (g *gauge) held() {
	if g.good++; g.good%goodAtOnce == 0 {
		g.top = min(2*g.top, mostAtOnce)
	}
	g.most = min(2*g.most, g.top)
}

func (g *gauge) broke() {
	g.most = max(g.most/2, leastAtOnce)
	if g.good > 0 { // else there is no line, perhaps, and the size has no part in it
		g.top = g.most
	}
	g.good = 0
}
