// Package client is a device's side of sync: what is sent and fetched when, and what
// is where. It adds copies and nothing else: no change waits for it, and what it
// fetches is put into the store as another window would.
//
//	c, err := client.Open(ctx, config)
//	if !c.Begun() { err = c.Begin(ctx, seal.NewKey(random)) } // or a key that was paired
//	err = c.Pass(ctx)           // until this device and the server are even
//	c.Touch("job", id)          // a record was put: the next pass looks at it
//	c.Account()                 // what is on this phone only, what is on the server too
//
// There is no list of what is still to be sent: the store is that list. Beside each
// record lies a note with the doc (package merge) as it was known last, and the
// revision of the record that it was made of. A record of another revision has been
// changed: its fields are compared with the doc's, and what differs becomes a change
// of the doc. So nothing is lost when the page is closed at any moment, and nothing
// is written twice for a change that is not sent yet.
//
// What a pass has fetched is put with the position it goes up to in one put of the
// store; what it has sent is noted after the server has answered. Whatever comes
// between is done again by the next pass, and changes nothing the second time.
//
// A Client reads no clock, draws nothing and knows no network: all that is handed
// in. One goroutine at a time may call Pass and what changes the workshop; Touch and
// Account may be called at any time.
package client

import (
	"context"
	"errors"
	"sync"

	"chalkfold/sync/merge"
	"chalkfold/sync/seal"
	"chalkfold/sync/store"
	"chalkfold/sync/wire"
)

// The kinds of the records that this package keeps in the store.
const (
	// KindThis has the workshop that this device belongs to, its key among it.
	KindThis = "sync"
	// KindNote has the notes beside the records.
	KindNote = "sync.note"
	// KindLater has what was fetched and is of a newer version of the program.
	KindLater = "sync.later"
	// KindPhoto has which photos the server has.
	KindPhoto = "sync.photo"
)

const thisID = "this"

// Shape knows what records hold, and how they are taken apart.
type Shape interface {
	// Carries reports whether records of a kind are carried to other devices.
	Carries(kind string) bool
	// Split takes a record apart. What it leaves out stays on this device. An error
	// says that the record cannot be read here: it is left alone then.
	Split(kind string, data []byte) (map[string][]byte, error)
	// Join puts a record together of a doc and, for what Split leaves out, the
	// record as it is here, nil if it is not. An error says that this version cannot
	// show the doc: it is kept, and the record here stays as it is.
	Join(d *merge.Doc, here []byte) ([]byte, error)
	// Aside is the data of a record that was changed on one device and cleared away
	// for good on another, to be kept under another id: to be found, and not to look
	// as if it had never been cleared away. ms is when, since 1970.
	Aside(kind string, data []byte, ms int64) []byte
}

// Line carries messages to the server.
type Line interface {
	// Send posts a message to a path of the protocol, and returns the status and
	// body of the answer. An error says that there was none, or not the whole of it.
	Send(ctx context.Context, path, bearer string, message []byte) (status int, body []byte, err error)
}

// Config is what a client works with.
type Config struct {
	Store  store.Store
	Line   Line
	Shape  Shape
	Now    func() int64 // ms since 1970
	Random seal.Random
	// Changed, if it is not nil, hears of every record that a pass has put or
	// removed.
	Changed func(kind, id string)
}

// The errors of a pass that a caller may want to tell apart, by errors.Is. Any other
// is that of the store or of the line.
var (
	ErrNotBegun = errors.New("this device belongs to no workshop")
	// ErrMoved: one of the phones has taken another off, and made a new workshop.
	ErrMoved = errors.New("the workshop has moved: pair this phone with one of the others")
	// ErrFull: what is on the server already stays there.
	ErrFull   = errors.New("the workshop's room on the server is used up")
	ErrInvite = errors.New("this server admits only whoever is invited")
	// ErrNoCopies: it serves the page alone.
	ErrNoCopies = errors.New("this server keeps no copies")
	ErrRefused  = errors.New("the server does not take what this phone sends: reload the page for a newer version")
	ErrLeaving  = errors.New("the workshop before this one is still to be removed from the server: wait until this phone was on the network")
	ErrBusy     = errors.New("the server cannot answer now")
)

// Client is a device's side. See Open.
type Client struct {
	Config
	device merge.Device // that this device is until the program stops
	this   *this        // nil where no workshop was begun
	keys   *seal.Keys
	gauge  gauge
	invite string
	// patience is how much of it is left for the server in this pass.
	patience int

	mu      sync.Mutex
	notes   map[key]known // of every record
	touched map[key]bool  // records that may have been changed
	unread  map[key]bool  // those that cannot be read here
	heavy   map[key]bool  // those that are too large to send
	photos  map[string]photoMark
	later   map[string]bool // slots of which the ledger has what this version cannot read
	strange int             // entries that do not open
	all     bool            // every record may have been changed
	looked  bool            // at every record, once
}

// key is a record's.
type key struct{ kind, id string }

// known is what is remembered of a note.
type known struct {
	note uint32 // its own revision
	rev  uint32 // of the record that it was made of; nought where there is none
	era  uint32 // in which its doc was sent, as it is
	dead bool
	// partly: the record does not show all of its doc.
	partly bool
	// split: a field has several values.
	split bool
}

