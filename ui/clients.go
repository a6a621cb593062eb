package ui

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/rules"
	"chalkfold/ui/day"
)

// clientKind is the kind of the records that hold clients.
const clientKind = "client"

// clientVersion is the version of the record.
const clientVersion = 1

// Client is someone who is sewn for. Her measurements are those of her jobs.
type Client struct {
	Name, Note string
	Figure     body.Figure
	Rules      rules.Values // that her next job starts from
	// Deleted is when she was deleted, in ms since 1970; nought if she was not.
	Deleted int64
}

// keptClient is the record of a client.
type keptClient struct {
	Version int          `json:"version"`
	Name    string       `json:"name,omitempty"`
	Note    string       `json:"note,omitempty"`
	Figure  body.Figure  `json:"figure,omitempty"`
	Rules   rules.Values `json:"rules,omitempty"`
	Deleted int64        `json:"deleted,omitempty"`
}

// Encode writes the client for the store.
func (c *Client) Encode() ([]byte, error) {
	return json.Marshal(keptClient{clientVersion, c.Name, c.Note, c.Figure, c.Rules, c.Deleted})
}

// DecodeClient reads a client from the store.
func DecodeClient(data []byte) (*Client, error) {
	var k keptClient
	if err := json.Unmarshal(data, &k); err != nil {
		return nil, fmt.Errorf("the kept client cannot be read: %w", err)
	}
	if k.Version < 1 {
		return nil, errors.New("the kept client cannot be read: it has no version")
	}
	if k.Version > clientVersion {
		return nil, fmt.Errorf("the kept client has version %d, this page knows %d: %w", k.Version, clientVersion, errNewer)
	}
	return &Client{k.Name, k.Note, k.Figure, k.Rules, k.Deleted}, nil
}

// Earlier is a taking of the open job's client from another job of hers.
type Earlier struct {
	Day    day.Day // none when it was taken before days were kept
	Taking body.Taking
	Ticket string
}

// earlierTakings are the takings of a measurement in the other jobs of the open
// job's client, the newest first.
func (d *Desk) earlierTakings(id body.ID) []Earlier {
	if d.job == nil || d.job.Client == "" {
		return nil
	}
	var out []Earlier
	for _, r := range d.records {
		if r.job == nil || r.deleted() || r.job.Client != d.job.Client || d.keeper != nil && r.ID == d.keeper.id {
			continue
		}
		t, ok := r.job.File.Measurements[id]
		if !ok || !t.Value.Set() {
			continue
		}
		e := Earlier{Day: r.job.Taken[id], Taking: t, Ticket: r.job.File.Name}
		// Records come with the one changed last first, which stays so among
		// takings of one day.
		i := slices.IndexFunc(out, func(o Earlier) bool { return e.Day > o.Day })
		if i < 0 {
			i = len(out)
		}
		out = slices.Insert(out, i, e)
	}
	return out
}
