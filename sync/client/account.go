package client

import (
	"context"

	"chalkfold/sync/wire"
)

// Account says what is where.
type Account struct {
	// Known says that the records were looked at since the program was started; what
	// follows is exact then.
	Known bool
	// Here are the records on this phone only: what is on the server of them, if
	// anything, is older.
	Here int
	// Both are those on the server as they are here.
	Both int
	// TooLarge are those of Here that can never be sent, Unread those that this
	// version cannot read.
	TooLarge, Unread int
	// Later are records of which the server has what this version cannot read.
	Later int
	// Strange are the sealed records, since the page was opened, that did not open.
	Strange int
	// Up and Down are the bytes sent and fetched since the workshop was begun.
	Up, Down uint64
	// Even is when this phone and the server were even last, in ms since 1970;
	// nought if they never were.
	Even int64
	// Leaving says that the workshop that this one came from is still to be removed
	// from the server.
	Leaving bool
}

// Account tells what is where. What was put since the last pass counts as Here.
func (c *Client) Account() Account {
	if c.this == nil {
		return Account{}
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	a := Account{
		Known: !c.all || c.looked, TooLarge: len(c.heavy), Unread: len(c.unread), Later: len(c.later), Strange: c.strange,
		Up: c.this.up, Down: c.this.down, Even: c.this.even, Leaving: c.this.left,
	}
	for k, n := range c.notes {
		switch {
		case n.dead, !c.Shape.Carries(k.kind):
		case n.era == c.this.era && !c.touched[k] && !c.unread[k]:
			a.Both++
		default:
			a.Here++
		}
	}
	for _, more := range []map[key]bool{c.touched, c.unread} {
		for k := range more {
			if _, noted := c.notes[k]; !noted {
				a.Here++
			}
		}
	}
	return a
}

// Usage asks the server what the workshop takes up there.
func (c *Client) Usage(ctx context.Context) (wire.Usage, error) {
	if c.this == nil {
		return wire.Usage{}, ErrNotBegun
	}
	status, body, err := c.send(ctx, "usage", wire.EncodeAsk())
	if err != nil {
		return wire.Usage{}, err
	}
	if status != statusOK {
		return wire.Usage{}, refusal("usage", status)
	}
	return wire.DecodeUsage(body)
}

// NoCopies asks a server whether it is one that keeps no copies, by a message that shows
// no credentials. The error says that there was no answer.
func NoCopies(ctx context.Context, line Line) (bool, error) {
	status, _, err := line.Send(ctx, "usage", "", wire.EncodeAsk())
	return status == statusNotFound || status == statusNoPost, err
}