// Open reads what this device knows of its workshop.
func Open(ctx context.Context, c Config) (*Client, error) {
	s := &Client{
		Config: c, gauge: newGauge(),
		notes: map[key]known{}, touched: map[key]bool{}, unread: map[key]bool{}, heavy: map[key]bool{}, later: map[string]bool{}, photos: map[string]photoMark{}, all: true,
	}
	c.Random(s.device[:])
	r, err := c.Store.Get(ctx, KindThis, thisID)
	if errors.Is(err, store.ErrNotFound) {
		return s, nil
	}
	if err != nil {
		return nil, err
	}
	return s, s.load(ctx, r)
}

// load takes the workshop from its record, and the notes.
func (c *Client) load(ctx context.Context, r store.Record) error {
	t, err := decodeThis(r)
	if err != nil {
		return err
	}
	notes, err := c.Store.List(ctx, KindNote)
	if err != nil {
		return err
	}
	later, err := c.Store.List(ctx, KindLater)
	if err != nil {
		return err
	}
	photos, err := c.Store.List(ctx, KindPhoto)
	if err != nil {
		return err
	}
	if c.remind(t, notes, later, photos) {
		return nil
	}
	// What is not known any more is fetched again.
	return c.afresh(ctx, c.this.made)
}

// remind has c know what the store holds. It reports whether all of that is whole.
func (c *Client) remind(t *this, notes, later, photos []store.Record) bool {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.take(t)
	clear(c.notes)
	clear(c.later)
	clear(c.photos)
	whole := true
	for _, r := range notes {
		n, err := decodeNote(r)
		if err != nil {
			whole = false
			continue
		}
		c.notes[n.key()] = n.known()
	}
	for _, r := range later {
		c.later[r.ID] = true
	}
	for _, r := range photos {
		if m, ok := decodePhotoMark(r); ok {
			c.photos[r.ID] = m
		}
	}
	c.all, c.looked = true, false
	return whole
}

// take makes a workshop the one this device belongs to.
func (c *Client) take(t *this) {
	if c.this == nil || c.this.key != t.key {
		c.keys = seal.KeysOf(t.key)
	}
	c.this = t
}

// Begun reports whether this device belongs to a workshop.
func (c *Client) Begun() bool { return c.this != nil }

// Key is the key of the workshop.
func (c *Client) Key() seal.Key { return c.this.key }

// Reached is the number of the last entry of the ledger that this device knows all up to.
func (c *Client) Reached() uint64 { return c.this.at.Seq }

// Credentials are the workshop's name, as an address for hints has it, and what is shown
// there.
func (c *Client) Credentials() (workshop, bearer string) {
	return c.keys.Workshop.String(), wire.Bearer(c.keys.Workshop, c.keys.Token)
}

// Invite is shown to the server when the workshop is made there.
func (c *Client) Invite(invitation string) { c.invite = invitation }

// Begin makes this device one of the workshop with that key, new or not. What is on
// the device is added to it. From another workshop it is taken off.
func (c *Client) Begin(ctx context.Context, k seal.Key) error {
	t := &this{key: k, era: 1}
	if was := c.this; was != nil {
		t.rev, t.era, t.up, t.down = was.rev, was.era+1, was.up, was.down
	} else if r, err := c.Store.Get(ctx, KindThis, thisID); errors.Is(err, store.ErrNotFound) {
		t.rev = r.Rev
	} else if err != nil {
		return err
	}
	return c.settle(ctx, t)
}

// Move makes a new workshop of this one, for the phones that are paired with it from
// now on: the others are taken off. The old copy on the server is removed as soon as
// the new one is whole.
func (c *Client) Move(ctx context.Context, k seal.Key) error {
	if c.this == nil {
		return ErrNotBegun
	}
	return c.again(func() error {
		if c.this.left {
			return ErrLeaving
		}
		t := *c.this
		t.key, t.leaving, t.left = k, c.this.key, true
		t.era++
		t.made, t.at = false, wire.Position{}
		err := c.settle(ctx, &t)
		if errors.Is(err, store.ErrStale) {
			return errors.Join(err, c.refresh(ctx))
		}
		return err
	})
}

// settle keeps another workshop.
func (c *Client) settle(ctx context.Context, t *this) error {
	t.rev++
	if err := c.Store.Put(ctx, t.record(c.Now())); err != nil {
		return err
	}
	return c.load(ctx, t.record(c.Now()))
}

// Leave forgets the workshop on this device. The records stay, here and on the
// server.
func (c *Client) Leave(ctx context.Context) error {
	if c.this == nil {
		return nil
	}
	if err := c.Store.Delete(ctx, KindThis, thisID, c.this.rev); err != nil {
		return err
	}
	c.this = nil
	return nil
}

// Touch has the next pass look at a record that was put or deleted.
func (c *Client) Touch(kind, id string) {
	if c.Shape.Carries(kind) {
		c.mu.Lock()
		defer c.mu.Unlock()
		c.touched[key{kind, id}] = true
	}
}

// TouchAll has the next pass look at every record.
func (c *Client) TouchAll() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.all = true
}
